// Package plan draws the cut plan: the goods to scale with the panels on them,
// the list of cuts in order, and labels for the offcuts to keep.
//
// Every size and every place on the goods comes from a plan of package cutplan;
// this package decides only where it lies on the paper. The roll runs from left
// to right. The cutter stands at the left of the drawing, at the cut end, so
// the left edge of the roll is at the top. Everything is readable in black and
// white.
package plan

import (
	"shadewright/render/flow"
	"shadewright/render/page"
	"shadewright/ticket/cutplan"
	"shadewright/ticket/measure"
)

const mm = measure.Millimetre

// On returns the layout of a plan. On smaller paper, a row of the list of cuts
// does not fit.
func On(opt flow.Options) (*flow.Layout, error) {
	return flow.On(opt, "the cut plan", measure.Size{Width: 170 * mm, Length: 120 * mm})
}

// Sheets lays out the plan of each goods. table is the length of the cutting
// table, or zero for no limit.
func Sheets(on *flow.Layout, plans []*cutplan.Plan, table measure.Length) []*flow.Sheet {
	l := &layout{on, table}
	var sheets []*flow.Sheet
	for _, p := range plans {
		sheets = append(sheets, l.plan(p)...)
	}
	return sheets
}

// A layout is shared by all sheets.
type layout struct {
	*flow.Layout
	cutting measure.Length // length of the cutting table; zero for no limit
}

// A drawing is a block while it is drawn.
type drawing struct {
	flow.Canvas
	*layout
	taken []page.Rect // the places of texts that must stay free
}

// A column stacks drawings.
type column struct {
	*flow.Column
	of *layout
}

func (l *layout) column(title string) *column { return &column{l.Column(title), l} }

func (c *column) put(h measure.Length, draw func(d *drawing, at measure.Length)) {
	c.Add(h, func(on flow.Canvas, at measure.Length) { draw(&drawing{Canvas: on, layout: c.of}, at) })
}

var (
	hair, solid = flow.Hair(), flow.Solid()
	heavy       = flow.Heavy()
	dash        = page.Pen{Width: 300 * measure.Micrometre, Dash: []measure.Length{2 * mm, mm}}
)
