package message

import "errors"

// Localizable is an error that can be shown in any language.
type Localizable interface {
	error
	Message() Message
}

// fault is an error that is nothing but a message.
type fault struct{ said Message }

func (f *fault) Error() string    { return f.said.String() }
func (f *fault) Message() Message { return f.said }

// NewError returns an error that says a text of the catalogue.
func NewError(id ID, args ...any) error { return &fault{Of(id, args...)} }

// FromError returns what an error says, on one line. Errors that are not
// [Localizable] stay in English.
func FromError(err error) Message {
	var f Localizable
	switch joined, many := err.(interface{ Unwrap() []error }); {
	case err == nil:
		return Message{}
	case many:
		var parts []Message
		for _, e := range joined.Unwrap() {
			parts = append(parts, FromError(e))
		}
		return Join("; ", parts...)
	case errors.As(err, &f):
		return f.Message()
	}
	return Verbatim(err.Error())
}
