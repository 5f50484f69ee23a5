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

// A selection is the part of a job that is printed.
type selection struct {
	all      []*ticket.Ticket // all tickets, for the cut plan and what to buy
	tickets  []*ticket.Ticket // those whose tickets and tags are printed
	template []*ticket.Ticket // those whose bands are printed
	mounts   []*ticket.Ticket // those whose mounting sheets are printed
	plan     bool             // whether the cut plan is printed
}

// everything selects a whole job.
func everything(all []*ticket.Ticket) selection {
	return selection{all: all, tickets: all, template: all, mounts: all, plan: true}
}

// The values of a ticket that its band of the template shows, and those that the cut plan
// shows, by the beginnings of their keys. A mounting sheet shows the revision, so it
// changes with the ticket.
var (
	onTemplate = []string{"panel.", "line.", "allow.side_hem", "slat.end_gap", "rule.", "shade.id"}
	onPlan     = []string{"plan.", "cut.width", "cut.length", "goods.", "rule.", "shade.id"}
)

// changed selects new and changed tickets, and the other paper that changed with them.
func (r *register) changed(ctx context.Context, all []*ticket.Ticket) (selection, error) {
	sel := selection{all: all}
	list, err := registrations(all)
	if err = errors.Join(r.err, err); err != nil {
		return sel, fmt.Errorf("cannot tell what changed: %w; nothing is written; correct that, or print everything without --changed", err)
	}
	became, err := r.rec.Compare(ctx, list)
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
			sel.mounts = append(sel.mounts, t) // all units of a shade share a mounting sheet
		}
	}
	inOrder := func(a, b *ticket.Ticket) int { return slices.Index(all, a) - slices.Index(all, b) }
	slices.SortFunc(sel.tickets, inOrder)
	slices.SortFunc(sel.template, inOrder)
	return sel, nil
}

// differs reports whether a value changed under one of the keys, or the ticket is new.
func differs(p record.Reprint, keys []string) bool {
	if p.Old == nil {
		return true
	}
	changes, ok := p.Old.Changes(p.New)
	return !ok || slices.ContainsFunc(changes, func(c ticket.Change) bool {
		return slices.ContainsFunc(keys, func(key string) bool { return strings.HasPrefix(c.Key, key) })
	})
}

// registeredWords says how the tickets were registered, and what changed on each changed
// one.
func registeredWords(where string, n record.Registered, left int, st measure.Style) string {
	words := fmt.Sprintf("%s\t%s registered", where, measure.Count(len(n.New), "new ticket"))
	if c := len(n.Changed); c > 0 {
		words += fmt.Sprintf(", %s: throw the old paper away", measure.Count(c, "changed ticket"))
	}
	if same := len(n.Same); same > 0 {
		words += fmt.Sprintf(", %s", measure.Count(same, "unchanged ticket"))
	}
	if left > 0 {
		words += fmt.Sprintf(", %s not printed", measure.Count(left, "unchanged ticket"))
	}
	for _, p := range n.Changed {
		what := p.Old.ChangedTo(p.New, st.Comma).String()
		if what == "" {
			what = "the record knows too little of the old paper to say what changed"
		}
		words += "\n" + p.New.Name() + "\t" + what
	}
	return words
}
