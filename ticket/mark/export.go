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

// A Line is one line of the record: a registration or a mark.
type Line struct {
	Seq    int64
	Ticket *Ticket // nil for a mark
	Mark   *Mark   // nil for a registration
}

// exportFormat names the format of an export. A later format has a higher number.
const exportFormat = "shadewright marks 2"

// earlierFormats can be read too. Format 1 had English in place of ids, and no list
// of the values on the paper.
var earlierFormats = []string{"shadewright marks 1"}

// The columns of an export. Every line is flat text under these names, in CSV and
// in JSON; JSON leaves out columns without a value. A route is a line of its own,
// which tickets name, because thousands of tickets share one.
var columns = []string{
	"record", "seq", "code", "revision",
	"id", "job", "job_name", "due", "shade", "unit", "of", "remake", "replaces",
	"panel_width_mm", "panel_length_mm", "route", "summary",
	"kind", "step", "reason", "diagonal_1_mm", "diagonal_2_mm", "width_mm", "turns", "anyway",
	"who", "where", "time", "turns_least", "turns_most", "printed", "reason_id",
}

// laterColumns were added after the first exports; an export may lack them.
var laterColumns = []string{"turns_least", "turns_most", "printed", "reason_id"}

// A row is one line under the names of columns.
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

// dateText returns "" for a zero date, and millimetres for a zero length.
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

// A routeBook gives each different route a name, in the order in which it first
// appears.
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

// ExportCSV writes lines of a record as a table that [ImportCSV] reads. A cell that
// a spreadsheet would read as a formula gets an apostrophe in front.
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

// ExportJSON writes lines of a record as one document that [ImportJSON] reads, with
// one line for each.
func ExportJSON(w io.Writer, records []Line) error {
	enc := newEnclosed(w, `{"format":"`+exportFormat+`","records":[`, "]}\n")
	export(records, func(r row) { enc.write(orderedRow(r)) })
	return enc.close()
}

// An orderedRow writes its columns in the order of the table.
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

// A table writes CSV and keeps the first error.
type table struct {
	w   *csv.Writer
	err error
}

func newTable(w io.Writer, head ...string) *table {
	t := &table{w: csv.NewWriter(w)}
	t.write(head...)
	return t
}

// formula holds the first characters of cells that spreadsheets would compute, and
// the apostrophe that prevents it.
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
