package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log"
	"net"
	"net/http"
	"net/url"
	"os"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"shadewright/config"
	"shadewright/render/symbol"
	"shadewright/render/web"
	"shadewright/ticket/mark/record"
)

type serveOptions struct {
	settingFlags
	open  bool
	light bool
}

func newServe(s environment) *cobra.Command {
	var opt serveOptions
	c := &cobra.Command{
		Use:   "serve",
		Short: "Let phones mark steps, and show the board on a wall screen",
		Long: `Serve answers on this machine until you press Ctrl-C. With --open it answers on the
shop's network and shows its address, with a code for a phone's camera. A phone joins
once, with the shop's PIN or with the join code on a screen inside. The settings
serve.pin and serve.days set the PIN and how long a phone stays joined.`,
		Example: `  shadewright serve
  shadewright serve --open
  shadewright serve --open --set serve.cert=/srv/shop/cert.pem --set serve.key=/srv/shop/key.pem`,
		Args: noWords,
		RunE: func(c *cobra.Command, _ []string) error { return runServe(c.Context(), s, &opt) },
	}
	opt.add(c)
	c.Flags().BoolVar(&opt.open, "open", false, "answer on the shop's network, not only on this machine")
	c.Flags().BoolVar(&opt.light, "light", false, "draw the code for a terminal with a light background")
	return c
}

func runServe(ctx context.Context, s environment, opt *serveOptions) error {
	c, err := opt.load(s, ".")
	if err != nil {
		return err
	}
	return withRecord(ctx, s, c, func(record *record.Record) error {
		ln, err := opt.listen(c.Server.Listen)
		if err != nil {
			return err
		}
		srv, err := opt.server(s, c, record, ln.Addr())
		if err != nil {
			return errors.Join(err, ln.Close())
		}
		return untilStopped(ctx, srv, func() error {
			if c.Server.Cert != "" {
				return srv.ServeTLS(ln, c.Server.Cert, c.Server.Key)
			}
			return srv.Serve(ln)
		})
	})
}

// listen opens the port first, so that a port in use is an error before serve shows its
// address.
func (o *serveOptions) listen(at string) (net.Listener, error) {
	if o.open {
		_, port, err := net.SplitHostPort(at)
		if err != nil {
			return nil, err
		}
		at = net.JoinHostPort("", port)
	}
	ln, err := net.Listen("tcp", at)
	if err != nil {
		return nil, fmt.Errorf("%w; stop the program that uses this address, or set another one with serve.listen", err)
	}
	return ln, nil
}

// server makes the server and shows its address.
func (o *serveOptions) server(s environment, c config.Settings, record *record.Record, at net.Addr) (*http.Server, error) {
	key, pin, pinFile, err := secrets(s, c)
	if err != nil {
		return nil, err
	}
	address, err := o.address(c, at)
	if err != nil {
		return nil, err
	}
	talk := log.New(s.err, "shadewright: ", 0)
	pages, err := web.New(web.Options{
		Record: record, Key: key, PIN: pin, Days: c.Server.Days, Secure: c.Server.Cert != "", Address: address,
		Names: names(c, address), Holds: c.Record.Holds, Spoilt: c.Record.Spoilt, People: c.Record.People, Language: languageOf(c), Comma: c.Policy().Style.Comma,
		Fault: func(err error) { talk.Print(strings.ReplaceAll(err.Error(), "\n", "; ")) },
	})
	if err != nil {
		return nil, err
	}
	srv := &http.Server{
		Handler: pages, ErrorLog: talk,
		ReadHeaderTimeout: 5 * time.Second, ReadTimeout: 15 * time.Second, WriteTimeout: 30 * time.Second,
		IdleTimeout: time.Minute, MaxHeaderBytes: 16 << 10,
	}
	srv.RegisterOnShutdown(pages.Close)
	return srv, o.tell(s, c, address, record.Where(), pinFile)
}

// address returns the address for phones.
func (o *serveOptions) address(c config.Settings, at net.Addr) (string, error) {
	if o.open && c.Address != "" {
		return strings.ToLower(c.Address), nil
	}
	host, port, err := net.SplitHostPort(at.String())
	if err == nil && o.open {
		host, err = ownAddress()
	}
	if err != nil {
		return "", fmt.Errorf("cannot find this machine's address on the network: %w; set it with code.address", err)
	}
	scheme := "http://"
	if c.Server.Cert != "" {
		scheme = "https://"
	}
	return scheme + net.JoinHostPort(host, port), nil
}

// ownAddress returns this machine's address on the shop's network: its first private IPv4
// address, else its first address, else its name.
func ownAddress() (string, error) {
	addrs, err := net.InterfaceAddrs()
	if err != nil {
		return "", err
	}
	first := ""
	for _, a := range addrs {
		ip, ok := a.(*net.IPNet)
		if !ok || ip.IP.IsLoopback() || ip.IP.IsLinkLocalUnicast() {
			continue
		}
		if ip.IP.To4() != nil && ip.IP.IsPrivate() {
			return ip.IP.String(), nil
		}
		if first == "" {
			first = ip.IP.String()
		}
	}
	if first != "" {
		return first, nil
	}
	return os.Hostname()
}

// names returns the host names, besides addresses, that a browser may use for the server.
func names(c config.Settings, address string) []string {
	var list []string
	for _, a := range []string{c.Address, address} {
		if u, err := url.Parse(a); err == nil && u.Hostname() != "" {
			list = append(list, u.Hostname())
		}
	}
	if name, err := os.Hostname(); err == nil {
		list = append(list, name, name+".local")
	}
	return list
}

// tell shows the address and where to find the PIN. It does not show the PIN itself,
// because visitors may see the terminal.
func (o *serveOptions) tell(s environment, c config.Settings, address, where, pinFile string) error {
	pin := "the setting serve.pin"
	if pinFile != "" {
		pin = "the file " + pinFile
	}
	text := fmt.Sprintf("%s\tanswers until you press Ctrl-C\n%s\tis the record\nPIN\tis in %s\n", address, where, pin)
	if o.open {
		qr, err := symbol.QR(strings.ToUpper(address), symbol.Medium)
		if err != nil {
			return err
		}
		text += "\n" + qr.Blocks(o.light) + "\n"
		if c.Address == "" {
			text += fmt.Sprintf("For tickets that a camera opens, set code.address to %s and print again.\n", strings.ToUpper(address))
		}
		if c.Server.Cert == "" {
			text += "Without serve.cert and serve.key, anyone on the network can read what phones send.\n"
		}
	}
	_, err := io.WriteString(s.out, text)
	return err
}

// stopWithin is how long a stopping server lets phones finish.
const stopWithin = 10 * time.Second

// untilStopped serves until ctx ends, then lets phones finish.
func untilStopped(ctx context.Context, srv *http.Server, serve func() error) error {
	failed := make(chan error, 1)
	go func() { failed <- serve() }()
	select {
	case err := <-failed:
		return err
	case <-ctx.Done():
	}
	limit, cancel := context.WithTimeout(context.WithoutCancel(ctx), stopWithin)
	defer cancel()
	err := srv.Shutdown(limit)
	if errors.Is(err, context.DeadlineExceeded) {
		err = srv.Close()
	}
	if e := <-failed; !errors.Is(e, http.ErrServerClosed) {
		err = errors.Join(err, e)
	}
	return err
}
