package card

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"shadewright/render/internal/readback"
	"shadewright/ticket"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
	"shadewright/ticket/route"
)

// The place on the cut plan and the steps are printed, so they change the
// revision. The way a panel lies on the plan is not.
func TestRevisionOfPlanAndRoute(t *testing.T) {
	sealed := func(r route.Route, place ticket.PlanPlace) *ticket.Ticket {
		all, err := ticket.Make(bases()["recess"](), ticket.Options{Route: r})
		if err != nil {
			t.Fatal(err)
		}
		ticket.Seal(all, map[*ticket.Ticket]ticket.OnPlan{all[0]: {Place: place}})
		return all[0]
	}
	place := ticket.PlanPlace{Goods: "reed-mesh", Section: 2, Cuts: []int{1, 4, 5, 6}}
	first := sealed(route.Usual(), place)
	for name, change := range map[string]func(r route.Route, p *ticket.PlanPlace) route.Route{
		"section": func(r route.Route, p *ticket.PlanPlace) route.Route { p.Section++; return r },
		"cut":     func(r route.Route, p *ticket.PlanPlace) route.Route { p.Cuts = []int{1, 4, 5, 7}; return r },
		"piece":   func(r route.Route, p *ticket.PlanPlace) route.Route { p.Section, p.On = 0, "shelf-3"; return r },
		"no plan": func(r route.Route, p *ticket.PlanPlace) route.Route { *p = ticket.PlanPlace{}; return r },
		"name": func(r route.Route, _ *ticket.PlanPlace) route.Route {
			r[3].Name = message.StepTerm.Term("Chalk the lines")
			return r
		},
		"bench": func(r route.Route, _ *ticket.PlanPlace) route.Route {
			r[3].Bench = message.BenchTerm.Term("chalk table")
			return r
		},
		"caution": func(r route.Route, _ *ticket.PlanPlace) route.Route { r[13].Cautions = nil; return r },
		"one less": func(r route.Route, _ *ticket.PlanPlace) route.Route {
			return slices.Delete(r, 5, 6)
		},
		"order": func(r route.Route, _ *ticket.PlanPlace) route.Route { r[3], r[4] = r[4], r[3]; return r },
	} {
		p := place
		r := change(route.Usual(), &p)
		k := sealed(r, p)
		if words(t, k) == words(t, first) || k.Revision == first.Revision {
			t.Errorf("another %s: revision %s, as before %v; want it printed and a new revision", name, k.Revision, k.Revision == first.Revision)
		}
	}
	turned := place
	turned.Turned, turned.Rough = true, measure.Size{Width: in, Length: in}
	if k := sealed(route.Usual(), turned); words(t, k) != words(t, first) || k.Revision != first.Revision {
		t.Errorf("the way the panel lies on the plan is not on the ticket, but the revision is %s and was %s", k.Revision, first.Revision)
	}
}

// number matches numbers on a page: 33-1/4, 1/8, 12.5, 2027.
var number = regexp.MustCompile(`\d+(?:[.,]\d+)?(?:-\d+/\d+|/\d+)?`)

// pageText joins the pieces of a page's text as a reader does: a fraction
// becomes one number.
func pageText(pieces []readback.Text) string {
	var b strings.Builder
	for _, p := range pieces {
		b.WriteString(p.Text + "\n")
	}
	s := regexp.MustCompile(`\s*\n⁄\n`).ReplaceAllString(b.String(), "/")
	return regexp.MustCompile(`(\d)\x{2009}\n(\d)`).ReplaceAllString(s, "$1-$2")
}

// explained returns every number that the printed values can put on a page, in
// every unit and rounding.
func explained(t *testing.T, k *ticket.Ticket) map[string]bool {
	t.Helper()
	ok := map[string]bool{"1": true, "2": true} // the folding drawing numbers its two folds
	add := func(words string) {
		for _, n := range number.FindAllString(words, -1) {
			ok[n] = true
		}
	}
	fine := k.Job.Style
	fine.Denominator, fine.Metric = 64, measure.Millimetre/10
	for _, v := range k.Printed().Values {
		if l, is := v.Length(); is {
			for _, st := range []measure.Style{k.Job.Style, k.Job.Style.Other(), fine} {
				for _, r := range []measure.Rounding{measure.Down, measure.Up, measure.Nearest} {
					add(st.Words(l, r).String())
				}
				add(st.Exact(l))
			}
			continue
		}
		if v.Key == "job.due" {
			add(message.At(k.Job.Due, message.Date).String())
		}
		for _, m := range v.Messages() {
			add(m.String())
		}
	}
	add(k.Code.Grouped())
	add(string(k.Revision))
	return ok
}

// Every number read back from a ticket's PDF comes from the values that make
// its revision.
func TestEveryNumberIsExplained(t *testing.T) {
	for name, base := range bases() {
		all := made(t, base())
		ticket.Seal(all[:1], map[*ticket.Ticket]ticket.OnPlan{all[0]: {Place: ticket.PlanPlace{Goods: "reed-mesh", Section: 7, Cuts: []int{31, 44, 45, 46}}}})
		k := all[0]
		doc, err := Tickets(all[:1], Options{Paper: paper(t, "letter"), Insist: true})
		d := readback.Open(t, readback.Bytes(t, doc, err))
		ok := explained(t, k)
		found := 0
		for page := range d.Pages() {
			text := pageText(d.Marks(page).Texts)
			for _, n := range number.FindAllString(text, -1) {
				if found++; !ok[n] {
					t.Errorf("%s: no printed value accounts for %s on page %d:\n%s", name, n, page+1, around(text, n))
				}
			}
		}
		if found < 60 {
			t.Errorf("%s: the page has only %d numbers", name, found)
		}
	}
}

// around returns the line of a text with a number in it.
func around(text, n string) string {
	for line := range strings.Lines(text) {
		if slices.Contains(number.FindAllString(line, -1), n) {
			return line
		}
	}
	return ""
}
