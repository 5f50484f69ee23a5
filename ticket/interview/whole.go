package interview

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"shadewright/ticket/form"
	"shadewright/ticket/jobfile"
)

// whole checks an answer against the others: for example, a tube whose shortest length
// is more than its longest. Problems that were there before do not count.
func (v *Interview) whole(q Question, text string) error {
	for _, p := range v.newProblems(q, text) {
		if !v.later(q, p) {
			return fmt.Errorf("%s: %q %s; %s", p.Field, p.Value, p.Problem, p.Fix)
		}
	}
	return nil
}

// newProblems returns the problems that an answer would bring, each with the key of a
// question as its field.
func (v *Interview) newProblems(q Question, text string) (out []form.Problem) {
	was := v.problems()
	if v.tried == nil || v.tried.key != q.Key || v.tried.text != text || v.tried.from != v.now {
		v.tried = &tried{q.Key, text, v.now, v.with(q.Key, text)}
	}
	for _, p := range v.tried.then.problems() {
		if !slices.ContainsFunc(was, func(o form.Problem) bool { return o.Field == p.Field && o.Problem == p.Problem }) {
			out = append(out, p)
		}
	}
	return out
}

// later reports whether a problem is about an answer given after q: a new height may be
// right, and the diagonal measured after it wrong.
func (v *Interview) later(q Question, p form.Problem) bool {
	after := false
	for _, a := range v.now.seen {
		if after && a.Key == p.Field {
			return true
		}
		after = after || a.Key == q.Key
	}
	return false
}

// problems reads the job file so far, with the parts that have a question open, and
// returns what is wrong with the values in it. The field of each is the key of a
// question. What is missing is no problem: it will be asked.
func (v *Interview) problems() []form.Problem {
	if !v.now.judged {
		v.now.wrong, v.now.judged = v.judge(), true
	}
	return v.now.wrong
}

// tried is the last answer that was tried, because an answer is checked before it is
// given.
type tried struct {
	key, text string
	from      *walk
	then      *Interview
}

func (v *Interview) judge() (out []form.Problem) {
	top := clone(v.now.top)
	for _, k := range kinds {
		for _, e := range v.now.open[k.group] {
			setAt(top, k.group, clone(at(top, k.group)))
			setPart(at(top, k.group), e.Key, e.Value)
		}
	}
	out = v.wrong(top, nil)
	for _, n := range slices.Sorted(maps.Keys(v.now.openShades)) {
		if shade := v.now.openShades[n]; at(shade, "opening.heights") != nil || at(shade, "finished.length") != nil {
			out = append(out, v.wrong(v.alone(shade), map[string]int{"trial": n})...)
		}
	}
	return out
}

// alone makes a job of one shade whose parts are not known yet, to try its opening.
func (v *Interview) alone(shade *form.Node) *form.Node {
	top, bad := form.Parse("", []byte(`{job: trial, goods: {trial: {kind: coated-mesh, width: 9 m}}, rollers: {trial: {tube: 28 mm, shortest: 50 mm, longest: 9 m}}, slats: {trial: {diameter: 9 mm}}}`))
	if bad != nil {
		panic(bad)
	}
	setAt(top, "id", plain(v.opt.ID.String()))
	setAt(top, "units", plain(v.units.String()))
	n := keysNode()
	for _, key := range []string{"opening", "finished"} {
		if at(shade, key) != nil {
			setAt(n, key, clone(at(shade, key)))
		}
	}
	for _, key := range []string{"id", "goods", "roller", "slat"} {
		setAt(n, key, plain("trial"))
	}
	setAt(top, "shades", &form.Node{Shape: form.List, Items: []*form.Node{n}})
	return top
}

// wrong returns the problems of a job. The numbers are those of its shades, by their
// ids; nil stands for the complete shades.
func (v *Interview) wrong(top *form.Node, numbers map[string]int) (out []form.Problem) {
	_, err := jobfile.Read("", form.Format(top, nil), v.opt.Options)
	var all jobfile.Problems
	errors.As(err, &all) // every error of Read is one
	if numbers == nil {
		numbers = map[string]int{}
		for n, id := range v.now.ids {
			numbers[id] = n
		}
	}
	for _, p := range all {
		if p.Value == "" || p.Problem == "is missing" || !strings.Contains(p.Field, ".") {
			continue
		}
		for id, n := range numbers {
			if rest, ok := strings.CutPrefix(p.Field, "shades."+id+"."); ok {
				p.Field = fmt.Sprintf("shades[%d].%s", n, rest)
			}
		}
		out = append(out, p)
	}
	return out
}
