package ticket

import (
	"encoding/json"
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"shadewright/ticket/code"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// PrintedFormat is the number of the format that [Ticket.Printed] makes. Format 1
// stands for registrations from before there was a list; package mark reads the
// values that they kept. Revisions of different formats are never compared, but the
// values under keys of both formats are.
const PrintedFormat = 3

// A Value is one thing that a person can read on a ticket. Text is a length in
// nanometres ("12700000nm"), a count or a decimal ("3", "4.2"), a word of the job
// file ("inside"), or JSON. JSON holds a string of the shop's own, a text as
// [message.Stored] keeps it, or a list of texts.
type Value struct{ Key, Text string }

// Printed is everything that a ticket shows, in the order of its page. A key may
// occur more than once.
type Printed struct {
	Format int
	Values []Value
}

// head starts the text of a list.
const head = "format "

// String returns the list in the form in which it is kept and the revision is made:
// its format, then one value on each line.
func (p Printed) String() string {
	var b strings.Builder
	b.Grow(40 * len(p.Values))
	b.WriteString(head + strconv.Itoa(p.Format) + "\n")
	for _, v := range p.Values {
		b.WriteString(v.Key)
		b.WriteByte('=')
		b.WriteString(v.Text)
		b.WriteByte('\n')
	}
	return b.String()
}

// Revision returns the revision of a ticket with these values.
func (p Printed) Revision() code.Revision { return code.RevisionOf([]byte(p.String())) }

// ReadPrinted reads the text that [Printed.String] returns.
func ReadPrinted(text string) (Printed, error) {
	first, rest, ok := strings.Cut(text, "\n")
	n, err := strconv.ParseUint(strings.TrimPrefix(first, head), 10, 16)
	if !ok || err != nil || !strings.HasPrefix(first, head) {
		return Printed{}, fmt.Errorf("a ticket's values start with %q, not with %q and a number", first, head)
	}
	p := Printed{Format: int(n)}
	for line := range strings.Lines(rest) {
		key, value, ok := strings.Cut(strings.TrimSuffix(line, "\n"), "=")
		if !ok || key == "" || !strings.HasSuffix(line, "\n") {
			return Printed{}, fmt.Errorf("a ticket's values have the line %q, which is not a key and a value", line)
		}
		p.Values = append(p.Values, Value{key, value})
	}
	return p, nil
}

// neutral is the style for everything except lengths, so that no country's decimal
// mark is used.
var neutral = measure.Usual(measure.Millimetres)

// A List collects values. It leaves out empty and zero values, because they are not
// printed.
type List struct{ Values []Value }

// Plain adds a number or a word of the job file.
func (l *List) Plain(key, text string) {
	if text != "" {
		l.Values = append(l.Values, Value{key, text})
	}
}

// Count adds a whole number.
func (l *List) Count(key string, n int) {
	if n != 0 {
		l.Plain(key, strconv.Itoa(n))
	}
}

// Counts adds whole numbers under one key.
func (l *List) Counts(key string, list []int) {
	for _, n := range list {
		l.Count(key, n)
	}
}

// Length adds a length.
func (l *List) Length(key string, v measure.Length) {
	if v != 0 {
		l.Plain(key, nanometres(v))
	}
}

// Lengths adds lengths under one key.
func (l *List) Lengths(key string, list ...measure.Length) {
	for _, v := range list {
		l.Length(key, v)
	}
}

// Fields adds a name and lengths that belong together.
func (l *List) Fields(key, name string, list ...measure.Length) {
	for _, v := range list {
		name += " " + nanometres(micrometre(v))
	}
	l.Plain(key, name)
}

// nm ends a length.
const nm = "nm"

func nanometres(v measure.Length) string { return strconv.FormatInt(int64(v), 10) + nm }

// micrometre removes digits that depend on the rounding of floats, because every
// machine must get the same revision.
func micrometre(v measure.Length) measure.Length {
	return v.Round(measure.Micrometre, measure.Nearest)
}

// Text adds the shop's own words unchanged.
func (l *List) Text(key, words string) {
	if words != "" {
		l.Plain(key, stored(message.Verbatim(words)))
	}
}

// Message adds a text.
func (l *List) Message(key string, m message.Message) {
	if !m.IsZero() {
		l.Plain(key, stored(pointed(m)))
	}
}

// Messages adds several texts as one value.
func (l *List) Messages(key string, parts ...message.Message) {
	list := make([]string, len(parts))
	for i, p := range parts {
		list[i] = stored(pointed(p))
	}
	l.Plain(key, "["+strings.Join(list, ",")+"]")
}

// decimalComma matches a decimal comma within a text.
var decimalComma = regexp.MustCompile(`(\d),(\d)`)

// stored returns a text in the form in which it is kept.
func stored(m message.Message) string {
	b, err := json.Marshal(message.Stored{Message: m})
	if err != nil {
		panic("ticket: a text is plain data: " + err.Error())
	}
	return string(b)
}

// pointed replaces decimal commas in the arguments of a text by points, because the
// decimal mark depends on the language.
func pointed(m message.Message) message.Message {
	for i, a := range m.Args {
		var with any
		switch a := a.(type) {
		case string:
			if !decimalComma.MatchString(a) {
				continue
			}
			with = decimalComma.ReplaceAllString(a, "$1.$2")
		case message.Message:
			with = pointed(a)
		default:
			continue
		}
		args := append([]any(nil), m.Args...)
		args[i] = with
		m.Args = args
	}
	return m
}

// Length returns the length in a value. ok is false if the value is not a length.
func (v Value) Length() (l measure.Length, ok bool) {
	n, err := strconv.ParseInt(strings.TrimSuffix(v.Text, nm), 10, 64)
	return measure.Length(n), err == nil && strings.HasSuffix(v.Text, nm)
}

// Messages returns the texts in a value. A number or a word of the job file also
// counts as a text. A value that cannot be read, from another program, is returned
// as it is.
func (v Value) Messages() []message.Message {
	var many []message.Stored
	var one message.Stored
	switch {
	case json.Unmarshal([]byte(v.Text), &many) == nil:
		list := make([]message.Message, len(many))
		for i, m := range many {
			list[i] = m.Message
		}
		return list
	case strings.HasPrefix(v.Text, `"`) || strings.HasPrefix(v.Text, "{"):
		if json.Unmarshal([]byte(v.Text), &one) == nil {
			return []message.Message{one.Message}
		}
	}
	return []message.Message{message.Verbatim(v.Text)}
}
