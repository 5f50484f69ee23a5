package web

import (
	"encoding/json"
	"errors"
	"net/http"
	"time"

	"shadewright/render/language"
	"shadewright/ticket/code"
	"shadewright/ticket/mark"
	"shadewright/ticket/mark/record"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
	"shadewright/ticket/route"
)

// ticketPage is the content of a ticket's page.
type ticketPage struct {
	frame
	Answer  *answer
	Path    string // address for its forms
	Code    string
	Name    string
	Job     string
	Due     string
	Late    bool
	Sum     *shown // nil if the summary is missing or unreadable
	Drawing *drawing
	Counts  bool // the paper is valid and may be marked
	Spoilt  bool
	Use     string // path of the ticket to use instead; may be empty
	Hold    string // reason of a hold; empty without one
	Next    *next
	Done    []doneStep // in the order of work done
	Steps   int
	Left    []string
	Holds   []reason
	Remakes []reason
	IDs     struct{ Done, Undo, Hold, Release, Remake string }
}

// An answer is the reply to the mark that was just sent.
type answer struct {
	Good   bool
	Word   string // the verdict
	Text   string
	Anyway bool // the reading is off and may be accepted
	Values map[string]string
}

type next struct {
	Key, Name, Reading string
	Unit               string // unit of a bare number
	Keyboard           string // keyboard for that unit
	Values             map[string]string
}

// A doneStep is a step that is done, with its time, person and duration.
type doneStep struct{ Name, Reading, How string }

// A reason is stored as Word and shown as Says in the phone's language.
type reason struct{ Word, Says string }

// A reply is the answer to a script.
type reply struct {
	Good    bool   `json:"good"`
	Outcome string `json:"outcome"`
	Message string `json:"message"`
}

// A visit is a request for a ticket: the phone that asks, and the code and
// revision of its paper.
type visit struct {
	w    http.ResponseWriter
	r    *http.Request
	me   member
	code code.Code
	rev  code.Revision
}

// visit reads the ticket's code in the address. If there is none, it answers
// the request itself and returns false.
func (s *Server) visit(w http.ResponseWriter, r *http.Request, me member) (v visit, ok bool) {
	c, rev, err := ticketPath(r.PathValue("code"))
	if err != nil {
		s.showMessage(w, r, http.StatusNotFound, "web.not-a-ticket", message.FromError(err))
		return visit{}, false
	}
	return visit{w, r, me, c, rev}, true
}

func (s *Server) showTicket(w http.ResponseWriter, r *http.Request, me member) {
	v, ok := s.visit(w, r, me)
	if !ok {
		return
	}
	a, err := s.opt.Record.Look(r.Context(), v.code, v.rev)
	if err != nil {
		s.failed(w, r, err)
		return
	}
	s.ticketAnswer(v, a, http.StatusOK, nil)
}

// ticketAnswer shows a ticket after the record answered. said is the reply to
// show, or nil if nothing was sent.
func (s *Server) ticketAnswer(v visit, a mark.Answer, status int, said *answer) {
	if wantsJSON(v.r) {
		s.reply(v.w, v.r, status, reply{a.Good(), string(a.Outcome), s.speaks(v.r).Put(a.Message())})
		return
	}
	if a.State == nil {
		s.showMessage(v.w, v.r, http.StatusNotFound, "web.unknown-code", a.Text)
		return
	}
	switch a.Outcome {
	case mark.Superseded, mark.NoRevision, mark.Spoilt:
		if said == nil {
			said = s.answer(v, a)
		}
	}
	p := s.ticketPage(v, a.State)
	p.Answer = said
	p.Counts = p.Counts && a.Outcome != mark.Superseded && a.Outcome != mark.NoRevision
	p.Title = p.Name
	if said != nil {
		p.Title = said.Word + ": " + p.Name
		if p.Next != nil {
			p.Next.Values = said.Values
		}
	}
	s.page(v.w, v.r, status, "ticket.html", p)
}

// answer returns the record's answer in the phone's language.
func (s *Server) answer(v visit, a mark.Answer) *answer {
	l := s.speaks(v.r)
	return &answer{Good: a.Good(), Word: l.Put(a.Verdict), Text: l.Put(a.Text)}
}

func (s *Server) markTicket(w http.ResponseWriter, r *http.Request, me member) {
	v, ok := s.visit(w, r, me)
	if !ok {
		return
	}
	before, err := s.opt.Record.Look(r.Context(), v.code, v.rev)
	if err != nil {
		s.failed(w, r, err)
		return
	}
	var sum mark.Summary
	if before.State != nil {
		sum, _ = before.State.Ticket.Summarized() // without a summary, a bare number is in inches
	}
	m, err := markOf(r.PostForm, mark.Mark{Code: v.code, Revision: v.rev, Who: me.Who, Where: me.Where, Time: s.opt.Now()}, unitsOf(sum))
	if err == nil {
		err = m.Check()
	}
	if err != nil {
		a := before
		a.Outcome, a.Verdict, a.Text = mark.Unreadable, message.Of("mark.no"), message.FromError(err)
		said := s.answer(v, a)
		said.Values = values(r)
		s.ticketAnswer(v, a, http.StatusUnprocessableEntity, said)
		return
	}
	a, err := s.mark(r, m)
	if err != nil {
		s.failed(w, r, err)
		return
	}
	said := s.answer(v, a)
	status := http.StatusOK
	if !a.Recorded() {
		status = http.StatusConflict
	}
	if a.Outcome == mark.ReadingOff {
		said.Anyway, said.Values = true, values(r)
	}
	s.ticketAnswer(v, a, status, said)
}

// mark sends a mark to the record. A second tap or a reload sends the same form
// again: the same id with another time, perhaps another name. The first mark
// stands.
func (s *Server) mark(r *http.Request, m mark.Mark) (mark.Answer, error) {
	a, err := s.opt.Record.Mark(r.Context(), m)
	var twice *record.IDError
	if errors.As(err, &twice) {
		m.Time, m.Who, m.Where = twice.Old.Time, twice.Old.Who, twice.Old.Where
		return s.opt.Record.Mark(r.Context(), m)
	}
	return a, err
}

// values returns the readings of a form, to fill them in again.
func values(r *http.Request) map[string]string {
	v := map[string]string{}
	for _, name := range []string{"first", "second", "width", "turns"} {
		v[name] = r.PostForm.Get(name)
	}
	return v
}

func (s *Server) reply(w http.ResponseWriter, r *http.Request, status int, v reply) {
	w.Header().Set("Content-Type", "application/json")
	w.Header().Set("Content-Language", s.speaks(r).Tag())
	w.WriteHeader(status)
	// The status is sent already, and a phone that went away asks again.
	_ = json.NewEncoder(w).Encode(v)
}

// ticketPage gathers the content of a ticket's page.
func (s *Server) ticketPage(v visit, st *mark.State) *ticketPage {
	t, l := st.Ticket, s.speaks(v.r)
	p := &ticketPage{
		frame: s.frame(v.r, ""), Path: "/T/" + v.code.With(v.rev), Code: v.code.Grouped(), Name: l.Put(t.Called()), Job: t.JobName, Late: st.Late(s.opt.Now()),
		Counts: st.Spoilt == nil, Spoilt: st.Spoilt != nil, Steps: len(t.Route), Holds: reasons(l, s.opt.Holds), Remakes: reasons(l, s.opt.Spoilt),
	}
	if !t.Due.IsZero() {
		p.Due = l.Say("web.due", message.At(t.Due, message.Date))
	}
	sum, known := t.Summarized()
	if known {
		p.Sum, p.Drawing = shownIn(l, sum), drawingOf(sum, l)
	}
	if st.Hold != nil {
		p.Hold = l.Put(st.Hold.Reason.Message())
	}
	if st.Replaced {
		p.Use = "/T/" + string(t.Successor())
	}
	for _, id := range []*string{&p.IDs.Done, &p.IDs.Undo, &p.IDs.Hold, &p.IDs.Release, &p.IDs.Remake} {
		*id = s.opt.NewID().String()
	}
	style := measure.Usual(unitsOf(sum))
	style.Comma = s.opt.Comma
	for _, d := range st.Steps {
		p.Done = append(p.Done, doneOf(t.Route, d, style, l))
	}
	p.next(st, unitsOf(sum))
	return p
}

func reasons(l language.Language, words []string) []reason {
	list := make([]reason, len(words))
	for i, w := range words {
		list[i] = reason{w, l.Put(message.ReasonTerm.Term(w).Message())}
	}
	return list
}

// next fills in the remaining steps.
func (p *ticketPage) next(st *mark.State, units measure.System) {
	n, more := st.Next()
	for _, step := range st.Ticket.Route {
		if _, done := st.Step(step.Key); !done && step.Key != n.Key {
			p.Left = append(p.Left, p.Put(step.Message()))
		}
	}
	if !more {
		return
	}
	p.Next = &next{Key: n.Key, Name: p.Put(n.Message()), Reading: string(n.Reading), Unit: p.Say("web.inches"), Keyboard: "text"} // fractions need a slash
	if units == measure.Millimetres {
		p.Next.Unit, p.Next.Keyboard = p.Say("web.millimetres"), "decimal"
	}
}

func doneOf(r route.Route, d mark.Doing, style measure.Style, l language.Language) doneStep {
	out := doneStep{Name: d.Step, How: l.Put(how(d))}
	if step, ok := r.Step(d.Step); ok {
		out.Name = l.Put(step.Message())
	}
	switch g := d.Readings; {
	case g.Diagonals[0] > 0:
		out.Reading = l.Put(message.List(message.Verbatim(style.Format(g.Diagonals[0])), message.Verbatim(style.Format(g.Diagonals[1]))))
	case g.Width > 0:
		out.Reading = style.Format(g.Width)
	case g.Turns > 0:
		out.Reading = l.Say("common.turns", g.Turns.In(style))
	}
	return out
}

// how says when a step was done, by whom, and how long it took.
func how(d mark.Doing) message.Message {
	when := message.Message{Args: []any{message.At(d.Time.Local(), message.Stamp)}}
	if d.Who != "" {
		when = message.Of("web.by", when, d.Who)
	}
	if d.Took > 0 {
		when = message.Of("web.took", when, span(d.Took))
	}
	return when
}

// span returns a duration to the minute, as text.
func span(d time.Duration) message.Message {
	minutes := int(d.Round(time.Minute) / time.Minute)
	switch {
	case minutes == 0:
		return message.Of("web.less-than-minute")
	case minutes < 60:
		return message.Of("web.minutes", minutes)
	}
	return message.Of("web.hours-minutes", minutes/60, minutes%60)
}
