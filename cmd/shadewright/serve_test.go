package main

import (
	"bytes"
	"context"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"encoding/pem"
	"errors"
	"io"
	"math/big"
	"net"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"testing"
	"time"

	"shadewright/config"
)

const servePIN = "385201"

// client is a phone that keeps its cookie.
func client(t testing.TB) *http.Client {
	t.Helper()
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	return &http.Client{Jar: jar, Timeout: 30 * time.Second, Transport: &http.Transport{TLSClientConfig: &tls.Config{InsecureSkipVerify: true}}}
}

// letIn joins and returns the token that forms need.
func letIn(t testing.TB, c *http.Client, base string) (token string) {
	t.Helper()
	a, err := c.PostForm(base+"/join", url.Values{"pin": {servePIN}, "who": {"ann"}})
	if err != nil {
		t.Fatal(err)
	}
	defer a.Body.Close()
	body, err := io.ReadAll(a.Body)
	if err != nil {
		t.Fatal(err)
	}
	found := regexp.MustCompile(`name="token" value="([^"]*)"`).FindSubmatch(body)
	if found == nil {
		t.Fatalf("joining gives %d %s", a.StatusCode, body)
	}
	return string(found[1])
}

// A serving is a server in this process.
type serving struct {
	base      string
	out, errs *tap
	stop      context.CancelFunc
	ended     chan int
}

func serve(t *testing.T, s environment, args ...string) *serving {
	t.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	v := &serving{out: newTap(), errs: newTap(), stop: cancel, ended: make(chan int, 1)}
	s.out, s.err = v.out, v.errs
	args = append([]string{"serve", "--set", "serve.listen=127.0.0.1:0", "--set", "serve.pin=" + servePIN}, args...)
	go func() { v.ended <- run(ctx, args, s) }()
	t.Cleanup(cancel)
	v.base = strings.Fields(v.out.await(t, `https?://\S+\tanswers`))[0]
	return v
}

func (v *serving) end(t *testing.T) {
	t.Helper()
	v.stop()
	select {
	case code := <-v.ended:
		if code != exitDone {
			t.Errorf("exit %d; want %d: %s", code, exitDone, v.errs)
		}
	case <-time.After(time.Minute):
		t.Fatal("the server does not end")
	}
}

// The server answers on this machine only, shows its address, shows no secret, and stops
// at once even while a board is open.
func TestServe(t *testing.T) {
	s := printed(t)
	v := serve(t, s)
	c := client(t)
	letIn(t, c, v.base)
	a, err := c.Get(v.base + "/board/changes?after=0")
	if err != nil || a.StatusCode != http.StatusOK {
		t.Fatalf("board: %v", err)
	}
	defer a.Body.Close()
	if !strings.HasPrefix(v.base, "http://127.0.0.1:") {
		t.Errorf("the server is open to others at %s", v.base)
	}
	begin := time.Now()
	v.end(t)
	if took := time.Since(begin); took > stopWithin/2 {
		t.Errorf("it took %s to stop", took)
	}
	key, err := os.ReadFile(filepath.Join(s.dataDir, "serve.key"))
	if err != nil {
		t.Fatal(err)
	}
	for _, secret := range []string{servePIN, strings.TrimSpace(string(key))} {
		if strings.Contains(v.out.String()+v.errs.String(), secret) {
			t.Errorf("the output shows a secret: %s%s", v.out, v.errs)
		}
	}
}

// With --open it shows an address on the network and the code for it.
func TestServeOpen(t *testing.T) {
	v := serve(t, printed(t), "--open", "--set", "code.address=http://shop.local:8080")
	v.out.await(t, "█▀▀|▀▄|█▄▄")
	if v.base != "http://shop.local:8080" {
		t.Errorf("address %s; want the shop's own", v.base)
	}
	v.end(t)
}

func TestServePortTaken(t *testing.T) {
	ln, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer ln.Close()
	s := printed(t)
	var errs bytes.Buffer
	s.err = &errs
	if code := run(context.Background(), []string{"serve", "--set", "serve.listen=" + ln.Addr().String()}, s); code != exitFailed || !strings.Contains(errs.String(), "serve.listen") {
		t.Errorf("exit %d: %s", code, errs.String())
	}
}

// With the shop's own certificate the server uses TLS, and cookies are sent over TLS only.
func TestServeTLS(t *testing.T) {
	cert, key := certificate(t)
	v := serve(t, printed(t), "--set", "serve.cert="+cert, "--set", "serve.key="+key)
	c := client(t)
	letIn(t, c, v.base)
	base, err := url.Parse(v.base)
	if err != nil {
		t.Fatal(err)
	}
	if base.Scheme != "https" || len(c.Jar.Cookies(base)) != 1 || c.Jar.Cookies(base)[0].Name != "__Host-in" {
		t.Errorf("%s has the cookies %v", base, c.Jar.Cookies(base))
	}
	v.end(t)
}

func certificate(t *testing.T) (certFile, keyFile string) {
	t.Helper()
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	form := &x509.Certificate{SerialNumber: big.NewInt(1), NotBefore: time.Now().Add(-time.Hour), NotAfter: time.Now().Add(time.Hour), DNSNames: []string{"localhost"}}
	cert, err := x509.CreateCertificate(rand.Reader, form, form, key.Public(), key)
	if err != nil {
		t.Fatal(err)
	}
	private, err := x509.MarshalPKCS8PrivateKey(key)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	certFile, keyFile = filepath.Join(dir, "cert.pem"), filepath.Join(dir, "key.pem")
	for name, block := range map[string]*pem.Block{certFile: {Type: "CERTIFICATE", Bytes: cert}, keyFile: {Type: "PRIVATE KEY", Bytes: private}} {
		if err := os.WriteFile(name, pem.EncodeToMemory(block), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return certFile, keyFile
}

// The server drops a phone that sends too slowly, and answers others meanwhile.
func TestServeSlowHead(t *testing.T) {
	if testing.Short() {
		t.Skip("this test waits for the server's own time limit")
	}
	v := serve(t, printed(t))
	conn, err := net.Dial("tcp", strings.TrimPrefix(v.base, "http://"))
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	if _, err := io.WriteString(conn, "POST /join HTTP/1.1\r\nHost: x\r\n"); err != nil {
		t.Fatal(err)
	}
	letIn(t, client(t), v.base)
	if err := conn.SetReadDeadline(time.Now().Add(30 * time.Second)); err != nil {
		t.Fatal(err)
	}
	if _, err := io.Copy(io.Discard, conn); errors.Is(err, os.ErrDeadlineExceeded) {
		t.Error("the server still waits for a phone that sends nothing")
	}
	v.end(t)
}

// emptySettings returns the settings of a shop that has set nothing.
func emptySettings(t *testing.T, s environment) config.Settings {
	t.Helper()
	c, err := (&settingFlags{}).load(s, t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// A file that other users can read is refused: its secret may be known.
func TestSecretsAreKept(t *testing.T) {
	s := environment{dataDir: t.TempDir()}
	key, pin, file, err := secrets(s, emptySettings(t, s))
	if err != nil || len(key) != 32 || len(pin) != 8 || file == "" {
		t.Fatalf("secrets = %d bytes, %d digits, %q, %v", len(key), len(pin), file, err)
	}
	again, pin2, _, err := secrets(s, emptySettings(t, s))
	if err != nil || !bytes.Equal(key, again) || pin != pin2 {
		t.Errorf("the secrets differ the second time: %v", err)
	}
	if runtime.GOOS == "windows" {
		return // Windows has no such permissions
	}
	if err := os.Chmod(file, 0o644); err != nil {
		t.Fatal(err)
	}
	if _, _, _, err := secrets(s, emptySettings(t, s)); err == nil || !strings.Contains(err.Error(), "other users can read it") || strings.Contains(err.Error(), pin) {
		t.Errorf("a PIN that other users can read: %v", err)
	}
}
