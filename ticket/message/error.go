package message

import "errors"

// A Fault is an error that can be told in any language.
type Fault interface {
	error
	Message() Message
}

// fault is an error that is nothing but a message.
type fault struct{ said Message }

func (f *fault) Error() string    { return f.said.String() }
func (f *fault) Message() Message { return f.said }

// NewError returns an error that says a text.
func NewError(e English, args ...any) error { return &fault{Of(e, args...)} }

// FromError returns what an error says, on one line and in messages as far as it is
// made of faults; the rest stays English.
func FromError(err error) Message {
	var f Fault
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
