package ticket

import (
	"strings"
	"unicode"

	"shadewright/ticket/message"
)

// UnitName returns the name of one unit of a shade, as every paper, page and command
// says it: "bunk-left", or "bunk-left, unit 2" if the shade has several. A name without
// a letter gets the word before it: "shade 12", "shade 1, unit 2". So no unit reads like
// another shade, because a shade's id holds neither a comma nor a space.
func UnitName(shade string, unit, of int) message.Message {
	name := ShadeName(shade)
	if of > 1 {
		name = message.Of("ticket.unit", name, unit)
	}
	return name
}

// ShadeName returns the name of a shade: its id, after the word shade if the id has no
// letter.
func ShadeName(id string) message.Message {
	if strings.ContainsFunc(id, unicode.IsLetter) {
		return message.Verbatim(id)
	}
	return message.Of("ticket.shade", id)
}

// Called returns the unit's name for any language; see [UnitName].
func (t *Ticket) Called() message.Message { return UnitName(t.Shade.ID, t.Unit, t.Of) }

// Name returns the unit's name in English.
func (t *Ticket) Name() string { return t.Called().String() }

// Called returns the shade's name for any language; see [ShadeName].
func (s *Shade) Called() message.Message { return ShadeName(s.ID) }
