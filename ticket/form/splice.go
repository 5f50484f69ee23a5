package form

import "strings"

// lost is a step that only a person can make.
func lost(at int) *step { return &step{from: at, to: at, lost: true} }

// ended returns what must stand at an offset before a new line begins there: a line end
// if the last line of the file has none.
func (e *editor) ended(at int) string {
	if at == len(e.text) && e.lines[len(e.lines)-1] != at {
		return e.eol
	}
	return ""
}

// comment returns the offset behind the comment that follows on the same line, and
// whether only a comment or nothing follows.
func (e *editor) comment(at int) (end int, ok bool) {
	end = e.lineEnd(at)
	rest := strings.TrimLeft(e.text[at:end], " \t")
	return end, rest == "" || rest[0] == '#'
}

// tail returns the start of the line behind an entry that ends at an offset. Comments
// that are indented more than the entry belong to it.
func (e *editor) tail(end, column int) int {
	line := e.lineOf(end)
	if e.lines[line] != end { // else the entry ends with a paragraph that keeps its empty lines
		line++
	}
	for next := line; next < len(e.lines); next++ {
		text, indent := e.line(next)
		switch {
		case strings.TrimSpace(text) == "":
		case indent > column && text[indent] == '#':
			line = next + 1
		default:
			return e.next(line)
		}
	}
	return e.next(line)
}

// entry returns a key and its value, or an item if the key is empty, as lines.
func (e *editor) entry(key string, v *Node, column int) string {
	var b strings.Builder
	indent := strings.Repeat(" ", column)
	b.WriteString(indent)
	if key == "" {
		b.WriteByte('-')
	} else {
		b.WriteString(scalarText(key) + ":")
	}
	b.WriteString(e.value(v, column, key == ""))
	return b.String()
}

// value returns what stands behind a key or a dash, with the line end.
func (e *editor) value(v *Node, column int, item bool) string {
	var b strings.Builder
	indent := strings.Repeat(" ", column+2)
	switch {
	case v.Shape == Blank:
		b.WriteString(" null\n")
	case item:
		items(&b, v, indent)
	case e.spread && v.Shape == Keys && len(v.Entries) > 0:
		b.WriteByte('\n')
		for _, in := range v.Entries {
			b.WriteString(strings.ReplaceAll(e.entry(in.Key, in.Value, column+2), e.eol, "\n"))
		}
	default:
		block(&b, v, indent, true)
	}
	return strings.ReplaceAll(b.String(), "\n", e.eol)
}

// pairText returns a key and its value, or an item if the key is empty, for { } and [ ].
func pairText(key string, v *Node) (string, bool) {
	text, ok := flowText(v)
	if key != "" {
		text = scalarText(key) + ": " + text
	}
	return text, ok
}

func flowText(v *Node) (string, bool) {
	switch v.Shape {
	case Blank:
		return "null", true
	case Plain:
		return scalarText(v.Text), true
	}
	return flow(v)
}

// insert adds an entry to a group, or an item to a list if the key is empty, at a
// position.
func (e *editor) insert(p *place, at int, key string, v *Node) *step {
	if e.at(p.start, '{') || e.at(p.start, '[') {
		return e.insertFlowing(p, at, key, v)
	}
	column := p.inside[0].column
	text := e.entry(key, v, column)
	gap := ""
	if e.apart(p, at, strings.Count(text, e.eol) > 1 && v.Shape == Keys && key == "") {
		gap = e.eol
	}
	if at == 0 {
		start := p.inside[0].entry
		line := e.lineStart(start)
		if strings.TrimLeft(e.text[line:start], " ") == "" {
			return &step{from: line, to: line, text: text + gap}
		}
		if gap != "" || key == "" {
			return lost(start)
		}
		text = strings.TrimLeft(text, " ") + strings.Repeat(" ", column)
		return &step{from: start, to: start, text: text}
	}
	before := p.inside[at-1]
	to := e.tail(before.end, column)
	if at == len(p.inside) && column > 0 { // comments behind the last entry are not about the new one
		to = e.tail(before.end, column-1)
	}
	if column == 0 && at == len(p.inside) && key != "" { // below the comments at the end of the file
		to, gap = len(e.text), ""
		if e.apart(p, at, false) {
			gap = e.eol
		}
	}
	return &step{from: to, to: to, text: e.ended(to) + gap + text}
}

// apart reports whether a new entry at a position is set apart by an empty line, as all
// its neighbours are. Alone says what holds beside a single neighbour.
func (e *editor) apart(p *place, at int, alone bool) bool {
	if len(p.inside) < 2 {
		return alone
	}
	for i := max(at-1, 1); i <= min(max(at, 1), len(p.inside)-1); i++ {
		if !e.gap(p.inside[i-1], p.inside[i]) {
			return false
		}
	}
	return true
}

// gap reports whether an empty line stands between two entries.
func (e *editor) gap(a, b *place) bool {
	for line := e.lineOf(e.tail(a.end, b.column)); line < e.lineOf(b.entry); line++ {
		if e.empty(line) {
			return true
		}
	}
	return false
}

func (e *editor) insertFlowing(p *place, at int, key string, v *Node) *step {
	text, ok := pairText(key, v)
	if !ok {
		return lost(p.start)
	}
	if at == 0 {
		start := p.inside[0].entry
		return &step{from: start, to: start, text: text + ", "}
	}
	end := p.inside[at-1].end
	return &step{from: end, to: end, text: ", " + text}
}

// remove removes an entry or item, which is not the only one.
func (e *editor) remove(p *place, i int) *step {
	in := p.inside[i]
	if e.at(p.start, '{') || e.at(p.start, '[') {
		return e.removeFlowing(p, i)
	}
	line := e.lineOf(in.entry)
	if strings.TrimLeft(e.text[e.lines[line]:in.entry], " ") != "" {
		return e.removeBesideDash(p, i)
	}
	if _, alone := e.comment(in.end); !alone && e.lines[e.lineOf(in.end)] != in.end {
		return lost(in.entry)
	}
	to := e.tail(in.end, in.column)
	for ; i > 0 && line > 0; line-- {
		if text, indent := e.line(line - 1); indent == len(text) || text[indent] != '#' || indent != in.column {
			break
		}
	}
	// One empty line stays where there were two.
	below := e.lineOf(to)
	last := to == len(e.text) || i == len(p.inside)-1
	if i > 0 && (last || e.empty(below)) {
		for e.empty(line-1) && e.lines[line-1] >= e.lineEnd(p.inside[i-1].end) {
			line--
		}
	} else if i == 0 {
		for to < len(e.text) && e.empty(below) {
			below++
			to = e.next(below)
		}
	}
	return &step{from: e.lines[line], to: to}
}

func (e *editor) empty(line int) bool {
	text, _ := e.line(line)
	return strings.TrimSpace(text) == ""
}

// removeBesideDash removes the first key of an item: the next one moves up to the dash.
func (e *editor) removeBesideDash(p *place, i int) *step {
	in := p.inside[i]
	if i != 0 || len(p.inside) < 2 {
		return lost(in.entry)
	}
	next := p.inside[1].entry
	end, _ := e.comment(in.end)
	if strings.Contains(e.text[end:next], "#") {
		return lost(in.entry)
	}
	return &step{from: in.entry, to: next}
}

func (e *editor) removeFlowing(p *place, i int) *step {
	in := p.inside[i]
	if i == len(p.inside)-1 {
		before := p.inside[i-1].end
		if between := e.text[before:in.entry]; strings.ContainsAny(between, "#\r\n") {
			return &step{from: in.entry, to: in.end}
		}
		return &step{from: before, to: in.end}
	}
	next := p.inside[i+1].entry
	if between := e.text[in.end:next]; strings.ContainsAny(between, "#\r\n") {
		comma := e.skip(in.end)
		if !e.at(comma, ',') || strings.Contains(e.text[in.end:comma], "#") {
			return lost(in.entry)
		}
		return &step{from: in.entry, to: comma + 1 + len(e.text[comma+1:]) - len(strings.TrimLeft(e.text[comma+1:], " "))}
	}
	return &step{from: in.entry, to: next}
}

// replace puts another value in the place of one.
func (e *editor) replace(p *place, want *Node) *step {
	s := e.replacement(p, want)
	s.old, s.new = p.node, want
	s.how = "change it in a text editor"
	if text, ok := flowText(want); ok {
		s.how = "write " + Shorten(text) + " there in a text editor"
	}
	return s
}

func (e *editor) replacement(p *place, want *Node) *step {
	if p.after == 0 {
		return lost(p.start) // the whole file
	}
	text, ok := flowText(want)
	group := len(want.Entries)+len(want.Items) > 0
	inLine := ok && !inLines(want.Text)
	switch {
	case p.flowing && !ok:
		return lost(p.start)
	case p.flowing:
		inLine = true
	case group && (e.tall(p) || e.spread || len([]rune(e.text[e.lineStart(p.start):p.start]+text)) > widest):
		inLine = e.braced(p) && ok
	}
	switch {
	case !inLine:
		text = strings.TrimSuffix(e.value(want, p.column, e.at(p.entry, '-') && p.after == p.entry+1), e.eol)
		return e.rewrite(p, text)
	case e.tall(p):
		return e.rewrite(p, " "+text)
	case p.start == p.end && e.at(p.after-1, ':') || e.at(p.after-1, '-') && p.start == p.end:
		text = " " + text
	case p.start == p.end: // a key alone in braces
		text = ": " + text
	}
	return &step{from: p.start, to: p.end, text: text}
}

// braced reports whether a value is written in { } or [ ].
func (e *editor) braced(p *place) bool {
	return p.node.Shape != Plain && (e.at(p.start, '{') || e.at(p.start, '['))
}

// paragraphed reports whether a value is a text after | or >.
func (e *editor) paragraphed(p *place) bool {
	return p.node.Shape == Plain && p.start < p.end && (e.at(p.start, '|') || e.at(p.start, '>'))
}

// tall reports whether a value has lines of its own.
func (e *editor) tall(p *place) bool {
	return e.paragraphed(p) || (p.node.Shape == Keys || p.node.Shape == List) && !e.braced(p)
}

// rewrite replaces everything behind a colon or dash. The comment on that line stays
// there.
func (e *editor) rewrite(p *place, text string) *step {
	end := p.end
	if line := e.lineOf(end); line > 0 && e.lines[line] == end { // a paragraph that keeps its empty lines
		end = e.lineEnd(e.lines[line-1])
	}
	to, ok := e.comment(end)
	own := ""
	switch {
	case !ok:
		return lost(p.start)
	case e.lineOf(p.start) != e.lineOf(p.after) && e.tall(p):
		own = e.text[p.after:e.lineEnd(p.after)]
	case e.lineOf(p.start) != e.lineOf(p.after):
		return lost(p.start)
	case e.paragraphed(p):
		head := e.text[p.start:e.lineEnd(p.start)]
		if at := strings.Index(head, " #"); at >= 0 {
			own = head[at:]
		}
	case !e.tall(p):
		own = e.text[end:to]
	}
	head, rest, more := strings.Cut(text, e.eol)
	if more {
		rest = e.eol + rest
	}
	return &step{from: p.after, to: to, text: head + own + rest}
}
