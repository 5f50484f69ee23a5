// Package jobfile reads the job file: one client's set of shades, in YAML, as a
// person typed it. One table says what may be written (table.go); package form
// reads by it, strictly, and reports everything that is wrong at once.
//
// Lengths are [measure.Length]; a bare number is in the units that the job
// declares. Read judges form and range, and what makes no sense on paper (a hem
// deeper than the shade, a name that is nowhere defined). Whether a slat fits
// its pocket or a tube can be trimmed so far is arithmetic: package ticket finds
// that.
package jobfile

import (
	"github.com/google/uuid"

	"shadewright/ticket"
	"shadewright/ticket/form"
	"shadewright/ticket/measure"
)

// Problems is everything that is wrong with a file; see [form.Problems].
type Problems = form.Problems

// A File is a job as it was read.
type File struct {
	Name  string // as the caller named it
	Job   ticket.Job
	Paper Paper
	// TemplatePaper is what the marking template is printed on, roll paper perhaps.
	TemplatePaper Paper
	Lines         []int // the line on which each of Job.Shades begins
}

// A Paper is what the job is printed on. The zero Paper leaves it to the shop.
type Paper = form.PaperChoice

// Options is what holds where a job says nothing.
type Options struct {
	Practice ticket.Practice
	Papers   []string         // the names of paper that are known; nil: any, and the renderer judges them
	NewID    func() uuid.UUID // makes an id to suggest where a job has none; nil suggests none
}

// Style returns how lengths of a job in the units are printed.
func (o Options) Style(u measure.System) measure.Style {
	if o.Practice.Style != nil {
		return o.Practice.Style(u)
	}
	return measure.Usual(u)
}

// ReadPath reads the file at path. The error is a [Problems] if the file is at
// fault; else it is the system's.
func ReadPath(path string, opt Options) (*File, error) {
	data, err := form.Load(path)
	if err != nil {
		return nil, err
	}
	return Read(path, data, opt)
}

// Read reads the text of a job file. The name is for messages. Every error is a
// [Problems].
func Read(name string, data []byte, opt Options) (*File, error) {
	top, bad := form.Parse(name, data)
	if top == nil {
		return nil, bad
	}
	if top.Shape == form.Blank {
		return nil, Problems{{File: name, Fault: form.Fault{Problem: "is empty", Fix: "begin one with shadewright new, or with shadewright import"}}}
	}
	d := newDraft(opt)
	r := &form.Reader{File: name, Units: unitsOf(top)}
	r.Join(bad)
	r.Read(top, "", keys(d, opt), d)
	d.resolve(r)
	if problems := r.Problems(); problems != nil {
		return nil, problems
	}
	f := d.file(name, opt)
	d.try(r, &f.Job, opt)
	if problems := r.Problems(); problems != nil {
		return nil, problems
	}
	return f, nil
}

// unitsOf reads the units before anything else, because lengths need them. It
// says nothing of a bad word: that is told when the key is read in its turn.
func unitsOf(top *form.Node) measure.System {
	n := top.At("units")
	if n == nil {
		return measure.Undeclared
	}
	s, _ := Units().Parse(n.Text)
	return s
}

// Schema returns the JSON Schema (draft 2020-12) of the job file, for editors.
// It is made from the table that the file is read by.
func Schema(opt Options) ([]byte, error) {
	return form.Schema("Shadewright job file",
		"One client's set of roller shades to re-cover. Lengths without a unit are in the job's units; inches may be written 31-5/8.",
		keys(newDraft(opt), opt))
}
