package main

import (
	"context"
	"errors"
	"fmt"
	"io"

	"shadewright/ticket"
	"shadewright/ticket/code"
	"shadewright/ticket/mark"
	"shadewright/ticket/measure"
)

// A cutting is what the shop's record knows of a job whose cutting has begun. The zero
// cutting knows nothing.
type cutting struct {
	cut     map[code.Code]measure.Size // tickets whose step of cutting is marked, with what their panels measure at least
	printed map[code.Code]*mark.Ticket // all tickets of the job, as they were printed last
}

// cutting asks the record what is cut.
func (r *register) cutting(ctx context.Context, job *ticket.Job) (c cutting) {
	if r.rec == nil {
		return c
	}
	var err, err2 error
	c.cut, err = r.rec.Cut(ctx, job.ID)
	c.printed, err2 = r.rec.Tickets(ctx, job.ID)
	r.err = errors.Join(r.err, err, err2)
	return c
}

// place returns the place on the cut plan that the paper of a ticket shows.
func (c cutting) place(t *ticket.Ticket) ticket.PlanPlace {
	m := c.printed[t.Code]
	if m == nil {
		return ticket.PlanPlace{}
	}
	p, err := ticket.ReadPrinted(m.Printed)
	if err != nil {
		return ticket.PlanPlace{} // an old paper, of which less is known
	}
	return p.Place(t.Shade.Goods.Name)
}

// isCut reports whether the panel of a ticket is cut. If the shop keeps a record of
// offcuts, the command cut decides, because it also says what is left of the roll. Else
// the marks decide.
func (l *loadedJob) isCut(t *ticket.Ticket) bool {
	if l.offcuts != nil {
		return l.offcuts.WasCut(t)
	}
	_, done := l.done.cut[t.Code]
	return done
}

// A cutChange is a panel that is cut and whose ticket asks for another size now.
type cutChange struct {
	t        *ticket.Ticket
	was      measure.Size
	tooSmall bool
}

// cutChanges lists the panels that are cut and no longer have the size of their tickets.
func (l *loadedJob) cutChanges(tickets []*ticket.Ticket) (list []cutChange) {
	for _, t := range tickets {
		if !l.isCut(t) {
			continue
		}
		was, marked := l.done.cut[t.Code]
		if m := l.done.printed[t.Code]; !marked && m != nil {
			was = m.Panel
		}
		now := measure.Size{Width: t.Cut.Width, Length: t.Cut.Length}
		if was != (measure.Size{}) && now != was {
			list = append(list, cutChange{t, was, now.Width > was.Width || now.Length > was.Length})
		}
	}
	return list
}

// sayCutChanges says what to do about panels that were cut before their tickets changed.
// A panel that is too small ends the run with a stop.
func sayCutChanges(errs io.Writer, list []cutChange) error {
	var small []string
	for _, c := range list {
		st := c.t.Job.Style
		advice := "trim the panel to it"
		if c.tooSmall {
			advice = "the panel is too small: mark it spoilt and print again, or take the change back"
			small = append(small, c.t.Name())
		}
		if _, err := fmt.Fprintf(errs, "%s: its panel is cut at %s × %s, and the job asks for %s × %s now; %s\n",
			c.t.Name(), st.Format(c.was.Width), st.Format(c.was.Length), st.Format(c.t.Cut.Width), st.Format(c.t.Cut.Length), advice); err != nil {
			return err
		}
	}
	return stoppedError(small, "their panels are cut too small")
}

// uncut selects what is left to print of a job whose cutting has begun: the tickets whose
// panels are not cut, and those whose paper changed all the same.
func (l *loadedJob) uncut(good []*ticket.Ticket) (sel selection, kept int) {
	sel = selection{plan: true}
	for _, t := range good {
		if !l.isCut(t) {
			sel.all = append(sel.all, t)
		} else if m := l.done.printed[t.Code]; m == nil || m.Revision == t.Revision {
			kept++
			continue
		}
		sel.tickets = append(sel.tickets, t)
	}
	sel.template, sel.mounts = sel.tickets, sel.tickets
	sel.plan = len(sel.all) > 0
	return sel, kept
}

// count writes a number with the words for one thing or for several.
func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
