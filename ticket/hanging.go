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

// Hanging is what decides whether a shade will hang. What is nil, empty or zero
// is not known.
type Hanging struct {
	Fit        *hang.Fit // from the opening to the finished size
	Roll       *hang.RollUp
	Clearances []hang.Clearance   // all round, in a fixed order
	Axle       measure.Length     // from the glass or the wall: as given, or proposed for a recess
	Head       measure.Length     // from the axle up to the head of the recess: as given, or proposed
	ClothMass  measure.Mass       // that hangs with the shade down
	Weight     *hang.Weight       // with the shade down; nil if the slat's mass is not known
	Rate       *hang.Rate         // of the spring, from a trial
	Wind       *hang.Wind         // how far the spring is wound
	TrialAt    *[2]measure.Length // cloth off the tube where a scale is read, while the spring's rate is not known
	Sag        *hang.Sag          // of the tube
	Square     measure.Length     // the greatest difference between the panel's diagonals that counts as square
	Drilling   *hang.Drilling     // where the brackets go
	Fastener   *hang.Advice       // what holds them
}

// Clearance returns the least of the clearances, or nil.
func (h *Hanging) Clearance() *hang.Clearance { return hang.Least(h.Clearances) }

// A hanger works out the hanging of one ticket.
type hanger struct {
	t       *Ticket
	rules   Rules
	found   finding.List
	missing []string // the fields without which something was not worked out
	asked   bool     // what they are is told in any case
}

func newHanger(t *Ticket, opt Options) *hanger {
	return &hanger{t: t, rules: Practice{Rules: opt.Rules}.RulesFor(t.Job.Style.System), asked: opt.Asked}
}

// refuse turns what leaves nothing to work out into findings. A job that was
// read from a file has none: they are problems of the file, with their lines, and
// in English as all problems of files. It reports whether that is what the error
// holds.
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
	h.t.Fit, h.found = &fit, found
	s.Finished = fit.Finished
	return nil
}

// hang does the rest. It trusts that the ticket is figured.
func (h *hanger) hang() error {
	t, st := h.t, h.t.Job.Style
	t.Square = h.rules.Opening.Square.For(measure.Size{Width: t.Panel.Width, Length: t.Panel.Length})
	if t.Shade.Behind != nil {
		if a, ok := hang.Fasten(*t.Shade.Behind); ok {
			t.Fastener = &a
		}
	}
	if t.Shade.Goods.Thickness == 0 {
		return nil // judge says so
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
	t.settle()
	if t.Weight != nil && spring == nil {
		at := hang.TrialHeights(t.Shade.Finished.Length, st)
		t.TrialAt = &at
	}
	h.take(found)
	h.note()
	return h.drill()
}

// settle drops the digits of turns and torques that rest on the rounding of
// floats: every machine must come to the same revision.
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
}

func millionth(v float64) float64 { return math.Round(v*1e6) / 1e6 }

// winding is the cloth on its tube. Side hems lie double, and it is they that
// carry the layers above them.
func (h *hanger) winding() hang.Winding {
	s := h.t.Shade
	w := hang.Winding{Tube: s.Roller.Tube, Cloth: s.Goods.Thickness, Wrap: s.Allow.Wrap, Drop: s.Finished.Length}
	if s.Allow.SideHem > 0 {
		w.Cloth *= 2
	}
	return w
}

// load is what hangs. Without the slat's mass nothing that rests on the weight
// is worked out.
func (h *hanger) load() hang.Load {
	t, s := h.t, h.t.Shade
	l := hang.Load{Width: t.Panel.Width, Drop: s.Finished.Length, Fold: s.Allow.Hem + s.Allow.Pocket, Cloth: s.Goods.Mass}
	if l.Cloth == 0 {
		return l
	}
	t.ClothMass = l.Weight().Cloth
	mass, ok := s.Slat.weigh(t.Slat.Trim)
	if !ok {
		h.missing = append(h.missing, "slat.mass")
		l.Cloth = 0
	}
	l.Slat = mass
	return l
}

// place is where the roller hangs; nil if that is not known.
func (h *hanger) place() *hang.Place {
	s := h.t.Shade
	o := s.Opening
	if o == nil {
		return nil
	}
	p := &hang.Place{
		Mount: o.Mount, Roll: s.Roll, Axle: o.Axle, Proud: o.Obstructions,
		Valance: o.Valance, Head: o.Head, Depth: o.Depth,
		// Three plies at most lie around the slat: see [Ticket.sew].
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
		p.Depth = nil // found already: nothing hangs in a recess of no depth
	}
	if p.Axle == 0 && (o.Mount != hang.Inside || p.Depth == nil) {
		return nil
	}
	return p
}

// beam is the tube; nil if its wall or its material is not known.
func (h *hanger) beam() *hang.Beam {
	r := h.t.Shade.Roller
	if r.Wall == 0 || r.Material.Name == "" {
		return nil
	}
	return &hang.Beam{Span: h.t.Tube.Trim, Outside: r.Tube, Wall: r.Wall, Material: r.Material}
}

// spring is the roller's, as given or as a trial says; nil if it is not known.
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

// take sorts what was found: notes on what is missing are gathered in one.
func (h *hanger) take(found []finding.Finding) {
	s := h.t.Shade
	for _, f := range found {
		switch {
		case f.Level == finding.Note && f.Unchecked:
			if f.Field == "goods.mass" && s.Goods.Mass != 0 {
				continue // it is the slat's mass that is missing
			}
			h.missing = append(h.missing, f.Field)
			continue
		case f.Field == "opening.axle" && s.Opening.Axle == 0 && s.Opening.Mount == hang.Outside:
			f.Field = "bracket.projection" // where the axle's place comes from
		}
		h.found.Add(f)
	}
}

// unknowns says what is not worked out without a field, and what to give.
var unknowns = map[string]struct{ what, give message.ID }{
	"opening.axle":  {"ticket.missing-clearance", "ticket.give-axle"},
	"goods.mass":    {"ticket.missing-weight", "ticket.give-goods-mass"},
	"slat.mass":     {"ticket.missing-weight", "ticket.give-slat-mass"},
	"roller.spring": {"ticket.missing-turns", "ticket.give-spring"},
	"roller.wall":   {"ticket.missing-sag", "ticket.give-tube"},
}

// note says in one finding what was not worked out. A job that says nothing of
// springs, tubes and openings is not asked for them.
func (h *hanger) note() {
	s := h.t.Shade
	asked := h.asked || s.Opening != nil || s.Trial != nil || s.Roller.Wall != 0 || s.Roller.Material.Name != "" || s.Roller.Spring != 0
	if !asked || len(h.missing) == 0 {
		return
	}
	var what, give []message.Message
	for _, field := range h.missing {
		u := unknowns[field]
		what, give = append(what, message.Of(u.what)), append(give, message.Of(u.give))
	}
	h.found.Add(finding.Finding{
		Level: finding.Note, Field: h.missing[0], Unchecked: true,
		Text:   message.Of("ticket.not-worked-out", message.Join(", ", what...)),
		Source: finding.NoGuess, Remedy: message.Of("ticket.give-missing", message.Join("; ", give...)),
	})
}

// drill works out where the brackets go, if there is one and it is known where
// the axle lies.
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
		// The cloth begins at the axle, and covers the wall above the opening.
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

// head is how far the axle lies below the head of a recess: as given, or so
// that the roll just clears it.
func (h *hanger) head() measure.Length {
	if o := h.t.Shade.Opening; o.Head != nil {
		return *o.Head
	}
	return ((h.t.Roll.DiameterUp+1)/2 + h.rules.Hang.Gap).Round(h.t.Job.Style.Step(), measure.Up)
}

// TurnsText puts turns and wraps into words, to the tenth: "11", "7.5"; less than
// one finer.
func TurnsText(st measure.Style, turns float64) string {
	s := hang.TurnsText(st, turns)
	return strings.TrimSuffix(strings.TrimSuffix(s, ".0"), ",0")
}

// TimesText says how often something is done: "once", "3 times".
func TimesText(n int) message.Message {
	if n == 1 {
		return message.Of("ticket.once")
	}
	return message.Of("ticket.times", n)
}
