package config

import (
	"encoding/json"
	"strings"

	"shadewright/ticket/form"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
	"shadewright/ticket/route"
)

// usual is the word for the built-in route.
const usual = "usual"

// longestRoute limits the text of a route: sixty steps with long names.
const longestRoute = 30_000

// A lister is a kind that a file may also give as a YAML list.
type lister interface {
	// fromList returns a list as the text that Set reads, or adds problems.
	fromList(f *flattener, e form.Entry, name string) (text string, ok bool)
}

// steps is the kind of a route: the word usual, the keys of usual steps, or
// JSON made from a YAML list.
type steps struct{ form.Text }

// Set implements [form.Scalar]. It fills a *route.Route.
func (k steps) Set(text string, _ measure.System, into any) *form.Fault {
	var checked string
	if f := k.Text.Set(text, measure.Undeclared, &checked); f != nil {
		return f
	}
	var r route.Route
	switch {
	case text == usual:
		r = route.Usual()
	case strings.HasPrefix(text, "["):
		if err := json.Unmarshal([]byte(text), &r); err != nil {
			return &form.Fault{Problem: "is not a list of steps", Fix: "write the route as a list in " + FileName}
		}
	default:
		for _, key := range split(text) {
			step, ok := route.Usual().Step(key)
			if !ok {
				return notUsual(key)
			}
			r = append(r, step)
		}
	}
	if err := r.Check(); err != nil {
		return &form.Fault{Problem: "is not a route: " + strings.ReplaceAll(err.Error(), "\n", "; "), Fix: ""}
	}
	*into.(*route.Route) = r
	return nil
}

func notUsual(key string) *form.Fault {
	keys := route.Usual().Keys()
	fix := "write one of " + strings.Join(keys, ", ") + ", or a step of the shop's own with key and name"
	if near := form.Nearest(key, keys); near != "" {
		fix = "did you mean " + near + "?"
	}
	return &form.Fault{Problem: "has " + form.Quote(key) + ", which is not a usual step", Fix: fix}
}

// An ownStep is one of the shop's own steps as written in a settings file.
type ownStep struct{ key, name, bench, reading, cautions string }

func stepKeys() []form.Key {
	text := form.Text{Most: 200}
	readings := []string{string(route.Diagonals), string(route.Width), string(route.Turns)}
	return []form.Key{
		{Name: "key", Kind: text, Required: true, Example: "steam", Into: form.At(func(s *ownStep) *string { return &s.key })},
		{Name: "name", Kind: text, Required: true, Example: "Steam the panel", Into: form.At(func(s *ownStep) *string { return &s.name })},
		{Name: "bench", Kind: text, Example: "cutting", Into: form.At(func(s *ownStep) *string { return &s.bench })},
		{Name: "reading", Kind: form.Words(readings...), Example: readings[0], Into: form.At(func(s *ownStep) *string { return &s.reading })},
		{Name: "cautions", Kind: text, Example: string(route.Needle), Into: form.At(func(s *ownStep) *string { return &s.cautions })},
	}
}

func (s ownStep) step() route.Step {
	out := route.Step{Key: s.key, Name: message.StepTerm.Term(s.name), Bench: message.BenchTerm.Term(s.bench), Reading: route.Reading(s.reading)}
	if s.cautions != "" {
		for _, c := range split(s.cautions) {
			out.Cautions = append(out.Cautions, route.Caution(c))
		}
	}
	return out
}

// fromList reads a route from a YAML list. Each item is the key of a usual
// step, or a group that describes one of the shop's own steps.
func (steps) fromList(f *flattener, e form.Entry, name string) (string, bool) {
	var r route.Route
	reader := &form.Reader{File: f.file}
	for _, item := range e.Value.Items {
		switch item.Shape {
		case form.Plain:
			step, ok := route.Usual().Step(item.Text)
			if !ok {
				reader.Add(item.Line, name, item.Text, *notUsual(item.Text))
			}
			r = append(r, step)
		case form.Keys:
			var own ownStep
			reader.Read(item, name, stepKeys(), &own)
			r = append(r, own.step())
		default:
			reader.Add(item.Line, name, "", form.Fault{Problem: item.Shape.String(), Fix: "write the key of a usual step, or key and name of one of the shop's own"})
		}
	}
	if bad := reader.Problems(); len(bad) > 0 {
		f.problems = append(f.problems, bad...)
		return "", false
	}
	if err := r.Check(); err != nil {
		for line := range strings.SplitSeq(err.Error(), "\n") {
			f.add(e, name, "", form.Fault{Problem: line})
		}
		return "", false
	}
	text, err := json.Marshal(r)
	if err != nil {
		f.add(e, name, "", form.Fault{Problem: err.Error()})
		return "", false
	}
	return string(text), true
}
