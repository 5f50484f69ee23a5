package plan

import (
	"shadewright/render/flow"
	"shadewright/render/page"
	"shadewright/ticket/cutplan"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

const (
	labelColumns = 2
	labelHeight  = 45 * mm
)

// Labels lays out a label for every offcut to keep. The shop cuts the labels
// out and sticks them on.
func Labels(on *flow.Layout, plans []*cutplan.Plan) []*flow.Sheet {
	l := &layout{Layout: on}
	type label struct {
		plan *cutplan.Plan
		kept int // index in the plan's Keep
	}
	var all []label
	for _, p := range plans {
		for i := range p.Keep {
			all = append(all, label{p, i})
		}
	}
	c := l.column(l.Say("plan.offcut-labels"))
	for i := 0; i < len(all); i += labelColumns {
		row := all[i:min(i+labelColumns, len(all))]
		c.put(labelHeight, func(d *drawing, at measure.Length) {
			w := d.Frame.Width() / labelColumns
			for k, o := range row {
				d.label(page.Box(d.Frame.Min.X+w*measure.Length(k), at, w, labelHeight), o.plan, o.kept)
			}
		})
	}
	return c.Sheets
}

// label draws one label. The size is its largest text.
func (d *drawing) label(r page.Rect, p *cutplan.Plan, kept int) {
	q := p.Parts[p.Keep[kept]]
	d.Rect(r, dash)
	in := r.Inset(4 * mm)
	line := func(y measure.Length, s string, f page.Face) {
		s, f = page.Fit(s, f, in.Width(), 7*page.Pt)
		d.Text(page.Point{X: in.Min.X, Y: in.Min.Y + y}, s, f)
	}
	plain := page.Face{Size: 10 * page.Pt}
	line(6*mm, p.Goods.Name, page.Face{Size: 16 * page.Pt, Weight: page.Semibold})
	line(17*mm, d.down(q.Width)+" × "+d.down(q.Length), page.Face{Size: 24 * page.Pt, Weight: page.Bold})
	line(23*mm, d.Say("plan.offcut-size", message.Of(p.Goods.Kind.Cloth().Name)), plain)
	line(29*mm, p.KeepLabel(kept), page.Face{Size: 13 * page.Pt, Weight: page.Semibold})
	line(35*mm, d.Put(q.Name)+", "+d.Job, plain)
}

// down formats a length rounded down, so that it never promises more cloth than
// there is.
func (d *drawing) down(v measure.Length) string {
	return d.Style.Words(v, measure.Down).Typeset()
}
