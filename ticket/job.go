package ticket

import (
	"time"

	"github.com/google/uuid"

	"shadewright/ticket/goods"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// A Job is one client's set of shades, as ordered. Every value is resolved: each
// shade already includes the shop's practice and the job's own allowances.
type Job struct {
	Name   string
	ID     uuid.UUID
	Client string    // may be empty
	Due    time.Time // a date in UTC; zero if none was given
	Style  measure.Style
	Shades []Shade
	Supply Supply
}

// A Shade is one finished roller shade as ordered; Quantity makes several alike.
type Shade struct {
	ID        string // unique in its job; letters, digits, dot, dash and underscore
	Place     string
	Room      string // may be empty
	Note      string
	Quantity  int
	Finished  measure.Size     // visible cloth, from tube to bottom of pocket; zero if the opening was measured
	AsBefore  bool             // a shade of this finished size hung there on this roller and cleared everything
	Opening   *Opening         // nil if the finished size was given
	AnyRoller bool             // the job leaves the roller open; see [AssignRollers]
	NoRoller  *message.Message // why it got none; nil if it has one
	Bracket   *hang.Bracket
	Behind    *hang.Behind // what the brackets are screwed into; nil if unknown
	Goods     Goods
	Roller    Roller // without a name if it was left open and none works
	Slat      Slat
	Roll      Roll
	Pull      string           // the pull or handle that is fitted; empty: none
	Trial     *[2]hang.Reading // of the spring, with this shade hung on it; nil if none was made
	Allow     Allow
	Sewing    Sewing
}

// An Opening is what was measured at the window and around the roll.
type Opening struct {
	hang.Opening
	Axle         measure.Length // from the glass or the wall to the roller's pin; zero if not given
	Obstructions []hang.Obstruction
	Unobstructed bool            // somebody looked, and nothing stands out
	Valance      *measure.Length // from the glass or the wall to the back of the valance; nil without a valance
	Head         *measure.Length // from the roller's pin up to the head or the ceiling; nil if not given
}

// Goods is the cloth as bought.
type Goods struct {
	Name      string // the job's own name for the goods
	Kind      goods.Kind
	Width     measure.Length    // of the roll, selvages included
	Selvage   [2]measure.Length // left and right, seen from the cut end with the face up
	Thickness measure.Length
	Mass      measure.ArealMass // zero if unknown
	Lay       Lay

	Match     Match
	Repeat    measure.Length // of the pattern, along the roll; zero for plain goods
	Allowance measure.Length // cloth left on each side of a panel until it is squared
}

// Usable returns the width between the selvages.
func (g Goods) Usable() measure.Length { return g.Width - g.Selvage[0] - g.Selvage[1] }

// A Lay says whether a panel may turn a quarter on its goods.
type Lay uint8

const (
	AnyWay     Lay = iota // it may turn
	Lengthwise            // the panel's length runs along the roll
)

// String returns the word a job file uses.
func (l Lay) String() string { return [...]string{"any", "lengthwise"}[l] }

// Turns reports whether a panel may turn a quarter. A repeat forbids it, because
// the pattern would turn too.
func (g Goods) Turns() bool { return g.Lay == AnyWay && g.Repeat == 0 }

// A Match says which panels of the goods turn alike, so that they look alike side
// by side.
type Match uint8

const (
	NoMatch   Match = iota // each panel turns if that saves cloth
	MatchAll               // all panels of the goods
	MatchRoom              // the panels of one room
)

// String returns the word a job file uses.
func (m Match) String() string { return [...]string{"false", "true", "room"}[m] }

// A Roller is the donor: a spring roller that stays when the cloth is changed.
type Roller struct {
	Name     string
	Tube     measure.Length // outside diameter of the tube; zero if unknown
	Shortest measure.Length // shortest length of a telescoping tube; zero if fixed
	Longest  measure.Length // longest length; for a fixed tube, its length before sawing
	Count    int            // how many there are; zero: as many as are needed

	Material hang.Material      // of the tube; without a name if unknown
	Wall     measure.Length     // of the tube; zero if unknown
	Spring   measure.SpringRate // zero if unknown
	ByTrial  bool               // the finished shade decides the turns, by a trial
	Pins     *hang.Pins         // nil if unknown
	Most     float64            // turns of the spring before it binds; zero if unknown
}

// A Slat is the stiff batten in the pocket, flat or round.
type Slat struct {
	Name      string
	Width     measure.Length // of a flat slat; zero if round or unknown
	Thickness measure.Length // of a flat slat; zero if round or unknown
	Diameter  measure.Length // of a round rod; zero if flat

	Material hang.Material      // without a name if unknown
	Mass     measure.LinearMass // zero if unknown: the material then gives it
}

// Round reports whether the slat is a round rod.
func (s Slat) Round() bool { return s.Diameter != 0 }

// weigh returns the mass of the slat cut to a length. ok is false if neither its
// mass nor its material is known.
func (s Slat) weigh(trim measure.Length) (m measure.Mass, ok bool) {
	trim = max(0, trim)
	switch {
	case s.Mass > 0:
		return s.Mass.Of(trim), true
	case s.Material.Name == "":
		return 0, false
	case s.Round():
		return s.Material.Round(s.Diameter, 0, trim), true
	}
	return s.Material.Flat(s.Width, s.Thickness, trim), true
}

// A Roll says on which side of the tube the cloth falls.
type Roll = hang.Roll

const (
	Standard = hang.Standard // from the back of the tube, next to the glass
	Reverse  = hang.Reverse  // from the front, on the room side
)

// Allow holds the lengths added to a finished size, and the gaps between parts.
type Allow struct {
	Wrap        measure.Length // cloth left on the tube
	Hem         measure.Length // depth of the hem, the first fold
	Pocket      measure.Length // depth of the pocket laid flat, the second fold
	StitchInset measure.Length // from the hem's folded edge to the stitch row
	SideHem     measure.Length // cloth turned in at each side; usually zero
	TubeOver    measure.Length // how much longer the tube is than the cloth is wide
	SlatGap     measure.Length // how far the slat stays back from the edge of the cloth, at each end
}

// Sewing holds the stitch, thread and needle.
type Sewing struct {
	StitchLength measure.Length // 5 mm is 5.1 stitches per inch
	Thread       int            // commercial size: 46, 69, 92 or 138
	Needle       int            // number in the older system: 16, 18, 20, …; zero: the thread's usual one
	BackTack     measure.Length // length sewn twice at each end
	Waste        int            // thread added for waste, in percent
}

// Limits are the thresholds of findings.
type Limits struct {
	Snug        measure.Length // a pocket with less spare room counts as snug
	LongestSide measure.Length // a panel with a longer side counts as a mistake
	TrimMargin  measure.Length // a telescoping tube this near to its ends gets a note
	Table       measure.Length // the cutting table's length; zero: no panel is too long
}

// A Practice is how the shop works unless a job or a shade says otherwise.
type Practice struct {
	Units  measure.System
	Style  func(measure.System) measure.Style
	Allow  Allow
	Sewing Sewing
	Limits Limits
	Rules  func(measure.System) Rules // nil: the usual rules
}

// Rules say how to measure openings, and set the limits for a shade that hangs.
type Rules struct {
	Opening hang.Rules
	Hang    hang.Limits
	Scale   measure.Mass // the finest mark of the scale used to try a spring
}

// UsualRules returns the rules for a shop that has not set its own.
func UsualRules(s measure.System) Rules {
	return Rules{Opening: hang.UsualRules(s), Hang: hang.UsualLimits(s), Scale: 10 * measure.Gram}
}

// RulesFor returns the rules for jobs in a unit system.
func (p Practice) RulesFor(s measure.System) Rules {
	if p.Rules == nil {
		return UsualRules(s)
	}
	return p.Rules(s)
}

// DueText returns the due date as year-month-day (ISO 8601), or "".
func (j *Job) DueText() string {
	if j.Due.IsZero() {
		return ""
	}
	return j.Due.Format(time.DateOnly)
}
