package message

import "errors"

// A Localizable is an error that can be shown in any language.
type Localizable interface {
	error
	Message() Message
}

// localizable is an error that consists of a message.
type localizable struct{ message Message }

func (e *localizable) Error() string    { return e.message.String() }
func (e *localizable) Message() Message { return e.message }

// NewError returns an error with a text of the catalogue.
func NewError(id ID, args ...any) error { return &localizable{Of(id, args...)} }

// FromError returns the text of an error, on one line. Errors that are not
// [Localizable] stay in English.
func FromError(err error) Message {
	var found Localizable
	switch joined, many := err.(interface{ Unwrap() []error }); {
	case err == nil:
		return Message{}
	case many:
		var parts []Message
		for _, e := range joined.Unwrap() {
			parts = append(parts, FromError(e))
		}
		return Join("; ", parts...)
	case errors.As(err, &found):
		return found.Message()
	}
	return Verbatim(err.Error())
}
