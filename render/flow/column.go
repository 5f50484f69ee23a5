package flow

import "shadewright/ticket/measure"

// A Column stacks blocks on as many sheets as they need.
type Column struct {
	*Layout
	Sheets []*Sheet
	title  string
	at     measure.Length
}

// Column begins a column with a title.
func (l *Layout) Column(title string) *Column { return &Column{Layout: l, title: title} }

// Next begins a new sheet.
func (c *Column) Next() {
	c.Sheets = append(c.Sheets, &Sheet{Layout: c.Layout, title: c.title})
	c.at = c.Body().Min.Y
}

// Fits reports whether a block of the given height fits on the current sheet.
func (c *Column) Fits(h measure.Length) bool {
	return len(c.Sheets) > 0 && c.at+h <= c.Frame.Max.Y
}

// Add adds a block. If it does not fit on the current sheet, it goes on a new
// one.
func (c *Column) Add(h measure.Length, draw Block) {
	if !c.Fits(h) {
		c.Next()
	}
	s := c.Sheets[len(c.Sheets)-1]
	s.blocks = append(s.blocks, block{c.at, draw})
	c.at += h
}

// Room returns the height left on the current sheet.
func (c *Column) Room() measure.Length { return c.Frame.Max.Y - c.at }
