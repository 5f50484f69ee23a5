package web

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"image/png"
	"net"
	"net/http/httptest"
	"os/exec"
	"sync/atomic"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/qrcode"
)

// A browser is one run of Chromium with its own profile.
type browser struct {
	t   *testing.T
	ctx context.Context
}

// openBrowser starts Chromium, or skips the test if it is not installed.
func openBrowser(t *testing.T) *browser {
	t.Helper()
	var path string
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if p, err := exec.LookPath(name); err == nil {
			path = p
			break
		}
	}
	if path == "" {
		t.Skip("Chromium is not installed: the pages are not tested in a browser")
	}
	alloc, cancel := chromedp.NewExecAllocator(context.Background(),
		chromedp.ExecPath(path), chromedp.UserDataDir(t.TempDir()), chromedp.Headless, chromedp.NoSandbox, chromedp.DisableGPU, chromedp.NoFirstRun, chromedp.NoDefaultBrowserCheck,
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-background-networking", true), chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-sync", true),
		chromedp.Flag("hide-scrollbars", true),
	)
	t.Cleanup(cancel)
	ctx, cancel := chromedp.NewContext(alloc)
	t.Cleanup(func() {
		if err := chromedp.Cancel(ctx); err != nil {
			t.Logf("the browser ended with %v", err)
		}
		cancel()
	})
	return (&browser{t, ctx}).begin()
}

// begin starts the browser or the tab. The context of the first action must
// have no deadline, because the browser or tab would end with it.
func (b *browser) begin() *browser {
	b.t.Helper()
	if err := chromedp.Do(b.ctx); err != nil {
		b.t.Fatal(err)
	}
	return b
}

// tab opens another tab of the same browser.
func (b *browser) tab() *browser {
	ctx, cancel := chromedp.NewContext(b.ctx)
	b.t.Cleanup(cancel)
	return (&browser{b.t, ctx}).begin()
}

// run runs actions, for at most a minute.
func (b *browser) run(actions ...chromedp.Action[chromedp.Void]) {
	b.t.Helper()
	ctx, cancel := context.WithTimeout(b.ctx, time.Minute)
	defer cancel()
	if err := chromedp.Do(ctx, actions...); err != nil {
		b.t.Fatalf("the browser: %v; it shows\n%s", err, b.text())
	}
}

// evaluate returns the value of an expression on the page.
func evaluate[T any](b *browser, expression string) T {
	b.t.Helper()
	ctx, cancel := context.WithTimeout(b.ctx, time.Minute)
	defer cancel()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	if err != nil {
		b.t.Fatalf("the page cannot evaluate %.200s: %v; it shows\n%s", expression, err, b.text())
	}
	return v
}

// command sends a command of the browser's own protocol.
func command[P, R any](b *browser, c cdp.Command[P, R], params P) {
	b.t.Helper()
	if _, err := chromedp.Call(b.ctx, c, params); err != nil {
		b.t.Fatal(err)
	}
}

// text returns the address and the text of the page, for messages.
func (b *browser) text() string {
	ctx, cancel := context.WithTimeout(b.ctx, 5*time.Second)
	defer cancel()
	text, err := chromedp.Run(ctx, chromedp.Evaluate[string](`location.href + "\n" + document.body.innerText`))
	if err != nil {
		return err.Error()
	}
	return text
}

// says waits until the page shows a text.
func (b *browser) says(want string) {
	b.t.Helper()
	b.until(fmt.Sprintf("document.body.innerText.includes(%s)", quote(want)))
}

// watching is a promise that resolves when the expression, or its promise, is
// true. The page polls the expression. A page that is just being replaced has
// no body to ask.
const watching = `new Promise(kept => {
	const look = async () => {
		let is = false;
		try { is = !!document.body && !!(await (%s)) } catch {}
		is ? kept(true) : setTimeout(look, 10);
	};
	look();
})`

// until waits until an expression is true.
func (b *browser) until(expression string) {
	b.t.Helper()
	ctx, cancel := context.WithTimeout(b.ctx, 30*time.Second)
	defer cancel()
	for {
		_, err := chromedp.Run(ctx, chromedp.Evaluate[bool](fmt.Sprintf(watching, expression), chromedp.EvalAwaitPromise))
		if err == nil {
			return
		}
		if ctx.Err() != nil {
			b.t.Fatalf("never true: %s (%v); the page shows\n%s", expression, err, b.text())
		}
		// A new page replaced this one, and with it the promise.
	}
}

func quote(s string) string { b, _ := json.Marshal(s); return string(b) }

func (b *browser) open(url string) { b.t.Helper(); b.run(chromedp.Navigate(url)) }

// press presses the button with a text.
func (b *browser) press(text string) {
	b.t.Helper()
	b.until(fmt.Sprintf(`(() => { const b = [...document.querySelectorAll('button')].find(b => b.textContent.includes(%s) && !b.disabled); if (!b) return false; b.click(); return true })()`, quote(text)))
}

func (b *browser) fill(selector, text string) {
	b.t.Helper()
	b.run(chromedp.SetValue(chromedp.CSS(selector), text))
}

// join makes the browser join with the PIN and opens a page.
func (b *browser) join(s *shop, path string) {
	b.t.Helper()
	l := s.handler.opt.Language
	b.open(s.server.URL + path)
	b.says(l.Say("web.join-the-shop"))
	b.fill("#pin", testPIN)
	b.fill("#who", "ann")
	b.press(l.Say("web.join"))
}

// down ends the network; up brings it back at the same address.
func (s *shop) down() string {
	s.server.CloseClientConnections()
	at := s.server.Listener.Addr().String()
	s.handler.Close()
	s.server.Close()
	return at
}

func (s *shop) up(at string) {
	s.t.Helper()
	ln, err := net.Listen("tcp", at)
	if err != nil {
		s.t.Fatal(err)
	}
	s.handler.reopen()
	s.server = httptest.NewUnstartedServer(s.handler)
	if err := s.server.Listener.Close(); err != nil {
		s.t.Fatal(err)
	}
	s.server.Listener = ln
	s.server.Start()
}

// reopen lets boards update again after Close.
func (s *Server) reopen() { s.ending, s.end = context.WithCancel(context.Background()) }

// The whole path in a real browser: join, open a ticket, mark, enter diagonals,
// undo, hold, and see the board update in a second tab.
func TestBrowserMarks(t *testing.T) {
	s := openShop(t, nil)
	b := openBrowser(t)
	door := s.named("door")
	b.join(s, pathOf(door))
	b.says("Next step: Mark direction")

	wall := b.tab()
	wall.open(s.server.URL + "/board")
	wall.says("Updates by itself.")

	b.press("Done: Mark direction")
	b.says("Next step: Cut the panel")
	b.until(`document.activeElement.id === 'answer' && document.title.startsWith('DONE')`)
	wall.until(fmt.Sprintf(`document.getElementById('t-%s').innerText.includes('begun')`, door.Code))

	b.fill("#width", "23 3/4")
	b.press("Done: Cut the panel")
	b.says("the width is right")
	// By hand: sin δ = 0.25·√(4·(23.75² + 81²) − 0.25²) / (4·23.75·81) =
	// 0.005485, and the top is 81 times that out of square: 0.444 in, rounded up
	// to 1/2.
	b.fill("#first", "84-1/2")
	b.fill("#second", "84-1/4")
	b.press("Done: Square the panel")
	b.says("not square: the top edge is 1/2 in out to the left")
	b.until(`document.getElementById('first').value === '84-1/2'`)
	b.fill("#first", "84-1/4")
	b.press("Done: Square the panel")
	b.says("Next step: Mark the lines")
	b.press("Undo the last step")
	b.says("UNDONE")
	evaluate[chromedp.Void](b, `[...document.querySelectorAll('summary')].find(s => s.textContent.includes('Hold')).click()`)
	b.run(chromedp.Click(chromedp.CSS("#hold-1")))
	b.press("Hold")
	b.says("Held: ask the client")
	wall.until(fmt.Sprintf(`document.getElementById('t-%s').innerText.includes('held')`, door.Code))
	wall.says("1 held")
	if st := s.state(door.Code); len(st.Steps) != 2 || st.Hold == nil {
		t.Errorf("state %+v", st)
	}
}

// The network goes away and comes back. Marks made meanwhile arrive once.
func TestBrowserOffline(t *testing.T) {
	s := openShop(t, nil)
	b := openBrowser(t)
	door, kitchen := s.named("door"), s.named("kitchen")
	b.join(s, pathOf(door))
	b.says("Next step: Mark direction")
	b.until(`navigator.serviceWorker && !!navigator.serviceWorker.controller`)
	b.open(s.server.URL + pathOf(door)) // through the worker, which stores it
	b.says("Next step: Mark direction")

	at := s.down()
	b.press("Done: Mark direction")
	b.says("1 mark waits in this phone")
	// A ticket that this phone never opened.
	b.open("http://" + at + pathOf(kitchen))
	b.says("No network")
	b.press("Mark the next step done")
	b.says("2 marks wait in this phone")
	// A ticket that it did open.
	b.open("http://" + at + pathOf(door))
	b.says("Next step: Mark direction")
	b.says("2 marks wait in this phone")

	s.up(at)
	b.until(`document.getElementById('waiting').textContent === ''`)
	for _, tk := range []string{"door", "kitchen"} {
		c := s.named(tk).Code
		if st := s.state(c); len(st.Steps) != 1 || st.Steps[0].Who != "ann" {
			t.Errorf("%s has %d steps done: %+v", tk, len(st.Steps), st.Steps)
		}
		history, err := s.log.History(context.Background(), c)
		if err != nil || len(history) != 1 {
			t.Errorf("%s has the marks %+v, %v; want one", tk, history, err)
		}
	}
	b.open("http://" + at + pathOf(door))
	b.says("Next step: Cut the panel")
}

// A mark sent after the phone's cookie expired waits in the phone. It is sent
// once the phone has joined again.
func TestBrowserJoinsAgain(t *testing.T) {
	var later atomic.Int64
	s := openShop(t, func(o *Options) { o.Now = func() time.Time { return time.Now().Add(time.Duration(later.Load())) } })
	b := openBrowser(t)
	door := s.named("door")
	b.join(s, pathOf(door))
	b.says("Next step: Mark direction")
	b.until(`document.readyState === 'complete'`) // the script has started
	later.Store(int64(31 * 24 * time.Hour))       // a cookie lasts 30 days
	b.press("Done: Mark direction")
	b.says("1 mark waits in this phone")
	evaluate[chromedp.Void](b, `[...document.querySelectorAll('#waiting a')].find(a => a.textContent === 'Join again to send them').click()`)
	b.says("Join the shop")
	b.fill("#pin", testPIN)
	b.fill("#who", "ann")
	b.press("Join")
	b.says("Point the camera")
	b.until(`localStorage.getItem('waiting') === '[]'`)
	if st := s.state(door.Code); len(st.Steps) != 1 || st.Steps[0].Who != "ann" {
		t.Errorf("%d steps are done: %+v; want the one that waited", len(st.Steps), st.Steps)
	}
}

// A second phone joins with the code on the first phone's screen, as read from
// the picture by another library.
func TestBrowserJoinCode(t *testing.T) {
	s := openShop(t, nil)
	b := openBrowser(t)
	b.run(chromedp.EmulateViewport(360, 720))
	b.join(s, "/let-in")
	b.says("within 10 minutes")
	picture, err := chromedp.Run(b.ctx, chromedp.CaptureScreenshot())
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(picture))
	if err != nil {
		t.Fatal(err)
	}
	bitmap, err := gozxing.NewBinaryBitmapFromImage(img)
	if err != nil {
		t.Fatal(err)
	}
	read, err := qrcode.NewQRCodeReader().Decode(bitmap, map[gozxing.DecodeHintType]any{gozxing.DecodeHintType_TRY_HARDER: true})
	if err != nil {
		t.Fatal(err)
	}
	other := openBrowser(t)
	other.open(read.GetText())
	other.fill("#who", "bo")
	other.press("Join")
	other.says("Point the camera")
	other.until(`document.getElementById('who').value === 'bo'`)
}

// A phone without scripts can mark, too.
func TestBrowserWithoutScript(t *testing.T) {
	s := openShop(t, nil)
	b := openBrowser(t)
	command(b, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
	door := s.named("door")
	b.open(s.server.URL + pathOf(door))
	b.run(chromedp.SendKeys(chromedp.CSS("#pin"), testPIN), chromedp.Click(chromedp.CSS("button.do")), chromedp.WaitVisible(chromedp.CSS("#next")))
	b.run(chromedp.Click(chromedp.CSS("button.do")), chromedp.WaitVisible(chromedp.CSS("#answer")))
	if st := s.state(door.Code); len(st.Steps) != 1 {
		t.Errorf("%d steps are done", len(st.Steps))
	}
}
