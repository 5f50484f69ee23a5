package main

import (
	"context"
	"fmt"
	"slices"

	"shadewright/render/buylist"
	"shadewright/render/flow"
	"shadewright/render/page"
	"shadewright/render/plan"
	"shadewright/ticket"
	"shadewright/ticket/buying"
	"shadewright/ticket/cutplan"
	"shadewright/ticket/measure"
	"shadewright/ticket/nest"
)

// plan lays the panels of a job on their goods. If ctx ends it returns the best plans so
// far; cutShort then says so on standard error.
func (l *loadedJob) plan(ctx context.Context, s environment, tickets []*ticket.Ticket) ([]*cutplan.Plan, map[*ticket.Ticket]ticket.OnPlan, error) {
	job := &l.file.Job
	effort, done := searchFor(s, float64(l.settings.Cutting.Seconds), job.Style.Format)
	defer done()
	opt := cutplan.Options{
		Table: l.settings.Cutting.Table, Overhang: l.settings.Cutting.Overhang,
		// In the job's own step, so that nobody cuts a rounded length.
		SquareEnd: l.settings.Cutting.SquareEnd.Round(job.Style.Step(), measure.Up),
		KeepWidth: l.settings.Cutting.KeepWidth, KeepLength: l.settings.Cutting.KeepLength,
		Effort: effort, Supply: job.Supply,
	}
	if l.offcuts != nil {
		opt.Record, opt.Again = l.offcuts.For(job), l.offcuts.TimesCut(job.ID)
	}
	var rest []*ticket.Ticket
	for _, t := range tickets {
		if !l.isCut(t) {
			rest = append(rest, t)
		}
	}
	plans, laid, err := cutplan.Make(ctx, rest, opt)
	if err != nil {
		return nil, nil, err
	}
	for _, t := range tickets {
		if l.isCut(t) { // its paper shows where it lay, and that does not change
			laid[t] = ticket.OnPlan{Place: l.done.place(t)}
		}
	}
	return plans, laid, nil
}

// cutPlan draws the cut plans and the list of what to buy.
func (l *loadedJob) cutPlan(tickets []*ticket.Ticket) (*page.Document, error) {
	paper, err := l.paper()
	if err != nil {
		return nil, err
	}
	list, err := buying.Make(&l.file.Job, tickets, l.plans, l.settings.Buying)
	if err != nil {
		return nil, err
	}
	lang, job := languageOf(l.settings), l.file.Job
	on, err := plan.On(flow.Options{Language: lang, Paper: paper, Margins: l.margins(), Style: job.Style, Job: job.Name})
	if err != nil {
		return nil, fmt.Errorf("cut plan: %w", err)
	}
	sheets := slices.Concat(plan.Sheets(on, l.plans, l.settings.Cutting.Table.Round(job.Style.Step(), measure.Down)), buylist.Sheets(on, list), plan.Labels(on, l.plans))
	return flow.Document(lang.Say("plan.cut-plan")+", "+job.Name, sheets), nil
}

// searchFor returns the effort for a search of about so many seconds. On a terminal, a
// search longer than a second shows its progress on standard error; done wipes it.
func searchFor(s environment, seconds float64, say func(measure.Length) string) (e nest.Effort, done func()) {
	e = nest.Seconds(seconds)
	p := s.progress()
	if p != nil {
		e.Progress = func(n nest.Progress) {
			p.say(func() string {
				return fmt.Sprintf("laying panels: %.0f %%, best plan so far %s, least possible %s (Ctrl-C uses this plan)", n.Done*100, say(n.Used), say(n.Bound))
			})
		}
	}
	return e, p.wipe
}

// cutShort says on standard error that a search was interrupted.
func cutShort(s environment, plans []*cutplan.Plan) error {
	for _, p := range plans {
		if p.Cut {
			_, err := fmt.Fprintf(s.err, "shadewright: interrupted: the cut plan of %s is the best so far; a full run may find a shorter plan and move panels\n", p.Goods.Name)
			if err != nil {
				return err
			}
		}
	}
	return nil
}
