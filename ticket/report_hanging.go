package ticket

import (
	"shadewright/ticket/finding"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
)

// A ReportOpening is how a measured opening became a finished size.
type ReportOpening struct {
	Mount     string    `json:"mount"`
	Widths    []float64 `json:"widths_mm"`
	Heights   []float64 `json:"heights_mm"`
	Diagonals []float64 `json:"diagonals_mm,omitempty"`
	Depth     *float64  `json:"depth_mm,omitempty"`
	reportSize
	Finished reportSize          `json:"finished"`
	TipToTip float64             `json:"tip_to_tip_mm"`
	TubeTrim float64             `json:"tube_trim_mm"`
	LightGap *float64            `json:"light_gap_mm,omitempty"` // at each side; for an inside mount
	Steps    []ReportOpeningStep `json:"steps"`
}

// A ReportOpeningStep is one step from the tape measure to the cut.
type ReportOpeningStep struct {
	Kind  string  `json:"kind"`
	Key   string  `json:"key"`
	Value float64 `json:"value_mm"`
	Why   string  `json:"why,omitempty"`
}

// A ReportRoll is the cloth on its tube.
type ReportRoll struct {
	DiameterUp float64           `json:"diameter_up_mm"`
	Turns      float64           `json:"turns"`
	WrapsLeft  float64           `json:"wraps_left"`
	Axle       *float64          `json:"axle_mm,omitempty"` // from the glass or the wall
	Clearance  *float64          `json:"clearance_mm,omitempty"`
	Clearances []ReportClearance `json:"clearances,omitempty"`
}

// A ReportClearance is the room between the moving shade and one thing.
type ReportClearance struct {
	To  string  `json:"to"`
	Gap float64 `json:"gap_mm"`
}

// A ReportWeight is what hangs with the shade down.
type ReportWeight struct {
	Cloth float64  `json:"cloth_g"`
	Slat  *float64 `json:"slat_g,omitempty"`
	Total *float64 `json:"total_g,omitempty"`
}

// A ReportSpring is the spring and how far to wind it. If no number of turns works,
// prewind_turns is absent.
type ReportSpring struct {
	Rate      float64   `json:"rate_nmm_per_turn"`
	RateError *float64  `json:"rate_error_nmm_per_turn,omitempty"` // one standard error; from a trial
	Least     float64   `json:"least_turns"`
	Most      float64   `json:"most_turns"`
	Prewind   *float64  `json:"prewind_turns,omitempty"`
	Pulls     []float64 `json:"pulls_mm,omitempty"`
}

// A ReportSag is the tube under its load.
type ReportSag struct {
	Sag   float64 `json:"mm"`
	Limit float64 `json:"limit_mm"`
}

// A ReportSquare is the length that both diagonals of the cut panel should have.
type ReportSquare struct {
	Diagonal float64 `json:"diagonal_mm"`
	Allowed  float64 `json:"allowed_mm"`
}

// A SpringReport describes one shade's spring for programs. It has no code and no
// revision, because the shade was looked at alone, not as its ticket is printed.
type SpringReport struct {
	ID       string           `json:"id"`
	Weight   *ReportWeight    `json:"weight,omitempty"`
	Spring   *ReportSpring    `json:"spring,omitempty"`
	TrialAt  []float64        `json:"trial_at_mm,omitempty"` // where to read the scale
	Findings []finding.Report `json:"findings"`
}

// SpringReport returns the ticket's values about its spring.
func (t *Ticket) SpringReport() SpringReport {
	r := SpringReport{ID: t.Shade.ID, Weight: t.reportWeight(), Spring: t.reportSpring(), Findings: finding.Reports(t.Findings)}
	if at := t.TrialAt; at != nil {
		r.TrialAt = millimetres(at[:])
	}
	return r
}

// reportHanging is embedded in a [ReportShade]. Unknown values are absent.
type reportHanging struct {
	Opening *ReportOpening `json:"opening,omitempty"`
	Roll    *ReportRoll    `json:"roll,omitempty"`
	Weight  *ReportWeight  `json:"weight,omitempty"`
	Spring  *ReportSpring  `json:"spring,omitempty"`
	Sag     *ReportSag     `json:"sag,omitempty"`
	Square  ReportSquare   `json:"square"`
}

func (t *Ticket) reportHanging() reportHanging {
	h := reportHanging{
		Opening: t.reportOpening(), Roll: t.reportRoll(), Weight: t.reportWeight(), Spring: t.reportSpring(),
		Square: ReportSquare{Diagonal: t.Panel.Diagonal.Millimetres(), Allowed: t.Square.Millimetres()},
	}
	if s := t.Sag; s != nil {
		h.Sag = &ReportSag{Sag: s.Sag.Millimetres(), Limit: s.Limit.Millimetres()}
	}
	return h
}

func (t *Ticket) reportOpening() *ReportOpening {
	fit, o := t.Fit, t.Shade.Opening
	if fit == nil {
		return nil
	}
	r := &ReportOpening{
		Mount: o.Mount.String(), Widths: millimetres(o.Widths), Heights: millimetres(o.Heights),
		reportSize: sizeOf(fit.Opening.Width, fit.Opening.Length),
		Finished:   sizeOf(fit.Finished.Width, fit.Finished.Length),
		TipToTip:   fit.TipToTip.Millimetres(), TubeTrim: fit.TubeTrim.Millimetres(),
	}
	if o.Diagonals != [2]measure.Length{} {
		r.Diagonals = millimetres(o.Diagonals[:])
	}
	if o.Depth != nil {
		r.Depth = at(o.Depth.Millimetres())
	}
	if o.Mount == hang.Inside {
		r.LightGap = at(fit.LightGap.Millimetres())
	}
	for _, s := range fit.Steps {
		r.Steps = append(r.Steps, ReportOpeningStep{s.Kind.String(), s.Key, s.Value.Millimetres(), s.Why})
	}
	return r
}

func (t *Ticket) reportRoll() *ReportRoll {
	if t.Roll == nil {
		return nil
	}
	r := &ReportRoll{DiameterUp: t.Roll.DiameterUp.Millimetres(), Turns: t.Roll.Turns, WrapsLeft: t.Roll.WrapsLeft}
	if c := t.Clearance(); c != nil {
		r.Axle, r.Clearance = at(t.Axle.Millimetres()), at(c.Gap.Millimetres())
	}
	for _, c := range t.Clearances {
		r.Clearances = append(r.Clearances, ReportClearance{c.To, c.Gap.Millimetres()})
	}
	return r
}

func (t *Ticket) reportWeight() *ReportWeight {
	if t.ClothMass == 0 {
		return nil
	}
	r := &ReportWeight{Cloth: t.ClothMass.Grams()}
	if w := t.Weight; w != nil {
		r.Slat, r.Total = at(w.Slat.Grams()), at(w.Total.Grams())
	}
	return r
}

func (t *Ticket) reportSpring() *ReportSpring {
	w := t.Wind
	if w == nil {
		return nil
	}
	r := &ReportSpring{Rate: w.Rate, Least: w.Least, Most: w.Most, Pulls: millimetres(w.Pulls)}
	if t.Rate != nil {
		r.RateError = at(t.Rate.PerTurnError)
	}
	if w.OK {
		r.Prewind = at(w.Turns)
	}
	return r
}

func millimetres(lengths []measure.Length) []float64 {
	out := make([]float64, len(lengths))
	for i, l := range lengths {
		out[i] = l.Millimetres()
	}
	return out
}

func at(v float64) *float64 { return &v }
