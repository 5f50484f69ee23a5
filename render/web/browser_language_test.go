package web

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"shadewright/ticket/message"
)

// The pages stored for use without a network follow the chosen language. No
// page of the earlier language appears again.
func TestBrowserOfflineSpeaks(t *testing.T) {
	s, es := openShop(t, nil), languageOf(t, "es")
	b := openBrowser(t)
	door, kitchen := s.named("door"), s.named("kitchen")
	b.join(s, pathOf(door))
	b.says("Next step: Mark direction")
	b.until(`navigator.serviceWorker && !!navigator.serviceWorker.controller`)
	b.open(s.server.URL + pathOf(door)) // the worker stores it
	b.says("Next step: Mark direction")
	const kept = `(async () => (await Promise.all((await caches.keys()).map(async n => (await (await caches.open(n)).keys()).map(r => n + ' ' + new URL(r.url).pathname)))).flat().sort().join('\n'))()`
	b.until(kept + `.then(k => k.includes('pages-2-en ` + pathOf(door) + `'))`)

	b.open(s.server.URL + "/")
	b.press("español")
	b.says("Este teléfono")
	b.until(`document.documentElement.lang === 'es'`)
	waitForKept := func(lang string) {
		t.Helper()
		b.until(kept + `.then(k => k.includes('pages-2-` + lang + ` /offline') && k.split('/offline').length === 2 && !k.includes('` + pathOf(door) + `'))`)
	}
	waitForKept("es")

	at := s.down()
	b.open("http://" + at + pathOf(door)) // stored in English only, so it counts as never opened
	b.says("Sin red")
	b.press("Registrar el paso siguiente")
	b.says("1 registro espera la red en este teléfono.")
	b.says("Espera en este teléfono: Registrar el paso siguiente")
	b.open("http://" + at + pathOf(kitchen))
	b.says("Sin red")
	s.up(at)
	b.until(`document.getElementById('waiting').textContent === ''`)
	if st := s.state(door.Code); len(st.Steps) != 1 {
		t.Errorf("%d steps are done; want the one that waited", len(st.Steps))
	}
	b.open("http://" + at + pathOf(door))
	b.says(es.Say("web.next-step", es.Say("step.cut")))

	// Then back again, from the page to join, which is never stored.
	b.open("http://" + at + "/")
	b.press("Desconectar este teléfono")
	b.says("Entrar en el taller")
	b.press("English")
	b.says("Join the shop")
	waitForKept("en")
}

// If a waiting mark is refused, the message stays in the language of that time.
func TestBrowserToldSpeaks(t *testing.T) {
	es := languageOf(t, "es")
	s := openShop(t, func(o *Options) { o.Language = es })
	b := openBrowser(t)
	door := s.named("door")
	b.join(s, pathOf(door))
	b.press(es.Say("web.done", es.Say("step.strip")))
	b.says("HECHO")
	old := evaluate[string](b, `localStorage.getItem('waiting') || ''`)
	if old != "" && old != "[]" {
		t.Errorf("waiting: %s", old)
	}
	// The same step again, as from a phone that marked it without a network.
	evaluate[chromedp.Void](b, `localStorage.setItem('waiting', JSON.stringify([{url: location.pathname, body: 'deed=done&step=strip&id=5f0c8f0e-2b0f-4a55-9f0b-6f1f7a2d9c31', what: 'x'}]))`)
	b.open(s.server.URL + pathOf(door))
	b.says("ya estaba hecho")
	b.open(s.server.URL + "/")
	b.press("English")
	b.says("I have read this")
	b.until(`document.querySelector('#waiting p').lang === 'es'`)
	b.press("I have read this")
	b.until(`document.getElementById('waiting').textContent === ''`)
}

// A language chosen in one tab applies to the whole page in another tab with
// its next answer.
func TestBrowserTabSpeaks(t *testing.T) {
	s, es := openShop(t, nil), languageOf(t, "es")
	b := openBrowser(t)
	b.join(s, pathOf(s.named("door")))
	b.says("Next step: Mark direction")
	b.until(`document.readyState === 'complete'`) // the script has started
	other := b.tab()
	other.open(s.server.URL + "/")
	other.press("español")
	other.says("Este teléfono")
	b.press("Done: Mark direction")
	b.says("HECHO")
	b.until(`document.documentElement.lang === 'es' && document.activeElement.id === 'answer'`)
	shown := evaluate[string](b, `document.querySelector('header').textContent + document.querySelector('.skip').textContent + document.querySelector('nav').getAttribute('aria-label') + document.title`)
	for _, e := range []message.ID{"web.board", "web.to-the-page", "web.pages", "mark.done"} {
		if !strings.Contains(shown, es.Say(e)) {
			t.Errorf("the tab shows %q; want %q in it", shown, es.Say(e))
		}
	}
	at := s.down()
	b.press(es.Say("web.done", es.Say("step.cut")))
	b.says("1 registro espera la red en este teléfono.")
	s.up(at)
	b.until(`document.getElementById('waiting').textContent === ''`)
}
