package jobfile

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"shadewright/ticket"
	"shadewright/ticket/form"
	"shadewright/ticket/measure"
)

// fileNamePattern matches a shade's id, which becomes part of file names on every
// system.
const fileNamePattern = `^[0-9A-Za-z][0-9A-Za-z._-]*$`

var fileNameForm = regexp.MustCompile(fileNamePattern)

// reserved matches the names that Windows reserves for devices, with anything after
// a dot ("Naming Files, Paths, and Namespaces" in the Win32 documentation; from
// memory).
var reserved = regexp.MustCompile(`(?i)^(con|prn|aux|nul|com[0-9]|lpt[0-9])(\..*)?$`)

func fileName(id string) *form.Fault {
	switch {
	case !fileNameForm.MatchString(id) || strings.HasSuffix(id, "."):
		return &form.Fault{Problem: "cannot be part of a file name", Fix: "use letters a to z, digits, dots, dashes and underscores; start with a letter or digit, and do not end with a dot"}
	case reserved.MatchString(id):
		return &form.Fault{Problem: "is a name that Windows reserves", Fix: "choose another name"}
	}
	return nil
}

func checkGoods(r *form.Reader, rec form.FileGroup, name string, g *goodsDraft) {
	g.Name, g.rec = name, rec
	if !rec.Has("lay") {
		g.Lay = ticket.Lengthwise
	}
	if g.both > 0 {
		g.Selvage = [2]measure.Length{g.both, g.both}
	}
	if g.Width > 0 && g.Usable() <= 0 {
		r.Add(rec.Line("selvage"), rec.Field+".selvage", rec.Text("selvage"), form.Fault{
			Problem: fmt.Sprintf("leaves no usable width of goods %s wide", g.Width.Exact(r.Units)), Fix: "check both numbers and their units"})
	}
	checkPieces(r, rec, g)
}

// usualNeedle makes a thread use its own needle, if an outer level sets a needle
// for another thread.
func usualNeedle(_ *form.Reader, rec form.FileGroup, into any) {
	if rec.Has("thread") && !rec.Has("needle") {
		into.(*ticket.Sewing).Needle = 0
	}
}

func checkRoller(r *form.Reader, rec form.FileGroup, name string, d *rollerDraft) {
	d.Name, d.rec = name, rec
	if rec.Has("pins") {
		d.Pins = &d.pins
	}
	if !rec.Has("count") {
		d.Count = d.usualCount()
	}
	fixed, short, long := rec.Has("length"), rec.Has("shortest"), rec.Has("longest")
	const fix = "write shortest and longest for a telescoping tube, or length for a fixed one"
	switch {
	case fixed && (short || long):
		r.Add(rec.Line("length"), rec.Field, "", form.Fault{Problem: "has both a fixed and a telescoping length", Fix: fix})
	case !fixed && !(short && long):
		r.Add(rec.Line(""), rec.Field, "", form.Fault{Problem: "does not give the length of the tube", Fix: fix})
	case fixed:
		d.Longest = d.length
	case d.Shortest > 0 && d.Longest > 0 && d.Shortest >= d.Longest:
		r.Add(rec.Line("shortest"), rec.Field+".shortest", rec.Text("shortest"), form.Fault{
			Problem: fmt.Sprintf("is not shorter than the longest, %s", d.Longest.Exact(r.Units)), Fix: "check both numbers; a tube that does not telescope has a length"})
	}
}

// usualCount is the count of a roller that gives none: a donor exists once, and a roller
// with a price is bought as needed.
func (d *rollerDraft) usualCount() int {
	if d.supply.Price > 0 {
		return 0
	}
	return 1
}

func checkSlat(r *form.Reader, rec form.FileGroup, name string, s *slatDraft) {
	s.Name, s.rec = name, rec
	round, width, thick := rec.Has("diameter"), rec.Has("width"), rec.Has("thickness")
	const fix = "write width and thickness for a flat slat, or diameter for a round rod"
	switch {
	case round && (width || thick):
		r.Add(rec.Line("diameter"), rec.Field, "", form.Fault{Problem: "is both flat and round", Fix: fix})
	case !round && !width && !thick:
		r.Add(rec.Line(""), rec.Field, "", form.Fault{Problem: "does not give the size of the slat", Fix: fix})
	case s.Width > 0 && s.Thickness > s.Width && thick:
		r.Add(rec.Line("thickness"), rec.Field+".thickness", rec.Text("thickness"), form.Fault{
			Problem: fmt.Sprintf("is more than the width, %s", s.Width.Exact(r.Units)), Fix: "check both numbers and their units"})
	}
}

// resolve checks across groups: ids that appear twice, names that are not defined,
// folds deeper than the shade, and the number of units.
func (d *draft) resolve(r *form.Reader) {
	first := make(map[string]int, len(d.shades))
	units := 0
	for i := range d.shades {
		s := &d.shades[i]
		if s.ID != "" {
			// Windows and macOS ignore case in file names.
			folded := strings.ToLower(s.ID)
			if line, twice := first[folded]; twice {
				r.Add(s.rec.Line("id"), s.rec.Field+".id", s.ID, form.Fault{
					Problem: fmt.Sprintf("is also the id of the shade on line %d", line), Fix: "give each shade its own id, or raise the quantity of the first; capitals do not count"})
			} else {
				first[folded] = s.rec.Line("id")
			}
		}
		named(r, s.rec, reference{"goods", "goods", s.goods}, d.goods)
		if !d.open(s) {
			named(r, s.rec, reference{"roller", "rollers", s.roller}, d.rollers)
		} else if s.Quantity > 1 {
			r.Add(s.rec.Line("quantity"), s.rec.Field+".quantity", strconv.Itoa(s.Quantity), form.Fault{
				Problem: "does not go with roller: any, because each unit gets a roller of its own", Fix: "list each shade separately, or name the roller"})
		}
		named(r, s.rec, reference{"slat", "slats", s.slat}, d.slats)
		named(r, s.rec, reference{"bracket", "brackets", s.bracket}, d.brackets)
		d.hanging(r, s)
		d.folds(r, s)
		units += s.Quantity
		if units > mostUnits && units-s.Quantity <= mostUnits {
			r.Add(s.rec.Line("quantity"), s.rec.Field+".quantity", strconv.Itoa(s.Quantity), form.Fault{
				Problem: fmt.Sprintf("brings the job to more than %d shades", mostUnits), Fix: "check the quantities, or split the job"})
		}
	}
}

// A reference is a key whose value is the name of a part.
type reference struct{ key, group, name string }

// named reports a name that is not defined. If the whole group is missing, the
// reader has reported that already.
func named[V any](r *form.Reader, rec form.FileGroup, to reference, defined map[string]V) {
	if to.name == "" || defined == nil && to.group != "brackets" {
		return
	}
	if _, ok := defined[to.name]; ok {
		return
	}
	r.Add(rec.Line(to.key), rec.Field+"."+to.key, to.name, form.Fault{
		Problem: "is not among the " + to.group, Fix: form.Suggest(to.name, to.group, slices.Sorted(maps.Keys(defined)))})
}

// folds refuses a fold as deep as the whole shade, whether the shade, the job or
// the shop sets it.
func (d *draft) folds(r *form.Reader, s *shadeDraft) {
	if s.Finished.Length == 0 {
		return
	}
	for _, f := range []struct {
		key   string
		depth measure.Length
	}{{"hem", s.Allow.Hem}, {"pocket", s.Allow.Pocket}} {
		if f.depth < s.Finished.Length {
			continue
		}
		line := s.rec.Line("finished")
		if own, ok := s.rec.Group("allow"); ok && own.Has(f.key) {
			line = own.Line(f.key)
		}
		r.Add(line, s.rec.Field+".allow."+f.key, f.depth.Exact(r.Units), form.Fault{
			Problem: fmt.Sprintf("is as deep as the shade is long, %s", s.Finished.Length.Exact(r.Units)), Fix: "check both numbers and their units"})
	}
}
