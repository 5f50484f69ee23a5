package mounting

import (
	"cmp"
	"slices"

	"shadewright/render/fullscale"
	"shadewright/render/page"
	"shadewright/ticket/code"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// A look is the pen and the text of a line of a view.
type look struct {
	pen   page.Pen
	words message.ID
	cut   bool // cut the paper along this line
}

var looks = map[hang.LineName]look{
	hang.AxleLine:     {fullscale.Centred(), "mounting.axle-line", false},
	hang.CentreLine:   {fullscale.Centred(), "mounting.centre-line", false},
	hang.HeadLine:     {page.Heavy(), "mounting.head-recess", true},
	hang.GlassLine:    {page.Heavy(), "common.glass", true},
	hang.FrontEdge:    {page.Heavy(), "mounting.front-edge-recess", true},
	hang.WallLine:     {page.Heavy(), "mounting.wall", true},
	hang.OpeningTop:   {page.Heavy(), "mounting.top-opening", false},
	hang.OpeningLeft:  {page.Heavy(), "mounting.left-edge-opening", false},
	hang.OpeningRight: {page.Heavy(), "mounting.right-edge-opening", false},
	hang.ClothLine:    {fullscale.Broken(), "mounting.cloth-falls-here", false},
	hang.RollLine:     {fullscale.Dashed(), "mounting.roll-when-up", false},
}

// cutAt returns the text of a line, with the instruction to cut if the paper is
// cut along it.
func (v view) cutAt(l hang.Line, words string) string {
	if looks[l.Name].cut || v.end.shade.Mount == hang.Outside && l.Name != hang.AxleLine && l.Name != hang.CentreLine && l.Name != hang.RollLine {
		return v.Say("mounting.cut-here", words)
	}
	return words
}

// A label is the text for a line.
type label struct {
	at     measure.Length // position in the view
	name   string
	detail string
}

// uprights returns the labels of the upright lines on a piece, including its
// joints.
func (v view) uprights() []label {
	var list []label
	for _, l := range v.end.view.Lines {
		if !l.Upright || !v.Sees(l.At, v.Y.From) || l.Name == hang.ClothLine && v.Y.From >= 0 {
			continue
		}
		words := v.Say(looks[l.Name].words)
		if l.Name == hang.ClothLine {
			words = v.Say("mounting.cloth-falls-from-axle", v.Words(l.At.Abs()))
		}
		list = append(list, label{at: l.At, name: v.cutAt(l, words)})
	}
	if v.col > 0 {
		list = append(list, label{at: fullscale.Joint(v.xs, v.col), name: v.Say("mounting.joint-trim-here", v.col)})
	}
	if v.col+1 < len(v.xs) {
		list = append(list, label{at: fullscale.Joint(v.xs, v.col+1), name: v.Say("mounting.lay-joint-sheet-here", v.col+1, v.sheetAt(v.row, v.col+1))})
	}
	return list
}

// levels returns the labels of the level lines on a piece.
func (v view) levels() []label {
	var list []label
	e := v.end
	for _, l := range e.view.Lines {
		if l.Upright || e.headless(l) || !v.Sees(v.X.From, l.At) {
			continue
		}
		b := label{at: l.At, name: v.Say(looks[l.Name].words)}
		switch {
		case l.Name == hang.AxleLine:
			b.detail = v.Say("mounting.diamond")
		case l.Name == hang.WallLine:
			b.detail = v.Say("mounting.from-the-axle", v.Words(l.At.Abs()))
		case e.shade.Mount == hang.Ceiling && l.At > 0:
			b.detail = v.Say("mounting.from-axle-room-side", v.Words(l.At))
		case e.shade.Mount == hang.Ceiling:
			b.detail = v.Say("mounting.from-axle-wall-side", v.Words(-l.At))
		case l.At > 0:
			b.detail = v.Say("mounting.above-the-axle", v.Words(l.At))
		default:
			b.detail = v.Say("mounting.below-the-axle", v.Words(-l.At))
		}
		b.detail = v.cutAt(l, b.detail)
		list = append(list, b)
	}
	if c := e.view.Circle; c > 0 && v.Sees(0, 0) && v.Sees(v.rollMark()) {
		_, y := v.rollMark()
		list = append(list, label{at: y, name: v.Say("mounting.roll-when-up"), detail: v.Say("mounting.across", v.Words(c))})
	}
	return append(list, v.rowJoints()...)
}

// rollMark returns the point on the right of the roll's circle where the line
// to its name starts. It prefers a place where that line crosses no hole's
// cross.
func (v view) rollMark() (x, y measure.Length) {
	r := v.end.view.Circle / 2
	on := func(cos, sin measure.Length) hang.Point { return hang.Point{X: r * cos / 1000, Y: r * sin / 1000} }
	usual := on(707, -707) // first 45° below the axle, then 45° above, then 20° and 60°
	for _, p := range []hang.Point{usual, on(707, 707), on(940, -342), on(940, 342), on(500, -866), on(500, 866)} {
		if !v.crossed(p) {
			return p.X, p.Y
		}
	}
	return usual.X, usual.Y
}

// crossed reports whether a level line from p to the right comes close to a
// hole.
func (v view) crossed(p hang.Point) bool {
	for _, plate := range v.end.plates {
		for _, h := range plate.Holes {
			if h.At.X+arm(h) > p.X && (h.At.Y-p.Y).Abs() < arm(h) {
				return true
			}
		}
	}
	return false
}

// rowJoints returns the labels of the joints with the pieces above and below.
// These joints have letters; joints with the pieces beside have numbers.
func (v view) rowJoints() []label {
	var list []label
	if v.row > 0 {
		list = append(list, label{at: v.rowJoint(v.row), name: v.Say("mounting.joint", rowLetter(v.row)), detail: v.Say("mounting.trim-here")})
	}
	if v.row+1 < len(v.ys) {
		list = append(list, label{at: v.rowJoint(v.row + 1), name: v.Say("mounting.joint", rowLetter(v.row+1)),
			detail: v.Say("mounting.lay-joint-of-sheet", rowLetter(v.row+1), v.sheetAt(v.row+1, v.col))})
	}
	return list
}

// rowLetter returns the letter of the n-th joint from the top, counted from 1.
func rowLetter(n int) string { return code.Letters(n - 1) }

// rowJoint returns the joint between rows n-1 and n, counted from the top.
func (l *leaf) rowJoint(n int) measure.Length { return fullscale.Joint(l.ys, len(l.ys)-n) }

// sheetAt returns the number of the sheet with another piece of the same end.
func (l *leaf) sheetAt(row, col int) int { return l.first + row*len(l.xs) + col }

// joints draws the lines where a piece meets its neighbours.
func (v view) joints() {
	for _, n := range []int{v.col, v.col + 1} {
		if n == 0 || n == len(v.xs) {
			continue
		}
		x := fullscale.Joint(v.xs, n)
		v.Up(x, v.Y.From, v.Y.To, fullscale.Joined())
		for _, y := range fullscale.JointMarks(n, v.Y.Extent()) {
			v.Diamond(x, v.Y.From+y)
		}
	}
	for _, n := range []int{v.row, v.row + 1} {
		if n == 0 || n == len(v.ys) {
			continue
		}
		y := v.rowJoint(n)
		v.Across(y, v.X.From, v.X.To, fullscale.Joined())
		for _, x := range fullscale.JointMarks(n, v.X.Extent()) {
			v.Diamond(v.X.From+x, y)
		}
	}
}

// gutter writes the names of level lines to the right of the drawing, each as
// close to its line as the others allow.
func (v view) gutter() {
	detail := fullscale.Small()
	type block struct {
		y, height measure.Length // of the block's middle
		label     label
		lines     []string
	}
	const lead = 7 * mm / 2
	left := v.Place(v.X.To, 0).X
	text := left + 6*mm
	width := gutterWidth - 7*mm
	var list []block
	for _, b := range v.levels() {
		lines := page.Wrap(b.detail, detail, width)
		list = append(list, block{v.Place(0, b.at).Y, measure.Length(1+len(lines))*lead + 3*mm/2, b, lines})
	}
	slices.SortStableFunc(list, func(a, b block) int { return cmp.Compare(a.y, b.y) })
	ys := make([]measure.Length, len(list))
	low := v.Place(0, v.Y.To).Y
	for i, b := range list {
		ys[i] = max(b.y, low+b.height/2)
		low = ys[i] + b.height/2
	}
	high := v.Place(0, v.Y.From).Y
	for i := len(list) - 1; i >= 0; i-- {
		ys[i] = min(ys[i], high-list[i].height/2)
		high = ys[i] - list[i].height/2
	}
	for i, b := range list {
		v.Line(page.Point{X: left, Y: b.y}, page.Point{X: text - 3*mm/2, Y: ys[i]}, hatching)
		y := ys[i] - b.height/2 + lead - mm/2
		words, face := page.Fit(b.label.name, nameFace, width, 6*page.Pt)
		v.Text(page.Point{X: text, Y: y}, words, face)
		for _, s := range b.lines {
			y += lead
			v.Text(page.Point{X: text, Y: y}, s, detail)
		}
	}
}

// A name is the text of an upright line, with the place where the text begins.
type name struct {
	words string
	x     measure.Length // of the line, on the paper
	at    page.Point
}

var nameFace = page.Face{Size: 9 * page.Pt, Weight: page.Semibold}

// names arranges the names of upright lines in rows below the drawing's
// measures. Names that run to the right of their line are in the upper rows,
// the rightmost line's at the top, so that no line crosses another line's name.
func (v view) names() []name {
	begin := v.Place(0, v.Y.From).Y + measure.Length(len(v.end.measures(v.Options)))*measureHeight + mm
	var right, left []label
	for _, b := range v.uprights() {
		if v.Place(b.at, 0).X+mm+page.Width(b.name, nameFace) <= v.limit() {
			right = append(right, b)
		} else {
			left = append(left, b)
		}
	}
	slices.SortStableFunc(right, func(a, b label) int { return cmp.Compare(b.at, a.at) })
	slices.SortStableFunc(left, func(a, b label) int { return cmp.Compare(a.at, b.at) })
	var list []name
	for i, b := range append(right, left...) {
		n := name{words: b.name, x: v.Place(b.at, 0).X}
		n.at = page.Point{X: n.x + mm, Y: begin + measure.Length(i)*nameHeight + nameFace.Ascent()}
		if i >= len(right) {
			n.at.X = n.x - mm - page.Width(n.words, nameFace)
		}
		list = append(list, n)
	}
	return list
}

// ties draws the lines from the drawing down to the names.
func (v view) ties(list []name) {
	for _, n := range list {
		v.Line(page.Point{X: n.x, Y: v.Place(0, v.Y.From).Y}, page.Point{X: n.x, Y: n.at.Y}, hatching)
	}
}

func (v view) write(list []name) {
	for _, n := range list {
		v.backed(n.at, page.Width(n.words, nameFace), nameFace)
		v.Text(n.at, n.words, nameFace)
	}
}

// backed clears the paper behind text that is w wide and begins at at.
func (v view) backed(at page.Point, w measure.Length, f page.Face) {
	v.Fill(page.Box(at.X-mm/4, at.Y-f.Ascent(), w+mm/2, f.Ascent()+f.Descent()), page.White)
}
