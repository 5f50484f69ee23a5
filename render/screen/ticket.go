package screen

import (
	"encoding/json"
	"errors"
	"net/http"
	"strings"
	"time"

	"shadewright/ticket/code"
	"shadewright/ticket/mark"
	"shadewright/ticket/mark/store"
	"shadewright/ticket/measure"
	"shadewright/ticket/route"
)

// ticketPage is what the page of a ticket shows.
type ticketPage struct {
	frame
	Answer  *answer
	Path    string // its address, for its forms
	Code    string
	Name    string
	Job     string
	Due     string
	Late    bool
	Sum     Summary
	HasSum  bool
	Drawing *drawing
	Counts  bool // the paper counts: it may be marked
	Spoilt  bool
	Use     string // path of the ticket to use instead; may be empty
	Hold    string // why it waits; empty if it does not
	Next    *next
	Done    []doneStep // in the order they were done
	Steps   int
	Left    []string
	Holds   []string
	Remakes []string
	IDs     struct{ Done, Undo, Hold, Release, Remake string }
}

// An answer is what is said about the mark that was just sent.
type answer struct {
	Good   bool
	Word   string // the verdict
	Text   string
	Anyway bool // the reading is off and may be let pass
	Values map[string]string
}

type next struct {
	Key, Name, Reading string
	Unit               string // of a bare number
	Keyboard           string // that suits the unit
	Values             map[string]string
}

type doneStep struct{ Name, When, Who, Took, Reading string }

// reply is what a script is told.
type reply struct {
	Good    bool   `json:"good"`
	Outcome string `json:"outcome"`
	Message string `json:"message"`
}

func (s *Screen) showTicket(w http.ResponseWriter, r *http.Request, me session) {
	c, rev, err := ticketPath(r.PathValue("code"))
	if err != nil {
		s.say(w, r, http.StatusNotFound, "That is no ticket", err.Error())
		return
	}
	a, err := s.opt.Record.Look(r.Context(), c, rev)
	if err != nil {
		s.failed(w, r, err)
		return
	}
	s.ticketAnswer(w, r, me, c, rev, a, http.StatusOK, nil)
}

// ticketAnswer shows a ticket after an answer; said is what to show of it, if
// anything was asked.
func (s *Screen) ticketAnswer(w http.ResponseWriter, r *http.Request, me session, c code.Code, rev code.Revision, a mark.Answer, status int, said *answer) {
	if wantsJSON(r) {
		writeReply(w, status, reply{a.Good(), string(a.Outcome), a.Message})
		return
	}
	if a.State == nil {
		s.say(w, r, http.StatusNotFound, "No ticket has this code", verdict(a.Message).Text)
		return
	}
	switch a.Outcome {
	case mark.Superseded, mark.NoRevision, mark.Spoilt:
		if said == nil {
			said = verdict(a.Message)
		}
	}
	p := s.ticketPage(me, c, rev, a.State)
	p.Answer = said
	p.Counts = p.Counts && a.Outcome != mark.Superseded && a.Outcome != mark.NoRevision
	p.Title = p.Name
	if said != nil {
		p.Title = said.Word + ": " + p.Name
		if p.Next != nil {
			p.Next.Values = said.Values
		}
	}
	s.page(w, r, status, "ticket.html", p)
}

// verdict splits a message into its first word and the rest.
func verdict(message string) *answer {
	word, text, ok := strings.Cut(message, "  ")
	if !ok {
		return &answer{Word: "NO", Text: message}
	}
	return &answer{Word: word, Text: text}
}

func (s *Screen) markTicket(w http.ResponseWriter, r *http.Request, me session) {
	c, rev, err := ticketPath(r.PathValue("code"))
	if err != nil {
		s.say(w, r, http.StatusNotFound, "That is no ticket", err.Error())
		return
	}
	before, err := s.opt.Record.Look(r.Context(), c, rev)
	if err != nil {
		s.failed(w, r, err)
		return
	}
	var sum Summary
	if before.State != nil {
		sum, _ = read(before.State.Ticket.Summary) // without one a bare number is in inches
	}
	m, err := markOf(r.PostForm, c, rev, me, unitsOf(sum), s.opt.Now())
	if err == nil {
		err = m.Check()
	}
	if err != nil {
		said := &answer{Word: "NO", Text: strings.ReplaceAll(err.Error(), "\n", "; "), Values: values(r)}
		a := before
		a.Outcome, a.Message = "unreadable", "NO  "+said.Text
		s.ticketAnswer(w, r, me, c, rev, a, http.StatusUnprocessableEntity, said)
		return
	}
	a, err := s.mark(r, m)
	if err != nil {
		s.failed(w, r, err)
		return
	}
	said := verdict(a.Message)
	said.Good = a.Good()
	status := http.StatusOK
	if !a.Recorded() {
		status = http.StatusConflict
	}
	if a.Outcome == mark.ReadingOff {
		said.Anyway, said.Values = true, values(r)
	}
	s.ticketAnswer(w, r, me, c, rev, a, status, said)
}

// mark sends a mark. A form that is sent twice, by a second tap or a reload, has
// one id and two times, perhaps two names; it is the mark it was the first time.
func (s *Screen) mark(r *http.Request, m mark.Mark) (mark.Answer, error) {
	a, err := s.opt.Record.Mark(r.Context(), m)
	var twice *store.IDError
	if errors.As(err, &twice) {
		m.Time, m.Who, m.Where = twice.Old.Time, twice.Old.Who, twice.Old.Where
		return s.opt.Record.Mark(r.Context(), m)
	}
	return a, err
}

// values are the readings of a form, to be shown in it again.
func values(r *http.Request) map[string]string {
	v := map[string]string{}
	for _, name := range []string{"first", "second", "width", "turns"} {
		v[name] = r.PostForm.Get(name)
	}
	return v
}

func writeReply(w http.ResponseWriter, status int, v reply) {
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(status)
	// The status is out; a phone that went away asks again.
	_ = json.NewEncoder(w).Encode(v)
}

// ticketPage gathers what is shown of a ticket.
func (s *Screen) ticketPage(me session, c code.Code, rev code.Revision, st *mark.State) *ticketPage {
	t := st.Ticket
	p := &ticketPage{
		frame: s.frame(me, ""), Path: "/T/" + c.With(rev), Code: c.Grouped(), Name: t.Name(), Job: t.JobName, Late: st.Late(s.opt.Now()),
		Counts: st.Spoilt == nil, Spoilt: st.Spoilt != nil, Steps: len(t.Route), Holds: s.opt.Holds, Remakes: s.opt.Spoilt,
	}
	if !t.Due.IsZero() {
		p.Due = t.Due.Format("2 January 2006")
	}
	if p.Sum, p.HasSum = read(t.Summary); p.HasSum {
		p.Drawing = drawingOf(p.Sum)
	}
	if st.Hold != nil {
		p.Hold = st.Hold.Reason
	}
	if st.Replaced {
		p.Use = "/T/" + string(t.Successor())
	}
	for _, id := range []*string{&p.IDs.Done, &p.IDs.Undo, &p.IDs.Hold, &p.IDs.Release, &p.IDs.Remake} {
		*id = s.opt.NewID().String()
	}
	for _, d := range st.Steps {
		p.Done = append(p.Done, doneOf(t.Route, d, unitsOf(p.Sum)))
	}
	p.next(st)
	return p
}

// next fills in what is left to do.
func (p *ticketPage) next(st *mark.State) {
	n, more := st.Next()
	for _, step := range st.Ticket.Route {
		if _, done := st.Step(step.Key); !done && step.Key != n.Key {
			p.Left = append(p.Left, step.Name)
		}
	}
	if !more {
		return
	}
	p.Next = &next{Key: n.Key, Name: n.Name, Reading: string(n.Reading), Unit: "inches", Keyboard: "text"} // fractions need a slash
	if unitsOf(p.Sum) == measure.Millimetres {
		p.Next.Unit, p.Next.Keyboard = "millimetres", "decimal"
	}
}

func doneOf(r route.Route, d mark.Doing, units measure.System) doneStep {
	out := doneStep{Name: d.Step, When: d.Time.Local().Format("Mon 2 Jan, 15:04"), Who: d.Who}
	if step, ok := r.Step(d.Step); ok {
		out.Name = step.Name
	}
	if d.Took > 0 {
		out.Took = d.Took.Round(time.Minute).String()
		out.Took = strings.TrimSuffix(out.Took, "0s")
		if out.Took == "" {
			out.Took = "less than a minute"
		}
	}
	fine := measure.Usual(units)
	switch g := d.Readings; {
	case g.Diagonals[0] > 0:
		out.Reading = fine.Format(g.Diagonals[0]) + " and " + fine.Format(g.Diagonals[1])
	case g.Width > 0:
		out.Reading = fine.Format(g.Width)
	case g.Turns > 0:
		out.Reading = g.Turns.String() + " turns"
	}
	return out
}
