package jobfile

import (
	"strconv"
	"strings"

	"shadewright/ticket"
	"shadewright/ticket/finding"
	"shadewright/ticket/form"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
)

func checkBracket(_ *form.Reader, rec form.FileGroup, name string, b *bracketDraft) {
	b.Name, b.rec = name, rec
}

// checkOpening sets pointers to the lengths that are given, and refuses an overlap
// for an inside mount.
func checkOpening(r *form.Reader, rec form.FileGroup, into any) {
	o := into.(*openingDraft)
	if rec.Has("depth") {
		o.Depth = &o.depth
	}
	if rec.Has("head") {
		o.Head = &o.head
	}
	if rec.Has("valance") {
		o.Valance = &o.valance
	}
	if len(o.diagonals) == 2 {
		o.Diagonals = [2]measure.Length(o.diagonals)
	}
	o.Unobstructed = rec.Text("obstructions") == "none"
	for _, d := range o.obstructions {
		o.Obstructions = append(o.Obstructions, d.Obstruction)
	}
	if rec.Has("overlap") && rec.Text("mount") == hang.Inside.String() {
		r.Add(rec.Line("overlap"), rec.Field+".overlap", "", form.Fault{Problem: "does not apply to an inside mount", Fix: "remove the line, or choose an outside mount"})
	}
}

func checkObstruction(_ *form.Reader, rec form.FileGroup, o *obstructionDraft) {
	if rec.Has("below") {
		below := o.below
		o.Below = &below
	}
}

// hanging checks the keys of a shade's hanging against each other.
func (d *draft) hanging(r *form.Reader, s *shadeDraft) {
	add := func(key, value string, f form.Fault) { r.Add(s.rec.Line(key), s.rec.Field+"."+key, value, f) }
	if s.rec.Has("bracket") && !s.rec.Has("opening") && s.rec.Has("finished") {
		add("bracket", s.bracket, form.Fault{Problem: "has no effect without an opening, which gives the mount", Fix: "give the opening instead of the finished size, or remove the line"})
	}
	if s.rec.Has("as_before") && s.rec.Has("opening") {
		add("as_before", "", form.Fault{Problem: "does not go with an opening, which says what must be cleared", Fix: "remove the line, or give the finished size instead of the opening"})
	}
	if own, ok := s.rec.Group("allow"); ok && own.Has("tube_over") && s.rec.Has("opening") {
		r.Add(own.Line("tube_over"), own.Field+".tube_over", own.Text("tube_over"), form.Fault{
			Problem: "has no effect with an opening", Fix: "remove it; the shop's setting opening.barrel_off says how much shorter than the opening the tube is"})
	}
	if !s.rec.Has("trial") {
		return
	}
	if d.rollers[s.roller].Spring > 0 {
		add("trial", "", form.Fault{Problem: "is given for a roller whose spring has a known rate", Fix: "keep either the trial or the rate"})
	}
	if s.Quantity > 1 {
		add("trial", "", form.Fault{Problem: "is given for " + strconv.Itoa(s.Quantity) + " shades, but no two springs are alike", Fix: "list each shade separately, with its own readings"})
	}
}

// try works out every shade, and reports values from which nothing can be worked
// out at their place in the file. Other errors appear again when the tickets are
// made.
func (d *draft) try(r *form.Reader, job *ticket.Job, opt Options) {
	reported := map[form.Problem]bool{} // several shades may share a part
	for i := range job.Shades {
		err := ticket.Try(job, &job.Shades[i], opt.tickets())
		for _, e := range finding.InputErrors(err) {
			line, field := d.locate(&d.shades[i], e.Field)
			p := form.Problem{File: r.File, Line: line, Field: field, Value: e.Value, Fault: form.Fault{Problem: e.Problem, Fix: e.Fix}}
			if !reported[p] {
				reported[p] = true
				r.Join(form.Problems{p})
			}
		}
	}
}

// locate returns the line of a shade's field and its full name in the file: a
// roller's wall stands under rollers.
func (d *draft) locate(s *shadeDraft, field string) (line int, full string) {
	rec := s.rec
	first, rest, _ := strings.Cut(field, ".")
	switch {
	case first == "goods":
		rec, field = d.goods[s.goods].rec, rest
	case first == "roller":
		rec, field = d.rollers[s.roller].rec, rest
	case first == "slat":
		rec, field = d.slats[s.slat].rec, rest
	case first == "bracket":
		rec, field = d.brackets[s.bracket].rec, rest
	}
	full = rec.Field
	if field != "" {
		full += "." + field
	}
	for {
		key, rest, more := strings.Cut(field, ".")
		in, ok := rec.Group(key)
		if !more || !ok {
			return rec.Line(key), full
		}
		rec, field = in, rest
	}
}
