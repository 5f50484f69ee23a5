package screen

import (
	"encoding/json"
	"fmt"
	"strings"

	"shadewright/ticket"
	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
)

// A Summary is what a phone shows of a ticket: the words of its paper, as they
// are kept with its registration.
type Summary struct {
	Place  string `json:"place,omitempty"`
	Note   string `json:"note,omitempty"`
	Client string `json:"client,omitempty"`
	Goods  string `json:"goods"`
	Roll   string `json:"roll"`  // which way the cloth falls
	Units  string `json:"units"` // in or mm: of a bare number

	Cut      Pair   `json:"cut"` // width × length, what a rule is set to
	Diagonal Pair   `json:"diagonal"`
	Facts    []Fact `json:"facts"`

	Panel    measure.Size `json:"panel_nm"` // for the drawing's proportion
	Lines    []Line       `json:"lines"`    // from the raw bottom edge up
	Findings []Finding    `json:"findings,omitempty"`
}

// A Pair is one number in the job's own unit and in the other one.
type Pair struct {
	Own   string `json:"own"`
	Other string `json:"other"`
}

// A Fact is one thing that a bench needs to know.
type Fact struct {
	Name  string `json:"name"`
	Value Pair   `json:"value"`
	More  string `json:"more,omitempty"`
}

// A Line is one of the lines marked on the flat panel.
type Line struct {
	Name string         `json:"name"`
	Fold bool           `json:"fold,omitempty"` // the cloth turns here
	Sewn bool           `json:"sewn,omitempty"` // the row of stitches
	At   measure.Length `json:"at_nm"`          // from the raw edge
	Says Pair           `json:"says"`
}

// A Finding is what is to be known before cutting.
type Finding struct {
	Level  string `json:"level"`
	Text   string `json:"text"`
	Remedy string `json:"remedy,omitempty"`
}

// SummaryOf returns the summary of a ticket.
func SummaryOf(t *ticket.Ticket) Summary {
	v := voiceOf(t.Job.Style)
	c, f := t.Cut, t.Folds
	s := Summary{
		Place: t.Shade.Place, Note: t.Shade.Note, Client: t.Job.Client, Roll: t.Shade.Roll.String(),
		Goods: t.Shade.Goods.Name, Units: t.Job.Style.System.String(), Panel: measure.Size{Width: t.Panel.Width, Length: t.Panel.Length},
		Cut: Pair{
			by(v.own, c.Width, c.Length, measure.Nearest, measure.Nearest),
			by(v.other, c.Width, c.Length, measure.Down, measure.Up),
		},
		Diagonal: v.pair(c.Diagonal, measure.Nearest),
		Facts: []Fact{
			{Name: "Trim tube", Value: v.pair(c.Tube, measure.Down), More: t.Shade.Roller.Name},
			{Name: "Trim slat", Value: v.pair(c.Slat, measure.Down), More: t.Shade.Slat.Name},
			{Name: "Tape", Value: v.pair(t.Tape.Total, measure.Up)},
			{Name: "Stitch", Value: Pair{Own: measure.Usual(measure.Millimetres).Format(t.Stitch.Length)}, More: fmt.Sprintf("thread %d, needle %d", t.Stitch.ThreadSize, t.Stitch.Needle)},
			{Name: "Sides", Value: Pair{Own: sentences(t.Edge.Method.String(), t.Edge.Note.String())}},
		},
		Lines: []Line{
			{Name: "hem fold", Fold: true, At: f.HemFold},
			{Name: "hem mark", At: f.HemMark},
			{Name: "pocket fold", Fold: true, At: f.PocketFold},
			{Name: "stitch row", Sewn: true, At: f.Stitch},
			{Name: "pocket mark", At: f.PocketMark},
		},
	}
	if kind := t.Shade.Goods.Kind.Cloth().Name; kind != "" {
		s.Goods += ", " + kind.String()
	}
	for i := range s.Lines {
		s.Lines[i].Says = v.pair(s.Lines[i].At, measure.Nearest)
	}
	for _, found := range t.Findings {
		if found.Level >= finding.Caution {
			s.Findings = append(s.Findings, Finding{found.Level.String(), found.Text.String(), found.Remedy.String()})
		}
	}
	return s
}

// sentences joins what is done and what is to be said of it.
func sentences(method, note string) string {
	if note == "" {
		return method
	}
	return method + ". " + note
}

// voice puts lengths into words in both units.
type voice struct{ own, other measure.Style }

func voiceOf(own measure.Style) voice {
	system := measure.Millimetres
	if own.System == measure.Millimetres {
		system = measure.Inches
	}
	other := measure.Usual(system)
	other.Comma = own.Comma
	return voice{own, other}
}

// pair rounds the job's own unit to the nearest mark and the other the way that
// still fits.
func (v voice) pair(l measure.Length, r measure.Rounding) Pair {
	return Pair{spoken(v.own.Words(l, measure.Nearest)), spoken(v.other.Words(l, r))}
}

// spoken says where words differ from the exact length.
func spoken(w measure.Words) string {
	if w.Rounded {
		return "≈ " + w.String()
	}
	return w.String()
}

// by returns a size with its unit once.
func by(s measure.Style, width, length measure.Length, rw, rl measure.Rounding) string {
	w, l := s.Words(width, rw), s.Words(length, rl)
	text := strings.TrimSuffix(w.String(), " "+w.Unit) + " × " + l.String()
	if w.Rounded || l.Rounded {
		return "≈ " + text
	}
	return text
}

// JSON returns the summary as it is kept.
func (s Summary) JSON() (json.RawMessage, error) { return json.Marshal(s) }

// read returns the summary that a registration carries. One that cannot be
// read, of another version of the program, leaves its part of the page empty.
func read(raw json.RawMessage) (s Summary, ok bool) {
	return s, len(raw) > 0 && json.Unmarshal(raw, &s) == nil
}
