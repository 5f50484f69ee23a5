package mark

import (
	"strings"

	"shadewright/ticket/code"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
	"shadewright/ticket/route"
	"shadewright/ticket/square"
)

// An Order says what the shop does with a step marked before its turn.
type Order string

// The orders.
const (
	Note   Order = "note"   // accept the mark and say what was skipped
	Refuse Order = "refuse" // do not accept the mark
)

// A Policy says how the shop judges marks.
type Policy struct {
	OutOfOrder Order
	Tolerance  measure.Length // a panel whose width is off by no more passes
	Square     square.Limit   // of a panel's diagonals, as its ticket prints it; zero: the usual limit
	Style      measure.Style  // of lengths in answers
}

// UsualPolicy notes steps out of order and accepts 1/16 in of width (common
// practice, no source).
func UsualPolicy() Policy {
	return Policy{OutOfOrder: Note, Tolerance: measure.Inch / 16, Style: measure.Usual(measure.Inches)}
}

// An Outcome says what became of a mark.
type Outcome string

// The outcomes. The first four record the mark.
const (
	Taken      Outcome = "taken"        // as it was sent
	Again      Outcome = "again"        // the same mark sent twice; it is recorded once
	Skipping   Outcome = "skipping"     // recorded, though steps before it are not done
	ReadingOff Outcome = "reading-off"  // the reading is recorded, but the step is not done
	Unchanged  Outcome = "unchanged"    // no mark was sent: the answer only informs
	Unknown    Outcome = "unknown"      // no ticket has this code
	Superseded Outcome = "superseded"   // a newer paper was printed
	NoRevision Outcome = "no-revision"  // this revision was never printed
	NoStep     Outcome = "no-step"      // the ticket's route has no such step
	AlreadyIs  Outcome = "already"      // it is done, held, released or undone already
	OutOfOrder Outcome = "out-of-order" // steps before it are not done, and the shop refuses such marks
	OnHold     Outcome = "on-hold"      // the ticket waits
	Finished   Outcome = "finished"     // every step is done
	Spoilt     Outcome = "spoilt"       // the ticket was remade
	NotAsked   Outcome = "not-asked"    // a reading that the step does not ask for
	Unreadable Outcome = "unreadable"   // the text sent is not a mark
)

// An Answer is the reply to the sender of a mark.
type Answer struct {
	Outcome Outcome
	Entry   Entry           // as recorded, if Recorded; its Seq is zero until the record assigns one
	State   *State          // of the ticket after the mark; nil if the code is unknown
	Verdict message.Message // one or two words: good or bad
	Text    message.Message // the ticket, what happened and what to do
	Changed message.Message // for Superseded: what differs on the newest paper, if that is known; also part of Text
}

// Message returns the whole answer on one line without colour, the verdict first.
func (a Answer) Message() message.Message { return message.Join("  ", a.Verdict, a.Text) }

// Recorded reports whether the mark is in the record.
func (a Answer) Recorded() bool {
	switch a.Outcome {
	case Taken, Again, Skipping, ReadingOff:
		return true
	}
	return false
}

// Good reports whether the sender may continue without reading the answer. Good
// answers have the good sound.
func (a Answer) Good() bool { return a.Outcome == Taken || a.Outcome == Again }

// Judge answers a mark for a ticket in state s; s is nil if no ticket has the code.
// If the answer is Recorded, its Entry is the mark with its open fields filled in,
// and its State includes the mark.
func (p Policy) Judge(s *State, m Mark) Answer {
	j := judging{p: p, s: s, m: m}
	if a, refused := j.paper(); refused {
		return a
	}
	if j.m.Revision == "" {
		j.m.Revision = s.Ticket.Revision
	}
	switch m.Kind {
	case Done, Measured:
		return j.done()
	case Undone:
		return j.undone()
	case Held:
		if s.Hold != nil {
			return j.refuse(AlreadyIs, message.Of("mark.held-already", heldSince(s.Hold)))
		}
		return j.take(Taken, message.Of("mark.held"), message.Of("mark.held-until-released", m.Reason.Message()))
	case Released:
		if s.Hold == nil {
			return j.refuse(AlreadyIs, message.Of("mark.not-held"), j.nextWords())
		}
		return j.take(Taken, message.Of("mark.released"), message.Of("mark.go-on"))
	}
	return j.take(Taken, message.Of("mark.remade"), message.Of("mark.remade-print-again", m.Reason.Message(), s.Ticket.Successor().Grouped()))
}

// Repeat answers a mark whose id already belongs to the recorded mark old. ok is
// false if the mark differs from old, which is a fault of the sender.
func (p Policy) Repeat(s *State, old Entry, m Mark) (a Answer, ok bool) {
	j := judging{p: p, s: s, m: m}
	a = j.answer(Again, message.Of("mark.again"), message.Of("mark.sent-before"), j.nextWords())
	a.Entry = old
	return a, old.Same(m)
}

// Look answers a scan that marks nothing: where the ticket stands, or why the paper
// does not count. The revision may be empty.
func (p Policy) Look(s *State, c code.Code, r code.Revision) Answer {
	j := judging{p: p, s: s, m: Mark{Code: c, Revision: r}}
	a, refused := j.paper()
	switch {
	case refused:
		return a
	case s.Hold != nil:
		return j.answer(OnHold, message.Of("mark.held"), message.Of("mark.held-until-released", heldSince(s.Hold)))
	case s.Finished():
		return j.answer(Finished, message.Of("mark.finished"), message.Of("mark.every-step-done"))
	}
	return j.answer(Unchanged, message.Of("mark.ready"), message.Of("mark.go-on"), j.nextWords())
}

// judging is one mark that is being judged.
type judging struct {
	p Policy
	s *State
	m Mark
}

// paper refuses an unknown code, a paper that no longer counts, and a ticket that
// was remade.
func (j *judging) paper() (Answer, bool) {
	s, m := j.s, j.m
	switch {
	case s == nil:
		return Answer{
			Outcome: Unknown, Verdict: message.Of("mark.no"),
			Text: message.Of("mark.unknown-code", m.Code.Grouped()),
		}, true
	case s.Spoilt != nil && (m.Kind != Undone || m.Step != ""):
		return j.refuse(Spoilt, message.Of("mark.panel-was-remade", heldSince(s.Spoilt)), j.useSuccessor()), true
	case m.Revision == "" || m.Revision == s.Ticket.Revision:
		return Answer{}, false
	}
	switch old := s.paper(m.Revision); {
	case old == nil:
		return j.refuse(NoRevision, message.Of("mark.unknown-revision", string(m.Revision), string(s.Ticket.Revision))), true
	case old.Agrees(s.Ticket):
		return Answer{}, false
	}
	a := j.refuse(Superseded, message.Of("mark.superseded", string(m.Revision), string(s.Ticket.Revision)))
	a.Changed = s.paper(m.Revision).ChangedTo(s.Ticket, j.p.Style.Comma)
	if !a.Changed.IsZero() {
		a.Text = message.Of("mark.what-changed", a.Text, a.Changed)
	}
	return a, true
}

func (j *judging) useSuccessor() message.Message {
	next := j.s.Ticket.Successor().Grouped()
	if j.s.Replaced {
		return message.Of("mark.use-new-ticket", next)
	}
	return message.Of("mark.print-again", next)
}

func (j *judging) done() Answer {
	s, m := j.s, &j.m
	if s.Hold != nil {
		return j.refuse(OnHold, message.Of("mark.held-first-release", heldSince(s.Hold)))
	}
	if m.Step == "" {
		next, more := s.Next()
		if !more {
			return j.refuse(Finished, message.Of("mark.nothing-left"))
		}
		m.Step = next.Key
	}
	step, ok := s.Ticket.Route.Step(m.Step)
	if !ok {
		return j.refuse(NoStep, message.Of("mark.no-such-step", m.Step, strings.Join(s.Ticket.Route.Keys(), ", ")))
	}
	if m.Readings != m.Readings.only(step.Reading) {
		return j.refuse(NotAsked, message.Of("mark.reading-not-asked", step.Message()), asksFor(step.Reading))
	}
	if d, done := s.Step(m.Step); done {
		return j.doneAlready(step, d)
	}
	skipped := s.Ticket.Route.Skipped(m.Step, s.done)
	if len(skipped) > 0 && j.p.OutOfOrder == Refuse {
		return j.refuse(OutOfOrder, message.Of("mark.too-early", step.Message(), names(skipped)))
	}
	return j.doneInRoute(step, skipped)
}

// doneAlready answers a mark for a step that is done. A reading sent with it is
// recorded, once: at a bench with a scanner, people type it after the scan.
func (j *judging) doneAlready(step route.Step, d Doing) Answer {
	m := &j.m
	if m.Kind != Measured || m.Readings == (Readings{}) || d.Readings != (Readings{}) {
		return j.refuse(AlreadyIs, message.Of("mark.done-before", step.Message(), atBy(d.Time, d.Who)), j.nextWords())
	}
	reading, pass := j.reading(step)
	if pass {
		return j.take(Taken, message.Of("mark.kept"), message.Of("mark.step-marked", step.Message()), reading, j.nextWords())
	}
	return j.take(ReadingOff, message.Of("mark.not-so"), message.Of("mark.step-marked", step.Message()), reading, message.Of("mark.undo-and-mark-again"))
}

// doneInRoute records a step whose turn it is, or that the shop lets go ahead.
func (j *judging) doneInRoute(step route.Step, skipped []route.Step) Answer {
	m := &j.m
	reading, pass := j.reading(step)
	if m.Kind == Measured || !pass && !m.Anyway {
		m.Kind = Measured
		if pass {
			return j.take(Taken, message.Of("mark.kept"), message.Of("mark.step-not-marked", step.Message()), reading)
		}
		return j.take(ReadingOff, message.Of("mark.not-yet"), message.Of("mark.step-not-done", step.Message()), reading)
	}
	if len(skipped) > 0 {
		return j.take(Skipping, message.Of("mark.done-but"), message.Of("mark.out-of-order", step.Message(), names(skipped)), reading)
	}
	return j.take(Taken, message.Of("mark.done"), step.Message(), reading)
}

// reading says what a step's reading means, and whether the step may pass.
func (j *judging) reading(step route.Step) (words message.Message, pass bool) {
	if !j.m.Readings.has(step.Reading) {
		return asksFor(step.Reading), true
	}
	if step.Reading == route.None {
		return message.Message{}, true
	}
	return j.p.answer(step.Reading, j.m.Readings, j.s.Ticket)
}

func (j *judging) undone() Answer {
	s, m := j.s, &j.m
	if s.Spoilt != nil {
		if s.Replaced {
			return j.refuse(Spoilt, message.Of("mark.new-ticket-printed", s.Ticket.Successor().Grouped()))
		}
		return j.take(Taken, message.Of("mark.undone"), message.Of("mark.remake-undone"))
	}
	if m.Step == "" {
		if len(s.Steps) == 0 {
			return j.refuse(AlreadyIs, message.Of("mark.nothing-to-undo"))
		}
		m.Step = s.Steps[len(s.Steps)-1].Step
	}
	if _, done := s.Step(m.Step); !done {
		return j.refuse(AlreadyIs, message.Of("mark.step-nothing-to-undo", j.stepName(m.Step)))
	}
	return j.take(Taken, message.Of("mark.undone"), j.stepName(m.Step))
}

func (j *judging) stepName(key string) message.Message {
	if step, ok := j.s.Ticket.Route.Step(key); ok {
		return step.Message()
	}
	return message.Verbatim(key) // a route printed since then no longer has it
}
