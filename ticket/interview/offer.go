package interview

import (
	"cmp"
	"slices"
	"strconv"

	"shadewright/ticket"
	"shadewright/ticket/finding"
	"shadewright/ticket/form"
	"shadewright/ticket/jobfile"
	"shadewright/ticket/measure"
)

// offer returns the names of the parts of a kind, the likeliest first: the part of the
// shade before, but for rollers those that are free and reach, the shortest first.
func (g *group) offer(k kind) []string {
	names := slices.Clone(g.w.known[k.group])
	if k.group == "rollers" {
		if key := g.at + k.key; g.w.answers[key] != "" && g.w.cursor != key {
			return names // the order matters only to a person who chooses
		}
		type rank struct{ taken, fails, longest int }
		ranks := map[string]rank{}
		for _, name := range names {
			r := rank{longest: g.w.longest(name)}
			if g.w.free(name) <= 0 {
				r.taken = 1
			}
			if !g.reaches(name) {
				r.fails = 1
			}
			ranks[name] = r
		}
		slices.SortStableFunc(names, func(a, b string) int {
			x, y := ranks[a], ranks[b]
			return cmp.Or(x.taken-y.taken, x.fails-y.fails, x.longest-y.longest)
		})
		return names
	}
	last := textAt(g.last, k.key)
	if k.group == "brackets" {
		last = textAt(g.alike(), k.key)
	}
	if last != "" {
		names = slices.DeleteFunc(names, func(n string) bool { return n == last })
		return append([]string{last}, names...)
	}
	return names
}

// alike returns the last shade before that has the same mount, or nil.
func (g *group) alike() *form.Node { return g.w.mounted[textAt(g.n, "opening.mount")] }

// free returns how many of a roller no shade before uses.
func (w *walk) free(name string) int {
	const plenty = 1_000_000
	n := w.parts["rollers"].At(name)
	count := 1
	switch text := textAt(n, "count"); {
	case text == "any", text == "" && textAt(n, "price") != "":
		count = plenty
	case text != "":
		count, _ = strconv.Atoi(text) // it was checked
	}
	return count - w.used[name]
}

// longest returns the greatest length of a roller, in millimetres.
func (w *walk) longest(name string) int {
	n := w.parts["rollers"].At(name)
	if n == nil {
		return 0 // it has a question open
	}
	l, err := measure.Parse(cmp.Or(textAt(n, "longest"), textAt(n, "length")), w.units)
	if err != nil {
		return 0 // the same
	}
	return int(l / measure.Millimetre)
}

// reaches tries a roller on the shade that is being asked about, with the cloth and
// slat of the shade before, and reports whether its tube has a length that serves. It
// returns true if there is nothing to try with.
func (g *group) reaches(name string) bool {
	n := clone(g.n)
	for _, key := range []string{"bracket", "note", "allow"} {
		setAt(n, key, nil)
	}
	for key, text := range map[string]string{"id": "trial", "goods": textAt(g.last, "goods"), "slat": textAt(g.last, "slat"), "roller": name} {
		if text == "" {
			return true
		}
		setAt(n, key, plain(text))
	}
	top := clone(g.w.top)
	for _, k := range kinds {
		if len(g.w.parts[k.group].Entries) > 0 {
			setAt(top, k.group, g.w.parts[k.group])
		}
	}
	setAt(top, "shades", &form.Node{Shape: form.List, Items: []*form.Node{n}})
	f, err := jobfile.Read("", form.Format(top, nil), g.w.opt.Options)
	if err != nil {
		return false
	}
	all, err := ticket.Make(&f.Job, ticket.Options{Limits: g.w.opt.Practice.Limits, Rules: g.w.opt.Practice.Rules})
	if err != nil {
		return false
	}
	return !slices.ContainsFunc(all[0].Findings, func(found finding.Finding) bool {
		return found.Level == finding.Stop && found.Field == "roller"
	})
}
