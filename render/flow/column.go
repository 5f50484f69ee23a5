package flow

import "shadewright/ticket/measure"

// A Column puts blocks one under the other on as many sheets as it takes.
type Column struct {
	*Layout
	Sheets []*Sheet
	title  string
	at     measure.Length
}

// Column begins a column under a title.
func (l *Layout) Column(title string) *Column { return &Column{Layout: l, title: title} }

// Next begins a new sheet.
func (c *Column) Next() {
	c.Sheets = append(c.Sheets, &Sheet{Layout: c.Layout, title: c.title})
	c.at = c.Body().Min.Y
}

// Fits reports whether there is room of the given height on this sheet.
func (c *Column) Fits(h measure.Length) bool {
	return len(c.Sheets) > 0 && c.at+h <= c.Frame.Max.Y
}

// Add adds a block, on the next sheet if it does not fit this one.
func (c *Column) Add(h measure.Length, draw Block) {
	if !c.Fits(h) {
		c.Next()
	}
	s := c.Sheets[len(c.Sheets)-1]
	s.blocks = append(s.blocks, block{c.at, draw})
	c.at += h
}

// Room returns the height that is left on this sheet.
func (c *Column) Room() measure.Length { return c.Frame.Max.Y - c.at }
