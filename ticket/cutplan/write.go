package cutplan

import (
	"slices"

	"shadewright/ticket"
	"shadewright/ticket/code"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
	"shadewright/ticket/nest"
)

// A writer turns a plan of package nest into a plan for the table, with selvages
// and a name for every part.
type writer struct {
	*Plan
	nest    nest.Plan
	opt     Options
	part    []int // by part of nest: its index in Plan.Parts; -1 before it is made
	roll    int   // index of what is still on the roll
	letters int
	offcuts int
}

// write fills in the plan.
func (w *writer) write(stock []ticket.Piece) {
	w.roll = w.add(Part{Name: rollName(), Kind: Roll, OnHand: -1, Width: w.Goods.Width})
	w.squareEnd()
	made := map[int]bool{}
	for _, c := range w.nest.Cuts {
		made[c.Near], made[c.Far] = true, true
	}
	for i, q := range w.nest.Parts {
		if q.On != nest.OnRoll && !made[i] {
			s := stock[q.On]
			w.OnHand = append(w.OnHand, OnHand{Piece: s})
			h := len(w.OnHand) - 1
			w.part[i] = w.add(Part{Name: message.Of("ticket.piece", s.Label), Kind: Between, OnHand: h, Width: s.Width, Length: s.Length})
			w.OnHand[h].Part = w.part[i]
			if q.Kind != nest.ToCut {
				w.name(i)
			}
		}
	}
	for _, c := range w.nest.Cuts {
		if from := w.nest.Parts[c.From]; from.On == nest.OnRoll && from.Length == 0 {
			w.section(c)
			continue
		}
		near, far := w.cut(w.part[c.From], c.Way, c.At)
		w.part[c.Near], w.part[c.Far] = near, far
		w.name(c.Near)
		w.name(c.Far)
	}
}

func rollName() message.Message { return message.Of("ticket.roll") }

// add appends a part and returns its index.
func (w *writer) add(p Part) int {
	p.Panel = -1
	w.Parts = append(w.Parts, p)
	return len(w.Parts) - 1
}

// cut divides part i and returns the near and the far part, still without names.
func (w *writer) cut(i int, way nest.Way, at measure.Length) (near, far int) {
	p := w.Parts[i]
	n := len(w.Cuts) + 1
	a := Part{OnHand: p.OnHand, X: p.X, Y: p.Y, Width: p.Width, Length: p.Length, By: n}
	b := a
	switch {
	case way == nest.Along:
		a.Width, b.X, b.Width = at, p.X+at, p.Width-at
	case p.Kind == Roll:
		a.Length, b.Y, b.Kind, b.Name = at, p.Y+at, Roll, rollName()
	default:
		a.Length, b.Y, b.Length = at, p.Y+at, p.Length-at
	}
	near, far = w.add(a), w.add(b)
	w.Cuts = append(w.Cuts, Cut{Number: n, From: i, Way: way, At: at, Near: near, Far: far})
	return near, far
}

// squareEnd makes the first cut, which squares the end of the roll. A roll is cut by
// hand wherever it is sold, so its end runs askew; a piece on hand was cut here.
func (w *writer) squareEnd() {
	a := w.opt.SquareEnd
	if w.nest.Used == 0 || a == 0 {
		return
	}
	w.Square = a
	w.Used += a
	w.Bound += a
	var end int
	end, w.roll = w.cut(w.roll, nest.Across, a)
	w.Parts[end].Kind, w.Parts[end].Name = Scrap, message.Of("ticket.roll-end")
}

// section cuts a length off the roll and trims its selvages, so that the rest is
// the part that package nest means. That part is the section until it is cut up. The
// right selvage stays on if nothing but scrap lies beside it. The left one always has a
// panel beside it, because every row of panels begins there.
func (w *writer) section(c nest.Cut) {
	var s int
	s, w.roll = w.cut(w.roll, nest.Across, c.At)
	w.Sections = append(w.Sections, Section{Part: s})
	name := message.Of("ticket.section", len(w.Sections))
	w.Parts[s].Kind, w.Parts[s].Name = Between, name
	if left := w.Goods.Selvage[0]; left > 0 {
		var strip int
		strip, s = w.cut(s, nest.Along, left)
		w.Parts[strip].Kind, w.Parts[strip].Name = Selvage, message.Of("ticket.selvage")
		w.Parts[s].Kind, w.Parts[s].Name = Between, name
	}
	if w.Goods.Selvage[1] > 0 && w.besideRight(w.nest.Parts[c.Near]) {
		var strip int
		s, strip = w.cut(s, nest.Along, w.Goods.Usable())
		w.Parts[strip].Kind, w.Parts[strip].Name = Selvage, message.Of("ticket.selvage")
		w.Parts[s].Kind, w.Parts[s].Name = Between, name
	}
	w.part[c.Near], w.part[c.Far] = s, w.roll
	if w.nest.Parts[c.Near].Kind != nest.ToCut {
		w.name(c.Near)
	}
}

// besideRight reports whether a panel or an offcut to keep touches the right side of a
// section of the roll.
func (w *writer) besideRight(section nest.Part) bool {
	side := section.X + section.Width
	return slices.ContainsFunc(w.nest.Parts, func(q nest.Part) bool {
		used := q.Kind == nest.Ready || q.Kind == nest.Offcut && w.keeps(q.Width, q.Length)
		return used && q.On == nest.OnRoll && q.X+q.Width == side && q.Y >= section.Y && q.Y < section.Y+section.Length
	})
}

// name names the part that stands for part i of nest.
func (w *writer) name(i int) {
	q := w.nest.Parts[i]
	p := &w.Parts[w.part[i]]
	switch q.Kind {
	case nest.Ready:
		p.Kind, p.Panel = Done, q.Piece
		w.Panels[q.Piece].Part = w.part[i]
		p.Name = w.Panels[q.Piece].Ticket.Called()
	case nest.Offcut:
		p.Kind, p.Name = Scrap, message.Of("ticket.scrap")
		if w.keeps(q.Width, q.Length) { // without a selvage that stays on it
			w.offcuts++
			p.Kind, p.Name = Offcut, message.Of("ticket.offcut", w.offcuts)
			w.Keep = append(w.Keep, w.part[i])
		}
	default:
		p.Kind, p.Name = Between, message.Verbatim(code.Chalked(w.letters))
		w.letters++
	}
}

// keeps reports whether an offcut is worth keeping.
func (w *writer) keeps(a, b measure.Length) bool {
	return min(a, b) >= w.opt.KeepWidth && max(a, b) >= w.opt.KeepLength
}
