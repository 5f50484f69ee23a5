package hang

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
	"shadewright/ticket/message/pseudo"
)

const (
	in = measure.Inch
	mm = measure.Millimetre
	um = measure.Micrometre
)

var (
	inches = measure.Usual(measure.Inches)
	metric = measure.Usual(measure.Millimetres)
)

// millimetres turns a literal of a table into a length.
func millimetres(v float64) measure.Length { return measure.FromMillimetres(v) }

// within reports whether got is within tol of want.
func within(got, want, tol float64) bool { return math.Abs(got-want) <= tol }

// lengths draws a length between two bounds.
func lengths(t *rapid.T, name string, low, high measure.Length) measure.Length {
	return measure.Length(rapid.Int64Range(int64(low), int64(high)).Draw(t, name))
}

// levels lists findings as "level field".
func levels(f []finding.Finding) string {
	var s []string
	for _, x := range f {
		s = append(s, x.Level.String()+" "+x.Field)
	}
	return strings.Join(s, ", ")
}

// texts joins the sentences of findings, to look for words in.
func texts(f []finding.Finding) string {
	var s []string
	for _, x := range f {
		s = append(s, x.Text.String()+" -> "+x.Remedy.String())
	}
	return strings.Join(s, "\n")
}

// wantInputError fails unless err holds an InputError for field whose text has
// all the words.
func wantInputError(t *testing.T, err error, field string, words ...string) {
	t.Helper()
	var input *finding.InputError
	if !errors.As(err, &input) {
		t.Fatalf("error %v; want an InputError for %s", err, field)
	}
	if !strings.Contains(err.Error(), field) {
		t.Errorf("error %q; want it to name %s", err, field)
	}
	for _, w := range words {
		if !strings.Contains(err.Error(), w) {
			t.Errorf("error %q; want %q in it", err, w)
		}
	}
}

// ownWords are the words of the tests' shops, which no language changes.
var ownWords = []string{"handle", "crank", "frame", "sill"}

// complete fails if a finding lacks what every finding must have, or tells people
// words that have no translation.
func complete(t rapid.TB, f []finding.Finding) {
	t.Helper()
	for _, x := range f {
		if x.Field == "" || x.Text.IsZero() || x.Source == "" || x.Remedy.IsZero() {
			t.Errorf("finding %+v lacks a field, a text, a source or a remedy", x)
		}
		if strings.HasSuffix(x.Text.String(), ".") || strings.Contains(x.Text.String()+x.Remedy.String()+x.Limit, "NaN") {
			t.Errorf("finding %q is not one plain sentence", x.Text.String())
		}
		for _, p := range []message.Message{x.Text, x.Remedy} {
			if w := pseudo.Unmarked(pseudo.Put(p), ownWords...); w != nil {
				t.Errorf("finding %q has words in English only: %q", p, w)
			}
		}
	}
}
