package ticket

import (
	"github.com/google/uuid"

	"shadewright/ticket/code"
	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
	"shadewright/ticket/route"
)

// A Ticket is everything that travels with one unit of a shade. Its lengths are
// exact; [Ticket.Cut] holds the few that a rule is set to, rounded so that the
// parts still fit.
type Ticket struct {
	Job      *Job
	Shade    *Shade
	Unit, Of int // 1 of 2
	Remake   int // how often its panel was cut again; 0 for the first panel
	Identity uuid.UUID
	Code     code.Code
	Revision code.Revision

	Panel   Panel
	Folds   Folds
	Pocket  Pocket
	Tube    Tube
	Slat    Trim
	Tape    Tape
	Stitch  Stitch
	Edge    Edge
	Cut     Cut
	Plan    PlanPlace
	Fitting Fitting
	Hanging

	Findings []finding.Finding // worst first
	Cautions []Caution
	Route    route.Route
}

// Stopped reports whether the shade cannot be made as ordered.
func (t *Ticket) Stopped() bool {
	return len(t.Findings) > 0 && t.Findings[0].Level == finding.Stop
}

// Missing names what is not known of a shade, in the order in which it is measured. For a
// stopped shade it names nothing: what stops it is settled first, and then it gets another
// ticket.
func (t *Ticket) Missing() (list []message.Message) {
	for _, f := range t.Findings {
		if f.Level == finding.Unchecked && !t.Stopped() {
			list = append(list, f.Missing)
		}
	}
	return list
}

// A Panel is the piece cut from the goods. Cloth is its width after side hems are
// turned; without side hems it equals Width.
type Panel struct {
	Width, Length, Diagonal measure.Length
	Cloth                   measure.Length
}

// Folds are the five lines, each as its distance from the raw bottom edge up the
// flat panel.
type Folds struct {
	HemFold    measure.Length // the cloth turns here first
	HemMark    measure.Length // the raw edge is brought to this line
	PocketFold measure.Length // the cloth turns here next
	PocketMark measure.Length // the hem's folded edge is brought to this line
	Stitch     measure.Length // the row that closes the pocket
}

// A Pocket is the room for the slat, laid flat.
type Pocket struct {
	Inside measure.Length // from the turned edge to the stitch row, less the turn
	Needs  measure.Length // half the slat's girth
	Spare  measure.Length // Inside − Needs; negative if the slat does not go in
}

// A Tube is the length of the donor's tube.
type Tube struct{ Trim measure.Length }

// A Trim is the length of a slat, and how far each of its ends stays back from the
// edge of the cloth.
type Trim struct{ Trim, EndGap measure.Length }

// A Tape is the tape for the hem, the pocket and the tube, one run each.
type Tape struct{ Run, Total measure.Length }

// A Stitch is the seam that closes the pocket.
type Stitch struct {
	Type         string // ISO 4915
	Length       measure.Length
	PerInch      float64
	Seam         measure.Length // the row, from side to side
	Plies        int            // sewn through at the row
	ThreadSize   int            // commercial size
	Tex          int
	Needle       int // by its older number
	NeedleMetric int // Nm, hundredths of a millimetre
	Thread       measure.Length
}

// An Edge says how to seal the raw sides, and their length.
type Edge struct {
	Method message.Message
	Note   message.Message
	Heat   bool
	Length measure.Length
}

// Cut holds the lengths that a person sets a rule to, rounded to the finest mark of
// the job's style: the panel's width, the tube and the slat never up, the panel's
// length never down. Because all are rounded the same way, the cloth is never wider
// than its tube and the slat never longer than its pocket.
type Cut struct {
	Width, Length, Diagonal measure.Length
	Tube, Slat              measure.Length
}
