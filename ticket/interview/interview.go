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

// Options holds what is known before the first question.
type Options struct {
	jobfile.Options
	ID    uuid.UUID      // of the new job
	Units measure.System // offered as the default
	Paper string         // offered as the default
}

// A Question is the next question to ask.
type Question struct {
	Key      string   // its place in the interview
	Ask      string   // the question, without a question mark
	Help     string   // a sentence or two
	Default  string   // the meaning of an empty answer; empty if there is none
	Choices  []string // the allowed words; nil if any text is allowed
	Optional bool     // an empty answer is allowed
	Length   bool     // the answer is a length

	path string              // of the field in a job file; empty if there is none
	also func(string) string // returns what else is wrong with a text, or ""; may be nil
}

// An Interview is a list of answers and the question that follows. The zero
// Interview is not usable: see [New] and [Resume].
type Interview struct {
	opt     Options
	fields  jobfile.Fields
	answers []answer
	now     *walk
}

type answer struct {
	Key  string `json:"key"`
	Text string `json:"text"`
}

// New starts an interview.
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

// Save returns the data from which [Resume] continues.
func (v *Interview) Save() ([]byte, error) {
	data, err := json.MarshalIndent(saved{"The answers to shadewright new so far; run it again to continue.", v.opt.ID, v.answers}, "", "  ")
	return append(data, '\n'), err
}

// Resume continues a saved interview. It drops the first answer that no longer fits
// its question, and all later ones.
func Resume(data []byte, opt Options) (*Interview, error) {
	var s saved
	if err := json.Unmarshal(data, &s); err != nil {
		return nil, fmt.Errorf("is not a saved interview: %w", err)
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

// Answered returns the number of answers.
func (v *Interview) Answered() int { return len(v.answers) }

// Next returns the question to ask, or false if there are no more questions.
func (v *Interview) Next() (Question, bool) {
	if v.now.pending == nil {
		return Question{}, false
	}
	return *v.now.pending, true
}

// Check returns what is wrong with an answer, or nil.
func (v *Interview) Check(text string) error {
	q, more := v.Next()
	if !more {
		return errors.New("there are no more questions")
	}
	text = q.settle(text)
	if text == "" {
		if q.Optional {
			return nil
		}
		return errors.New("this question needs an answer")
	}
	if err := v.field(q, text); err != nil {
		return err
	}
	return v.whole(q, text)
}

// settle returns the default for an empty answer. It completes the beginning of a
// choice and corrects its capitals.
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
				return text // it could mean either choice
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

// whole checks an answer that completes a part or a shade against the earlier
// answers: for example, a tube whose shortest length is more than its longest.
func (v *Interview) whole(q Question, text string) error {
	w := (&Interview{opt: v.opt, fields: v.fields, answers: append(v.answers[:len(v.answers):len(v.answers)], answer{q.Key, text})}).walk()
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

// Answer accepts an answer. It returns how it understood the answer and, if the
// answer completes a shade, what to cut. After an error the question stays open.
func (v *Interview) Answer(text string) ([]string, error) {
	if err := v.Check(text); err != nil {
		return nil, err
	}
	q := *v.now.pending
	text = q.settle(text)
	before := len(v.now.shades)
	v.answers = append(v.answers, answer{q.Key, text})
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

// understood repeats an answer for the person, a length in both units.
func (v *Interview) understood(q Question, text string) string {
	if text == "" {
		return "none"
	}
	if !q.Length {
		return text
	}
	l, err := measure.Parse(text, v.now.units)
	if err != nil {
		return text // Check accepted it, so this cannot happen; repeat it as it is
	}
	return Both(l, v.now.units)
}

// Both writes a length in the person's unit, exactly, and in the other unit: 31-5/8
// in ≈ 803.3 mm. The other unit is rounded to what its rule shows.
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

// Back removes the last answer. It returns false if there was none.
func (v *Interview) Back() bool {
	if len(v.answers) == 0 {
		return false
	}
	v.answers = v.answers[:len(v.answers)-1]
	v.now = v.walk()
	return true
}

// File returns the job of all complete shades. The error is a [jobfile.Problems].
func (v *Interview) File() (*jobfile.File, error) {
	return jobfile.Read("", form.Format(v.now.top, nil), v.opt.Options)
}

// whatToCut returns what to cut for the last shade, and its findings.
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
		out = append(out, "This shade cannot be made. Go back to change it, or continue and change the file later.")
	}
	return out, nil
}
