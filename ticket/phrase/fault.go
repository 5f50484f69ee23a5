package phrase

import "errors"

// A Fault is an error that can be told in any language.
type Fault interface {
	error
	Told() Phrase
}

// fault is an error that is nothing but a phrase.
type fault struct{ phrase Phrase }

func (f *fault) Error() string { return f.phrase.String() }
func (f *fault) Told() Phrase  { return f.phrase }

// Wrong returns an error that says a text.
func Wrong(e English, args ...any) error { return &fault{Of(e, args...)} }

// Told returns what an error says, on one line and in phrases as far as it is
// made of faults; the rest stays English.
func Told(err error) Phrase {
	var f Fault
	switch joined, many := err.(interface{ Unwrap() []error }); {
	case err == nil:
		return Phrase{}
	case many:
		var parts []Phrase
		for _, e := range joined.Unwrap() {
			parts = append(parts, Told(e))
		}
		return Join("; ", parts...)
	case errors.As(err, &f):
		return f.Told()
	}
	return Verbatim(err.Error())
}
