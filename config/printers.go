package config

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"shadewright/ticket/form"
	"shadewright/ticket/measure"
)

// printers is the group of a settings file with a correction for each measured
// printer: printers: {office: {x: 1.0031, y: 0.9984}}. The setting printer.name
// chooses one of them.
const printers = "printers"

// axes are the keys of one printer's correction.
var axes = []string{"x", "y"}

// walkPrinters stores the printers of a file as printers.NAME.x and .y.
func (f *flattener) walkPrinters(e form.Entry) {
	if e.Value.Shape != form.Keys {
		f.add(e, printers, e.Value.Text, form.Fault{Problem: e.Value.Shape.String() + ", not a group of printers", Fix: "write the name of each printer under it, and x and y under the name"})
		return
	}
	for _, p := range e.Value.Entries {
		field := printers + "." + p.Key
		if p.Value.Shape != form.Keys {
			f.add(p, field, p.Value.Text, form.Fault{Problem: p.Value.Shape.String() + ", not a printer's correction", Fix: "write x and y under it, as in {x: 1.0031, y: 0.9984}"})
			continue
		}
		for _, a := range p.Value.Entries {
			name := field + "." + a.Key
			row := find(f.rows, "printer."+a.Key)
			var unused measure.Factor
			switch {
			case !slices.Contains(axes, a.Key):
				f.add(a, field, "", form.Fault{Problem: "unknown key " + form.Quote(a.Key), Fix: "the keys are x, y"})
			case a.Value.Shape != form.Plain:
				f.add(a, name, "", form.Fault{Problem: a.Value.Shape.String(), Fix: "write for example " + a.Key + ": " + row.Example})
			default:
				if fault := row.Kind.(form.Scalar).Set(a.Value.Text, measure.Undeclared, &unused); fault != nil {
					f.add(a, name, a.Value.Text, *fault)
				}
				f.out[name] = entry{file: f.file, field: name, line: a.Line, text: a.Value.Text}
			}
		}
	}
}

// The groups of settings that choose a printer.
const (
	ForAll      = "printer"
	ForTemplate = "template_printer"
)

var choosers = []string{ForAll, ForTemplate}

// adoptPrinters copies the corrections of the chosen printers to the settings
// that use them, and removes all printers from the layers.
func adoptPrinters(layers []layer) form.Problems {
	var bad form.Problems
	for _, c := range choosers {
		bad = append(bad, adopt(layers, c)...)
	}
	for _, l := range layers {
		for key := range l {
			if strings.HasPrefix(key, printers+".") {
				delete(l, key)
			}
		}
	}
	return bad
}

// adopt copies the correction of the printer that a group of settings chooses.
func adopt(layers []layer, group string) form.Problems {
	var chosen entry
	stated := false // x or y of the group is given directly
	for _, l := range layers {
		if e, ok := l[group+".name"]; ok {
			chosen = e
		}
		for _, a := range axes {
			_, ok := l[group+"."+a]
			stated = stated || ok
		}
	}
	var known []string
	found := false
	for _, l := range layers {
		for key, e := range l {
			rest, ok := strings.CutPrefix(key, printers+".")
			if !ok {
				continue
			}
			name, axis := rest[:len(rest)-2], rest[len(rest)-1:]
			known = append(known, name)
			if name == chosen.text {
				l[group+"."+axis] = e
				found = true
			}
		}
	}
	if chosen.text == "" || chosen.text == none || found || stated {
		return nil
	}
	if known == nil {
		return form.Problems{{File: chosen.file, Line: chosen.line, Field: chosen.field, Value: chosen.text,
			Fault: form.Fault{Problem: "is not a measured printer", Fix: "measure it first, with shadewright calibrate --printer " + strconv.Quote(chosen.text)}}}
	}
	slices.Sort(known)
	known = slices.Compact(known)
	return form.Problems{{File: chosen.file, Line: chosen.line, Field: chosen.field, Value: chosen.text,
		Fault: form.Fault{Problem: "is not a measured printer", Fix: form.Suggest(chosen.text, printers, known)}}}
}

// WithPrinter returns the path of the user's settings file and its text with a
// printer's correction added. It also reports whether a group of settings,
// [ForAll] or [ForTemplate], chooses that printer; if the group chose none,
// WithPrinter makes it choose this one. All other text of the file stays as
// typed. WithPrinter does not write the file.
func WithPrinter(userDir, group string, p Printer) (path string, text []byte, chosen bool, err error) {
	path = filepath.Join(userDir, FileName)
	text, err = os.ReadFile(path)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return path, nil, false, err
	}
	// Edit puts a new key before the existing ones, so add y first.
	for i, f := range []measure.Factor{p.Y, p.X} {
		if text, err = form.Edit(path, text, []string{printers, p.Name, axes[1-i]}, strconv.FormatFloat(f.Float(), 'f', -1, 64)); err != nil {
			return path, nil, false, err
		}
	}
	top, bad := form.Parse(path, text)
	if bad != nil {
		return path, nil, false, bad
	}
	name := ""
	if g := top.At(group); g != nil && g.Shape == form.Keys {
		if n := g.At("name"); n != nil {
			name = n.Text
		}
	}
	if name == "" || name == none {
		text, err = form.Edit(path, text, []string{group, "name"}, p.Name)
		name = p.Name
	}
	return path, text, name == p.Name, err
}

// PrinterName checks the name of a printer.
func PrinterName(name string) *form.Fault {
	switch {
	case name == none:
		return &form.Fault{Problem: "means that there is no printer", Fix: "choose another name"}
	case strings.ContainsAny(name, ".\n"):
		return &form.Fault{Problem: "has a dot", Fix: "leave it out"}
	}
	var unused string
	return form.Text{Most: 60}.Set(name, measure.Undeclared, &unused)
}
