package interview

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"

	"github.com/google/uuid"

	"shadewright/ticket"
	"shadewright/ticket/finding"
	"shadewright/ticket/form"
	"shadewright/ticket/jobfile"
	"shadewright/ticket/measure"
)

// Options is what holds before the first question.
type Options struct {
	jobfile.Options
	ID    uuid.UUID      // of the new job
	Units measure.System // offered
	Paper string         // offered
}

// A Question is what is asked next.
type Question struct {
	Key      string   // its place in the conversation
	Ask      string   // a few words
	Help     string   // a sentence or two
	Default  string   // taken for an empty answer; empty if there is none
	Choices  []string // the words that can be answered; nil if there are others
	Optional bool     // an empty answer is one
	Length   bool     // a length is asked for

	path string              // of the field in a job file; empty if it has none
	also func(string) string // why a word will not do besides, or ""
}

// An Interview is a conversation that has come to some question. The zero
// Interview is not usable: see [New] and [Resume].
type Interview struct {
	opt    Options
	fields jobfile.Fields
	log    []answer
	now    *walk
}

type answer struct {
	Key  string `json:"key"`
	Text string `json:"text"`
}

// New begins a conversation.
func New(opt Options) *Interview {
	v := &Interview{opt: opt, fields: jobfile.FieldsOf(opt.Options)}
	v.now = v.walk()
	return v
}

// saved is an interview on disk.
type saved struct {
	Note    string    `json:"note"`
	ID      uuid.UUID `json:"id"`
	Answers []answer  `json:"answers"`
}

// Save returns what [Resume] needs to go on.
func (v *Interview) Save() ([]byte, error) {
	data, err := json.MarshalIndent(saved{"Answers so far of shadewright new; run it again to go on.", v.opt.ID, v.log}, "", "  ")
	return append(data, '\n'), err
}

// Resume goes on with a conversation that was saved. Answers that no longer fit
// their questions are left out, with all that follow.
func Resume(data []byte, opt Options) (*Interview, error) {
	var s saved
	if err := json.Unmarshal(data, &s); err != nil {
		return nil, fmt.Errorf("is no conversation that was saved: %w", err)
	}
	opt.ID = s.ID
	v := New(opt)
	for _, a := range s.Answers {
		q, more := v.Next()
		if !more || q.Key != a.Key {
			break
		}
		if _, err := v.Answer(a.Text); err != nil {
			break
		}
	}
	return v, nil
}

// Answered returns how many answers were given.
func (v *Interview) Answered() int { return len(v.log) }

// Next returns the question to ask, or false if all is said.
func (v *Interview) Next() (Question, bool) {
	if v.now.pending == nil {
		return Question{}, false
	}
	return *v.now.pending, true
}

// Check returns why the text is no answer to the question, or nil.
func (v *Interview) Check(text string) error {
	q, more := v.Next()
	if !more {
		return errors.New("nothing more is asked")
	}
	text = q.settle(text)
	if text == "" {
		if q.Optional {
			return nil
		}
		return errors.New("an answer is needed here")
	}
	if err := v.field(q, text); err != nil {
		return err
	}
	return v.whole(q, text)
}

// settle takes the default for an empty answer, and the choice that a beginning
// or other capitals mean.
func (q Question) settle(text string) string {
	text = strings.TrimSpace(text)
	if text == "" {
		return q.Default
	}
	found := ""
	for _, c := range q.Choices {
		if strings.EqualFold(c, text) {
			return c
		}
		if strings.HasPrefix(strings.ToLower(c), strings.ToLower(text)) {
			if found != "" {
				return text // it may mean two
			}
			found = c
		}
	}
	if found != "" {
		return found
	}
	return text
}

func (v *Interview) field(q Question, text string) error {
	for _, c := range q.Choices {
		if c == text {
			return nil
		}
	}
	if q.Choices != nil {
		fix := "write " + strings.Join(q.Choices, ", ")
		if near := form.Nearest(text, q.Choices); near != "" {
			fix = "did you mean " + near + "?"
		}
		return fmt.Errorf("%q is not one of the words allowed here; %s", form.Shorten(text), fix)
	}
	if q.path != "" {
		if f := v.fields.At(q.path).Check(text, v.now.units); f != nil {
			return fmt.Errorf("%q %s; %s", form.Shorten(text), f.Problem, f.Fix)
		}
	}
	if q.also != nil {
		if why := q.also(text); why != "" {
			return fmt.Errorf("%q %s", form.Shorten(text), why)
		}
	}
	return nil
}

// whole judges what concerns several answers, once the last of them is there: a
// barrel that is shorter drawn out than pushed in.
func (v *Interview) whole(q Question, text string) error {
	w := (&Interview{opt: v.opt, fields: v.fields, log: append(v.log[:len(v.log):len(v.log)], answer{q.Key, text})}).walk()
	if w.complete() == v.now.complete() {
		return nil
	}
	_, err := jobfile.Read("", form.Format(w.top, nil), v.opt.Options)
	var problems jobfile.Problems
	if !errors.As(err, &problems) {
		return err
	}
	for _, p := range problems {
		if strings.Contains(p.Field, ".") && p.Problem != "is missing" {
			return fmt.Errorf("%s: %q %s; %s", p.Field, p.Value, p.Problem, p.Fix)
		}
	}
	return nil
}

// Answer takes an answer. It returns what was understood, and what is known of
// the shade that the answer completes. An error leaves the question open.
func (v *Interview) Answer(text string) ([]string, error) {
	if err := v.Check(text); err != nil {
		return nil, err
	}
	q := *v.now.pending
	text = q.settle(text)
	before := len(v.now.shades)
	v.log = append(v.log, answer{q.Key, text})
	v.now = v.walk()
	said := []string{q.Ask + ": " + v.understood(q, text)}
	if len(v.now.shades) > before {
		cut, err := v.whatToCut()
		if err != nil {
			return nil, err
		}
		said = append(said, cut...)
	}
	return said, nil
}

// understood repeats an answer: a length in both units.
func (v *Interview) understood(q Question, text string) string {
	if text == "" {
		return "none"
	}
	if !q.Length {
		return text
	}
	l, err := measure.Parse(text, v.now.units)
	if err != nil {
		return text // it was judged before; this repeats it as it is
	}
	return Both(l, v.now.units)
}

// Both puts a length into words in the person's unit, exactly, and in the other
// one: 31-5/8 in ≈ 803.3 mm. The other is rounded to what its rule shows.
func Both(l measure.Length, u measure.System) string {
	other := measure.Style{System: measure.Millimetres, Metric: measure.Millimetre / 10}
	if u == measure.Millimetres {
		other = measure.Style{System: measure.Inches, Denominator: 32}
	}
	w := other.Words(l, measure.Nearest)
	if l < measure.Inch/32 {
		return form.LengthText(l, measure.Undeclared) // no rule shows it
	}
	sign := " = "
	if w.Rounded {
		sign = " ≈ "
	}
	own := form.LengthText(l, u)
	if !strings.HasSuffix(own, "mm") {
		own += " " + u.String()
	}
	if u == measure.Inches && strings.HasSuffix(own, "mm") { // typed in the other unit
		return own + " ≈ " + measure.Usual(u).Format(l)
	}
	return own + sign + w.String()
}

// Back takes the last answer away. It reports whether there was one.
func (v *Interview) Back() bool {
	if len(v.log) == 0 {
		return false
	}
	v.log = v.log[:len(v.log)-1]
	v.now = v.walk()
	return true
}

// File returns the job of the shades that are complete. The error is a
// [jobfile.Problems].
func (v *Interview) File() (*jobfile.File, error) {
	return jobfile.Read("", form.Format(v.now.top, nil), v.opt.Options)
}

// whatToCut says what would be cut of the last shade, and what was noticed.
func (v *Interview) whatToCut() ([]string, error) {
	f, err := v.File()
	if err != nil {
		return nil, err
	}
	all, err := ticket.Make(&f.Job, ticket.Options{Limits: v.opt.Practice.Limits})
	if err != nil {
		return nil, err
	}
	t := all[len(all)-1]
	say := f.Job.Style.Format
	out := []string{fmt.Sprintf("%s is complete. Cut the panel %s wide and %s long, the tube %s, the slat %s.",
		t.Shade.ID, say(t.Cut.Width), say(t.Cut.Length), say(t.Cut.Tube), say(t.Cut.Slat))}
	for _, n := range t.Findings {
		out = append(out, fmt.Sprintf("%s: %s; %s", n.Level, n.Text, n.Remedy))
	}
	if len(t.Findings) > 0 && t.Findings[0].Level == finding.Stop {
		out = append(out, "It cannot be made so. Go back to change it, or go on and change the file.")
	}
	return out, nil
}
