package main

import (
	"fmt"
	"strings"

	"shadewright/ticket/form"
	"shadewright/ticket/jobfile"
	"shadewright/ticket/measure"
)

// partGroups are the groups of parts in a job file, and what one part is called.
var partGroups = []struct{ group, word string }{{"goods", "goods"}, {"rollers", "roller"}, {"slats", "slat"}, {"brackets", "bracket"}}

// show says what the job holds, and what is wrong with it.
func (e *editing) show() error {
	lines := []string{textOf(e.now, "job") + ", " + measure.Count(len(e.shades()), "shade") + ", bare numbers in " + textOf(e.now, "units") + "."}
	for i, s := range e.shades() {
		lines = append(lines, "  "+shadeLine(s, i+1))
	}
	for _, k := range partGroups {
		if group := e.now.At(k.group); group != nil {
			for _, p := range group.Entries {
				lines = append(lines, "  "+k.word+" "+p.Key+": "+inWords(p.Value))
			}
		}
	}
	text, err := jobfile.Revise(e.path, e.data, e.now, e.opt.Options)
	if err != nil {
		return err
	}
	for _, p := range problemsOf(e.path, text, e.opt.Options) {
		lines = append(lines, form.Problems{p}.Error())
	}
	for _, line := range lines {
		if err := e.Say(line); err != nil {
			return err
		}
	}
	return nil
}

// showChanges says which lines of the file change.
func (e *editing) showChanges() error {
	text, err := jobfile.Revise(e.path, e.data, e.now, e.opt.Options)
	if err != nil {
		return err
	}
	lines := changedLines(string(e.data), string(text))
	if len(lines) == 0 {
		return e.Say("Nothing is changed yet.")
	}
	for _, line := range lines {
		if err := e.Say(line); err != nil {
			return err
		}
	}
	return nil
}

// shades returns the shades as they are now.
func (e *editing) shades() []*form.Node {
	if n := e.now.At("shades"); n != nil {
		return n.Items
	}
	return nil
}

func textOf(n *form.Node, path ...string) string {
	if v := n.Get(path...); v != nil {
		return v.Text
	}
	return ""
}

// shadeName returns the short name of a shade, or its number.
func shadeName(s *form.Node, n int) string {
	if id := textOf(s, "id"); id != "" {
		return id
	}
	return fmt.Sprintf("shade %d", n)
}

// shadeLine says what a shade is in one line, as it is typed in the file.
func shadeLine(s *form.Node, n int) string {
	said := []string{shadeName(s, n) + ":"}
	if s.Get("finished") != nil {
		said = append(said, textOf(s, "finished", "width")+" x "+textOf(s, "finished", "length")+",")
	} else if o := s.Get("opening"); o != nil {
		said = append(said, "opening "+inWords(o.Get("widths"))+" x "+inWords(o.Get("heights"))+",")
	}
	for _, key := range []string{"goods", "roller", "slat", "bracket"} {
		if text := textOf(s, key); text != "" {
			said = append(said, text+",")
		}
	}
	if q := textOf(s, "quantity"); q != "" && q != "1" {
		said = append(said, q+" alike,")
	}
	if place := textOf(s, "place"); place != "" {
		said = append(said, place)
	}
	return strings.TrimSuffix(strings.Join(said, " "), ",")
}

// inWords writes a value in one line.
func inWords(n *form.Node) string {
	if n == nil {
		return ""
	}
	var all []string
	switch n.Shape {
	case form.Keys:
		for _, e := range n.Entries {
			text := inWords(e.Value)
			if e.Value.Shape == form.Keys || e.Value.Shape == form.List && len(e.Value.Items) > 0 && e.Value.Items[0].Shape == form.Keys {
				text = "(" + text + ")"
			}
			all = append(all, e.Key+" "+text)
		}
		return strings.Join(all, ", ")
	case form.List:
		for _, item := range n.Items {
			all = append(all, inWords(item))
		}
		return strings.Join(all, "/")
	}
	return n.Text
}

// mostCells is the most pairs of lines that changedLines compares.
const mostCells = 1 << 22

// changedLines lists the lines that go and come between two texts, with their numbers:
// those that go in the old text, those that come in the new one.
func changedLines(old, text string) []string {
	a, b := strings.Split(old, "\n"), strings.Split(text, "\n")
	head := 0
	for head < len(a) && head < len(b) && a[head] == b[head] {
		head++
	}
	tail := 0
	for tail < len(a)-head && tail < len(b)-head && a[len(a)-1-tail] == b[len(b)-1-tail] {
		tail++
	}
	x, y := a[head:len(a)-tail], b[head:len(b)-tail]
	width := len(y) + 1
	if (len(x)+1)*width > mostCells {
		return []string{fmt.Sprintf("lines %d to %d of %d change; there are too many to list", head+1, len(a)-tail, len(a))}
	}
	best := make([]int, (len(x)+1)*width) // the longest common sequence of the rests
	for i := len(x) - 1; i >= 0; i-- {
		for j := len(y) - 1; j >= 0; j-- {
			best[i*width+j] = max(best[(i+1)*width+j], best[i*width+j+1])
			if x[i] == y[j] {
				best[i*width+j] = best[(i+1)*width+j+1] + 1
			}
		}
	}
	var out, fresh []string
	for i, j := 0, 0; i < len(x) || j < len(y); {
		switch {
		case i < len(x) && j < len(y) && x[i] == y[j]:
			out, fresh = append(out, fresh...), nil
			i, j = i+1, j+1
		case j < len(y) && (i == len(x) || best[i*width+j+1] >= best[(i+1)*width+j]):
			fresh = append(fresh, fmt.Sprintf("new %d: %s", head+j+1, strings.TrimRight(y[j], "\r")))
			j++
		default:
			out = append(out, fmt.Sprintf("old %d: %s", head+i+1, strings.TrimRight(x[i], "\r")))
			i++
		}
	}
	return append(out, fresh...)
}
