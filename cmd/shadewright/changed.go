package main

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"shadewright/ticket"
	"shadewright/ticket/mark/record"
	"shadewright/ticket/measure"
)

// A selection is what of a job is printed.
type selection struct {
	all      []*ticket.Ticket // of the job, for the cut plan and what to buy
	tickets  []*ticket.Ticket // tickets and tags
	template []*ticket.Ticket // those whose bands are printed
	mounts   []*ticket.Ticket // those whose mounting sheets are
	plan     bool             // whether the cut plan is
}

// everything selects a whole job.
func everything(all []*ticket.Ticket) selection {
	return selection{all: all, tickets: all, template: all, mounts: all, plan: true}
}

// The values of a ticket, by the beginnings of their keys, that its band of the
// template and the cut plan show. A mounting sheet shows the revision, so it is
// another whenever the ticket is.
var (
	onTemplate = []string{"panel.", "line.", "allow.side_hem", "slat.end_gap", "rule.", "shade.id"}
	onPlan     = []string{"plan.", "cut.width", "cut.length", "goods.", "rule.", "shade.id"}
)

// changed selects the tickets that are new or not as they were printed, and what
// changed with them.
func (r *register) changed(ctx context.Context, all []*ticket.Ticket) (selection, error) {
	sel := selection{all: all}
	list, err := registrations(all)
	if err = errors.Join(r.err, err); err != nil {
		return sel, fmt.Errorf("what was printed before is not known: %w; nothing is written: mend that, or print everything without --changed", err)
	}
	became, err := r.log.Compare(ctx, list)
	if err != nil {
		return sel, err
	}
	shades := map[*ticket.Shade]bool{}
	for _, p := range slices.Concat(became.New, became.Changed) {
		t := all[slices.IndexFunc(all, func(t *ticket.Ticket) bool { return t.Code == p.New.Code })]
		sel.tickets = append(sel.tickets, t)
		shades[t.Shade] = true
		sel.plan = sel.plan || slices.Contains(became.New, p) || differs(p, onPlan)
		if differs(p, onTemplate) {
			sel.template = append(sel.template, t)
		}
	}
	for _, t := range all {
		if shades[t.Shade] {
			sel.mounts = append(sel.mounts, t) // units alike share a sheet
		}
	}
	inOrder := func(a, b *ticket.Ticket) int { return slices.Index(all, a) - slices.Index(all, b) }
	slices.SortFunc(sel.tickets, inOrder)
	slices.SortFunc(sel.template, inOrder)
	return sel, nil
}

// differs reports whether a ticket has another value than before under one of the
// keys, or had none.
func differs(p record.Reprint, keys []string) bool {
	if p.Old == nil {
		return true
	}
	changes, ok := p.Old.Changes(p.New)
	return !ok || slices.ContainsFunc(changes, func(c ticket.Change) bool {
		return slices.ContainsFunc(keys, func(key string) bool { return strings.HasPrefix(c.Key, key) })
	})
}

// registeredWords tells what became of the tickets in the record, and what changed
// on which.
func registeredWords(where string, n record.Registered, left int, st measure.Style) string {
	words := fmt.Sprintf("%s\t%s registered", where, count(len(n.New), "new ticket"))
	if c := len(n.Changed); c > 0 {
		words += fmt.Sprintf(", %s: throw away the paper before", count(c, "changed ticket"))
	}
	if same := len(n.Same); same > 0 {
		words += fmt.Sprintf(", %s as before", count(same, "ticket"))
	}
	if left > 0 {
		words += fmt.Sprintf(", %s as before and not printed", count(left, "ticket"))
	}
	for _, p := range n.Changed {
		what := p.Old.ChangedTo(p.New, st.Comma).String()
		if what == "" {
			what = "what changed is not known: too little is kept of its paper before"
		}
		words += "\n" + p.New.Name() + "\t" + what
	}
	return words
}
