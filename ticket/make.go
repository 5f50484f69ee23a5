package ticket

import (
	"fmt"
	"slices"

	"shadewright/ticket/code"
	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
	"shadewright/ticket/route"
)

// Options says how tickets are made.
type Options struct {
	Limits Limits
	Rules  func(measure.System) Rules // nil: the usual ones
	Route  route.Route
	// Remake says how often a unit's panel was cut again because the one before
	// was spoilt; nil if none was.
	Remake func(shade string, unit int) int
	// Asked has every shade say what of its hanging is not worked out, even where
	// the job says nothing of springs, tubes and openings.
	Asked bool
}

// Make returns the tickets of all units of a job, in the job's order. They have
// no place on a cut plan and no revision until [Seal] has run. Make trusts that
// the job was read by package jobfile. Two units that come to the same code are an
// error, so that no ticket is ever taken for another.
func Make(job *Job, opt Options) ([]*Ticket, error) {
	var all []*Ticket
	seen := map[code.Code]*Ticket{}
	for i := range job.Shades {
		s := &job.Shades[i]
		first, err := forShade(job, s, opt)
		if err != nil {
			return nil, fmt.Errorf("shade %s: %w", s.ID, err)
		}
		for unit := 1; unit <= s.Quantity; unit++ {
			t := *first
			t.Unit = unit
			if opt.Remake != nil {
				t.Remake = opt.Remake(s.ID, unit)
			}
			t.Identity = code.Identity(job.ID, s.ID, unit, t.Remake)
			t.Code = code.Derive(t.Identity)
			if o := seen[t.Code]; o != nil {
				return nil, fmt.Errorf("shade %s unit %d and shade %s unit %d come to the same code %s; rename one of them", o.Shade.ID, o.Unit, s.ID, unit, t.Code)
			}
			seen[t.Code] = &t
			all = append(all, &t)
		}
	}
	return all, nil
}

// An OnPlan is what the cut plan adds to a ticket: where its panel lies, and what
// was noticed while the panels were laid.
type OnPlan struct {
	Place    PlanPlace
	Findings []finding.Finding // the same for all units of a shade
}

// Seal gives tickets what the cut plan says of them, and then their revisions. It
// is called once, after everything that is printed is known; laid may be nil if
// there is no plan.
func Seal(tickets []*Ticket, laid map[*Ticket]OnPlan) {
	for _, t := range tickets {
		on := laid[t]
		t.Plan = on.Place
		if len(on.Findings) > 0 {
			t.Findings = append(slices.Clip(t.Findings), on.Findings...)
			finding.Sort(t.Findings)
		}
		t.Revision = t.Printed().Revision()
	}
}

// Try works out whatever rests on what was measured, and reports what leaves
// nothing to work out: [*finding.InputError]s, joined.
func Try(job *Job, s *Shade, opt Options) error {
	t := &Ticket{Job: job, Shade: withUsual(s), Of: s.Quantity}
	h := newHanger(t, opt)
	if err := h.fit(); err != nil {
		return err
	}
	t.figure()
	return h.hang()
}

// forShade makes what all units of a shade have in common.
func forShade(job *Job, s *Shade, opt Options) (*Ticket, error) {
	t := &Ticket{Job: job, Shade: withUsual(s), Of: s.Quantity, Route: opt.Route}
	h := newHanger(t, opt)
	if err := h.fit(); err != nil {
		return nil, err
	}
	t.figure()
	if err := h.hang(); err != nil && !h.refuse(err) {
		return nil, err
	}
	if err := t.sew(); err != nil {
		return nil, err
	}
	t.Findings = append(judge(t, opt.Limits), h.found...)
	finding.Sort(t.Findings)
	t.Cautions = cautionsFor(t.Shade, opt.Route)
	return t, nil
}

// withUsual fills in the thickness and mass that the table of goods knows for
// the kind and the job left out.
func withUsual(s *Shade) *Shade {
	filled := *s
	c := s.Goods.Kind.Cloth()
	if filled.Goods.Thickness == 0 {
		filled.Goods.Thickness = c.Thickness
	}
	if filled.Goods.Mass == 0 {
		filled.Goods.Mass = c.Mass
	}
	return &filled
}
