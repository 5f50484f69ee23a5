package sheet

import (
	"errors"
	"fmt"
	"slices"

	"shadewright/ticket/measure"
)

// A SmallError says that paper has no room for a document.
type SmallError struct {
	For        string // the document: "the tickets"
	Paper      Paper
	Has, Needs measure.Size  // inside the margins
	Style      measure.Style // of the lengths in the error
	Use        Enough
}

// Enough names paper that is large enough.
type Enough string

// The kinds of paper that are large enough, the smallest first.
const (
	LargerPaper Enough = "larger paper"
	A5          Enough = "a5, letter, a4 or larger"
	A4          Enough = "letter, a4 or larger"
)

func (e *SmallError) Error() string {
	has := measure.Size{Width: max(e.Has.Width, 0), Length: max(e.Has.Length, 0)}
	return fmt.Sprintf("%s for %s: the margins leave %s, but %s is needed; use %s",
		e.fault(), e.For, e.size(has), e.size(e.Needs), e.Use)
}

func (e *SmallError) fault() string { return "paper " + e.size(e.Paper.Size) + " is too small" }

func (e *SmallError) size(s measure.Size) string {
	return e.Style.Format(s.Width) + " × " + e.Style.Format(s.Length)
}

// Join is [errors.Join], but it reports paper that is too small for several
// documents only once, with paper that is large enough for all of them.
func Join(errs []error) error {
	var joined []error
	var all []*manyError
	for _, err := range errs {
		small, ok := errors.AsType[*SmallError](err)
		if !ok {
			joined = append(joined, err)
			continue
		}
		i := slices.IndexFunc(all, func(m *manyError) bool { return m.of[0].Paper == small.Paper })
		if i < 0 {
			i = len(all)
			all = append(all, &manyError{})
			joined = append(joined, all[i])
		}
		all[i].of, all[i].errs = append(all[i].of, small), append(all[i].errs, err)
	}
	return errors.Join(joined...)
}

// A manyError is several errors about the same paper, reported as one.
type manyError struct {
	of   []*SmallError
	errs []error // the errors that wrap them
}

func (m *manyError) Unwrap() []error { return m.errs }

func (m *manyError) Error() string {
	if len(m.of) == 1 {
		return m.errs[0].Error()
	}
	ranks := []Enough{LargerPaper, A5, A4}
	use := LargerPaper
	var what []string
	for _, e := range m.of {
		what = append(what, e.For)
		if slices.Index(ranks, e.Use) > slices.Index(ranks, use) {
			use = e.Use
		}
	}
	return fmt.Sprintf("%s for %s; use %s", m.of[0].fault(), measure.And(what), use)
}
