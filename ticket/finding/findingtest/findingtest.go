// Package findingtest is for tests. It examines findings and input errors.
package findingtest

import (
	"errors"
	"strings"
	"testing"

	"shadewright/ticket/finding"
	"shadewright/ticket/message"
	"shadewright/ticket/message/pseudo"
)

// TB is the part of testing.TB that a check of package rapid also has.
type TB interface {
	Helper()
	Errorf(format string, args ...any)
}

// Levels lists findings as "level field".
func Levels(f []finding.Finding) string {
	var s []string
	for _, x := range f {
		s = append(s, x.Level.String()+" "+x.Field)
	}
	return strings.Join(s, ", ")
}

// Texts joins the sentences of findings, so that a test can look for words.
func Texts(f []finding.Finding) string {
	var s []string
	for _, x := range f {
		s = append(s, x.Text.String()+" -> "+x.Remedy.String())
	}
	return strings.Join(s, "\n")
}

// WantInputError fails unless err holds an InputError for field with all the words
// in its text.
func WantInputError(t testing.TB, err error, field string, words ...string) {
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

// ownWords are the shops' own words in the tests, which no language changes.
var ownWords = []string{"handle", "crank", "frame", "sill", "mesh", "donor", "flat"}

// Complete fails if a finding lacks a required part, or shows people words without
// a translation.
func Complete(t TB, f []finding.Finding) {
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
