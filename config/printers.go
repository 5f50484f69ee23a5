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

// printers is the group of a settings file with a correction for each printer
// that was measured: printers: {office: {x: 1.0031, y: 0.9984}}. The setting
// printer.name chooses one of them.
const printers = "printers"

// axes are the keys of one printer's correction.
var axes = []string{"x", "y"}

// walkPrinters notes the printers of a file as printers.NAME.x and .y.
func (f *flattener) walkPrinters(e form.Entry) {
	if e.Value.Shape != form.Keys {
		f.add(e, printers, e.Value.Text, form.Fault{Problem: e.Value.Shape.String() + " and not a group", Fix: "write printers under it by their names, each with x and y"})
		return
	}
	for _, p := range e.Value.Entries {
		field := printers + "." + p.Key
		if p.Value.Shape != form.Keys {
			f.add(p, field, p.Value.Text, form.Fault{Problem: p.Value.Shape.String() + " and not a group", Fix: "write x and y under it, as in {x: 1.0031, y: 0.9984}"})
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

// The groups of settings that choose one of the printers.
const (
	ForAll      = "printer"
	ForTemplate = "template_printer"
)

var choosers = []string{ForAll, ForTemplate}

// adoptPrinters makes the correction of each chosen printer that of its file, and
// takes the others out of the layers.
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
	stated := false // the group's x or y is written out somewhere
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
			Fault: form.Fault{Problem: "is no printer that was measured", Fix: "measure it first, with shadewright calibrate --printer " + strconv.Quote(chosen.text)}}}
	}
	slices.Sort(known)
	known = slices.Compact(known)
	return form.Problems{{File: chosen.file, Line: chosen.line, Field: chosen.field, Value: chosen.text,
		Fault: form.Fault{Problem: "is no printer that was measured", Fix: form.Suggest(chosen.text, printers, known)}}}
}

// WithPrinter returns the path and the text of the user's settings file with a
// printer's correction in it, and whether that printer is the one that a group of
// settings, [ForAll] or [ForTemplate], chooses. It is chosen here if none was.
// Whatever else stands in the file stays as it was typed. The file is not written.
func WithPrinter(userDir, group string, p Printer) (path string, text []byte, chosen bool, err error) {
	path = filepath.Join(userDir, FileName)
	text, err = os.ReadFile(path)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return path, nil, false, err
	}
	// A new key goes before those that are there: y first.
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

// PrinterName judges the name of a printer.
func PrinterName(name string) *form.Fault {
	switch {
	case name == none:
		return &form.Fault{Problem: "is the word for no printer", Fix: "choose another name"}
	case strings.ContainsAny(name, ".\n"):
		return &form.Fault{Problem: "has a dot", Fix: "leave it out"}
	}
	var unused string
	return form.Text{Most: 60}.Set(name, measure.Undeclared, &unused)
}
