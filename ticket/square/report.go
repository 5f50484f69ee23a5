package square

import "shadewright/ticket/finding"

// A Report is what a program reads of two diagonals. Lengths are in
// millimetres and unrounded. Keys are added, never renamed.
type Report struct {
	Square     bool             `json:"square"`
	Difference float64          `json:"difference_mm"`
	Allowed    float64          `json:"allowed_mm"`
	Diagonal   float64          `json:"diagonal_mm"` // what both should read
	Lean       string           `json:"lean"`
	Angle      float64          `json:"angle_degrees"`
	TopOver    float64          `json:"top_over_mm"`
	Trim       float64          `json:"trim_mm"`
	Corners    [2]string        `json:"trim_corners"`
	Findings   []finding.Report `json:"findings"`
}

// Report returns what [Quad.Judge] found for a program.
func (s Result) Report(found []finding.Finding) Report {
	return Report{
		s.Square, s.Difference.Millimetres(), s.Allowed.Millimetres(), s.Target.Millimetres(),
		s.Lean.String(), s.Angle, s.TopOver.Millimetres(), s.Trim.Millimetres(),
		[2]string{s.Corners[0].String(), s.Corners[1].String()}, finding.Reports(found),
	}
}
