package square

import "shadewright/ticket/finding"

// A Report describes two diagonals for programs. Lengths are in millimetres and
// unrounded. Keys may be added but are never renamed.
type Report struct {
	Square     bool             `json:"square"`
	Difference float64          `json:"difference_mm"`
	Allowed    float64          `json:"allowed_mm"`
	Diagonal   float64          `json:"diagonal_mm"` // the length that both should have
	Lean       string           `json:"lean"`
	Angle      float64          `json:"angle_degrees"`
	TopOver    float64          `json:"top_over_mm"`
	Trim       float64          `json:"trim_mm"`
	Corners    [2]string        `json:"trim_corners"`
	Findings   []finding.Report `json:"findings"`
}

// Report returns the result and the findings of [Quad.Judge] for programs.
func (s Result) Report(found []finding.Finding) Report {
	return Report{
		s.Square, s.Difference.Millimetres(), s.Allowed.Millimetres(), s.Target.Millimetres(),
		s.Lean.String(), s.Angle, s.TopOver.Millimetres(), s.Trim.Millimetres(),
		[2]string{s.Corners[0].String(), s.Corners[1].String()}, finding.Reports(found),
	}
}
