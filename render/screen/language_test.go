package screen

import (
	"context"
	"html"
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"shadewright/render/internal/proof"
	"shadewright/render/language"
	"shadewright/ticket/mark"
	"shadewright/ticket/route"
)

// languageOf returns the language with a tag.
func languageOf(t testing.TB, tag string) language.Language {
	t.Helper()
	l, err := language.Named(tag)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

var (
	attributeRE = regexp.MustCompile(`\s(?:aria-label|data-(?:single|many|join|read|sending|waits|fresh|cut))="([^"]*)"`)
	codeRE      = regexp.MustCompile(`\b[0-9A-Z]{3}-[0-9A-Z]{4}-[0-9A-Z]{3}\b`)
	tagRE       = regexp.MustCompile(`(?s)<(?:style|script).*?</(?:style|script)>|<[^>]*>`)
)

// shownBy returns what a page shows and says to who does not see it, apart from
// the names of languages.
func shownBy(a arrival) string {
	text := a.text
	var said []string
	for _, m := range attributeRE.FindAllStringSubmatch(text, -1) {
		said = append(said, m[1])
	}
	if i := strings.Index(text, `class="languages"`); i >= 0 {
		end := i + strings.Index(text[i:], "</form>")
		text = text[:i] + ">" + text[end:]
	}
	return codeRE.ReplaceAllString(html.UnescapeString(tagRE.ReplaceAllString(text, " ")+strings.Join(said, " ")), " ")
}

// sampleWords are words of the sample and of the tests, which no language changes.
var sampleWords = strings.Fields(`blinds Marsh Wren lean screen batten duck storm film thin stout Shadewright Heron Landing bunkhouse bunk left right kitchen porch door pantry loft washroom stairs reed mesh dune acrylic night
	lining donor long flat rod oak steel bar ann bent lake side lower upper out serve Invented for the sample PIN`)

// A reader looks for words that did not pass through the language.
type reader struct {
	t     *testing.T
	s     *shop
	own   []string
	pages int
}

// newReader opens a shop in the marked language, with every sample in its record.
func newReader(t *testing.T) *reader {
	r := &reader{t: t, own: sampleWords}
	r.s = openShop(t, func(o *Options) {
		o.Language = proof.Marked()
		o.Now = func() time.Time { return time.Date(2027, 3, 2, 9, 0, 0, 0, time.UTC) }
	})
	for _, job := range []string{"narrowboat", "leanto"} {
		more := sampleOf(t, job)
		if _, err := r.s.log.Register(context.Background(), more); err != nil {
			t.Fatal(err)
		}
		r.s.tickets = append(r.s.tickets, more...)
	}
	for _, tk := range r.s.tickets {
		sum, _ := read(tk.Summary)
		r.own = append(r.own, strings.FieldsFunc(sum.Place+" "+sum.Note+" "+tk.Shade, func(c rune) bool { return strings.ContainsRune(" ,-:;.", c) })...)
	}
	return r
}

func (r *reader) see(name string, a arrival) {
	r.t.Helper()
	r.pages++
	if found := proof.Unmarked(shownBy(a), r.own...); len(found) > 0 {
		r.t.Errorf("%s says without its language %q", name, found)
	}
}

// Every word of every page passes through the language.
func TestEveryWordIsSaid(t *testing.T) {
	r := newReader(t)
	p := r.s.joined()
	stranger := r.s.stranger()
	r.see("join", stranger.get("/join"))
	r.see("join code gone", stranger.get("/J/AAAA"))
	r.see("long name", stranger.post("/join", url.Values{"pin": {"1"}, "who": {strings.Repeat("x", 99)}}))
	r.see("wrong PIN", stranger.post("/join", url.Values{"pin": {"1"}}))
	for range freeTries {
		stranger.post("/join", url.Values{"pin": {"1"}})
	}
	r.see("too many PINs", stranger.post("/join", url.Values{"pin": {"1"}}))
	r.see("not in", stranger.post("/me", nil))
	for _, path := range []string{"/", "/let-in", "/offline", "/nowhere", "/board", "/board?all", "/find?code=x1", "/T/Z3AB4Y9X6N", "/T/Z3AB4Y9X6P", "/T/" + strings.Repeat("A", 65), "/board/changes?after=-1"} {
		r.see(path, p.get(path))
	}
	for _, tk := range r.s.tickets {
		r.see(tk.Shade, p.get(pathOf(tk)))
	}
	r.seeMarks(p, r.s.named("door"))
	porch := pathOf(r.s.named("porch"))
	r.see("remade", p.does(p.get(porch), "remade", "reason", "cut wrong"))
	r.see("spoilt", p.get(porch))
	r.see("all", p.get("/board?all"))
	r.see("stale form", p.post(porch, url.Values{"deed": {"done"}}))
	if r.pages < 40 {
		t.Errorf("%d pages were seen", r.pages)
	}
}

// seeMarks takes a ticket from its first step to its last.
func (r *reader) seeMarks(p *phone, door *mark.Ticket) {
	path := pathOf(door)
	does := func(name, deed string, more ...string) {
		r.t.Helper()
		r.see(name, p.does(p.get(path), deed, more...))
	}
	does("done", "done")
	old := p.get(path)
	does("width off", "done", "width", "24")
	does("no length", "done", "width", "99 x9")
	does("done", "done", "width", "23 3/4")
	r.see("already", p.does(old, "done", "width", "23 3/4"))
	does("not square", "done", "first", "82-1/2", "second", "82-1/4")
	does("one diagonal", "done", "first", "82-1/2")
	does("anyway", "done", "first", "82-1/2", "second", "82-1/4", "anyway", "yes")
	does("undone", "undone")
	does("held without a reason", "held")
	does("held", "held", "reason", "no cloth")
	r.see("done while held", p.does(old, "done", "width", "23 3/4"))
	r.see("held board", p.get("/board"))
	does("released", "released")
	r.see("unknown revision", p.get("/T/"+string(door.Code)+"-2222"))
	for _, step := range door.Route[2:] {
		m := mark.Mark{ID: uuid.New(), Code: door.Code, Kind: mark.Done, Step: step.Key, Who: "ann", Time: time.Date(2027, 3, 1, 9, 0, 0, 0, time.UTC)}
		if step.Reading == route.Turns {
			m.Readings.Turns = 1250
		}
		if _, err := r.s.log.Mark(context.Background(), m); err != nil {
			r.t.Fatal(err)
		}
	}
	r.see("finished", p.get(path))
}

// A phone reads the shop's language until it chooses its own, and then that, on
// every page, in answers to its script and in its address for the board.
func TestPhoneChooses(t *testing.T) {
	s, es := openShop(t, func(o *Options) { o.Language = languageOf(t, "en-US") }), languageOf(t, "es")
	p := s.joined()
	door := pathOf(s.named("door"))
	wantIn(t, p.get("/"), http.StatusOK, `<html lang="en-US">`, "Point the camera", `value="en" lang="en-US" aria-current="true">English<`, `value="es" lang="es-US">español<`)
	choose := func(language, to string) arrival {
		return p.post("/language", url.Values{"language": {language}, "to": {to}})
	}
	a := choose("es", door)
	wantIn(t, a, http.StatusOK, `<html lang="es-US">`, "Paso siguiente: "+es.Say("Mark direction and strip the donor"), es.Say("reverse roll"), "entrega: 1 de marzo de 2027", ">falta tela</label>", `value="no cloth"`)
	if a.path != door || a.header.Get("Content-Language") != "es-US" {
		t.Errorf("the choice leads to %s in %q; want %s in es-US", a.path, a.header.Get("Content-Language"), door)
	}
	wantIn(t, p.does(a, "held", "reason", "no cloth"), http.StatusOK, "<strong>EN ESPERA</strong>", "falta tela; libérela")
	if st := s.state(s.named("door").Code); st.Hold == nil || st.Hold.Reason != "no cloth" {
		t.Errorf("the record keeps %+v; want the reason as the settings have it", st.Hold)
	}
	wantIn(t, p.get("/board"), http.StatusOK, "en espera: 1", "<td>pendiente", "bunk-left 1 de 2")
	wantIn(t, s.joined().get("/board"), http.StatusOK, "1 held", "<td>waiting")
	if a := choose("eo", "/"); !strings.Contains(a.text, `lang="es-US"`) {
		t.Error("a language that is not known changes what was chosen")
	}
	if a := choose("en", "//elsewhere.example/"); a.path != "/" || !strings.Contains(a.text, `lang="en-US"`) {
		t.Errorf("back to English leads to %s", a.path)
	}
	// A stranger chooses on the page to join, and keeps the way to go on.
	q := s.stranger()
	code := joinPath(t, s)
	_, f := q.get(code).formTo(t, "/language")
	f.Set("language", "es")
	if a := q.post("/language", f); a.path != code || !strings.Contains(a.text, "Entrar en el taller") || strings.Contains(a.text, "PIN del taller") {
		t.Errorf("choosing with a join code leads to %s:\n%s", a.path, a.text)
	}
	r := p.request("POST", "/language", strings.NewReader("language=es"))
	r.Header.Set("Origin", "https://evil.example")
	if a := p.do(r); a.status != http.StatusForbidden {
		t.Errorf("another site chooses the language: %d", a.status)
	}
}

// formTo returns the form of a page that goes somewhere.
func (a arrival) formTo(t testing.TB, action string) (path string, f url.Values) {
	t.Helper()
	for _, m := range formRE.FindAllStringSubmatch(a.text, -1) {
		if m[1] == action {
			return arrival{text: m[0]}.form(t, "")
		}
	}
	t.Fatalf("no form goes to %s", action)
	return "", nil
}

// A board that is open in a language that was changed since loads again; others
// are sent rows in their own.
func TestBoardSpeaks(t *testing.T) {
	s := openShop(t, nil)
	english, spanish := s.joined(), s.joined()
	spanish.post("/language", url.Values{"language": {"es"}})
	b, err := s.log.Board(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	path := "/board/changes?after=" + itoa(b.Seq) + "&lang="
	if u := next1(t, follow(t, t.Context(), spanish, path+"en")); !u.Reload {
		t.Errorf("a board in a language of before is sent %+v", u)
	}
	en, es := follow(t, t.Context(), english, path+"en"), follow(t, t.Context(), spanish, path+"es")
	english.does(english.get(pathOf(s.named("door"))), "done")
	if u := next1(t, en); len(u.Rows) != 1 || !strings.Contains(u.Rows[0].HTML, "<td>Cut the panel</td>") {
		t.Errorf("English: %+v", u)
	}
	if u := next1(t, es); len(u.Rows) != 1 || !strings.Contains(u.Rows[0].HTML, "<td>"+languageOf(t, "es").Say("Cut the panel")+"</td>") || !strings.Contains(u.Jobs[s.named("door").Job.String()], "terminadas: 0 de 10") {
		t.Errorf("Spanish: %+v", u)
	}
}

// What an earlier version kept, and texts that this one no longer has, are shown
// as they are.
func TestOldSummary(t *testing.T) {
	old := `{"goods":"reed-mesh, vinyl","roll":"reverse","units":"in","cut":{"own":"2 × 3 in","other":""},"diagonal":{"own":"4 in","other":""},
		"facts":[{"name":"Trim tube","value":{"own":"2 in","other":"51 mm"},"more":"donor"}],"lines":[{"name":"hem fold","at_nm":5,"says":{"own":"1 in","other":""}}],
		"findings":[{"level":"caution","text":"odd","remedy":{"en":"no such text %s","with":["x"]}}]}`
	sum, ok := read([]byte(old))
	got := sum.shown(languageOf(t, "es"))
	if !ok || got.Goods != "reed-mesh, vinyl" || got.Facts[0] != (shownFact{"Trim tube", "2 in (51 mm), donor"}) || got.Findings[0] != (shownFact{"caution", "odd; no such text x"}) {
		t.Errorf("shown %+v, %t", got, ok)
	}
}
