package form

import (
	"fmt"
	"strings"

	"pgregory.net/rapid"
)

// A scribe writes a random file as untidy people do, and notes where every entry and
// value stands. It shares no code with the editor.
type scribe struct {
	t     *rapid.T
	b     strings.Builder
	n     int // comments and names so far
	all   []spot
	solid int // the end of the last text
}

// A spot is one entry or item of the file.
type spot struct {
	path               []int // positions, from the top
	entry, start, end  int   // offsets; entry is its key or dash
	column             int
	flowing            bool
	leaf, only, isItem bool
}

func (s *scribe) pick(n int, what string) int { return rapid.IntRange(0, n-1).Draw(s.t, what) }

func (s *scribe) name() string {
	s.n++
	return fmt.Sprintf("%s%d", []string{"width", "é", "key ", "a-b"}[s.pick(4, "name")], s.n)
}

func (s *scribe) comment() string {
	s.n++
	return "# " + []string{"it's", "a\tb", "key: {value", "\"open", "- dash", "ünder"}[s.pick(6, "comment")] + fmt.Sprint(" ", s.n)
}

// between writes empty lines and comments of any indentation up to the column.
func (s *scribe) between(column int) {
	for range s.pick(3, "lines") {
		switch s.pick(4, "line") {
		case 0:
			s.b.WriteString("\n")
		case 1:
			s.b.WriteString(strings.Repeat(" ", column) + s.comment() + "\n")
		case 2:
			s.b.WriteString(strings.Repeat(" ", s.pick(column+1, "indent")) + s.comment() + "\n")
		}
	}
}

func (s *scribe) lineEnd() {
	switch s.pick(4, "end") {
	case 0:
		s.b.WriteString("   " + s.comment())
	case 1:
		s.b.WriteString(" ")
	}
	s.b.WriteString("\n")
}

var words = []string{"27-1/2", "2' 7 5/8\"", "it's", "a#b", "x  y", "ünter", "60 in", "440 g/m2", "12 %", "null and", "true"}

func (s *scribe) words() string {
	out := words[s.pick(len(words), "word")]
	for range s.pick(3, "more") {
		out += " " + words[s.pick(len(words), "word")]
	}
	return out
}

// inline writes a value that needs no line of its own.
func (s *scribe) inline(path []int, depth, column int, flowing bool) (*Node, bool) {
	switch k := s.pick(7, "inline"); {
	case k == 0:
		text := s.words() + " \\"
		s.b.WriteString("'" + strings.ReplaceAll(text, "'", "''") + "'")
		return text1(text), true
	case k == 1:
		text := s.words() + "\n: {" + s.words()
		s.b.WriteString(`"` + escape.Replace(text) + `"`)
		return text1(text), true
	case k == 2 && !flowing:
		a, b := s.words(), s.words()
		s.b.WriteString(a + "\n" + strings.Repeat(" ", column+1+s.pick(3, "indent")) + b)
		return text1(a + " " + b), true
	case k < 4 && depth > 0:
		return s.braces(path, depth, column, k == 3), false
	}
	text := s.words()
	s.b.WriteString(text)
	return text1(text), true
}

// braces writes { } or [ ], perhaps over several lines.
func (s *scribe) braces(path []int, depth, column int, list bool) *Node {
	out := &Node{Shape: Keys}
	open, shut := "{", "}"
	if list {
		out.Shape, open, shut = List, "[", "]"
	}
	s.b.WriteString(open)
	tall := s.pick(3, "tall") == 0
	space := func() {
		if tall && s.pick(2, "break") == 0 {
			if s.pick(2, "comment") == 0 {
				s.b.WriteString(" " + s.comment())
			}
			s.b.WriteString("\n" + strings.Repeat(" ", column+1+s.pick(4, "indent")))
		} else if s.pick(3, "space") == 0 {
			s.b.WriteString(" ")
		}
	}
	n := s.pick(4, "entries")
	for i := range n {
		space()
		at := append(append([]int(nil), path...), i)
		spot := spot{path: at, entry: s.b.Len(), flowing: true, only: n == 1, isItem: list}
		key := ""
		if !list {
			key = s.name()
			s.b.WriteString(strings.TrimRight(key, " ") + ": ")
		}
		spot.start = s.b.Len()
		v, leaf := s.inline(at, depth-1, column, true)
		spot.end, spot.leaf = s.b.Len(), leaf
		s.all = append(s.all, spot)
		if list {
			out.Items = append(out.Items, v)
		} else {
			out.Entries = append(out.Entries, Entry{Key: key, Value: v})
		}
		space()
		if i < n-1 || s.pick(8, "comma") == 0 {
			s.b.WriteString(",")
			if s.pick(4, "space") > 0 {
				s.b.WriteString(" ")
			}
		}
	}
	space()
	s.b.WriteString(shut)
	return out
}

// value writes what stands behind a colon or a dash in a block, with the line end.
func (s *scribe) value(at spot, depth, column int) *Node {
	defer func() { s.all = append(s.all, at) }()
	switch k := s.pick(8, "value"); {
	case k == 0:
		a, b := s.words(), s.words()
		s.b.WriteString(" ")
		at.start = s.b.Len()
		sign := []string{"|", "|-", "|+", ">", ">-"}[s.pick(5, "sign")]
		s.b.WriteString(sign)
		if s.pick(3, "comment") == 0 {
			s.b.WriteString(" " + s.comment())
		}
		in := "\n" + strings.Repeat(" ", column+2)
		s.b.WriteString(in + a + in + b)
		at.end, at.leaf = s.b.Len(), true
		s.solid = at.end
		s.b.WriteString("\n")
		join, last := "\n", "\n"
		if sign[0] == '>' {
			join = " "
		}
		if strings.HasSuffix(sign, "-") {
			last = ""
		}
		return text1(a + join + b + last)
	case k < 4 && depth > 0:
		if !at.isItem || s.pick(2, "below") == 0 {
			s.lineEnd()
			v := s.block(at.path, depth-1, column+1+s.pick(3, "indent"), k == 3)
			at.start, at.end = at.entry, s.solid
			return v
		}
	}
	s.b.WriteString(" ")
	if s.pick(10, "next line") == 0 {
		s.b.WriteString("\n" + strings.Repeat(" ", column+2))
	}
	at.start = s.b.Len()
	v, leaf := s.inline(at.path, depth, column, false)
	at.end, at.leaf = s.b.Len(), leaf
	s.solid = at.end
	s.lineEnd()
	return v
}

// block writes a group or list in lines.
func (s *scribe) block(path []int, depth, column int, list bool) *Node {
	out := &Node{Shape: Keys}
	if list {
		out.Shape = List
	}
	n := 1 + s.pick(4, "entries")
	for i := range n {
		s.between(column)
		s.b.WriteString(strings.Repeat(" ", column))
		at := spot{path: append(append([]int(nil), path...), i), entry: s.b.Len(), column: column, only: n == 1, isItem: list}
		if list {
			s.b.WriteString("-")
			out.Items = append(out.Items, s.value(at, depth, column))
			continue
		}
		key := s.name()
		s.b.WriteString(strings.TrimRight(key, " ") + ":")
		out.Entries = append(out.Entries, Entry{Key: key, Value: s.value(at, depth, column)})
	}
	s.between(column)
	return out
}

// A page is a random file with its nodes and spots.
func page(t *rapid.T) (string, *Node, []spot) {
	s := &scribe{t: t}
	s.block(nil, 3, 0, false)
	text := s.b.String()
	n, bad := Parse("page.yaml", []byte(text))
	if bad != nil {
		t.Skip("the library refuses this file") // it panics at some comments
	}
	return text, n, s.all
}
