// Package piecelist reads a list of rectangles to cut: a CSV file, as a spreadsheet
// saves it, with the columns label, width, length, quantity and turn. It is strict
// and reports everything that is wrong, line by line. Lengths are [measure.Length];
// a bare number is in the unit that the caller gives. Package nest checks whether
// the pieces fit the goods.
package piecelist

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"shadewright/ticket/form"
	"shadewright/ticket/measure"
	"shadewright/ticket/nest"
)

// A List is the pieces of a file.
type List struct {
	Name   string
	Pieces []nest.Piece
	Lines  []int // by piece: the line on which it begins
}

// columns describes the columns. Into returns a pointer into a *nest.Piece.
var columns = []form.Key{
	{Name: "label", Kind: form.Text{Most: 60}, Required: true, Doc: "What is written on the piece.", Example: "valance",
		Into: form.At(func(p *nest.Piece) *string { return &p.Label })},
	{Name: "width", Kind: side, Required: true, Doc: "The size across the roll.", Example: "24-1/2 in",
		Into: form.At(func(p *nest.Piece) *measure.Length { return &p.Width })},
	{Name: "length", Kind: side, Required: true, Doc: "The size along the roll.", Example: "40 in",
		Into: form.At(func(p *nest.Piece) *measure.Length { return &p.Length })},
	{Name: "quantity", Kind: form.Whole{Least: 1, Most: nest.MostPieces}, Doc: "How many of this piece to cut.", Example: "2", Default: "1",
		Into: form.At(func(p *nest.Piece) *int { return &p.Quantity })},
	{Name: "turn", Kind: form.YesNo(), Doc: "Whether the piece may turn a quarter.", Example: "yes", Default: "no",
		Into: form.At(func(p *nest.Piece) *bool { return &p.Turn })},
}

var side = form.Length{Least: measure.Millimetre, Most: 100 * measure.Metre}

const header = "label,width,length,quantity,turn"

// Read reads the text of a file. The name is for messages. Every error is a
// [form.Problems].
func Read(name string, data []byte, units measure.System) (*List, error) {
	r := &reader{file: name, units: units, list: &List{Name: name}}
	if len(data) > form.MaxBytes {
		r.add(0, "", "", form.Fault{Problem: "has more than 1 MiB", Fix: "check that this is the right file"})
		return nil, r.problems
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	if !utf8.Valid(data) || bytes.IndexByte(data, 0) >= 0 {
		r.add(0, "", "", form.Fault{Problem: "is not UTF-8 text", Fix: "save it as CSV, UTF-8"})
		return nil, r.problems
	}
	r.read(data)
	if len(r.list.Pieces) == 0 && len(r.problems) == 0 {
		r.add(0, "", "", form.Fault{Problem: "has no pieces", Fix: "write a line for each piece under " + header})
	}
	if len(r.problems) > 0 {
		return nil, r.problems
	}
	return r.list, nil
}

// Problems gives errors of package nest about a list their line numbers. It returns
// err unchanged if it is of another kind.
func (l *List) Problems(err error) error {
	var out form.Problems
	errs := []error{err}
	if many, ok := err.(interface{ Unwrap() []error }); ok {
		errs = many.Unwrap()
	}
	for _, e := range errs {
		var o *nest.OrderError
		if !errors.As(e, &o) {
			return err
		}
		p := form.Problem{File: l.Name, Field: o.Where, Fault: form.Fault{Problem: o.Problem, Fix: o.Fix}}
		if o.Index >= 0 && o.Index < len(l.Lines) {
			p.Line = l.Lines[o.Index]
		}
		out = append(out, p)
	}
	return out
}

type reader struct {
	file     string
	units    measure.System
	order    []int // by field of a line: its index in columns
	list     *List
	problems form.Problems
}

func (r *reader) add(line int, field, value string, f form.Fault) {
	r.problems = append(r.problems, form.Problem{File: r.file, Line: line, Field: field, Value: value, Fault: f})
}

// read reads the header and then line after line. It stops at the first problem
// with quotes, because it cannot tell what follows.
func (r *reader) read(data []byte) {
	c := csv.NewReader(bytes.NewReader(data))
	c.FieldsPerRecord = -1
	first, _, _ := bytes.Cut(data, []byte("\n"))
	if bytes.IndexByte(first, ';') >= 0 && bytes.IndexByte(first, ',') < 0 {
		c.Comma = ';' // spreadsheets save it so where the comma is the decimal mark
	}
	for {
		fields, err := c.Read()
		var slip *csv.ParseError
		switch {
		case errors.Is(err, io.EOF):
			return
		case errors.As(err, &slip):
			r.add(slip.Line, "", "", form.Fault{Problem: "has a quote that is never closed, or a quote inside a value", Fix: `put the value in quotes and double each quote inside it, as in "31-5/8"""`})
			return
		case err != nil:
			r.add(0, "", "", form.Fault{Problem: "cannot be read: " + err.Error(), Fix: "save it as CSV, UTF-8"})
			return
		}
		line, _ := c.FieldPos(0)
		if r.order == nil {
			if !r.header(line, fields) {
				return
			}
			continue
		}
		if slices.ContainsFunc(fields, func(s string) bool { return strings.TrimSpace(s) != "" }) {
			r.piece(line, fields)
		}
	}
}

// header reads the names of the columns.
func (r *reader) header(line int, fields []string) bool {
	var names []string
	for _, k := range columns {
		names = append(names, k.Name)
	}
	before := len(r.problems)
	for _, f := range fields {
		f = strings.ToLower(strings.TrimSpace(f))
		i := slices.Index(names, f)
		switch {
		case i < 0:
			r.add(line, "", "", form.Fault{Problem: "unknown column " + form.Quote(f), Fix: form.Suggest(f, "columns", names)})
		case slices.Contains(r.order, i):
			r.add(line, f, "", form.Fault{Problem: "appears twice", Fix: "keep one of them"})
		}
		r.order = append(r.order, i)
	}
	for i, k := range columns {
		if k.Required && !slices.Contains(r.order, i) {
			r.add(line, k.Name, "", form.Fault{Problem: "is missing", Fix: "start the file with the line " + header})
		}
	}
	return len(r.problems) == before
}

// piece reads one line.
func (r *reader) piece(line int, fields []string) {
	if len(fields) != len(r.order) {
		r.add(line, "", "", form.Fault{Problem: fmt.Sprintf("has %d values for %d columns", len(fields), len(r.order)), Fix: "put values with a comma in quotes"})
		return
	}
	p := nest.Piece{Quantity: 1}
	for i, text := range fields {
		k := columns[r.order[i]]
		text = strings.TrimSpace(text)
		if text == "" {
			if k.Required {
				r.add(line, k.Name, "", form.Fault{Problem: "has no value", Fix: "write for example " + k.Example})
			}
			continue
		}
		if f := k.Kind.(form.Scalar).Set(text, r.units, k.Into(&p)); f != nil {
			r.add(line, k.Name, text, *f)
		}
	}
	r.list.Pieces = append(r.list.Pieces, p)
	r.list.Lines = append(r.list.Lines, line)
}
