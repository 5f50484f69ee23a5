package ticket

import (
	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
)

// A Report is a job for programs: every number of every ticket. Lengths are in
// millimetres and unrounded, except under "cut", which has the lengths rounded as
// they are printed. Keys may be added but are never renamed.
type Report struct {
	Job       ReportJob         `json:"job"`
	Unchecked []ReportUnchecked `json:"unchecked"` // said once for the job
	Shades    []ReportShade     `json:"shades"`
}

// A ReportJob names the job of a report.
type ReportJob struct {
	ID     string `json:"id"`
	Name   string `json:"name"`
	Client string `json:"client,omitempty"`
	Due    string `json:"due,omitempty"` // ISO 8601 date
}

// A ReportShade holds one unit.
type ReportShade struct {
	ID       string `json:"id"`
	Place    string `json:"place,omitempty"`
	Unit     int    `json:"unit"`
	Of       int    `json:"of"`
	Remake   int    `json:"remake"` // how often the panel was cut again
	Identity string `json:"identity"`
	Code     string `json:"code"`
	Revision string `json:"revision"`

	Finished reportSize `json:"finished"`
	Panel    struct {
		reportSize
		Diagonal float64 `json:"diagonal_mm"`
	} `json:"panel"`
	Folds struct {
		HemFold    float64 `json:"hem_fold_mm"`
		HemMark    float64 `json:"hem_mark_mm"`
		PocketFold float64 `json:"pocket_fold_mm"`
		PocketMark float64 `json:"pocket_mark_mm"`
		Stitch     float64 `json:"stitch_mm"`
	} `json:"folds"`
	Pocket struct {
		Inside float64 `json:"inside_mm"`
		Needs  float64 `json:"needs_mm"`
		Spare  float64 `json:"spare_mm"`
	} `json:"pocket"`
	Tube struct {
		Trim float64 `json:"trim_mm"`
	} `json:"tube"`
	Slat struct {
		Trim   float64 `json:"trim_mm"`
		EndGap float64 `json:"end_gap_mm"`
	} `json:"slat"`
	Tape struct {
		Run   float64 `json:"run_mm"`
		Total float64 `json:"total_mm"`
	} `json:"tape"`
	Stitch struct {
		Type       string  `json:"type"`
		Length     float64 `json:"length_mm"`
		PerInch    float64 `json:"per_inch"`
		Seam       float64 `json:"seam_mm"`
		ThreadSize int     `json:"thread_size"`
		Needle     int     `json:"needle"`
		Thread     float64 `json:"thread_mm"`
	} `json:"stitch"`
	Edge struct {
		Method string  `json:"method"`
		Length float64 `json:"length_mm"`
	} `json:"edge"`
	Cut struct {
		reportSize
		Diagonal float64 `json:"diagonal_mm"`
		Tube     float64 `json:"tube_mm"`
		Slat     float64 `json:"slat_mm"`
	} `json:"cut"`
	Plan *ReportPlace `json:"plan,omitempty"`
	reportHanging
	Findings []finding.Report `json:"findings"`
}

// A ReportPlace is where a panel lies on the cut plan of its goods.
type ReportPlace struct {
	Goods   string     `json:"goods"`
	OnHand  string     `json:"on_hand,omitempty"` // label of the piece it is cut from
	Section int        `json:"section,omitempty"`
	Cuts    []int      `json:"cuts"`
	Turned  bool       `json:"turned"`
	Rough   reportSize `json:"rough"` // size as it lies, with its allowance
}

type reportSize struct {
	Width  float64 `json:"width_mm"`
	Length float64 `json:"length_mm"`
}

func sizeOf(w, l measure.Length) reportSize {
	return reportSize{Width: w.Millimetres(), Length: l.Millimetres()}
}

// ReportOf returns the report of a job's tickets.
func ReportOf(job *Job, tickets []*Ticket) Report {
	r := Report{
		Job:       ReportJob{ID: job.ID.String(), Name: job.Name, Client: job.Client, Due: job.DueText()},
		Unchecked: reportUnchecked(tickets),
		Shades:    make([]ReportShade, len(tickets)),
	}
	for i, t := range tickets {
		r.Shades[i] = t.report()
	}
	return r
}

func (t *Ticket) report() ReportShade {
	r := ReportShade{
		ID: t.Shade.ID, Place: t.Shade.Place, Unit: t.Unit, Of: t.Of, Remake: t.Remake,
		Identity: t.Identity.String(), Code: string(t.Code), Revision: string(t.Revision),
		Finished: sizeOf(t.Shade.Finished.Width, t.Shade.Finished.Length),
	}
	r.Panel.reportSize, r.Panel.Diagonal = sizeOf(t.Panel.Width, t.Panel.Length), t.Panel.Diagonal.Millimetres()
	f := t.Folds
	r.Folds.HemFold, r.Folds.HemMark = f.HemFold.Millimetres(), f.HemMark.Millimetres()
	r.Folds.PocketFold, r.Folds.PocketMark = f.PocketFold.Millimetres(), f.PocketMark.Millimetres()
	r.Folds.Stitch = f.Stitch.Millimetres()
	p := t.Pocket
	r.Pocket.Inside, r.Pocket.Needs, r.Pocket.Spare = p.Inside.Millimetres(), p.Needs.Millimetres(), p.Spare.Millimetres()
	r.Tube.Trim = t.Tube.Trim.Millimetres()
	r.Slat.Trim, r.Slat.EndGap = t.Slat.Trim.Millimetres(), t.Slat.EndGap.Millimetres()
	r.Tape.Run, r.Tape.Total = t.Tape.Run.Millimetres(), t.Tape.Total.Millimetres()
	s := t.Stitch
	r.Stitch.Type, r.Stitch.Length, r.Stitch.Seam = s.Type, s.Length.Millimetres(), s.Seam.Millimetres()
	r.Stitch.PerInch = millionth(s.PerInch)
	r.Stitch.ThreadSize, r.Stitch.Needle, r.Stitch.Thread = s.ThreadSize, s.Needle, s.Thread.Millimetres()
	r.Edge.Method, r.Edge.Length = t.Edge.Method.String(), t.Edge.Length.Millimetres()
	r.Cut.reportSize, r.Cut.Diagonal = sizeOf(t.Cut.Width, t.Cut.Length), t.Cut.Diagonal.Millimetres()
	r.Cut.Tube, r.Cut.Slat = t.Cut.Tube.Millimetres(), t.Cut.Slat.Millimetres()
	if p := t.Plan; p.Planned() {
		r.Plan = &ReportPlace{p.Goods, p.On, p.Section, append([]int{}, p.Cuts...), p.Turned, sizeOf(p.Rough.Width, p.Rough.Length)}
	}
	r.reportHanging = t.reportHanging()
	r.Findings = finding.Reports(t.Findings)
	return r
}
