package nest

import "shadewright/ticket/measure"

// A Report is a plan for programs to read. Lengths are in millimetres; x runs
// across the roll, y along it.
type Report struct {
	Used   float64       `json:"used_mm"`
	Bound  float64       `json:"bound_mm"`
	Proven bool          `json:"proven"`
	Pieces []ReportPiece `json:"pieces"`
	Cuts   []ReportCut   `json:"cuts"`
}

// A ReportPiece is one piece in its place, with its size after turning.
type ReportPiece struct {
	Label  string  `json:"label"`
	X      float64 `json:"x_mm"`
	Y      float64 `json:"y_mm"`
	Width  float64 `json:"width_mm"`
	Length float64 `json:"length_mm"`
	Turned bool    `json:"turned"`
}

// A ReportCut is one cut: the part cut, and the two parts that result.
type ReportCut struct {
	Way  string     `json:"way"`  // across or along
	Edge string     `json:"edge"` // the edge from which At is measured
	At   float64    `json:"at_mm"`
	From ReportPart `json:"from"`
	Near ReportPart `json:"near"`
	Far  ReportPart `json:"far"`
}

// A ReportPart is a part of the goods. The roll has no length, because its end is
// unknown.
type ReportPart struct {
	X      float64  `json:"x_mm"`
	Y      float64  `json:"y_mm"`
	Width  float64  `json:"width_mm"`
	Length *float64 `json:"length_mm"`
}

// ReportOf returns the report of an order's plan.
func ReportOf(o Order, p Plan) Report {
	r := Report{
		Used: p.Used.Millimetres(), Bound: p.Bound.Millimetres(), Proven: p.Proven,
		Pieces: make([]ReportPiece, len(p.Pieces)), Cuts: make([]ReportCut, len(p.Cuts)),
	}
	for i, q := range p.Pieces {
		r.Pieces[i] = ReportPiece{o.Pieces[q.Piece].Label, q.X.Millimetres(), q.Y.Millimetres(), q.Width.Millimetres(), q.Length.Millimetres(), q.Turned}
	}
	part := func(i int) ReportPart {
		q := p.Parts[i]
		out := ReportPart{X: q.X.Millimetres(), Y: q.Y.Millimetres(), Width: q.Width.Millimetres()}
		if q.Length > 0 {
			out.Length = millimetres(q.Length)
		}
		return out
	}
	for i, c := range p.Cuts {
		r.Cuts[i] = ReportCut{c.Way.String(), c.Way.Edge(), c.At.Millimetres(), part(c.From), part(c.Near), part(c.Far)}
	}
	return r
}

func millimetres(l measure.Length) *float64 {
	v := l.Millimetres()
	return &v
}
