package web

import (
	"net"
	"net/http"
	"net/netip"
	"strings"
)

// hostAllowed reports whether a request names this server as its host. A page
// of another site whose name was made to resolve to this address (DNS
// rebinding) still sends its own name as Host. The allowed names are the
// address that the connection came in on, localhost on the machine itself, and
// the names that the shop gave.
func hostAllowed(r *http.Request, names []string) bool {
	host := r.Host
	if h, _, err := net.SplitHostPort(host); err == nil {
		host = h
	}
	host = strings.TrimSuffix(strings.ToLower(strings.Trim(host, "[]")), ".")
	for _, n := range names {
		if host != "" && strings.EqualFold(host, n) {
			return true
		}
	}
	local, ok := localAddr(r)
	if !ok {
		return false
	}
	if host == "localhost" {
		return local.IsLoopback()
	}
	called, err := netip.ParseAddr(host)
	return err == nil && called.Unmap() == local
}

// localAddr returns the address of this machine that the connection came in on.
func localAddr(r *http.Request) (netip.Addr, bool) {
	at, ok := r.Context().Value(http.LocalAddrContextKey).(net.Addr)
	if !ok {
		return netip.Addr{}, false
	}
	to, err := netip.ParseAddrPort(at.String())
	return to.Addr().Unmap().WithZone(""), err == nil
}

// remoteAddr returns the sender's address, to slow down wrong PINs.
func remoteAddr(r *http.Request) string {
	if at, err := netip.ParseAddrPort(r.RemoteAddr); err == nil {
		return at.Addr().Unmap().String()
	}
	return r.RemoteAddr
}
