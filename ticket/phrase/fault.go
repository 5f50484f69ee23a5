package phrase

import "errors"

// A Fault is an error that can be told in any language.
type Fault struct{ Phrase }

func (f *Fault) Error() string { return f.String() }

// Wrong returns an error that says a text.
func Wrong(e English, args ...any) error { return &Fault{Of(e, args...)} }

// Told returns what an error says, on one line and in phrases as far as it is
// made of faults; the rest stays English.
func Told(err error) Phrase {
	var f *Fault
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
		return f.Phrase
	}
	return Verbatim(err.Error())
}
