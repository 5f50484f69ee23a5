package web

import (
	"net"
	"net/http"
	"net/netip"
	"strings"
)

// hostAllowed reports whether a request was meant for this server. A page of
// another site whose name was made to lead here (DNS rebinding) still sends its
// own name as Host; ours are the address that the connection came in on,
// localhost on the machine itself, and the names the shop gave.
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

// localAddr is the address of the machine that a connection came in on.
func localAddr(r *http.Request) (netip.Addr, bool) {
	at, ok := r.Context().Value(http.LocalAddrContextKey).(net.Addr)
	if !ok {
		return netip.Addr{}, false
	}
	to, err := netip.ParseAddrPort(at.String())
	return to.Addr().Unmap().WithZone(""), err == nil
}

// remoteAddr is the address of who sends, for slowing wrong tries.
func remoteAddr(r *http.Request) string {
	if at, err := netip.ParseAddrPort(r.RemoteAddr); err == nil {
		return at.Addr().Unmap().String()
	}
	return r.RemoteAddr
}
