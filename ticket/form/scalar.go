package form

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"github.com/google/uuid"

	"shadewright/ticket/measure"
)

// Quote returns a text in quotes for a message, cut short if it is long.
func Quote(s string) string { return strconv.Quote(Shorten(s)) }

// scalar reads a node that must be a single text.
func (r *Reader) scalar(s Scalar, n *Node, k Key, field string, into any) {
	if n.Shape != Plain {
		r.shape(n, k, field)
		return
	}
	if f := s.Set(n.Text, r.Units, into); f != nil {
		r.Add(n.Line, field, n.Text, *f)
	}
}

const checkUnit = "check the number and its unit"

// A Length is written in any way that [measure.Parse] accepts. It fills a
// *measure.Length. A negative length is an error; so is zero, if Least is positive.
type Length struct {
	Least, Most measure.Length
	FixMost     string // what to write instead of a length above Most; empty for the usual advice
}

func (l Length) read(r *Reader, n *Node, k Key, field string, into any) {
	if n.Shape == Plain && r.Units == measure.Undeclared {
		// The form can still be checked: inches accept everything that millimetres
		// accept.
		if _, err := measure.Parse(n.Text, measure.Inches); err == nil {
			return
		}
	}
	r.scalar(l, n, k, field, into)
}

// Set implements [Scalar].
func (l Length) Set(text string, units measure.System, into any) *Fault {
	v, err := measure.Parse(text, units)
	if err != nil {
		return parseFault(err)
	}
	if f := l.judge(v, units); f != nil {
		return f
	}
	*into.(*measure.Length) = v
	return nil
}

func (l Length) judge(v measure.Length, units measure.System) *Fault {
	switch {
	case v < 0 && l.Least > 0:
		return &Fault{"is negative", "write a length above zero"}
	case v < 0:
		return &Fault{"is negative", "write zero or a length above zero"}
	case v == 0 && l.Least > 0:
		return &Fault{"is zero", "write a length above zero"}
	case v < l.Least:
		return &Fault{"is less than " + bound(l.Least, units, measure.Up), checkUnit}
	case v > l.Most:
		return &Fault{"is more than " + bound(l.Most, units, measure.Down), cmp.Or(l.FixMost, checkUnit)}
	}
	return nil
}

// bound writes a limit in the given units, so that a message has only one unit. A
// limit that is not a whole number of 64ths becomes the last sixteenth within it.
func bound(l measure.Length, units measure.System, r measure.Rounding) string {
	if units == measure.Inches && l%(measure.Inch/64) != 0 {
		return measure.Usual(units).Words(l, r).String()
	}
	return l.Exact(units)
}

// parseFault turns an error of package measure into a fault.
func parseFault(err error) *Fault {
	if pe, ok := err.(*measure.ParseError); ok {
		return &Fault{pe.Problem, pe.Fix}
	}
	return &Fault{"cannot be read: " + err.Error(), ""}
}

// A Text is any printable text. It fills a *string.
type Text struct {
	Most  int  // the most characters
	Lines bool // several lines are allowed
	// Also checks the text further; it may be nil.
	Also func(string) *Fault
	// Pattern is the part of Also that JSON Schema can express; it may be empty.
	Pattern string
}

func (t Text) read(r *Reader, n *Node, k Key, field string, into any) {
	r.scalar(t, n, k, field, into)
}

// Set implements [Scalar].
func (t Text) Set(text string, _ measure.System, into any) *Fault {
	text = strings.TrimSpace(text)
	if text == "" {
		return &Fault{"has only spaces", "write a text, or remove the line"}
	}
	if n := utf8.RuneCountInString(text); n > t.Most {
		return &Fault{fmt.Sprintf("has %d characters", n), fmt.Sprintf("use at most %d", t.Most)}
	}
	for _, c := range text {
		switch {
		case c == '\n' && t.Lines:
		case c == '\n':
			return &Fault{"has several lines", "write it on one line"}
		case !unicode.IsPrint(c) && !unicode.Is(unicode.Zs, c):
			return &Fault{fmt.Sprintf("has the character %U, which cannot be printed", c), "type the text again"}
		}
	}
	if t.Also != nil {
		if f := t.Also(text); f != nil {
			return f
		}
	}
	*into.(*string) = text
	return nil
}

// A Word is one of a few words. It fills a *V.
type Word[V any] struct {
	Words []string
	Parse func(string) (V, bool)
}

func (w Word[V]) read(r *Reader, n *Node, k Key, field string, into any) {
	r.scalar(w, n, k, field, into)
}

// Set implements [Scalar].
func (w Word[V]) Set(text string, _ measure.System, into any) *Fault {
	v, ok := w.Parse(text)
	if !ok || !slices.Contains(w.Words, text) {
		near := Nearest(text, w.Words)
		if near != "" {
			return &Fault{"is not one of the words allowed here", "did you mean " + near + "?"}
		}
		return &Fault{"is not one of the words allowed here", "write " + or(w.Words)}
	}
	*into.(*V) = v
	return nil
}

// Words returns the kind of a string that must be one of a few words.
func Words(words ...string) Word[string] {
	return Word[string]{Words: words, Parse: func(s string) (string, bool) { return s, true }}
}

// Decimal writes a number without trailing zeros: "0.9", "10".
func Decimal(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }

// YesNo returns the kind of a value that is written yes or no. It fills a *bool.
func YesNo() Word[bool] {
	return Word[bool]{Words: []string{"yes", "no"}, Parse: func(s string) (bool, bool) { return s == "yes", true }}
}

func or(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " or " + words[last]
}

// A Whole is a whole number. It fills an *int.
type Whole struct {
	Least, Most int
	Only        []int  // if not nil, the only numbers allowed
	Percent     bool   // a % may follow
	Any         string // a word that stands for zero, for "as many as are needed"; empty for none
	Fix         string // what to check if it is out of range; empty for the usual advice
}

func (w Whole) read(r *Reader, n *Node, k Key, field string, into any) {
	r.scalar(w, n, k, field, into)
}

// Set implements [Scalar].
func (w Whole) Set(text string, _ measure.System, into any) *Fault {
	t := text
	if w.Any != "" && strings.EqualFold(t, w.Any) {
		*into.(*int) = 0
		return nil
	}
	if w.Percent {
		t = strings.TrimSpace(strings.TrimSuffix(t, "%"))
	}
	// ParseInt refuses a number that is too long for 64 bits; all-digit text was
	// then too large.
	v, err := strconv.ParseInt(t, 10, 64)
	if err != nil || t[0] == '+' {
		if strings.Trim(t, "0123456789") == "" && t != "" {
			return &Fault{"is too large", w.fix()}
		}
		return &Fault{"is not a whole number", w.fix()}
	}
	if v < int64(w.Least) || v > int64(w.Most) || w.Only != nil && !slices.Contains(w.Only, int(v)) {
		return &Fault{"is out of range", w.fix()}
	}
	*into.(*int) = int(v)
	return nil
}

func (w Whole) fix() string {
	s := fmt.Sprintf("write a number from %d to %d", w.Least, w.Most)
	if w.Only != nil {
		only := make([]string, len(w.Only))
		for i, n := range w.Only {
			only[i] = strconv.Itoa(n)
		}
		s = "write " + or(only)
	}
	if w.Any != "" {
		s += ", or " + w.Any
	}
	if w.Fix != "" {
		s += ", " + w.Fix
	}
	return s
}

// A Date is written as year-month-day. It fills a *time.Time, in UTC.
type Date struct{}

func (d Date) read(r *Reader, n *Node, k Key, field string, into any) {
	r.scalar(d, n, k, field, into)
}

// Set implements [Scalar].
func (Date) Set(text string, _ measure.System, into any) *Fault {
	const fix = "write year-month-day, for example 2027-03-01"
	t, err := time.Parse(time.DateOnly, text)
	switch {
	case err != nil && len(text) == len(time.DateOnly) && strings.Trim(text, "0123456789-") == "":
		return &Fault{"is not in the calendar", fix}
	case err != nil:
		return &Fault{"is not a date", fix}
	case t.Year() < 2000 || t.Year() > 2199:
		return &Fault{"is not between 2000 and 2199", "check the year"}
	}
	*into.(*time.Time) = t
	return nil
}

// A UUID is written as in RFC 9562: 36 characters with dashes. It fills a
// *uuid.UUID. The nil and the max UUID are errors, because they identify nothing.
type UUID struct {
	Fresh string // a new UUID to suggest
}

func (u UUID) read(r *Reader, n *Node, k Key, field string, into any) {
	r.scalar(u, n, k, field, into)
}

// Set implements [Scalar].
func (u UUID) Set(text string, _ measure.System, into any) *Fault {
	id, err := uuid.Parse(text)
	switch {
	case err != nil || len(text) != 36:
		return &Fault{"is not a UUID", u.fix()}
	case id == uuid.Nil || id == uuid.Max:
		return &Fault{"is a UUID that identifies nothing", u.fix()}
	}
	*into.(*uuid.UUID) = id
	return nil
}

func (u UUID) fix() string { return "write a new UUID, for example " + u.Fresh }
