package plan

import (
	"strings"
	"unicode/utf8"

	"shadewright/render/flow"
	"shadewright/render/page"
	"shadewright/ticket/cutplan"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// A look says how tightly the list of cuts is set.
type look struct {
	size, pitch measure.Length
	columns     []measure.Length // start of each column, in thousandths of the width
	abreast     int              // lists side by side
}

// wide has columns for the direction of a cut and for a check. narrow names
// only the edge, which implies the direction, and has no check.
var (
	wide   = []measure.Length{0, 30, 86, 184, 436, 642, 836, 1000}
	narrow = []measure.Length{0, 45, 130, 268, 520, 765, 1000}
)

// looks lists the ways to set the list, from the most open to the tightest.
var looks = []look{
	{11 * page.Pt, 13 * mm / 2, wide, 1}, {10 * page.Pt, 11 * mm / 2, wide, 1}, {9 * page.Pt, 5 * mm, wide, 1},
	{17 * page.Pt / 2, 9 * mm / 2, wide, 1}, {8 * page.Pt, 17 * mm / 4, wide, 1}, {8 * page.Pt, 17 * mm / 4, narrow, 2},
}

// height returns the height of a list with the given number of rows, including
// its heading.
func (k look) height(rows int) measure.Length {
	return k.pitch * measure.Length((rows+k.abreast-1)/k.abreast+1)
}

// scales lists the allowed n of a drawing at 1 : n.
var scales = []int{5, 6, 8, 10, 12, 15, 16, 20, 24, 25, 30, 32, 40, 48, 50, 60, 64, 80, 96, 100, 120, 150, 200}

const (
	legible     = 7 * mm  // smallest side of a panel in a drawing that shares one sheet with the list
	comfortable = 13 * mm // the same in a drawing over several sheets
	introLead   = 4 * mm
	keyHeight   = 6 * mm
	sumPitch    = 9 * mm / 2
)

// plan lays out the sheets of one goods: on one sheet if every label stays readable,
// else first the drawing, in as many rows as it takes, and then the list of cuts.
func (l *layout) plan(p *cutplan.Plan) []*flow.Sheet {
	list := l.pieces(p)
	body := l.Body()
	fixed := l.introHeight() + keyHeight + sumPitch*measure.Length(len(l.sums(p))+1)
	small := l.smallest(p)
	for _, k := range looks {
		if !(&drawing{layout: l}).table(k, 0).holds(p) {
			continue
		}
		room := body.Height() - fixed - k.height(len(rows(p)))
		for _, n := range scales {
			if small/measure.Length(n) < legible {
				break
			}
			s := strips(list, n, body.Width())
			if !l.readable(p, s, n) {
				break
			}
			if total(s) <= room {
				return l.flow(p, s, n, k)
			}
		}
	}
	best, least := 0, 0
	for _, n := range scales {
		s := strips(list, n, body.Width())
		if s[0].height > body.Height()-l.introHeight() || best > 0 && (small/measure.Length(n) < comfortable || !l.readable(p, s, n)) {
			continue
		}
		if sheets := l.sheets(s); best == 0 || sheets < least {
			best, least = n, sheets
		}
	}
	if best == 0 {
		best = scales[len(scales)-1]
	}
	return l.flow(p, strips(list, best, body.Width()), best, looks[1])
}

// sheets returns how many sheets the strips need.
func (l *layout) sheets(s []strip) int {
	c := l.column("")
	c.put(l.introHeight(), nil)
	for _, r := range s {
		c.put(r.height, nil)
	}
	return len(c.Sheets)
}

// smallest returns the shortest side of any panel.
func (l *layout) smallest(p *cutplan.Plan) measure.Length {
	var small measure.Length
	for _, q := range p.Panels {
		s := q.Size()
		if side := min(s.Width, s.Length); small == 0 || side < small {
			small = side
		}
	}
	return small
}

// flow lays out the drawing and then the list.
func (l *layout) flow(p *cutplan.Plan, rows []strip, n int, k look) []*flow.Sheet {
	c := l.column(l.Say("common.cut-plan", p.Goods.Name))
	c.put(l.introHeight(), func(d *drawing, at measure.Length) { d.intro(p, n, at) })
	for _, r := range rows {
		c.put(r.height, func(d *drawing, at measure.Length) { d.strip(p, r, n, at) })
	}
	c.put(keyHeight, func(d *drawing, at measure.Length) { d.key(p, n, at) })
	l.cuts(c, p, k)
	c.put(sumPitch/2, func(*drawing, measure.Length) {})
	for _, line := range l.sums(p) {
		c.put(sumPitch, func(d *drawing, at measure.Length) {
			d.Text(page.Point{X: d.Frame.Min.X, Y: at + sumPitch - mm}, line, sumFace)
		})
	}
	return c.Sheets
}

// cuts lays out the list of cuts: down the first column, then down the next.
func (l *layout) cuts(c *column, p *cutplan.Plan, k look) {
	for left := rows(p); len(left) > 0; {
		if !c.Fits(3 * k.pitch) {
			c.Next()
		}
		deep := int(c.Room()/k.pitch) - 1
		deep = min(deep, (len(left)+k.abreast-1)/k.abreast)
		here := left[:min(deep*k.abreast, len(left))]
		left = left[len(here):]
		c.put(k.pitch, func(d *drawing, at measure.Length) {
			for n := range k.abreast {
				d.table(k, n).head(at)
			}
		})
		for i := range deep {
			c.put(k.pitch, func(d *drawing, at measure.Length) {
				for n := range k.abreast {
					if r := n*deep + i; r < len(here) {
						d.table(k, n).row(p, here[r], at)
					}
				}
			})
		}
	}
}

// intro writes how much cloth to cut and how good the plan is.
func (d *drawing) intro(p *cutplan.Plan, n int, at measure.Length) {
	x := d.Frame.Min.X
	first, bold := page.Fit(d.task(p), page.Face{Size: 13 * page.Pt, Weight: page.Bold}, d.Frame.Width(), 9*page.Pt)
	d.Text(page.Point{X: x, Y: at + 5*mm}, first, bold)
	s := p.Shares()
	plain := page.Face{Size: 9 * page.Pt}
	second := d.Say("plan.yield", upper(d.Put(p.Verdict(d.Style, d.Words))), d.percent(s.Panels), d.percent(s.Kept), d.percent(s.Waste))
	second, f := page.Fit(second, plain, d.Frame.Width(), 6*page.Pt)
	d.Text(page.Point{X: x, Y: at + 10*mm}, second, f)
	lines, f := d.standing(n)
	for i, third := range lines {
		d.Text(page.Point{X: x, Y: at + 29*mm/2 + measure.Length(i)*introLead}, third, f)
	}
}

// standing says where to stand, on one line if it stays readable.
func (l *layout) standing(n int) ([]string, page.Face) {
	plain := page.Face{Size: 9 * page.Pt}
	words := l.Say("plan.how-to-stand", n)
	if one, f := page.Fit(words, plain, l.Frame.Width(), 15*page.Pt/2); one == words {
		return []string{one}, f
	}
	return page.Wrap(words, plain, l.Frame.Width()), plain
}

// introHeight returns the height of the text above the drawing.
func (l *layout) introHeight() measure.Length {
	lines, _ := l.standing(scales[len(scales)-1])
	return 17*mm + measure.Length(len(lines)-1)*introLead
}

// task says how much to cut, and of which goods.
func (l *layout) task(p *cutplan.Plan) string {
	used, wide, have := l.Words(p.Used), l.Words(p.Goods.Width), len(p.OnHand)
	switch {
	case have == 0:
		return l.Say("plan.cut-off-roll", used, wide)
	case p.Used == 0:
		return l.Put(message.Count(have, "plan.piece-suffices", "plan.pieces-suffice"))
	}
	return l.Put(message.Count(have, "plan.cut-off-roll-and-piece", "plan.cut-off-roll-and-pieces", used, wide))
}

func (l *layout) percent(share float64) string { return l.Style.Decimal(share*100, 1) }

// upper gives a sentence its capital.
func upper(s string) string {
	_, n := utf8.DecodeRuneInString(s)
	return strings.ToUpper(s[:n]) + s[n:]
}

// key explains the drawing, and shows the length of the cutting table at its
// scale.
func (d *drawing) key(p *cutplan.Plan, n int, at measure.Length) {
	x := d.Frame.Min.X
	f := page.Face{Size: 8 * page.Pt}
	base := at + 4*mm
	swatch := func(fill func(r page.Rect), words string) {
		r := page.Box(x, at+mm, 6*mm, 3*mm)
		fill(r)
		d.Text(page.Point{X: x + 15*mm/2, Y: base}, words, f)
		x += 12*mm + page.Width(words, f)
	}
	swatch(func(r page.Rect) { d.Rect(r, solid) }, d.Say("plan.legend-panel"))
	swatch(func(r page.Rect) { d.Fill(r, 90); d.Rect(r, dash) }, d.Say("plan.offcut-to-keep"))
	swatch(func(r page.Rect) { d.hatch(r); d.Rect(r, hair) }, d.Say("ticket.scrap"))
	swatch(func(r page.Rect) { d.Fill(r, 65); d.Rect(r, hair) }, d.Say("ticket.selvage"))
	swatch(func(r page.Rect) {
		d.arrow(page.Point{X: r.Max.X, Y: at + 5*mm/2}, page.Point{X: -5 * mm})
	}, d.Say("plan.panels-top"))
	if t := d.cutting; t > 0 {
		w := t / measure.Length(n)
		words := d.Say("plan.table-ends", d.Words(t))
		if from := d.Frame.Max.X - w; from > x+page.Width(words, f) {
			d.Line(page.Point{X: from, Y: at + 2*mm}, page.Point{X: d.Frame.Max.X, Y: at + 2*mm}, solid)
			for _, e := range []measure.Length{from, d.Frame.Max.X} {
				d.Line(page.Point{X: e, Y: at}, page.Point{X: e, Y: at + 4*mm}, solid)
			}
			d.Text(page.Point{X: from - mm, Y: base}, words, page.Face{Size: f.Size, Align: page.End})
		} else if w := page.Width(words, f); x+w <= d.Frame.Max.X {
			d.Text(page.Point{X: d.Frame.Max.X, Y: base}, words, page.Face{Size: f.Size, Align: page.End})
		}
	}
}
