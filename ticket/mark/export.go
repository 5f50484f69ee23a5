package mark

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"time"

	"shadewright/ticket/measure"
	"shadewright/ticket/route"
)

// A Line is one line of the log: a registration or a mark.
type Line struct {
	Seq    int64
	Ticket *Ticket // nil if it is a mark
	Mark   *Mark   // nil if it is a registration
}

// exportFormat names the layout of an export; a later one has a later number.
const exportFormat = "shadewright marks 2"

// earlierFormats are read, too. Format 1 had English where there are ids now, and
// no list of what is on the paper.
var earlierFormats = []string{"shadewright marks 1"}

// The columns of an export. Every record is flat text under these names, in
// CSV and in JSON alike; a column without a value is left out of JSON. A
// route is a record of its own, which tickets name, because thousands of
// tickets share one.
var columns = []string{
	"record", "seq", "code", "revision",
	"id", "job", "job_name", "due", "shade", "unit", "of", "remake", "replaces",
	"panel_width_mm", "panel_length_mm", "route", "summary",
	"kind", "step", "reason", "diagonal_1_mm", "diagonal_2_mm", "width_mm", "turns", "anyway",
	"who", "where", "time", "turns_least", "turns_most", "printed", "reason_id",
}

// laterColumns came after the first exports were made: one without them is read.
var laterColumns = []string{"turns_least", "turns_most", "printed", "reason_id"}

// row is one record under the names of columns.
type row map[string]string

func (r Line) row(routeName func(route.Route) string) row {
	if t := r.Ticket; t != nil {
		out := row{
			"record": "ticket", "seq": strconv.FormatInt(r.Seq, 10), "code": string(t.Code), "revision": string(t.Revision),
			"id": t.ID.String(), "job": t.Job.String(), "job_name": t.JobName, "due": dateText(t.Due),
			"shade": t.Shade, "unit": strconv.Itoa(t.Unit), "of": strconv.Itoa(t.Of), "remake": strconv.Itoa(t.Remake), "replaces": string(t.Replaces),
			"panel_width_mm": millimetres(t.Panel.Width), "panel_length_mm": millimetres(t.Panel.Length),
			"route": routeName(t.Route), "summary": string(t.Summary), "printed": t.Printed,
		}
		if t.Turns != (TurnRange{}) {
			out["turns"], out["turns_least"], out["turns_most"] = t.Turns.Best.String(), t.Turns.Least.String(), t.Turns.Most.String()
		}
		return out
	}
	m := r.Mark
	out := row{
		"record": "mark", "seq": strconv.FormatInt(r.Seq, 10), "code": string(m.Code), "revision": string(m.Revision),
		"id": m.ID.String(), "kind": string(m.Kind), "step": m.Step, "reason": m.Reason.Words, "reason_id": string(m.Reason.ID),
		"diagonal_1_mm": millimetres(m.Readings.Diagonals[0]), "diagonal_2_mm": millimetres(m.Readings.Diagonals[1]),
		"width_mm": millimetres(m.Readings.Width), "who": m.Who, "where": m.Where, "time": m.Time.Format(time.RFC3339Nano),
	}
	if m.Readings.Turns != 0 {
		out["turns"] = m.Readings.Turns.String()
	}
	if m.Anyway {
		out["anyway"] = "yes"
	}
	return out
}

// dateText is empty for no date, millimetres for no length.
func dateText(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.UTC().Format(dateLayout)
}

func millimetres(l measure.Length) string {
	if l == 0 {
		return ""
	}
	return strings.TrimSuffix(l.Exact(measure.Millimetres), " mm")
}

// A routeBook gives each different route a name, in the order they are met.
type routeBook struct {
	names map[string]string
	write func(row)
}

func (b *routeBook) name(r route.Route) string {
	steps, err := json.Marshal(r)
	if err != nil {
		panic("mark: a route is plain text: " + err.Error())
	}
	name, ok := b.names[string(steps)]
	if !ok {
		name = "route-" + strconv.Itoa(len(b.names)+1)
		b.names[string(steps)] = name
		b.write(row{"record": "route", "route": name, "summary": string(steps)})
	}
	return name
}

func export(records []Line, write func(row)) {
	book := &routeBook{names: map[string]string{}, write: write}
	for _, r := range records {
		write(r.row(book.name))
	}
}

// ExportCSV writes a log as a table that [ImportCSV] reads back. A cell that a
// spreadsheet would take for a formula has an apostrophe in front.
func ExportCSV(w io.Writer, records []Line) error {
	t := newTable(w, columns...)
	cells := make([]string, len(columns))
	export(records, func(r row) {
		for i, c := range columns {
			cells[i] = r[c]
		}
		t.write(cells...)
	})
	return t.close()
}

// ExportJSON writes a log as one document that [ImportJSON] reads back, a
// record a line.
func ExportJSON(w io.Writer, records []Line) error {
	enc := newEnclosed(w, `{"format":"`+exportFormat+`","records":[`, "]}\n")
	export(records, func(r row) { enc.write(orderedRow(r)) })
	return enc.close()
}

// orderedRow writes a row's columns in the order of the table.
type orderedRow row

func (r orderedRow) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for _, c := range columns {
		if r[c] == "" {
			continue
		}
		v, err := json.Marshal(r[c])
		if err != nil {
			return nil, err
		}
		if b.Len() > 1 {
			b.WriteByte(',')
		}
		fmt.Fprintf(&b, "%q:%s", c, v)
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// table writes CSV and keeps the first error.
type table struct {
	w   *csv.Writer
	err error
}

func newTable(w io.Writer, head ...string) *table {
	t := &table{w: csv.NewWriter(w)}
	t.write(head...)
	return t
}

// formula holds the first characters of a cell that spreadsheets compute, and
// the apostrophe that keeps them from it.
const formula = "=+-@\t\r'"

func (t *table) write(cells ...string) {
	if t.err != nil {
		return
	}
	cells = slices.Clone(cells)
	for i, c := range cells {
		if c != "" && strings.IndexByte(formula, c[0]) >= 0 {
			cells[i] = "'" + c
		}
	}
	t.err = t.w.Write(cells)
}

func (t *table) close() error {
	t.w.Flush()
	if t.err != nil {
		return t.err
	}
	return t.w.Error()
}
