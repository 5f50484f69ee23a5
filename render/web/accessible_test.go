package web

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"shadewright/render/language"
)

// Every page is accessible as far as a program can tell: light and dark, on a
// phone and on the wall, in each language. The judge is axe-core with its rules
// for WCAG 2.2 AA. In addition, touch targets are at least 48 px, no text is
// cut off, and no page scrolls sideways on a phone.
func TestBrowserAccessible(t *testing.T) {
	rules := os.Getenv("SHADEWRIGHT_TEST_AXE")
	if rules == "" {
		t.Skip("SHADEWRIGHT_TEST_AXE does not name axe.min.js of axe-core: accessibility is not tested")
	}
	axe, err := os.ReadFile(rules)
	if err != nil {
		t.Fatal(err)
	}
	for _, tag := range []string{"en", "es"} {
		t.Run(tag, func(t *testing.T) { lookAtAll(t, languageOf(t, tag), axe) })
	}
}

func lookAtAll(t *testing.T, l language.Language, axe []byte) {
	s := openShop(t, func(o *Options) {
		o.Language = l
		o.Now = func() time.Time { return time.Date(2027, 3, 2, 9, 0, 0, 0, time.UTC) }
	})
	more := sampleOf(t, "narrowboat") // in millimetres
	if _, err := s.log.Register(t.Context(), more); err != nil {
		t.Fatal(err)
	}
	p := s.joined()
	cut, held, spoilt := s.named("bunk-right"), s.named("kitchen"), s.named("porch")
	p.does(p.get(pathOf(cut)), "done")
	p.does(p.get(pathOf(held)), "held", "reason", "no cloth")
	p.does(p.get(pathOf(spoilt)), "remade", "reason", "cut wrong")
	b := openBrowser(t)
	b.look(l.Tag()+"-join", axe, 360, s.server.URL+"/join", nil)
	b.join(s, "/")
	b.says(l.Say("web.open-the-ticket"))
	off := func() {
		b.fill("#width", "26")
		b.press(l.Say("web.done", l.Say("step.cut")))
		b.says(l.Say("mark.not-yet"))
		evaluate[chromedp.Void](b, `document.querySelectorAll('details').forEach(d => d.open = true)`)
	}
	for _, v := range []struct {
		name, path string
		width      int64
		first      func()
	}{
		{"first", "/", 360, nil}, {"ticket", pathOf(cut), 360, nil}, {"reading", pathOf(cut), 360, off}, {"held", pathOf(held), 360, nil},
		{"spoilt", pathOf(spoilt), 360, nil}, {"unknown", "/T/Z3AB4Y9X6N", 360, nil}, {"let-in", "/let-in", 360, nil}, {"offline", "/offline", 360, nil},
		{"board", "/board", 360, nil}, {"wall", "/board", 1920, nil}, {"all", "/board?all", 1920, nil}, {"wide", pathOf(cut), 1920, nil}, {"metric", pathOf(more[0]), 360, nil},
	} {
		b.look(l.Tag()+"-"+v.name, axe, v.width, s.server.URL+v.path, v.first)
	}
}

// look opens a page and checks it in light and in dark.
func (b *browser) look(name string, axe []byte, width int64, url string, first func()) {
	b.t.Helper()
	height := width * 9 / 16
	if width < 1000 {
		height = width * 2
	}
	for _, scheme := range []string{"light", "dark"} {
		b.run(chromedp.EmulateViewport(width, height))
		command(b, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}})
		b.open(url)
		if first != nil {
			first()
		}
		evaluate[chromedp.Void](b, string(axe))
		if found := evaluate[string](b, judging); found != "" {
			b.t.Errorf("%s at %d px, %s:\n%s", name, width, scheme, found)
		}
		b.shot(fmt.Sprintf("%s-%d-%s.png", name, width, scheme))
	}
}

// judging runs axe-core and returns what it found, and measures the rest.
const judging = `(async () => {
  const r = await axe.run({runOnly: {type: 'tag', values: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']}});
  const out = r.violations.map(v => v.id + ': ' + v.help + ' ' + v.nodes.map(n => n.html + ' ' + n.failureSummary).join(' | '));
  if (r.passes.length < 5) out.push('axe-core judged next to nothing');
  for (const e of document.querySelectorAll('main button, main .button, main input:not([type=hidden]), main summary, nav a, main th a, main .inline')) {
    const box = (e.matches('[type=radio], [type=checkbox]') ? e.parentElement : e).getBoundingClientRect();
    if (box.width > 0 && (box.height < 47.5 || box.width < 47.5)) out.push('target of ' + box.width + ' × ' + box.height + ' px: ' + e.outerHTML);
  }
  for (const e of document.querySelectorAll('button, .button, nav a, th, td')) {
    if (e.scrollWidth > e.clientWidth + 1 && e.clientWidth > 0) out.push('words are cut off: ' + e.outerHTML);
  }
  for (const e of document.querySelectorAll('svg.drawing text')) {
    const box = e.getBBox();
    if (box.x + box.width > e.ownerSVGElement.viewBox.baseVal.width) out.push('words leave the drawing: ' + e.outerHTML);
  }
  if (document.documentElement.scrollWidth > innerWidth) out.push('the page is ' + document.documentElement.scrollWidth + ' px wide');
  return out.join('\n');
})()`

// shot saves a picture of the page in the folder of SHADEWRIGHT_TEST_SHOTS, for
// a person to look at.
func (b *browser) shot(name string) {
	b.t.Helper()
	dir := os.Getenv("SHADEWRIGHT_TEST_SHOTS")
	if dir == "" {
		return
	}
	take := chromedp.FullScreenshot(100)
	if strings.Contains(name, "1920") { // on the wall
		take = chromedp.CaptureScreenshot()
	}
	picture, err := chromedp.Run(b.ctx, take)
	if err != nil {
		b.t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, name), picture, 0o644); err != nil {
		b.t.Fatal(err)
	}
}
