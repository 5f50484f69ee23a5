package ticket

import (
	"encoding/json"
	"fmt"
	"slices"

	"shadewright/ticket/code"
	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
	"shadewright/ticket/route"
)

// form is part of every revision. It is raised when the words or the figures
// that the program itself puts on every ticket change.
const form = 1

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
	// Also is what else is printed on a ticket: the address in its code, a
	// language. The revision covers it.
	Also []string
	// Plan, if not nil, gives tickets their places on the cut plan. It may add
	// findings, the same to all units of a shade. It is called once, before
	// revisions are made: they cover both.
	Plan func([]*Ticket) error
}

// Make returns the tickets of all units of a job, in the job's order. It trusts
// that the job was read by package jobfile. Two units that come to the same code
// are an error, so that no ticket is ever taken for another.
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
	if opt.Plan != nil {
		if err := opt.Plan(all); err != nil {
			return nil, err
		}
	}
	return all, seal(all, opt.Also)
}

// seal gives finished tickets their revisions.
func seal(all []*Ticket, also []string) error {
	var shared []byte
	for _, t := range all {
		if t.Unit == 1 {
			var err error
			if shared, err = t.printed(also); err != nil {
				return fmt.Errorf("shade %s: %w", t.Shade.ID, err)
			}
		}
		own := fmt.Appendf(slices.Clip(shared), "%d %s", t.Unit, t.Code)
		if t.Plan.Planned() {
			own = fmt.Appendf(own, " %+v", t.Plan)
		}
		t.Revision = code.RevisionOf(own)
	}
	return nil
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

// printed returns everything that is printed on the tickets of a shade's units
// alike. With the unit and its code it makes the revision.
func (t *Ticket) printed(also []string) ([]byte, error) {
	job := struct{ Name, Client, Due, Style string }{
		t.Job.Name, t.Job.Client, t.Job.DueText(), fmt.Sprintf("%+v", t.Job.Style),
	}
	shared := *t
	shared.Job = nil
	shared.Plan = PlanPlace{} // each unit has its own
	return json.Marshal(struct {
		Form   int
		Job    any
		Ticket Ticket
		Also   []string
	}{form, job, shared, also})
}
