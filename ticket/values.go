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

// PrintedFormat is the number of the list that [Ticket.Printed] makes. Format 1 is
// that of registrations made before there was a list: package mark reads what they
// kept. A revision of one format is never compared with one of another; the values
// under the keys of both are.
const PrintedFormat = 2

// A Value is one thing that a person can read on a ticket. Text is a length in
// nanometres ("12700000nm"), a count or a decimal ("3", "4.2"), a word of the job
// file ("inside"), or JSON: a string of the shop's own, a text as
// [message.Stored] keeps it, or a list of texts.
type Value struct{ Key, Text string }

// Printed is everything a ticket says, in the order of its page. A key may stand
// there more than once.
type Printed struct {
	Format int
	Values []Value
}

// head begins the text of a list.
const head = "format "

// String returns the list as it is kept and as the revision is made from it: its
// format, then one value a line.
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

// Revision returns the revision of a ticket that says this.
func (p Printed) Revision() code.Revision { return code.RevisionOf([]byte(p.String())) }

// ReadPrinted reads what [Printed.String] wrote.
func ReadPrinted(text string) (Printed, error) {
	first, rest, ok := strings.Cut(text, "\n")
	n, err := strconv.ParseUint(strings.TrimPrefix(first, head), 10, 16)
	if !ok || err != nil || !strings.HasPrefix(first, head) {
		return Printed{}, fmt.Errorf("a ticket's values begin with %q, not with %q and a number", first, head)
	}
	p := Printed{Format: int(n)}
	for line := range strings.Lines(rest) {
		key, value, ok := strings.Cut(strings.TrimSuffix(line, "\n"), "=")
		if !ok || key == "" || !strings.HasSuffix(line, "\n") {
			return Printed{}, fmt.Errorf("a ticket's values have the line %q, which is no key and value", line)
		}
		p.Values = append(p.Values, Value{key, value})
	}
	return p, nil
}

// neutral is the style of what is not a length: no country's decimal mark.
var neutral = measure.Usual(measure.Millimetres)

// A List gathers values. What is empty or zero is not printed, so it is left out.
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

// micrometre rounds what rests on the rounding of floats: every machine must come
// to the same revision.
func micrometre(v measure.Length) measure.Length {
	return v.Round(measure.Micrometre, measure.Nearest)
}

// Text adds words of the shop's own, to the letter.
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

// decimalComma is a decimal mark among the words that stand in a text.
var decimalComma = regexp.MustCompile(`(\d),(\d)`)

// stored is a text as it is kept.
func stored(m message.Message) string {
	b, err := json.Marshal(message.Stored{Message: m})
	if err != nil {
		panic("ticket: a text is plain data: " + err.Error())
	}
	return string(b)
}

// pointed has points for decimal commas in what stands in a text: the mark is the
// language's.
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

// Length returns the length that a value is; ok is false if it is none.
func (v Value) Length() (l measure.Length, ok bool) {
	n, err := strconv.ParseInt(strings.TrimSuffix(v.Text, nm), 10, 64)
	return measure.Length(n), err == nil && strings.HasSuffix(v.Text, nm)
}

// Messages returns the texts that a value is: a number or a word of the job file
// is one, too. A value that cannot be read, of another program, stands for itself.
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
