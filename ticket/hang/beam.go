package hang

import (
	"fmt"
	"math"

	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// A Beam is a tube held at both ends.
type Beam struct {
	Span     measure.Length // between the bearings: the length of the tube
	Outside  measure.Length // diameter; for a telescoping tube, of its thinner part
	Wall     measure.Length // half of Outside for a solid pole
	Material Material
}

// Sag is what a load does to a beam.
type Sag struct {
	Sag   measure.Length // at mid-span; at most the span
	Limit measure.Length
	Own   measure.Mass // mass of the tube itself
}

// Check refuses a beam for which nothing can be worked out.
func (b Beam) Check(st measure.Style) error {
	c := &finding.Checker{Style: st}
	b.check(c)
	return c.Err()
}

func (b Beam) check(c *finding.Checker) {
	c.Positive("roller.length", b.Span, "give the length of the tube")
	outside := c.Positive("roller.tube", b.Outside, "measure across the bare tube")
	wall := c.Positive("roller.wall", b.Wall, "measure the wall; for a solid pole, give half its diameter")
	if outside && wall && b.Wall > (b.Outside+1)/2 {
		c.FailLength("roller.wall", b.Wall, fmt.Sprintf("is more than half the tube's diameter, %s", c.Style.Format(b.Outside)),
			"measure the wall again; for a solid pole, give half its diameter")
	}
	b.Material.check(c, "roller.material")
}

// bore returns the inside diameter; zero for a solid pole.
func (b Beam) bore() measure.Length { return max(0, b.Outside-2*b.Wall) }

// Own returns the mass of the tube itself.
func (b Beam) Own() measure.Mass { return b.Material.Round(b.Outside, b.bore(), b.Span) }

// Inertia returns the second moment of area in mm⁴: π·(D⁴ − d⁴)/64.
func (b Beam) Inertia() float64 {
	d, i := b.Outside.Millimetres(), b.bore().Millimetres()
	// The factors lose fewer digits than a difference of fourth powers.
	return math.Pi / 64 * (d - i) * (d + i) * (d*d + i*i)
}

// Sag returns the sag at mid-span of a plain, simply supported tube under its own
// weight and an evenly spread load: 5·w·L⁴ / (384·E·I). A rolled seam, a slot or a
// crimp makes a tube sag more; no figure for them was found. Where the formula
// gives more than the span, the tube would have failed long before, and Sag returns
// the span.
func (b Beam) Sag(load measure.Mass) measure.Length {
	span := b.Span.Millimetres()
	w := (b.Own() + load).Grams() / 1000 * gravity / span
	return lengthOf(math.Min(midspan(w, span, b.Material.Modulus, b.Inertia()), span))
}

// midspan returns the sag in mm for w in N/mm, a span in mm, e in N/mm² and i in
// mm⁴.
func midspan(w, span, e, i float64) float64 { return 5 * w * math.Pow(span, 4) / (384 * e * i) }

// judge reports a tube that sags too far, or is thin for its width.
func (s Sag) judge(found *finding.List, b Beam, lim Limits, st measure.Style) {
	if s.Sag > s.Limit {
		f := finding.Finding{
			Level: finding.Caution, Field: "roller",
			Text:  message.Of("hang.tube-sags", st.Fine(s.Sag)),
			Value: st.Fine(s.Sag), Limit: st.Fine(s.Limit),
			Source: lim.why("sag"),
			Remedy: message.Of("hang.fix-tube-sags"),
		}
		if s.Sag > b.Span/10 {
			f.Level = finding.Stop
			f.Text = message.Of("hang.tube-too-weak", st.Format(s.Sag))
			f.Limit, f.Source = st.Format(b.Span/10), "beyond a tenth of the span the beam formula no longer holds"
		}
		found.Add(f)
	}
}

// wide notes a wide shade on a thin tube.
func wide(found *finding.List, width, tube measure.Length, lim Limits, st measure.Style) {
	if lim.WideShade == 0 || width <= lim.WideShade || tube > lim.WideTube {
		return
	}
	found.Add(finding.Finding{
		Level: finding.Note, Field: "roller.tube",
		Text:  message.Of("hang.tube-thin-for-width", st.Format(width), st.Format(lim.WideTube), st.Format(tube)),
		Value: st.Format(tube), Limit: st.Format(lim.WideTube),
		Source: lim.why("wide_tube"),
		Remedy: message.Of("hang.fix-tube-thin"),
	})
}
