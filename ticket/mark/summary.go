package mark

import (
	"encoding/json"

	"shadewright/ticket"
	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
	"shadewright/ticket/route"
)

// A Summary is what a phone shows of a ticket: the content of its paper, stored
// with its registration. Numbers are stored as printed, and texts as ids, so
// that each phone shows them in its own language.
type Summary struct {
	Place  string         `json:"place,omitempty"`
	Note   string         `json:"note,omitempty"`
	Client string         `json:"client,omitempty"`
	Goods  message.Stored `json:"goods"`
	Roll   message.Stored `json:"roll"`  // which way the cloth falls
	Units  string         `json:"units"` // in or mm: the unit of a bare number

	Cut      Pair   `json:"cut"` // width × length, as set on a ruler
	Diagonal Pair   `json:"diagonal"`
	Facts    []Fact `json:"facts"`

	Panel    measure.Size `json:"panel_nm"` // for the proportions of the drawing
	Lines    []PanelLine  `json:"lines"`    // from the raw bottom edge up
	Findings []Finding    `json:"findings,omitempty"`
}

// A Pair is one number in the job's own unit and in the other unit.
type Pair struct {
	Own   string `json:"own"`
	Other string `json:"other"`
}

// A Fact is one thing that a bench needs to know: a number, a text, or both.
type Fact struct {
	Name  message.Stored `json:"name"`
	Value Pair           `json:"value,omitzero"`
	More  message.Stored `json:"more,omitzero"`
}

// A PanelLine is one of the lines marked on the flat panel.
type PanelLine struct {
	Name message.Stored `json:"name"`
	Fold bool           `json:"fold,omitempty"` // the cloth turns here
	Sewn bool           `json:"sewn,omitempty"` // the row of stitches
	At   measure.Length `json:"at_nm"`          // distance from the raw edge
	Says Pair           `json:"says"`
}

// A Finding is something to know before cutting.
type Finding struct {
	Level  message.Stored `json:"level"`
	Text   message.Stored `json:"text"`
	Remedy message.Stored `json:"remedy,omitzero"`
}

// tubeFacts names the length of a tube that is set, sawn, or either.
var tubeFacts = [...]message.ID{route.AnyTube: "common.tube-to", route.TelescopingTube: "common.set-tube", route.FixedTube: "common.saw-tube"}

// The facts that the program finds by name in registrations of format 1.
const (
	tubeFact   message.ID = "common.trim-tube"
	slatFact   message.ID = "common.trim-slat"
	tapeFact   message.ID = "common.tape"
	stitchFact message.ID = "web.stitch"
)

// SummaryOf returns the summary of a ticket.
func SummaryOf(t *ticket.Ticket) Summary {
	v := unitsOf(t.Job.Style)
	c := t.Cut
	s := Summary{
		Place: t.Shade.Place, Note: t.Shade.Note, Client: t.Job.Client, Roll: message.Stored{Message: t.Shade.Roll.Message()},
		Units: t.Job.Style.System.String(), Panel: measure.Size{Width: t.Panel.Width, Length: t.Panel.Length},
		Goods: message.Stored{Message: message.Join(", ", message.Verbatim(t.Shade.Goods.Name), message.Of(t.Shade.Goods.Kind.Cloth().Name))},
		Cut: Pair{
			v.own.Words(c.Width, measure.Nearest).SpokenBy(v.own.Words(c.Length, measure.Nearest)),
			v.other.Words(c.Width, measure.Down).SpokenBy(v.other.Words(c.Length, measure.Up)),
		},
		Diagonal: v.pair(c.Diagonal, measure.Nearest),
		Facts: []Fact{
			{kept(tubeFacts[t.Fitting.Tube]), v.pair(c.Tube, measure.Down), message.Stored{Message: message.Verbatim(t.Shade.Roller.Name)}},
			{kept(slatFact), v.pair(c.Slat, measure.Down), message.Stored{Message: message.Verbatim(t.Shade.Slat.Name)}},
			{kept(tapeFact), v.pair(t.Tape.Total, measure.Up), message.Stored{}},
			{kept(stitchFact), Pair{Own: v.millimetres().Format(t.Stitch.Length)}, kept("web.thread-needle", t.Stitch.ThreadSize, t.Stitch.Needle)},
			{kept("common.sides"), Pair{}, message.Stored{Message: message.Join(". ", t.Edge.Method, t.Edge.Note)}},
		},
		Lines: v.lines(t.Folds),
	}
	for _, found := range t.Findings {
		if found.Level >= finding.Caution {
			s.Findings = append(s.Findings, Finding{message.Stored{Message: found.Level.Message()}, message.Stored{Message: found.Text}, message.Stored{Message: found.Remedy}})
		}
	}
	return s
}

func kept(e message.ID, args ...any) message.Stored {
	return message.Stored{Message: message.Of(e, args...)}
}

// lines returns the lines on the flat panel, from the raw bottom edge up.
func (v units) lines(f ticket.Folds) []PanelLine {
	list := []PanelLine{
		{Name: kept("common.hem-fold"), Fold: true, At: f.HemFold},
		{Name: kept("common.hem-mark"), At: f.HemMark},
		{Name: kept("common.pocket-fold"), Fold: true, At: f.PocketFold},
		{Name: kept("common.stitch-row"), Sewn: true, At: f.Stitch},
		{Name: kept("common.pocket-mark"), At: f.PocketMark},
	}
	for i := range list {
		list[i].Says = v.pair(list[i].At, measure.Nearest)
	}
	return list
}

// units formats lengths in both units.
type units struct{ own, other measure.Style }

func unitsOf(own measure.Style) units { return units{own, own.Other()} }

// millimetres returns the style for values that are always in millimetres.
func (v units) millimetres() measure.Style {
	s := measure.Usual(measure.Millimetres)
	s.Comma = v.own.Comma
	return s
}

// pair rounds the job's own unit to the nearest mark, and the other unit in the
// direction that still fits.
func (v units) pair(l measure.Length, r measure.Rounding) Pair {
	return Pair{v.own.Words(l, measure.Nearest).Spoken(), v.other.Words(l, r).Spoken()}
}

// Summarized returns the summary in a registration. If another version of the
// program wrote it in a form that this one cannot read, the summary is empty
// except for its unit, because the readings of a step depend on the unit.
func (t *Ticket) Summarized() (s Summary, ok bool) {
	raw := t.Summary
	if len(raw) == 0 {
		return Summary{}, false
	}
	if json.Unmarshal(raw, &s) == nil {
		return s, true
	}
	var units struct {
		Units string `json:"units"`
	}
	if json.Unmarshal(raw, &units) != nil {
		return Summary{}, false
	}
	return Summary{Units: units.Units}, false
}
