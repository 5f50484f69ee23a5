package interview

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"github.com/google/uuid"

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
	Today time.Time      // completes a date without a year
}

// Pass is the answer that passes over an optional question, even if the question has a
// default or an earlier answer.
const Pass = "-"

// A Question is a question to ask.
type Question struct {
	Key      string   // its place in the job file, such as shades[2].opening.depth
	Ask      string   // the question, without a question mark
	Help     string   // a sentence or two
	More     string   // what to know before answering; empty if Help says it all
	Default  string   // the meaning of an empty answer; empty if there is none
	Was      string   // an earlier answer to edit, or [Pass]; an empty answer keeps it
	Why      string   // why an earlier answer is asked again; empty if it was not refused
	Choices  []string // the words to choose from; nil if any text is allowed
	Free     bool     // other words than the Choices are allowed
	Rows     bool     // the choices are long: show each on a line of its own
	Optional bool     // the question may be passed over
	Skip     string   // what passing over leaves unchecked

	item *item
	also func(string) string // returns what else is wrong with a text, or ""; may be nil
}

// An Entered is an answer that was given, for a list to choose from.
type Entered struct {
	Key   string
	About string // the shade or part that it belongs to; empty for the job
	Ask   string
	Text  string // as understood
}

// An Interview is a set of answers and the question that follows. The zero Interview
// is not usable: see [New], [Edit] and [Resume].
type Interview struct {
	opt     Options
	fields  jobfile.Fields
	base    *form.Node // the job file that is changed; nil for a new job
	answers map[string]string
	refused map[string]string // why an answer is asked again, by its key
	cursor  string            // the key of the question to ask although it has an answer
	units   measure.System    // as answered
	now     *walk
	tried   *tried
}

// New starts the interview for a new job.
func New(opt Options) *Interview { return start(nil, opt) }

// Edit starts an interview about an existing job file, all of whose questions count as
// answered. The ID of the options is not used.
func Edit(file *form.Node, opt Options) *Interview { return start(file, opt) }

func start(base *form.Node, opt Options) *Interview {
	v := &Interview{opt: opt, fields: jobfile.FieldsOf(opt.Options), base: base, answers: map[string]string{}, refused: map[string]string{}}
	v.now = v.walk()
	return v
}

// with returns a copy of the interview with one more answer.
func (v *Interview) with(key, text string) *Interview {
	o := &Interview{opt: v.opt, fields: v.fields, base: v.base, answers: maps.Clone(v.answers), refused: maps.Clone(v.refused), units: v.units, now: v.now}
	o.set(key, text)
	return o
}

// set stores an answer. A new unit leaves every length as long as it was.
func (v *Interview) set(key, text string) {
	if was := v.now; key == "units" && was != nil && v.units.String() != text {
		for _, a := range was.seen {
			if a.item != nil && a.item.length {
				v.answers[a.Key] = withUnits(a.text, v.units)
			}
		}
	}
	if was := v.answers[key]; was != "" && strings.HasPrefix(key, "shades[") && strings.HasSuffix(key, ".name") {
		v.rename(strings.Split(key, ".")[1], was, text)
	}
	v.answers[key] = text
	delete(v.refused, key)
	v.now = v.walk()
}

// rename gives a part another name, with all its answers and wherever a shade names it.
func (v *Interview) rename(key, was, name string) {
	i := slices.IndexFunc(kinds, func(k kind) bool { return k.key == key })
	if i < 0 || was == name {
		return
	}
	for k, text := range maps.Clone(v.answers) {
		if rest, ok := strings.CutPrefix(k, kinds[i].group+"."+was+"."); ok {
			delete(v.answers, k)
			v.answers[kinds[i].group+"."+name+"."+rest] = text
		}
		if strings.HasPrefix(k, "shades[") && strings.HasSuffix(k, "]."+key) && text == was {
			v.answers[k] = name
		}
	}
}

// Next returns the question to ask, or false if there are no more questions.
func (v *Interview) Next() (Question, bool) {
	for _, a := range v.now.seen {
		if a.Key == v.cursor {
			q := a.Question
			if q.Was = a.text; a.text == "" {
				q.Was = Pass
			}
			return q, true
		}
	}
	if v.now.pending == nil {
		return Question{}, false
	}
	return *v.now.pending, true
}

// Answered returns the number of answers in use.
func (v *Interview) Answered() int { return len(v.now.seen) }

// Entered lists the answers in use, in the order of their questions.
func (v *Interview) Entered() []Entered {
	out := make([]Entered, len(v.now.seen))
	for i, a := range v.now.seen {
		out[i] = Entered{a.Key, a.about, a.Ask, v.understood(a.Question, a.text)}
	}
	return out
}

// Back goes to the question before, and keeps all answers. It returns false if there
// is none.
func (v *Interview) Back() bool {
	at := len(v.now.seen)
	for i, a := range v.now.seen {
		if a.Key == v.cursor {
			at = i
		}
	}
	if v.cursor == "" && v.now.pending != nil { // an answer that was refused stands in the middle
		at = min(at, v.now.before)
	}
	if at == 0 {
		return false
	}
	v.cursor = v.now.seen[at-1].Key
	return true
}

// Goto asks a question again. It returns false if the question has no answer yet.
func (v *Interview) Goto(key string) bool {
	for _, a := range v.now.seen {
		if a.Key == key {
			v.cursor = key
			return true
		}
	}
	return false
}

// Check returns what is wrong with an answer, or nil.
func (v *Interview) Check(text string) error {
	q, more := v.Next()
	if !more {
		return errors.New("there are no more questions")
	}
	text, err := v.settle(q, text)
	if err != nil {
		return err
	}
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

// Answer accepts an answer. It returns how it understood the answer, what a question
// that was passed over leaves unchecked and, if the answer completes or changes a
// shade, what to cut. After an error the question stays open.
func (v *Interview) Answer(text string) ([]string, error) {
	if err := v.Check(text); err != nil {
		return nil, err
	}
	q, _ := v.Next()
	text, err := v.settle(q, text)
	if err != nil {
		return nil, err
	}
	before := v.now
	for _, p := range v.newProblems(q, text) {
		v.refused[p.Field] = fmt.Sprintf("%q %s; %s", p.Value, p.Problem, p.Fix)
	}
	same := v.tried != nil && len(v.refused) == 0
	v.set(q.Key, text)
	if same && v.tried.key == q.Key && v.tried.text == text {
		v.now.wrong, v.now.judged = v.tried.then.problems(), true
	}
	v.cursor = ""
	said := []string{q.Ask + ": " + v.understood(q, text)}
	if text == "" && q.Skip != "" {
		said = append(said, "unchecked: "+q.Skip)
	}
	if p := v.now.pending; p != nil && p.Why != "" {
		said = append(said, "An earlier answer no longer fits: "+p.Why)
	}
	return append(said, v.whatChanged(before)...), nil
}

// Top returns the job file as far as its groups are complete.
func (v *Interview) Top() *form.Node { return v.now.top }

// File returns the job of all complete shades. The error is a [jobfile.Problems].
func (v *Interview) File() (*jobfile.File, error) {
	return jobfile.Read("", form.Format(v.now.top, nil), v.opt.Options)
}
