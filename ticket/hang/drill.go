package hang

import (
	"fmt"

	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// A Point lies to the right of an origin (X) and above it (Y).
type Point struct{ X, Y measure.Length }

// A Hole is a screw hole.
type Hole struct {
	At       Point
	Diameter measure.Length
}

// A Bracket is the left one of a pair, as you face the surface it is fixed to: the
// jamb for an inside mount (with the glass to the right), the wall for an outside
// mount, the ceiling for a ceiling mount (with the wall below). Points are measured
// from the lower left corner of its plate. The right bracket is its mirror image.
type Bracket struct {
	Name       string
	Plate      measure.Size // across and up
	Holes      []Hole
	Axle       Point          // opposite the place where the roller's tip bears
	Projection measure.Length // from the mounting face to the axle; for an inside mount, to where the tip bears
}

// A Side is left or right, as seen from the room.
type Side uint8

// The sides.
const (
	Left Side = iota
	Right
)

// String returns "left" or "right".
func (s Side) String() string { return [...]string{"left", "right"}[s] }

func (s Side) other() Side { return 1 - s }

// A Pin is one end of a spring roller.
type Pin uint8

const (
	FlatPin  Pin = iota // on the spring; sits in a slot
	RoundPin            // turns in a hole
)

// String returns "flat pin" or "round pin".
func (p Pin) String() string { return [...]string{"flat pin", "round pin"}[p] }

// A Site is where a pair of brackets goes.
type Site struct {
	Bracket  Bracket
	Mount    Mount
	Roll     Roll
	FlatPin  Side           // where the flat pin of a standard roll is; for a reverse roll, the roller is turned end for end
	TipToTip measure.Length // of the roller
	Play     measure.Length // how much further apart the bearings stand
	RollUp   RollUp

	Axle    measure.Length // for inside and ceiling: from the glass or the wall to the axle
	Head    measure.Length // for inside: from the head down to the axle; for outside: from the top of the opening up to it
	Opening measure.Size   // the width between the jambs; for outside and ceiling: of the opening itself
	Overlap Overlap        // for outside and ceiling
	Depth   measure.Length // of the recess; zero if unknown
}

// A Drilling has all dimensions of a drilling template.
type Drilling struct {
	Bearings measure.Length // between the places where the tips bear
	Between  measure.Length // between the facing edges of the plates; for inside: between the jambs
	Shim     measure.Length // for inside: packing behind each plate; below zero, the brackets do not fit
	Views    []View         // for inside: the left jamb, the right jamb; otherwise one view
}

// A View is one surface as you face it. Its origin is the axle on a jamb, otherwise
// the point on the axle midway between the bearings.
type View struct {
	Name   string // "left jamb", "right jamb", "wall" or "ceiling"
	Plates []Plate
	Lines  []Line
	Circle measure.Length // diameter of the roll when up, seen end on; zero if the view does not show it
}

// A Plate is a bracket's plate in a view.
type Plate struct {
	Side     Side
	Pin      Pin // the end of the roller that it holds
	Min, Max Point
	Holes    []Hole
	Axle     Point
}

// A LineName names a line of a view.
type LineName string

// The lines. Left and right of the opening are as seen from the room.
const (
	AxleLine     LineName = "axle"
	CentreLine   LineName = "centre" // midway between the bearings
	HeadLine     LineName = "head"   // of the recess
	GlassLine    LineName = "glass"
	WallLine     LineName = "wall"
	FrontEdge    LineName = "front edge" // of the recess
	OpeningTop   LineName = "top of the opening"
	OpeningLeft  LineName = "left of the opening"
	OpeningRight LineName = "right of the opening"
	ClothLine    LineName = "cloth"
	RollLine     LineName = "roll" // an edge of the roll when up
)

// A Line crosses a view from edge to edge.
type Line struct {
	Name    LineName
	Upright bool
	At      measure.Length // from the origin: to the right if Upright, else up
}

// Drill works out a drilling template. The findings say whether the brackets fit.
func (s Site) Drill(st measure.Style) (Drilling, []finding.Finding, error) {
	c := &finding.Checker{Style: st}
	s.check(c)
	if err := c.Err(); err != nil {
		return Drilling{}, nil, err
	}
	d := Drilling{Bearings: s.TipToTip + s.Play}
	var found finding.List
	if s.Mount == Inside {
		d.Between = d.Bearings + 2*s.Bracket.Projection
		d.Shim = (s.Opening.Width - d.Between) / 2
		d.Views = []View{s.jamb(Left), s.jamb(Right)}
		s.judgeShim(&found, d, st)
		return d, found, nil
	}
	v := s.flat(d.Bearings)
	d.Views = []View{v}
	d.Between = v.Plates[1].Min.X - v.Plates[0].Max.X
	if d.Between < 0 {
		c.FailLength("bracket.plate", s.Bracket.Plate.Width, "is so wide that the two plates overlap", "check the plate and the roller's length")
	}
	return d, found, c.Err()
}

// pin returns the end of the roller at a side. A standard roll's flat pin is on the
// left by common practice (no source). Turning the roller end for end makes the
// cloth fall from the other side of the tube.
func (s Site) pin(side Side) Pin {
	flat := s.FlatPin
	if s.Roll == Reverse {
		flat = flat.other()
	}
	if side == flat {
		return FlatPin
	}
	return RoundPin
}

// plate places a bracket so that its axle is at the given point.
func (s Site) plate(side Side, axle Point) Plate {
	b := s.Bracket
	p := Plate{Side: side, Pin: s.pin(side), Axle: axle}
	left := b.Axle.X
	if side == Right {
		left = b.Plate.Width - b.Axle.X
	}
	p.Min = Point{axle.X - left, axle.Y - b.Axle.Y}
	p.Max = Point{p.Min.X + b.Plate.Width, p.Min.Y + b.Plate.Length}
	for _, h := range b.Holes {
		x := h.At.X
		if side == Right {
			x = b.Plate.Width - x
		}
		p.Holes = append(p.Holes, Hole{Point{p.Min.X + x, p.Min.Y + h.At.Y}, h.Diameter})
	}
	return p
}

// jamb returns the view of one jamb from within the opening. On the left jamb the
// glass is to the right, on the right jamb to the left.
func (s Site) jamb(side Side) View {
	glassward := measure.Length(1)
	if side == Right {
		glassward = -1
	}
	v := View{Name: side.String() + " jamb", Plates: []Plate{s.plate(side, Point{})}, Circle: s.RollUp.DiameterUp}
	v.Lines = []Line{
		{AxleLine, false, 0},
		{HeadLine, false, s.Head},
		{GlassLine, true, glassward * s.Axle},
		{ClothLine, true, glassward * s.fall()},
	}
	if s.Depth > 0 {
		v.Lines = append(v.Lines, Line{FrontEdge, true, glassward * (s.Axle - s.Depth)})
	}
	return v
}

// fall returns how far from the axle, towards the glass or the wall, the cloth
// falls with the shade down.
func (s Site) fall() measure.Length {
	if s.Roll == Reverse {
		return -s.RollUp.RadiusDown
	}
	return s.RollUp.RadiusDown
}

// flat returns the view of the wall or, from below, of the ceiling.
func (s Site) flat(bearings measure.Length) View {
	left := -(bearings / 2)
	v := View{
		Name:   "wall",
		Plates: []Plate{s.plate(Left, Point{left, 0}), s.plate(Right, Point{left + bearings, 0})},
		Lines:  []Line{{AxleLine, false, 0}, {CentreLine, true, 0}},
	}
	half := s.RollUp.DiameterUp / 2
	v.Lines = append(v.Lines, Line{RollLine, false, half}, Line{RollLine, false, -half})
	// The cloth is centred between the bearings, and overlaps the opening.
	cloth := s.Opening.Width + s.Overlap.Left + s.Overlap.Right
	edge := -(cloth / 2) + s.Overlap.Left
	v.Lines = append(v.Lines,
		Line{OpeningLeft, true, edge},
		Line{OpeningRight, true, edge + s.Opening.Width})
	if s.Mount == Ceiling {
		v.Name = "ceiling"
		v.Lines = append(v.Lines, Line{WallLine, false, -s.Axle}, Line{ClothLine, false, -s.fall()})
		return v
	}
	v.Lines = append(v.Lines, Line{OpeningTop, false, -s.Head})
	return v
}

func (s Site) check(c *finding.Checker) {
	if s.Mount > Ceiling {
		c.Fail("opening.mount", "", "is not a known mount", "use inside, outside or ceiling")
	}
	if s.Roll > Reverse || s.FlatPin > Right {
		c.Fail("roll", "", "is not a known roll or side", "use standard or reverse, left or right")
	}
	c.Positive("roller.length", s.TipToTip, "give the roller's length from tip to tip")
	c.NotNegative("play", s.Play)
	c.Positive("opening.widths", s.Opening.Width, "give the width of the opening")
	c.NotNegative("opening.axle", s.Axle)
	c.NotNegative("opening.head", s.Head)
	c.NotNegative("opening.depth", s.Depth)
	for _, o := range []measure.Length{s.Overlap.Left, s.Overlap.Right, s.Overlap.Above, s.Overlap.Below} {
		c.NotNegative("opening.overlap", o)
	}
	s.Bracket.check(c)
}

func (b Bracket) check(c *finding.Checker) {
	c.Positive("bracket.plate", b.Plate.Width, "measure the plate")
	c.Positive("bracket.plate", b.Plate.Length, "measure the plate")
	c.NotNegative("bracket.projection", b.Projection)
	c.InReach("bracket.axle", b.Axle.X)
	c.InReach("bracket.axle", b.Axle.Y)
	if len(b.Holes) == 0 {
		c.Fail("bracket.holes", "", "are missing", "give the position of each hole from the plate's lower left corner")
	}
	for _, h := range b.Holes {
		if !c.Positive("bracket.holes", h.Diameter, "give the diameter of each hole") {
			continue
		}
		r := h.Diameter / 2
		if h.At.X < r || h.At.Y < r || h.At.X > b.Plate.Width-r || h.At.Y > b.Plate.Length-r {
			c.Fail("bracket.holes", fmt.Sprintf("%s, %s", c.Style.Format(h.At.X), c.Style.Format(h.At.Y)),
				"lies outside the plate", "measure from the plate's lower left corner to the middle of the hole")
		}
	}
}

func (s Site) judgeShim(found *finding.List, d Drilling, st measure.Style) {
	f := finding.Finding{
		Field: "bracket.projection", Value: st.Format(d.Between), Limit: st.Format(s.Opening.Width),
		Source: "geometry: the roller, its play and both brackets",
	}
	switch {
	case d.Shim < 0:
		f.Level = finding.Stop
		f.Text = message.Of("hang.jambs-too-close", st.Format(d.Between), st.Fine(-2*d.Shim))
		f.Remedy = message.Of("hang.fix-jambs-too-close")
	case d.Shim >= st.Step():
		f.Level = finding.Note
		f.Text = message.Of("hang.jambs-too-far", st.Format(2*d.Shim))
		f.Remedy = message.Of("hang.fix-jambs-too-far", st.Format(d.Shim))
	default:
		return
	}
	found.Add(f)
}
