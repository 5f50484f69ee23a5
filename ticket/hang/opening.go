package hang

import (
	"fmt"
	"slices"

	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
	"shadewright/ticket/square"
)

// A Mount says what the brackets are fixed to.
type Mount uint8

const (
	Inside  Mount = iota // to the jambs, within the recess
	Outside              // to the wall or the casing around the opening
	Ceiling              // to the ceiling in front of the opening; measured like Outside
)

// String returns the word a job file uses.
func (m Mount) String() string { return [...]string{"inside", "outside", "ceiling"}[m] }

// Message returns the words for a person, such as "inside mount".
func (m Mount) Message() message.Message {
	return message.Of([...]message.ID{"hang.inside-mount", "hang.outside-mount", "hang.ceiling-mount"}[m])
}

// An Opening is what was measured at the window.
type Opening struct {
	Mount     Mount
	Widths    []measure.Length  // top, middle, bottom
	Heights   []measure.Length  // left, middle, right
	Diagonals [2]measure.Length // from top left, from top right; zero if not measured
	Depth     *measure.Length   // of the recess, front edge to glass; nil if not measured
	Overlap   Overlap           // for an outside mount
}

// A StepKind says what a [Step] does.
type StepKind uint8

const (
	Measured StepKind = iota // a reading of the tape
	Chosen                   // the reading that is used
	Rounded                  // the reading used, rounded
	TakenOff                 // subtracted
	Added                    // added
	Reached                  // the result
)

// String returns a word for the kind.
func (k StepKind) String() string {
	return [...]string{"measured", "chosen", "rounded", "taken off", "added", "reached"}[k]
}

// A Step is one line of the calculation from the tape measure to the cut. Key names
// the value: width_top, width_middle, width_bottom (or width_1, width_2, … unless
// there are three), height_left …, diagonal_top_left, diagonal_top_right, width,
// height, tip_off, tip_to_tip, barrel_off, tube_trim, cloth_off, finished_width,
// overlap_left …, barrel_over, tip_over, height_off, finished_length.
type Step struct {
	Kind  StepKind
	Key   string
	Value measure.Length
	Why   string // the reason or its source; empty for a reading
}

// A Fit is what results from an opening.
type Fit struct {
	Opening    measure.Size // the width and height used, rounded
	Finished   measure.Size
	TipToTip   measure.Length // of the roller, pin to pin
	TubeTrim   measure.Length // length of the tube
	PanelWidth measure.Length // the finished width and two side hems
	LightGap   measure.Length // beside the cloth, at each side; for an inside mount
	Square     *square.Result // of the opening, if both diagonals were measured
	Steps      []Step
}

// Fit works out the finished size of a shade for an opening. sideHem is the cloth
// turned in at each side, usually zero.
func (r Rules) Fit(o Opening, sideHem measure.Length, st measure.Style) (Fit, []finding.Finding, error) {
	c := &finding.Checker{Style: st}
	r.check(c)
	o.check(c)
	c.NotNegative("allow.side_hem", sideHem)
	if err := c.Err(); err != nil {
		return Fit{}, nil, err
	}
	fit := Fit{Steps: make([]Step, 0, 24)}
	r.width(o, &fit)
	r.length(o, &fit)
	fit.PanelWidth = fit.Finished.Width + 2*sideHem
	if fit.Finished.Width <= 0 {
		c.FailLength("opening.widths", fit.Opening.Width, "leaves no cloth after the deductions", "check the number and its unit")
	}
	if fit.Finished.Length <= 0 {
		c.FailLength("opening.heights", fit.Opening.Length, "leaves no cloth after the deductions", "check the number and its unit")
	}
	if err := c.Err(); err != nil {
		return Fit{}, nil, err
	}
	var found finding.List
	r.readings(&found, o, st)
	r.recess(&found, o, st)
	if err := r.diagonals(&found, o, &fit, st); err != nil {
		return Fit{}, nil, err
	}
	return fit, found, nil
}

func (o Opening) check(c *finding.Checker) {
	if o.Mount > Ceiling {
		c.Fail("opening.mount", "", "is not a known mount", "use inside, outside or ceiling")
	}
	o.checkReadings(c, "opening.widths", o.Widths)
	o.checkReadings(c, "opening.heights", o.Heights)
	for _, d := range o.Diagonals {
		c.NotNegative("opening.diagonals", d)
	}
	if o.Depth != nil {
		c.NotNegative("opening.depth", *o.Depth)
	}
	if o.Mount != Inside {
		for _, v := range []struct {
			side string
			over measure.Length
		}{{"left", o.Overlap.Left}, {"right", o.Overlap.Right}, {"above", o.Overlap.Above}, {"below", o.Overlap.Below}} {
			c.NotNegative("opening.overlap."+v.side, v.over)
		}
	}
}

func (o Opening) checkReadings(c *finding.Checker, field string, readings []measure.Length) {
	if len(readings) == 0 {
		c.Fail(field, "", "has no reading", "measure in three places and give all three")
	}
	for _, l := range readings {
		c.Positive(field, l, "measure again in three places and give all three")
	}
}

// width uses the narrowest reading for an inside mount, and the widest for an
// outside mount, where the cloth must cover.
func (r Rules) width(o Opening, f *Fit) {
	f.measured("width", [3]string{"top", "middle", "bottom"}, o.Widths)
	if o.Mount != Inside {
		r.widthOutside(o, f)
		return
	}
	narrow := slices.Min(o.Widths)
	f.step(Chosen, "width", narrow, "measuring guides: the narrowest of three widths")
	w := narrow.Round(r.WidthStep, measure.Down)
	f.Opening.Width = w
	f.step(Rounded, "width", w, r.why("width_step"))
	f.step(TakenOff, "tip_off", r.TipOff, r.why("tip_off"))
	f.TipToTip = f.reached("tip_to_tip", w-r.TipOff)
	f.step(TakenOff, "barrel_off", r.BarrelOff, r.why("barrel_off"))
	f.TubeTrim = f.reached("tube_trim", w-r.BarrelOff)
	f.step(TakenOff, "cloth_off", r.ClothOff, r.why("cloth_off"))
	f.Finished.Width = f.reached("finished_width", w-r.ClothOff)
	f.LightGap = r.ClothOff / 2
}

func (r Rules) widthOutside(o Opening, f *Fit) {
	wide := slices.Max(o.Widths)
	f.step(Chosen, "width", wide, "common practice, no source: the widest of three, so that the cloth covers everywhere")
	w := wide.Round(r.WidthStep, measure.Up)
	f.Opening.Width = w
	f.step(Rounded, "width", w, "rounded up, so that the cloth covers")
	f.step(Added, "overlap_left", o.Overlap.Left, r.overlapWhy(o.Overlap))
	f.step(Added, "overlap_right", o.Overlap.Right, r.overlapWhy(o.Overlap))
	cloth := f.reached("finished_width", w+o.Overlap.Left+o.Overlap.Right)
	f.Finished.Width = cloth
	// The roller exceeds its cloth by the same length as for an inside mount.
	f.step(Added, "barrel_over", r.ClothOff-r.BarrelOff, "cloth_off less barrel_off")
	f.TubeTrim = f.reached("tube_trim", cloth+r.ClothOff-r.BarrelOff)
	f.step(Added, "tip_over", r.ClothOff-r.TipOff, "cloth_off less tip_off; a measuring guide says 7/8 to 1 in")
	f.TipToTip = f.reached("tip_to_tip", cloth+r.ClothOff-r.TipOff)
}

func (r Rules) length(o Opening, f *Fit) {
	f.measured("height", [3]string{"left", "middle", "right"}, o.Heights)
	h := r.height(o.Heights)
	f.step(Chosen, "height", h, why("height", r.Height == Longest))
	if o.Mount != Inside {
		h = h.Round(r.LengthStep, measure.Up)
		f.step(Rounded, "height", h, "rounded up, so that the cloth covers")
		f.step(Added, "overlap_above", o.Overlap.Above, r.overlapWhy(o.Overlap))
		f.step(Added, "overlap_below", o.Overlap.Below, r.overlapWhy(o.Overlap))
		f.Opening.Length = h
		f.Finished.Length = f.reached("finished_length", h+o.Overlap.Above+o.Overlap.Below)
		return
	}
	h = h.Round(r.LengthStep, measure.Down)
	f.Opening.Length = h
	f.step(Rounded, "height", h, r.why("length_step"))
	if r.HeightOff != 0 {
		f.step(TakenOff, "height_off", r.HeightOff, r.why("height_off"))
	}
	f.Finished.Length = f.reached("finished_length", h-r.HeightOff)
}

func (r Rules) height(readings []measure.Length) measure.Length {
	switch r.Height {
	case Shortest:
		return slices.Min(readings)
	case Middle:
		s := slices.Sorted(slices.Values(readings))
		return s[(len(s)-1)/2]
	default:
		return slices.Max(readings)
	}
}

// reached adds the step for a result, and returns the result.
func (f *Fit) reached(key string, v measure.Length) measure.Length {
	f.step(Reached, key, v, "")
	return v
}

func (f *Fit) step(k StepKind, key string, v measure.Length, why string) {
	f.Steps = append(f.Steps, Step{Kind: k, Key: key, Value: v, Why: why})
}

func (f *Fit) measured(noun string, names [3]string, readings []measure.Length) {
	for i, l := range readings {
		f.step(Measured, readingKey(noun, names, i, len(readings)), l, "")
	}
}

// readingKey names a reading by its place if there are three, else by its number.
func readingKey(noun string, names [3]string, i, n int) string {
	if n == len(names) {
		return noun + "_" + names[i]
	}
	return fmt.Sprintf("%s_%d", noun, i+1)
}
