// Package square works out from two measured diagonals how far a panel or an
// opening is off square, which way it leans and what to trim.
package square

import (
	"fmt"
	"math"

	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// A Quad is a four-sided panel or opening, as you face it.
type Quad struct {
	Size        measure.Size      // the intended width and length
	Diagonals   [2]measure.Length // measured: from top left to bottom right, and from top right to bottom left
	Top, Bottom measure.Length    // measured widths; zero if not measured
	Left, Right measure.Length    // measured lengths; zero if not measured

	Field string // the key for errors and findings; empty means "square"
}

// A Lean is the side to which the top of a quad is shifted against its bottom.
type Lean uint8

// The leans.
const (
	Upright Lean = iota
	LeanLeft
	LeanRight
)

// String returns "to neither side", "to the left" or "to the right".
func (l Lean) String() string {
	return [...]string{"to neither side", "to the left", "to the right"}[l]
}

// A Corner is a corner of a quad, as you face it.
type Corner uint8

// The corners.
const (
	TopLeft Corner = iota
	TopRight
	BottomLeft
	BottomRight
)

// String returns "top left" and so on.
func (c Corner) String() string {
	return [...]string{"top left", "top right", "bottom left", "bottom right"}[c]
}

// A Result is what two measured diagonals show.
type Result struct {
	Difference measure.Length // between the diagonals
	Allowed    measure.Length // the greatest difference that counts as square
	Target     measure.Length // the length that both diagonals should have
	Lean       Lean
	Angle      float64           // of the lean, in degrees, never negative
	TopOver    measure.Length    // how far the top is shifted against the bottom, over the length
	Trim       measure.Length    // to cut at each of Corners, tapering to nothing at the other end of the edge
	Corners    [2]Corner         // top and bottom end of the longer diagonal
	After      measure.Size      // the rectangle that remains after both ends are trimmed
	Misfit     measure.Length    // what both diagonals together show in excess of the sides
	Taper      [2]measure.Length // top less bottom and left less right, which equal diagonals cannot show; zero if not measured
	Square     bool              // the difference is within Allowed, and so is the taper if it was measured
}

// Judge works out how far a quad is off square, and says what to do. allowed is the
// greatest difference between the diagonals that counts as square; see [Limit.For].
//
// A parallelogram of sides w and l leaning by δ has d₁² − d₂² = 4·w·l·sin δ and d₁²
// + d₂² = 2·D² with D = √(w² + l²). So the difference Δ alone gives sin δ = Δ·√(4D²
// − Δ²) / (4·w·l), and a tape that reads both diagonals long by the same amount
// does no harm.
func (q Quad) Judge(allowed measure.Length, st measure.Style) (Result, []finding.Finding, error) {
	s, err := q.Measure(allowed, st)
	if err != nil {
		return Result{}, nil, err
	}
	var found finding.List
	s.judge(&found, q, st)
	s.taper(&found, q, st)
	s.Misfits(&found, q, st)
	return s, found, nil
}

func (q Quad) key() string {
	if q.Field == "" {
		return "square"
	}
	return q.Field
}

func (q Quad) check(allowed measure.Length, st measure.Style) error {
	c := &finding.Checker{Style: st}
	const fix = "measure it again"
	w, l := q.Size.Width, q.Size.Length
	ok := c.Positive(q.key()+".width", w, fix)
	ok = c.Positive(q.key()+".length", l, fix) && ok
	c.NotNegative(q.key()+".allowed", allowed)
	for _, d := range q.Diagonals {
		if !c.Positive(q.key(), d, fix) || !ok {
			continue
		}
		if d >= w+l || d <= (w-l).Abs() {
			c.FailLength(q.key(), d, fmt.Sprintf("cannot be a diagonal between sides of %s and %s", st.Format(w), st.Format(l)), fix)
		}
	}
	for _, s := range []measure.Length{q.Top, q.Bottom, q.Left, q.Right} {
		c.NotNegative(q.key(), s)
	}
	return c.Err()
}

// Measure is [Quad.Judge] without the findings.
func (q Quad) Measure(allowed measure.Length, st measure.Style) (Result, error) {
	if err := q.check(allowed, st); err != nil {
		return Result{}, err
	}
	w, l := q.Size.Width.Millimetres(), q.Size.Length.Millimetres()
	one, two := q.Diagonals[0].Millimetres(), q.Diagonals[1].Millimetres()
	delta := math.Abs(one - two)
	diagonal := math.Hypot(w, l)
	// The check above ensures Δ < (w + l) − |w − l| = 2·min(w, l), where sin δ
	// reaches one. So the root is real, and only rounding can overshoot.
	sin := math.Min(1, delta*math.Sqrt(4*diagonal*diagonal-delta*delta)/(4*w*l))
	cos := math.Sqrt(1 - sin*sin)
	s := Result{
		Difference: (q.Diagonals[0] - q.Diagonals[1]).Abs(),
		Allowed:    allowed,
		Target:     measure.Diagonal(q.Size.Width, q.Size.Length),
		Angle:      math.Asin(sin) * 180 / math.Pi,
		TopOver:    measure.FromMillimetres(l * sin),
		Trim:       measure.FromMillimetres(w * sin),
		After:      measure.Size{Width: measure.FromMillimetres(w * cos), Length: measure.FromMillimetres(math.Max(0, l-w*sin))},
		Misfit:     measure.FromMillimetres(math.Hypot(one, two)/math.Sqrt2 - diagonal),
	}
	s.Lean, s.Corners = lean(q.Diagonals)
	if q.Top != 0 && q.Bottom != 0 {
		s.Taper[0] = q.Top - q.Bottom
	}
	if q.Left != 0 && q.Right != 0 {
		s.Taper[1] = q.Left - q.Right
	}
	s.Square = s.Difference <= allowed && s.Taper[0].Abs() <= allowed && s.Taper[1].Abs() <= allowed
	return s, nil
}

// lean returns the lean and the corners to trim. The longer diagonal joins the two
// sharp corners, and these are trimmed. The top is shifted to the side of the
// diagonal's upper end.
func lean(d [2]measure.Length) (Lean, [2]Corner) {
	switch {
	case d[0] > d[1]:
		return LeanLeft, [2]Corner{TopLeft, BottomRight}
	case d[0] < d[1]:
		return LeanRight, [2]Corner{TopRight, BottomLeft}
	}
	return Upright, [2]Corner{TopRight, BottomLeft}
}

// Leans returns the text for the side to which the top is shifted.
func (s Result) Leans(left, right message.ID) message.ID {
	if s.Lean == LeanLeft {
		return left
	}
	return right
}

// judge says what to trim and where.
func (s Result) judge(found *finding.List, q Quad, st measure.Style) {
	if s.Difference <= s.Allowed {
		return
	}
	found.Add(finding.Finding{
		Level: finding.Caution, Field: q.key(),
		Text: message.Of(s.Leans(
			"hang.leans-left",
			"hang.leans-right",
		), st.Fine(s.Difference), st.Fine(s.TopOver)),
		Value: st.Fine(s.Difference), Limit: st.Fine(s.Allowed),
		Source: "the difference that the shop's setting for square allows",
		Remedy: message.Of(s.Leans(
			"hang.trim-left",
			"hang.trim-right",
		), st.Fine(s.Trim), st.Format(measure.Diagonal(s.After.Width, s.After.Length))),
	})
}

// taper reports what equal diagonals cannot show. They prove a rectangle only if
// opposite sides are equal: an isosceles trapezium has equal diagonals too.
func (s Result) taper(found *finding.List, q Quad, st measure.Style) {
	if q.Top == 0 || q.Bottom == 0 {
		if s.Difference <= s.Allowed {
			found.Add(finding.Finding{
				Level: finding.Note, Field: q.key(),
				Text:   message.Of("hang.widths-needed"),
				Source: "geometry: a trapezium with equal legs has equal diagonals",
				Remedy: message.Of("hang.measure-widths"),
			})
		}
	}
	for i, texts := range [2][2]message.ID{{
		"hang.top-longer",
		"hang.bottom-longer",
	}, {
		"hang.left-longer",
		"hang.right-longer",
	}} {
		d, text := s.Taper[i], texts[0]
		if d.Abs() <= s.Allowed {
			continue
		}
		if d < 0 {
			d, text = -d, texts[1]
		}
		found.Add(finding.Finding{
			Level: finding.Caution, Field: q.key(),
			Text:  message.Of(text, st.Fine(d)),
			Value: st.Fine(d), Limit: st.Fine(s.Allowed),
			Source: "geometry: a trapezium with equal legs has equal diagonals",
			Remedy: message.Of("hang.fix-longer-side"),
		})
	}
}

// Misfits reports diagonals that no parallelogram with these sides can have.
func (s Result) Misfits(found *finding.List, q Quad, st measure.Style) {
	limit := max(s.Allowed, measure.Inch/8)
	if s.Misfit.Abs() <= limit {
		return
	}
	text := message.ID("hang.diagonals-too-long")
	if s.Misfit < 0 {
		text = "hang.diagonals-too-short"
	}
	found.Add(finding.Finding{
		Level: finding.Caution, Field: q.key(),
		Text:  message.Of(text, st.Fine(s.Misfit.Abs()), st.Format(s.Target)),
		Value: st.Fine(s.Misfit.Abs()), Limit: st.Fine(limit),
		Source: "geometry",
		Remedy: message.Of("hang.measure-panel-again"),
	})
}
