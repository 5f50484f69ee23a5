package mounting

import (
	"fmt"
	"slices"

	"shadewright/render/page"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// The faces of the columns.
var (
	headFace = page.Face{Size: 10 * page.Pt, Weight: page.Bold}
	textFace = page.Face{Size: 9 * page.Pt}
)

const (
	lead   = 37 * mm / 10
	indent = 4 * mm
)

// A paragraph is a text with its mark: a number, a dot, or nothing. Without
// mark and head it is plain.
type paragraph struct {
	mark string
	text string
	head bool
}

// A row is one line of a column. Begins marks the first line of a paragraph.
type row struct {
	mark, text   string
	head, begins bool
}

// A way holds the facts about a shade's layout that change the text.
type way struct {
	together bool // both ends are on one sheet
	tiled    bool // the ends are in pieces
}

// columns writes how to use the sheet and what to watch for.
func (d drawing) columns(l *leaf) {
	r := l.words
	if r.Width() <= 0 {
		return
	}
	n := columnsIn(r.Width())
	width := columnWide(r.Width(), n)
	cols := split(rows(paragraphs(l.shade, d.Options, l.way), width), n)
	for i, col := range cols {
		at := page.Point{X: r.Min.X + measure.Length(i)*(width+columnGap), Y: r.Min.Y + 2*mm}
		for _, row := range col {
			at.Y += lead
			switch {
			case row.head:
				d.Text(at, row.text, headFace)
			default:
				d.Text(at, row.mark, textFace)
				d.Text(page.Point{X: at.X + indent, Y: at.Y}, row.text, textFace)
			}
		}
	}
}

// columnsIn returns how many columns fit side by side, at most four: more
// columns are too short to read in order.
func columnsIn(width measure.Length) int {
	return min(max(1, int((width+columnGap)/(columnWidth+columnGap))), 4)
}

// columnWide returns the width of each of n columns, at most a width that reads
// well.
func columnWide(width measure.Length, n int) measure.Length {
	return min((width-measure.Length(n-1)*columnGap)/measure.Length(n), 90*mm)
}

// heightOf returns the height of the columns in a room of the given width.
func heightOf(s *Sheet, opt Options, w way, width measure.Length) measure.Length {
	n := columnsIn(width)
	var most int
	for _, c := range split(rows(paragraphs(s, opt, w), columnWide(width, n)), n) {
		most = max(most, len(c))
	}
	return measure.Length(most)*lead + 4*mm
}

// rows breaks paragraphs into lines.
func rows(list []paragraph, width measure.Length) []row {
	var all []row
	for _, p := range list {
		face, room := textFace, width-indent
		if p.head {
			face, room = headFace, width
		}
		for i, w := range page.Wrap(p.text, face, room) {
			r := row{text: w, head: p.head, begins: i == 0}
			if r.begins {
				r.mark = p.mark
			}
			all = append(all, r)
		}
	}
	return all
}

// split divides rows among n columns as evenly as possible.
func split(all []row, n int) [][]row {
	for tall := (len(all) + n - 1) / n; ; tall++ {
		var cols [][]row
		rest := all
		for len(rest) > 0 {
			k := min(tall, len(rest))
			for k > 0 && !mayBreak(rest, k) {
				k--
			}
			if k == 0 { // this column height is too small
				break
			}
			cols = append(cols, rest[:k])
			rest = rest[k:]
		}
		if len(rest) == 0 && len(cols) <= n {
			return cols
		}
	}
}

// mayBreak reports whether a column may end before row k: never after a
// heading, and within a paragraph only if two lines of it stay on both sides.
func mayBreak(rows []row, k int) bool {
	switch {
	case k == len(rows):
		return true
	case rows[k-1].head:
		return false
	case rows[k].begins:
		return true
	}
	return k > 1 && !rows[k-1].begins && k+1 < len(rows) && !rows[k+1].begins
}

// paragraphs returns the text beside the drawing.
func paragraphs(s *Sheet, opt Options, w way) []paragraph {
	var list []paragraph
	if c := s.cautions(); len(c) > 0 {
		list = append(list, paragraph{text: opt.Say("mounting.caution-heading"), head: true})
		for _, t := range c {
			list = append(list, paragraph{mark: "!", text: opt.Language.Put(t)})
		}
	}
	list = append(list, paragraph{text: opt.Say("mounting.how-to-use"), head: true})
	for i, t := range s.steps(opt, w) {
		list = append(list, paragraph{mark: fmt.Sprint(i+1, "."), text: opt.Language.Put(t)})
	}
	tape := opt.Say("mounting.crosses-tape")
	if s.Mount != hang.Inside {
		tape = opt.Say("mounting.left-crosses-tape")
	}
	list = append(list, paragraph{text: tape, head: true})
	for i, t := range s.byTape(opt) {
		list = append(list, paragraph{mark: fmt.Sprint(i + 1), text: opt.Language.Put(t)})
	}
	for _, a := range s.Advice {
		list = append(list, paragraph{text: opt.Say("mounting.in-material", a.Behind.Message()), head: true},
			paragraph{mark: "·", text: opt.Say(a.Fastener)}, paragraph{mark: "·", text: opt.Say("mounting.hole", message.Of(a.Hole))})
	}
	return list
}

// cautions returns all cautions, each once, in order.
func (s *Sheet) cautions() []message.Message {
	var list []message.Message
	add := func(c message.Message) {
		if !slices.ContainsFunc(list, func(p message.Message) bool { return p.String() == c.String() }) {
			list = append(list, c)
		}
	}
	for _, a := range s.Advice {
		for _, c := range a.Cautions {
			add(message.Of(c))
		}
	}
	for _, c := range s.Cautions {
		add(c)
	}
	return list
}

// steps returns the order of work. It is common practice; no source was found.
func (s *Sheet) steps(opt Options, w way) []message.Message {
	var list []message.Message
	if w.tiled {
		list = append(list, message.Of("mounting.tape-pieces"))
	}
	list = append(list, message.Of("mounting.cut-hatched"))
	if s.Mount == hang.Inside {
		list = append(list, s.onJambs()...)
	} else {
		list = append(list, s.onWall(opt, w)...)
	}
	list = append(list, message.Of("mounting.prick-crosses"))
	if shim := s.Drilling.Shim; s.Mount == hang.Inside && shim >= opt.Style.Step() {
		list = append(list, message.Of("mounting.pack-behind-each-plate", opt.Words(shim)))
	}
	return list
}

// onJambs says how to lay the paper in a recess.
func (s *Sheet) onJambs() []message.Message {
	v := s.Drilling.Views[0]
	head, ok := lineOf(v, hang.HeadLine)
	known := ok && head > 0
	_, front := lineOf(v, hang.FrontEdge)
	var lay message.ID
	switch {
	case known && front:
		lay = "mounting.lay-on-jambs-head-front"
	case known:
		lay = "mounting.lay-on-jambs-head-glass"
	case front:
		lay = "mounting.lay-on-jambs-front"
	default:
		lay = "mounting.lay-on-jambs-glass"
	}
	if known {
		return []message.Message{message.Of(lay), message.Of("mounting.level")}
	}
	return []message.Message{message.Of(lay), message.Of("mounting.axle-height-unknown")}
}

// onWall says how to lay the paper on a wall or a ceiling.
func (s *Sheet) onWall(opt Options, w way) []message.Message {
	between, apart := opt.Words(s.Drilling.Between), opt.Words(s.crosses())
	var lay, set message.ID
	switch ceiling := s.Mount == hang.Ceiling; {
	case w.together && ceiling:
		lay = "mounting.push-edge"
	case w.together:
		lay = "mounting.lay-cut-out"
	case ceiling:
		lay = "mounting.push-left-edge"
		set = "mounting.set-right-on-ceiling"
	default:
		lay = "mounting.lay-left-corner"
		set = "mounting.set-right-on-wall"
	}
	if w.together {
		return []message.Message{message.Of(lay), message.Of("mounting.check-by-tape", apart)}
	}
	return []message.Message{message.Of(lay), message.Of(set, between, apart)}
}

// byTape gives the places of the crosses for a person who trusts a tape more
// than paper. Jambs are mirror images, so the left one is enough. On a wall,
// the right end is set by its distance from the left.
func (s *Sheet) byTape(opt Options) []message.Message {
	v := s.Drilling.Views[0]
	var list []message.Message
	for _, h := range v.Plates[0].Holes {
		var from []message.Message
		for _, l := range v.Lines {
			if d := s.distance(l, h.At); d != "" {
				at := l.At - h.At.Y
				if l.Upright {
					at = l.At - h.At.X
				}
				from = append(from, message.Of(d, opt.Words(at.Abs())))
			}
		}
		list = append(list, message.Join(", ", from...))
	}
	return list
}

// distance says from which side a hole is measured to a line, or "" if it is
// not measured to it.
func (s *Sheet) distance(l hang.Line, at hang.Point) message.ID {
	side := func(less, more message.ID) message.ID {
		if l.Upright && at.X < l.At || !l.Upright && at.Y < l.At {
			return less
		}
		return more
	}
	switch l.Name {
	case hang.HeadLine:
		if l.At > 0 {
			return side("mounting.below-the-head", "mounting.above-the-head")
		}
	case hang.FrontEdge:
		return "mounting.from-front-edge"
	case hang.GlassLine:
		if _, ok := lineOf(s.Drilling.Views[0], hang.FrontEdge); !ok {
			return "mounting.from-the-glass"
		}
	case hang.OpeningTop:
		return side("mounting.below-top-opening", "mounting.above-top-opening")
	case hang.OpeningLeft:
		return side("mounting.outside-edge-opening", "mounting.inside-edge-opening")
	case hang.WallLine:
		return "mounting.from-the-wall"
	}
	return ""
}
