// Package jobfile reads the job file: one client's set of shades, in YAML, as a
// person typed it. One table (table.go) says what a file may contain. Package form
// reads by this table, strictly, and reports everything that is wrong at once.
//
// Lengths are [measure.Length]; a bare number is in the units that the job
// declares. Read checks form and range, and refuses what makes no sense on paper,
// such as a hem deeper than the shade or a name that nothing defines. Whether a
// slat fits its pocket, or whether a tube can be trimmed so far, is arithmetic for
// package ticket.
package jobfile

import (
	"github.com/google/uuid"

	"shadewright/ticket"
	"shadewright/ticket/form"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
)

// Problems lists everything that is wrong with a file; see [form.Problems].
type Problems = form.Problems

// A File is a job as it was read.
type File struct {
	Name  string // as the caller named it
	Job   ticket.Job
	Paper Paper
	// TemplatePaper is the paper for the marking template, perhaps roll paper.
	TemplatePaper Paper
	Lines         []int // by shade of Job.Shades: the line on which it begins
	// Parts holds everything that the file defines, whether a shade uses it or not.
	Parts Parts
	// Assignment says which rollers the shades got that leave theirs open.
	Assignment ticket.Assignment
}

// Parts are the goods, rollers, slats and brackets of a file, by their names.
type Parts struct {
	Goods    map[string]ticket.Goods
	Rollers  map[string]ticket.Roller
	Slats    map[string]ticket.Slat
	Brackets map[string]hang.Bracket
}

// A Paper is the paper that a job is printed on. The zero Paper means the shop's
// paper.
type Paper = form.PaperChoice

// Options holds the shop's values, for everything that a job leaves out.
type Options struct {
	Practice ticket.Practice
	Papers   []string         // the known names of paper; nil accepts any name, which the renderer checks
	NewID    func() uuid.UUID // makes an id to suggest for a job without one; nil suggests none
	// OnlyParts reads a file for its parts: it need not have any shade.
	OnlyParts bool
}

// Style returns the style in which to print lengths of a job in the given units.
func (o Options) Style(u measure.System) measure.Style {
	if o.Practice.Style != nil {
		return o.Practice.Style(u)
	}
	return measure.Usual(u)
}

// ReadPath reads the file at path. The error is a [Problems] if the file is at
// fault, else the error of the system.
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
		return nil, Problems{{File: name, Fault: form.Fault{Problem: "is empty", Fix: "start one with shadewright new or shadewright import"}}}
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
	var err error
	if f.Assignment, err = ticket.AssignRollers(&f.Job, d.rollerList(), opt.tickets()); err != nil {
		return nil, err
	}
	return f, nil
}

// tickets returns the options for working out a shade.
func (o Options) tickets() ticket.Options {
	return ticket.Options{Limits: o.Practice.Limits, Rules: o.Practice.Rules}
}

// unitsOf reads the units before anything else, because lengths need them. It
// ignores an unknown word, which is reported when the reader comes to the key.
func unitsOf(top *form.Node) measure.System {
	n := top.At("units")
	if n == nil {
		return measure.Undeclared
	}
	s, _ := Units().Parse(n.Text)
	return s
}

// Schema returns the JSON Schema (draft 2020-12) of the job file, for editors. It
// comes from the same table that reads the file.
func Schema(opt Options) ([]byte, error) {
	return form.Schema("Shadewright job file",
		"One client's set of roller shades to re-cover. Lengths without a unit are in the job's units; inches may be written 31-5/8.",
		keys(newDraft(opt), opt))
}
