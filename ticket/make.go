package ticket

import (
	"fmt"
	"slices"

	"shadewright/ticket/code"
	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
	"shadewright/ticket/route"
)

// Options says how to make tickets.
type Options struct {
	Limits Limits
	Rules  func(measure.System) Rules // nil: the usual rules
	Route  route.Route
	// Remake returns how often a unit's panel was cut again because the one before
	// was spoilt; nil if none was.
	Remake func(shade string, unit int) int

	routes map[route.Shade]route.Route // Route for each kind of shade, so that shades share them
}

// routeFor returns the route of a shade.
func (o Options) routeFor(s *Shade) route.Route {
	key := route.Shade{Tube: tubeOf(s.Roller), Pull: s.Pull != ""}
	r, ok := o.routes[key]
	if !ok {
		if r = o.Route.For(key); o.routes != nil {
			o.routes[key] = r
		}
	}
	return r
}

// Make returns the tickets of all units of a job, in the job's order. They have no
// place on a cut plan and no revision until [Seal] has run. Make trusts that
// package jobfile read the job. Two units with the same code are an error, so that
// one ticket is never mistaken for another.
func Make(job *Job, opt Options) ([]*Ticket, error) {
	opt.routes = map[route.Shade]route.Route{}
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
				return nil, fmt.Errorf("shade %s unit %d and shade %s unit %d have the same code %s; rename one of the shades", o.Shade.ID, o.Unit, s.ID, unit, t.Code)
			}
			seen[t.Code] = &t
			all = append(all, &t)
		}
	}
	shareRollers(all)
	return all, nil
}

// An OnPlan is what the cut plan adds to a ticket: where its panel lies, and the
// findings of laying the panels.
type OnPlan struct {
	Place    PlanPlace
	Findings []finding.Finding // the same for all units of a shade
}

// Seal adds the results of the cut plan to the tickets and then sets their
// revisions. Call it once, when everything that will be printed is known. laid may
// be nil if there is no plan.
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

// Try works out everything that depends on measurements. Values with which nothing
// can be worked out are joined [*finding.InputError]s.
func Try(job *Job, s *Shade, opt Options) error {
	var first error
	for i, try := range tries(s, gapsOf(s, job.Style)) {
		shade := *try.shade
		t := &Ticket{Job: job, Shade: &shade, Of: s.Quantity}
		h := newHanger(t, opt)
		if err := h.fit(); err != nil {
			return err
		}
		t.figure()
		err := h.hang()
		if err == nil {
			return nil // what another try refuses is refused because of its own values
		}
		if i == 0 {
			first = err
		}
	}
	return first
}

// forShade makes what all units of a shade have in common. A shade with gaps is made at
// every try.
func forShade(job *Job, s *Shade, opt Options) (*Ticket, error) {
	if s.NoRoller != nil {
		return withoutRoller(job, s, opt)
	}
	gaps := gapsOf(s, job.Style)
	var list []try
	var tickets []*Ticket
	var refused *Ticket
	for _, try := range tries(s, gaps) {
		t, wrong, err := work(job, try.shade, opt)
		if err != nil {
			return nil, err
		}
		if wrong {
			refused = t
			continue // with these values nothing can be worked out, so nothing has them
		}
		list, tickets = append(list, try), append(tickets, t)
	}
	if len(tickets) == 0 {
		refused.Shade = ordered(s, refused.Shade)
		return refused, nil
	}
	if len(gaps) == 0 {
		return tickets[0], nil
	}
	return merge(s, gaps, list, tickets), nil
}

// withoutRoller makes the ticket of a shade that got no roller. Nothing is judged but that.
func withoutRoller(job *Job, s *Shade, opt Options) (*Ticket, error) {
	shade := *s
	t := &Ticket{Job: job, Shade: &shade, Of: s.Quantity, Route: opt.Route}
	if err := newHanger(t, opt).fit(); err != nil {
		return nil, err
	}
	t.figure()
	if err := t.sew(); err != nil {
		return nil, err
	}
	t.Findings = []finding.Finding{{
		Level: finding.Stop, Field: "roller", Text: message.Of("ticket.no-roller", *s.NoRoller),
		Source: "every roller of the job was tried", Remedy: message.Of("ticket.fix-no-roller"),
	}}
	t.Cautions = cautionsFor(t.Shade, opt.Route)
	return t, nil
}

// work makes the ticket of a shade without gaps. wrong reports that it has values with
// which nothing can be worked out, which are among its findings.
func work(job *Job, s *Shade, opt Options) (t *Ticket, wrong bool, err error) {
	shade := *s
	t = &Ticket{Job: job, Shade: &shade, Of: s.Quantity, Route: opt.routeFor(s)}
	h := newHanger(t, opt)
	if err := h.fit(); err != nil {
		return nil, false, err
	}
	t.figure()
	if err := h.hang(); err != nil {
		if wrong = h.refuse(err); !wrong {
			return nil, false, err
		}
	}
	h.fitting()
	if err := t.sew(); err != nil {
		return nil, false, err
	}
	t.Findings = append(judge(t, opt.Limits), h.found...)
	finding.Sort(t.Findings)
	t.Cautions = cautionsFor(t.Shade, t.Route)
	return t, wrong, nil
}
