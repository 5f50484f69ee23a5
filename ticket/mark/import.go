package mark

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/google/uuid"

	"shadewright/ticket/route"
)

// largestImport limits how much an import reads into memory: about 4 million marks.
const largestImport = 1 << 30

// mostErrors ends the list of problems; the rest is probably the same.
const mostErrors = 20

// ImportJSON reads the output of [ExportJSON]. It reports everything that is wrong
// with the records, up to 20 problems, each a [*LineError], and then returns no
// records.
func ImportJSON(r io.Reader) ([]Line, error) {
	data, err := readImport(r)
	if err != nil {
		return nil, err
	}
	in, where := &importer{}, &lines{data: data}
	dec := json.NewDecoder(bytes.NewReader(data))
	var placed *LineError
	if err := in.jsonRecords(dec, where); errors.As(err, &placed) {
		return nil, err
	} else if err != nil {
		at := where.place(dec.InputOffset())
		return nil, &LineError{Line: at.line, Column: at.column, Err: err}
	}
	return in.result()
}

// jsonRecords reads the document token by token, to know the position of every
// record.
func (in *importer) jsonRecords(dec *json.Decoder, where *lines) error {
	head := []json.Token{json.Delim('{'), "format", exportFormat, "records", json.Delim('[')}
	for i, want := range head {
		got, err := dec.Token()
		switch {
		case err != nil:
			return jsonProblem(err)
		case i == 2 && slices.Contains(earlierFormats, fmt.Sprint(got)):
		case got != want && i == 2:
			return fmt.Errorf("format %q is not %q; export it with a program of this version", got, exportFormat)
		case got != want:
			return fmt.Errorf("%q is in the place of %q; import a file that was exported as JSON", got, want)
		}
	}
	for dec.More() {
		start := where.next(dec.InputOffset())
		var r row
		var wrongType *json.UnmarshalTypeError
		if err := dec.Decode(&r); errors.As(err, &wrongType) {
			return &LineError{Line: start.line, Column: start.column, Err: fmt.Errorf("a %s is in the place of text in quotes", wrongType.Value)}
		} else if err != nil {
			return jsonProblem(err)
		}
		for name := range r {
			if !slices.Contains(columns, name) {
				in.fail(start, fmt.Errorf("unknown field %q; the fields are %s", name, strings.Join(columns, ", ")))
			}
		}
		in.record(r, func(string) place { return start })
	}
	for _, want := range []json.Token{json.Delim(']'), json.Delim('}')} {
		if got, err := dec.Token(); err != nil || got != want {
			return fmt.Errorf("the document does not end with %q after its records; it was cut short or changed", want)
		}
	}
	if dec.More() {
		return errors.New("there is more after the document; import one export at a time")
	}
	return nil
}

func jsonProblem(err error) error {
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
		return errors.New("the document is cut short; export it again")
	}
	return err
}

// ImportCSV reads the output of [ExportCSV], with its columns in any order. Its
// errors are like those of [ImportJSON].
func ImportCSV(r io.Reader) ([]Line, error) {
	data, err := readImport(r)
	if err != nil {
		return nil, err
	}
	table := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(data, []byte("\ufeff"))))
	table.ReuseRecord = true
	head, err := table.Read()
	if err != nil {
		return nil, csvProblem(err)
	}
	head = slices.Clone(head)
	if err := checkHead(head); err != nil {
		return nil, &LineError{Line: 1, Err: err}
	}
	in := &importer{}
	for {
		cells, err := table.Read()
		if errors.Is(err, io.EOF) {
			return in.result()
		}
		if err != nil {
			return nil, csvProblem(err)
		}
		r := row{}
		for i, c := range cells {
			r[head[i]] = strings.TrimPrefix(c, "'")
		}
		in.record(r, func(column string) place {
			line, col := table.FieldPos(max(slices.Index(head, column), 0))
			return place{line, col}
		})
	}
}

func checkHead(head []string) error {
	for i, c := range head {
		switch {
		case !slices.Contains(columns, c):
			return fmt.Errorf("unknown column %q; the columns are %s", c, strings.Join(columns, ", "))
		case slices.Index(head, c) != i:
			return fmt.Errorf("column %q appears twice", c)
		}
	}
	for _, c := range columns {
		if !slices.Contains(head, c) && !slices.Contains(laterColumns, c) {
			return fmt.Errorf("column %q is missing; import a file that was exported as CSV", c)
		}
	}
	return nil
}

func csvProblem(err error) error {
	var at *csv.ParseError
	switch {
	case errors.Is(err, io.EOF):
		return &LineError{Line: 1, Err: errors.New("the file is empty")}
	case errors.As(err, &at):
		return &LineError{Line: at.Line, Column: at.Column, Err: at.Err}
	}
	return err
}

func readImport(r io.Reader) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(r, largestImport+1))
	switch {
	case err != nil:
		return nil, err
	case len(data) > largestImport:
		return nil, fmt.Errorf("the import is larger than %d MiB; split it", largestImport>>20)
	case !utf8.Valid(data):
		return nil, errors.New("the import is not UTF-8 text; import the file as it was exported")
	}
	return data, nil
}

// A place is a position in a file, counted from 1.
type place struct{ line, column int }

// An importer collects records and what is wrong with them.
type importer struct {
	records []Line
	errs    []error
	routes  map[string]route.Route
	seen    map[uuid.UUID]int64
	last    int64
}

func (in *importer) fail(at place, err error) {
	in.errs = append(in.errs, &LineError{Line: at.line, Column: at.column, Err: err})
}

func (in *importer) result() ([]Line, error) {
	if n := len(in.errs); n > mostErrors {
		in.errs = append(in.errs[:mostErrors], fmt.Errorf("and %d more", n-mostErrors))
	}
	if len(in.errs) > 0 {
		return nil, errors.Join(in.errs...)
	}
	return in.records, nil
}

// record checks one row: first its values, then the record that they form, then the
// fit with earlier records.
func (in *importer) record(r row, at func(column string) place) {
	before := len(in.errs)
	f := fields{row: r, err: func(column string, err error) { in.fail(at(column), err) }}
	if r["record"] == "route" {
		in.route(r, at)
		return
	}
	rec := Line{}
	var check func() error
	switch r["record"] {
	case "ticket":
		rec.Ticket = f.ticket(in.routes)
		check = rec.Ticket.Check
	case "mark":
		rec.Mark = f.mark()
		check = rec.Mark.Check
	default:
		in.fail(at("record"), fmt.Errorf("record %q is not route, ticket or mark", r["record"]))
		return
	}
	rec.Seq = int64(f.count("seq"))
	if len(in.errs) > before {
		return
	}
	if err := errors.Join(check(), in.fits(rec)); err != nil {
		in.fail(place{line: at("record").line}, err)
		return
	}
	in.records = append(in.records, rec)
}

func (in *importer) route(r row, at func(column string) place) {
	var steps route.Route
	dec := json.NewDecoder(strings.NewReader(r["summary"]))
	dec.DisallowUnknownFields()
	err := dec.Decode(&steps)
	if err == nil {
		err = steps.Check()
	}
	if err != nil {
		in.fail(at("summary"), fmt.Errorf("route %q: %w", r["route"], err))
	}
	if in.routes == nil {
		in.routes = map[string]route.Route{}
	}
	if _, twice := in.routes[r["route"]]; twice {
		in.fail(at("route"), fmt.Errorf("route %q appears twice", r["route"]))
	}
	in.routes[r["route"]] = steps
}

// fits refuses what no record of marks has: a sequence number that does not rise, a
// mark that appears twice, a mark that was never judged.
func (in *importer) fits(rec Line) error {
	if rec.Seq <= in.last {
		return fmt.Errorf("seq %d does not come after %d; keep the records in their order", rec.Seq, in.last)
	}
	in.last = rec.Seq
	m := rec.Mark
	if m == nil {
		return nil
	}
	if first, twice := in.seen[m.ID]; twice {
		return fmt.Errorf("mark %s appears already at seq %d", m.ID, first)
	}
	if in.seen == nil {
		in.seen = map[uuid.UUID]int64{}
	}
	in.seen[m.ID] = rec.Seq
	if m.Revision == "" || m.Step == "" && (m.Kind == Done || m.Kind == Measured) {
		return errors.New("the mark has no revision or no step; import what was exported")
	}
	return nil
}

// lines turns offsets into places. The offsets must rise from call to call.
type lines struct {
	data              []byte
	line, start, upTo int // number of lines before the offset upTo, and where the current line starts
}

func (l *lines) place(offset int64) place {
	for ; l.upTo < int(offset); l.upTo++ {
		if l.data[l.upTo] == '\n' {
			l.line, l.start = l.line+1, l.upTo+1
		}
	}
	return place{l.line + 1, max(int(offset)-l.start, 0) + 1}
}

// next returns the place of the value after a comma and white space.
func (l *lines) next(offset int64) place {
	for offset < int64(len(l.data)) && strings.IndexByte(" \t\r\n,", l.data[offset]) >= 0 {
		offset++
	}
	return l.place(offset)
}

// A LineError says where an import is wrong.
type LineError struct {
	Line, Column int // from 1; Column 0 means the whole line
	Err          error
}

func (e *LineError) Error() string {
	if e.Column == 0 {
		return fmt.Sprintf("line %d: %s", e.Line, e.Err)
	}
	return fmt.Sprintf("line %d, column %d: %s", e.Line, e.Column, e.Err)
}

func (e *LineError) Unwrap() error { return e.Err }
