package ticket

import (
	"errors"
	"math"
	"strings"

	"shadewright/ticket/finding"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// Hanging is everything that decides whether a shade will hang. A nil, empty or
// zero field is unknown.
type Hanging struct {
	Fit        *hang.Fit // from the opening to the finished size
	Roll       *hang.RollUp
	Clearances []hang.Clearance   // all clearances, in a fixed order
	Axle       measure.Length     // from the glass or the wall: as given, or proposed for a recess
	Head       measure.Length     // from the axle up to the head of the recess: as given, or proposed
	ClothMass  measure.Mass       // of the cloth that hangs with the shade down
	Weight     *hang.Weight       // with the shade down; nil if the slat's mass is unknown
	Rate       *hang.Rate         // of the spring, from a trial
	Wind       *hang.Wind         // how far to wind the spring
	Begin      *hang.Begin        // how to try a spring of unknown rate; nil if its weight is unknown
	TrialAt    *[2]measure.Length // cloth off the tube at which to read the scale, if the spring's rate is unknown
	Sag        *hang.Sag          // of the tube
	Square     measure.Length     // the greatest difference between the panel's diagonals that counts as square
	Drilling   *hang.Drilling     // where the brackets go
	Fastener   *hang.Advice       // what holds the brackets
}

// Clearance returns the least of the clearances, or nil.
func (h *Hanging) Clearance() *hang.Clearance { return hang.Least(h.Clearances) }

// A hanger works out the hanging of one ticket.
type hanger struct {
	t     *Ticket
	rules Rules
	found finding.List
}

func newHanger(t *Ticket, opt Options) *hanger {
	return &hanger{t: t, rules: Practice{Rules: opt.Rules}.RulesFor(t.Job.Style.System)}
}

// refuse turns values with which nothing can be worked out into findings. A job
// read from a file has none, because these are problems of the file, with their
// lines, and in English like all problems of files. refuse reports whether the
// error consists of such values.
func (h *hanger) refuse(err error) bool {
	wrong := finding.InputErrors(err)
	for _, e := range wrong {
		h.found.Add(finding.Finding{
			Level: finding.Stop, Field: e.Field, Text: message.Verbatim(strings.TrimSpace(e.Value + " " + e.Problem)), Value: e.Value,
			Source: "nothing can be worked out from it", Remedy: message.Verbatim(e.Fix),
		})
	}
	return len(wrong) > 0
}

// fit turns a measured opening into the finished size.
func (h *hanger) fit() error {
	s := h.t.Shade
	if s.Opening == nil {
		return nil
	}
	fit, found, err := h.rules.Opening.Fit(s.Opening.Opening, s.Allow.SideHem, h.t.Job.Style)
	if err != nil {
		return err
	}
	h.t.Fit = &fit
	s.Finished = fit.Finished
	h.take(found)
	return nil
}

// hang works out the rest. It trusts that figure has run.
func (h *hanger) hang() error {
	t, st := h.t, h.t.Job.Style
	t.Square = h.rules.Opening.Square.For(measure.Size{Width: t.Panel.Width, Length: t.Panel.Length})
	if t.Shade.Behind != nil {
		if a, ok := hang.Fasten(*t.Shade.Behind); ok {
			t.Fastener = &a
		}
	}
	whole := hang.Shade{Winding: h.winding(), Load: h.load(), Place: h.place(), Beam: h.beam()}
	spring, trialErr := h.spring(hang.Lift{Winding: whole.Winding, Load: whole.Load})
	whole.Spring = spring
	r, found, err := whole.Work(h.rules.Hang, st)
	if err := errors.Join(trialErr, err); err != nil {
		return err
	}
	t.Roll, t.Clearances, t.Axle = &r.Roll, r.Clearances, r.Axle
	t.Weight, t.Wind, t.Sag = r.Weight, r.Wind, r.Sag
	if t.Weight != nil && spring == nil {
		at := hang.TrialHeights(t.Shade.Finished.Length, st)
		t.TrialAt = &at
		b := hang.Lift{Winding: whole.Winding, Load: whole.Load}.Begin(t.Shade.Roller.Most, at, h.rules.Hang)
		t.Begin = &b
	}
	t.settle()
	h.take(found)
	h.pins()
	return h.drill()
}

// settle drops the digits of turns and torques that depend on the rounding of
// floats, because every machine must get the same revision.
func (h *Hanging) settle() {
	if h.Fit != nil && h.Fit.Square != nil {
		h.Fit.Square.Angle = millionth(h.Fit.Square.Angle)
	}
	if r := h.Roll; r != nil {
		r.Turns, r.WrapsUp, r.WrapsLeft = millionth(r.Turns), millionth(r.WrapsUp), millionth(r.WrapsLeft)
	}
	if r := h.Rate; r != nil {
		r.PerTurn, r.PerTurnError = millionth(r.PerTurn), millionth(r.PerTurnError)
		r.Turns, r.TurnsError = millionth(r.Turns), millionth(r.TurnsError)
	}
	if w := h.Wind; w != nil {
		w.Rate, w.Least, w.Most = millionth(w.Rate), millionth(w.Least), millionth(w.Most)
		w.Turns, w.Down = millionth(w.Turns), millionth(w.Down)
		for i := range w.At {
			w.At[i].Needed, w.At[i].Given = millionth(w.At[i].Needed), millionth(w.At[i].Given)
		}
	}
	if b := h.Begin; b != nil {
		b.Turns, b.Most = millionth(b.Turns), millionth(b.Most)
	}
}

func millionth(v float64) float64 { return math.Round(v*1e6) / 1e6 }

// winding returns the cloth on its tube. Side hems are double, and they carry the
// layers above them.
func (h *hanger) winding() hang.Winding {
	s := h.t.Shade
	w := hang.Winding{Tube: s.Roller.Tube, Cloth: s.Goods.Thickness, Wrap: s.Allow.Wrap, Drop: s.Finished.Length}
	if s.Allow.SideHem > 0 {
		w.Cloth *= 2
	}
	return w
}

// load returns what hangs. Without the slat's mass, nothing that depends on the
// weight is worked out.
func (h *hanger) load() hang.Load {
	t, s := h.t, h.t.Shade
	l := hang.Load{Width: t.Panel.Width, Drop: s.Finished.Length, Fold: s.Allow.Hem + s.Allow.Pocket, Cloth: s.Goods.Mass}
	if l.Cloth == 0 {
		return l
	}
	t.ClothMass = l.Weight().Cloth
	l.Slat, _ = s.Slat.weigh(t.Slat.Trim) // a slat of unknown mass is tried as wood and as steel
	return l
}

// place returns where the roller hangs, or nil if that is unknown.
func (h *hanger) place() *hang.Place {
	s := h.t.Shade
	o := s.Opening
	if o == nil {
		return nil
	}
	p := &hang.Place{
		Mount: o.Mount, Roll: s.Roll, Axle: o.Axle, Proud: o.Obstructions,
		Valance: o.Valance, Head: o.Head, Depth: o.Depth,
		// At most three plies lie around the slat: see [Ticket.sew].
		Slat: max(s.Slat.Thickness, s.Slat.Diameter) + 3*s.Goods.Thickness,
	}
	if b := s.Bracket; b != nil {
		switch {
		case o.Mount == hang.Outside && p.Axle == 0:
			p.Axle = b.Projection
		case o.Mount == hang.Ceiling && p.Head == nil:
			p.Head = &b.Projection
		}
	}
	if o.Depth != nil && *o.Depth == 0 {
		p.Depth = nil // already reported: nothing hangs in a recess without depth
	}
	if p.Axle == 0 && (o.Mount != hang.Inside || p.Depth == nil) {
		return nil
	}
	return p
}

// beam returns the tube, or nil if its wall or its material is unknown.
func (h *hanger) beam() *hang.Beam {
	r := h.t.Shade.Roller
	if r.Wall == 0 || r.Material.Name == "" {
		return nil
	}
	return &hang.Beam{Span: h.t.Tube.Trim, Outside: r.Tube, Wall: r.Wall, Material: r.Material}
}

// spring returns the roller's spring, as given or as a trial shows, or nil if it is
// unknown.
func (h *hanger) spring(l hang.Lift) (*hang.Spring, error) {
	s, st := h.t.Shade, h.t.Job.Style
	if s.Roller.Spring > 0 {
		return &hang.Spring{Rate: s.Roller.Spring.NewtonMillimetres(), Most: s.Roller.Most}, nil
	}
	if s.Trial == nil || l.Load.Cloth == 0 {
		return nil, nil
	}
	trial := hang.Trial{Readings: *s.Trial, ScaleStep: h.rules.Scale, TapeStep: st.Step()}
	rate, found, err := l.Measure(trial, h.rules.Hang, st)
	if err != nil {
		return nil, err
	}
	h.t.Rate = &rate
	h.found = append(h.found, found...)
	return &hang.Spring{Rate: rate.PerTurn, Most: s.Roller.Most}, nil
}

// take adds the findings of package hang. What it could not work out is a gap of the job,
// and [gapsOf] reports that.
func (h *hanger) take(found []finding.Finding) {
	o := h.t.Shade.Opening
	for _, f := range found {
		if f.Level == finding.Unchecked {
			continue
		}
		if f.Field == "opening.axle" && o.Axle == 0 && o.Mount == hang.Outside {
			f.Field = "bracket.projection" // the place of the axle comes from there
		}
		h.found.Add(f)
	}
}

// pins compares the pins of the roller with the room that the rules leave them.
func (h *hanger) pins() {
	t := h.t
	if p := t.Shade.Roller.Pins; p != nil && t.Fit != nil {
		p.Judge(&h.found, t.Fit.TipToTip-t.Tube.Trim, t.Fit.TipToTip, h.rules.Opening.Play, t.Job.Style)
	}
}

// drill works out where the brackets go, if there is a bracket and the place of the
// axle is known.
func (h *hanger) drill() error {
	t, s, st := h.t, h.t.Shade, h.t.Job.Style
	o := s.Opening
	if s.Bracket == nil || o == nil || o.Mount != hang.Outside && t.Axle == 0 {
		return nil
	}
	site := hang.Site{
		Bracket: *s.Bracket, Mount: o.Mount, Roll: s.Roll, TipToTip: t.Fit.TipToTip, RollUp: *t.Roll,
		Axle: t.Axle, Opening: t.Fit.Opening, Overlap: o.Overlap,
	}
	if o.Mount == hang.Inside {
		// tip_off has left the roller its play.
		site.Head = h.head()
		t.Head = site.Head
		if o.Depth != nil {
			site.Depth = *o.Depth
		}
	} else {
		// The cloth starts at the axle, and covers the wall above the opening.
		site.Play, site.Head = h.rules.Opening.Play, o.Overlap.Above
	}
	d, found, err := site.Drill(st)
	if err != nil {
		return err
	}
	t.Drilling = &d
	h.found = append(h.found, found...)
	return nil
}

// head returns how far the axle lies below the head of a recess: as given, or so
// that the roll just clears the head.
func (h *hanger) head() measure.Length {
	if o := h.t.Shade.Opening; o.Head != nil {
		return *o.Head
	}
	return ((h.t.Roll.DiameterUp+1)/2 + h.rules.Hang.Gap).Round(h.t.Job.Style.Step(), measure.Up)
}

// TurnsText writes turns and wraps in tenths: "11", "7.5". Numbers below one get
// more decimals.
func TurnsText(st measure.Style, turns float64) string {
	s := hang.TurnsText(st, turns)
	return strings.TrimSuffix(strings.TrimSuffix(s, ".0"), ",0")
}

// TimesText says how often to do something: "once", "3 times".
func TimesText(n int) message.Message {
	if n == 1 {
		return message.Of("ticket.once")
	}
	return message.Of("ticket.times", n)
}
