package web

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"html"
	"net/http"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"shadewright/render/internal/readback"
	"shadewright/render/language"
	"shadewright/ticket/code"
	"shadewright/ticket/mark"
	"shadewright/ticket/mark/record"
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
	attributeRE = regexp.MustCompile(`\s([a-z-]+)="([^"]*)"`)
	codeRE      = regexp.MustCompile(`\b[0-9A-Z]{3}-[0-9A-Z]{4}-[0-9A-Z]{3}\b`)
	tagRE       = regexp.MustCompile(`(?s)<(?:style|script).*?</(?:style|script)>|<[^>]*>`)
	verbRE      = regexp.MustCompile(`%[!sdq]`)
)

// silent lists the attributes whose values no reader sees or hears. All other
// attributes count as text, so that a new one is not forgotten. The attribute
// value belongs to fields and choices: it is typed text, or a reason as stored.
var silent = strings.Fields(`action aria-current aria-labelledby aria-live autocapitalize autocomplete charset class content d data-after data-all
	data-leave data-offline data-plain data-token dy fill for height href id inputmode lang list maxlength method name rel role scope
	shape-rendering spellcheck src tabindex transform type value viewBox width x y`)

// shownBy returns the text that a page shows or reads out, without the names of
// languages.
func shownBy(a arrival) string {
	text := a.text
	var said []string
	for _, m := range attributeRE.FindAllStringSubmatch(text, -1) {
		if !slices.Contains(silent, m[1]) {
			said = append(said, m[2])
		}
	}
	return shownText(text) + html.UnescapeString(strings.Join(said, " "))
}

// shownText returns the visible text of a page.
func shownText(text string) string {
	if i := strings.Index(text, `class="languages"`); i >= 0 {
		end := i + strings.Index(text[i:], "</form>")
		text = text[:i] + ">" + text[end:]
	}
	return codeRE.ReplaceAllString(html.UnescapeString(tagRE.ReplaceAllString(text, " ")), " ")
}

// sampleWords lists words of the sample and the tests that no language changes.
var sampleWords = strings.Fields(`blinds Marsh Wren lean screen batten duck storm film thin stout Shadewright Heron Landing bunkhouse bunk left right kitchen porch door pantry loft washroom stairs reed mesh dune acrylic night
	lining donor long flat rod oak steel bar ann bent lake side lower upper out serve Invented for the sample PIN`)

// A reader looks for words that did not pass through the language.
type reader struct {
	t     *testing.T
	s     *shop
	own   []string
	pages int
}

// newReader opens a shop in the pseudo-language, with every sample in its
// record.
func newReader(t *testing.T) *reader {
	r := &reader{t: t, own: sampleWords}
	r.s = openShop(t, func(o *Options) {
		o.Language = readback.Marked()
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
		sum, _ := tk.Summarized()
		r.own = append(r.own, strings.FieldsFunc(sum.Place+" "+sum.Note+" "+tk.Shade, func(c rune) bool { return strings.ContainsRune(" ,-:;.", c) })...)
	}
	return r
}

func (r *reader) see(name string, a arrival) {
	r.t.Helper()
	r.pages++
	if found := readback.Unmarked(shownBy(a), r.own...); len(found) > 0 {
		r.t.Errorf("%s has %q, which did not pass through the language", name, found)
	}
	if verb := verbRE.FindString(shownText(a.text)); verb != "" {
		r.t.Errorf("%s shows %q: an argument of the text is missing or wrong", name, verb)
	}
}

// hear checks an answer to a script.
func (r *reader) hear(name string, q *http.Request, p *phone) {
	r.t.Helper()
	q.Header.Set("Accept", "application/json")
	a := p.do(q)
	var told reply
	if err := json.Unmarshal([]byte(a.text), &told); err != nil || told.Message == "" || a.header.Get("Content-Language") == "" {
		r.t.Errorf("%s: a script gets %q in %q, %v", name, a.text, a.header.Get("Content-Language"), err)
	}
	if strings.HasPrefix(told.Message, "NO") {
		r.t.Errorf("%s: a script gets %q; want a verdict in the language", name, told.Message)
	}
	r.see(name+", to a script", arrival{text: html.EscapeString(told.Message)})
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
	for range freeAttempts {
		stranger.post("/join", url.Values{"pin": {"1"}})
	}
	r.see("too many PINs", stranger.post("/join", url.Values{"pin": {"1"}}))
	r.see("not in", stranger.post("/me", nil))
	r.hear("not in", stranger.request("POST", "/me", nil), stranger)
	r.hear("nowhere", p.request("GET", "/nowhere", nil), p)
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
	r.see("stale form", p.post(porch, url.Values{"kind": {"done"}}))
	r.hear("stale form", p.request("POST", porch, nil), p)
	r.hear("spoilt", p.request("GET", porch, nil), p)
	r.hear("ready", p.request("GET", pathOf(r.s.named("pantry")), nil), p)
	r.hear("unknown", p.request("GET", "/T/Z3AB4Y9X6N", nil), p)
	if r.pages < 40 {
		t.Errorf("%d pages were seen", r.pages)
	}
}

// faulty is a record with a fault.
type faulty struct {
	shopRecord
	err error
}

func (f faulty) Board(context.Context) (mark.Board, error) { return mark.Board{}, f.err }
func (f faulty) Look(context.Context, code.Code, code.Revision) (mark.Answer, error) {
	return mark.Answer{}, f.err
}

// The phone shows a fault of the record in its own language.
func TestFaultIsSaid(t *testing.T) {
	for f := record.Broken; f <= record.Closed; f++ {
		s := openShop(t, func(o *Options) {
			o.Language, o.Fault = readback.Marked(), func(error) {}
			o.Record = faulty{o.Record, fmt.Errorf("look: %w", &record.Error{Fault: f, Where: "mrks.db", Err: errors.New("d'sk")})}
		})
		r, p := &reader{t: t, own: sampleWords}, s.joined()
		for _, path := range []string{"/board", pathOf(s.named("door"))} {
			a := p.get(path)
			wantIn(t, a, http.StatusServiceUnavailable, `&#34;mrks.db&#34;`, "(d&#39;sk)")
			r.see(fmt.Sprintf("fault %d on %s", f, path), a)
		}
	}
}

// seeMarks takes a ticket from its first step to its last.
func (r *reader) seeMarks(p *phone, door *mark.Ticket) {
	path := pathOf(door)
	does := func(name, kind string, more ...string) {
		r.t.Helper()
		r.see(name, p.does(p.get(path), kind, more...))
	}
	does("done", "done")
	old := p.get(path)
	does("width off", "done", "width", "24")
	does("no length", "done", "width", "99 x9")
	does("done", "done", "width", "23 3/4")
	r.see("already", p.does(old, "done", "width", "23 3/4"))
	does("not square", "done", "first", "84-1/2", "second", "84-1/4")
	does("one diagonal", "done", "first", "84-1/2")
	does("anyway", "done", "first", "84-1/2", "second", "84-1/4", "anyway", "yes")
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

// A phone shows the shop's language until it chooses its own. Its choice then
// applies to every page, to answers to its script, and to its address for the
// board.
func TestPhoneChooses(t *testing.T) {
	s, es := openShop(t, func(o *Options) { o.Language = languageOf(t, "en-US") }), languageOf(t, "es")
	p := s.joined()
	door := pathOf(s.named("door"))
	wantIn(t, p.get("/"), http.StatusOK, `<html lang="en-US">`, "Point the camera", `value="en" lang="en-US" aria-current="true">English<`, `value="es" lang="es-US">español<`)
	choose := func(language, to string) arrival {
		return p.post("/language", url.Values{"language": {language}, "to": {to}})
	}
	a := choose("es", door)
	wantIn(t, a, http.StatusOK, `<html lang="es-US">`, "Paso siguiente: "+es.Say("step.strip"), es.Say("hang.reverse-roll"), "entrega: 1 de marzo de 2027", ">falta tela</label>", `value="no cloth"`)
	if a.path != door || a.header.Get("Content-Language") != "es-US" {
		t.Errorf("the choice leads to %s in %q; want %s in es-US", a.path, a.header.Get("Content-Language"), door)
	}
	wantIn(t, p.does(a, "held", "reason", "no cloth"), http.StatusOK, "<strong>EN ESPERA</strong>", "falta tela; libérela")
	if st := s.state(s.named("door").Code); st.Hold == nil || st.Hold.Reason.String() != "no cloth" {
		t.Errorf("the record keeps %+v; want the reason as in the settings", st.Hold)
	}
	wantIn(t, p.get("/board"), http.StatusOK, "en espera: 1", "<td>pendiente", "bunk-left, unidad 1")
	wantIn(t, s.joined().get("/board"), http.StatusOK, "1 held", "<td>waiting")
	if a := choose("eo", "/"); !strings.Contains(a.text, `lang="es-US"`) {
		t.Error("an unknown language changes the choice")
	}
	if a := choose("en", "//elsewhere.example/"); a.path != "/" || !strings.Contains(a.text, `lang="en-US"`) {
		t.Errorf("back to English leads to %s", a.path)
	}
	// A phone that has not joined can choose on the page to join, and keeps its
	// join code.
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
		t.Errorf("another site can choose the language: %d", a.status)
	}
}

// formTo returns the form of a page with an action.
func (a arrival) formTo(t testing.TB, action string) (path string, f url.Values) {
	t.Helper()
	for _, m := range formRE.FindAllStringSubmatch(a.text, -1) {
		if m[1] == action {
			return arrival{text: m[0]}.form(t, "")
		}
	}
	t.Fatalf("no form has the action %s", action)
	return "", nil
}

// A board that is open in a language that was changed since loads again. All
// other boards get rows in their own language.
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
		t.Errorf("a board in the earlier language gets %+v", u)
	}
	en, es := follow(t, t.Context(), english, path+"en"), follow(t, t.Context(), spanish, path+"es")
	english.does(english.get(pathOf(s.named("door"))), "done")
	if u := next1(t, en); len(u.Rows) != 1 || !strings.Contains(u.Rows[0].HTML, "<td>Cut the panel</td>") {
		t.Errorf("English: %+v", u)
	}
	if u := next1(t, es); len(u.Rows) != 1 || !strings.Contains(u.Rows[0].HTML, "<td>"+languageOf(t, "es").Say("step.cut")+"</td>") || !strings.Contains(u.Jobs[s.named("door").Job.String()], "terminadas: 0 de 10") {
		t.Errorf("Spanish: %+v", u)
	}
}

// Texts that an earlier version stored, and texts that the catalogue no longer
// has, are shown as they are.
func TestOldSummary(t *testing.T) {
	old := `{"goods":"reed-mesh, vinyl","roll":"reverse","units":"in","cut":{"own":"2 × 3 in","other":""},"diagonal":{"own":"4 in","other":""},
		"facts":[{"name":"Trim tube","value":{"own":"2 in","other":"51 mm"},"more":"donor"}],"lines":[{"name":"hem fold","at_nm":5,"says":{"own":"1 in","other":""}}],
		"findings":[{"level":"caution","text":"odd","remedy":{"en":"no such text %s","with":["x"]}}]}`
	sum, ok := (&mark.Ticket{Summary: []byte(old)}).Summarized()
	got := shownIn(languageOf(t, "es"), sum)
	if !ok || got.Goods != "reed-mesh, vinyl" || got.Facts[0] != (shownFact{"Trim tube", "2 in (51 mm), donor"}) || got.Findings[0] != (shownFact{"caution", "odd; no such text x"}) {
		t.Errorf("shown %+v, %t", got, ok)
	}
}

// A summary that cannot be read leaves its part of the page empty, but its unit
// is still used for bare numbers.
func TestUnreadableSummary(t *testing.T) {
	s := openShop(t, nil)
	door := *s.named("door")
	for raw, unit := range map[string]string{
		`{"goods":{"en":"%[1]s%[1]s","with":["reed"]},"roll":"reverse","units":"mm","cut":{"own":"2 × 3 mm"}}`: "millimetres", // one argument used twice
		`{"goods":"reed","roll":"reverse","units":"mm","cut":"2 × 3 mm"}`:                                      "millimetres", // of another version
		`{"units":5}`: "inches",
		`[]`:          "inches",
		`null`:        "inches",
	} {
		door.Summary = []byte(raw)
		if _, err := s.log.Register(context.Background(), []*mark.Ticket{&door}); err != nil {
			t.Fatal(err)
		}
		p := s.joined()
		if len(s.state(door.Code).Steps) == 0 {
			p.does(p.get(pathOf(&door)), "done")
		}
		wantIn(t, p.get(pathOf(&door)), http.StatusOK, "Next step: Cut the panel", "Width as cut, "+unit)
	}
}
