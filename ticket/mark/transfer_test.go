package mark

import (
	"bytes"
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"
	"pgregory.net/rapid"

	"shadewright/ticket/code"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
	"shadewright/ticket/route"
)

// word draws text that a person may type, including formulas and quotes.
func word(t *rapid.T, label string) string {
	s := rapid.OneOf(
		rapid.SampledFrom([]string{"ann", "=1+1", "'quoted'", `"a,b";`, "+49", "-", "@x", "Ивáн", "''"}),
		rapid.StringN(1, 20, 60),
	).Draw(t, label)
	if plainText(label, s, 20) != nil || strings.TrimSpace(s) == "" {
		return "bo"
	}
	return s
}

// drawLines makes the lines of a record: registrations and judged marks.
func drawLines(t *rapid.T) []Line {
	var records []Line
	states := map[code.Code]*State{}
	tickets := []*Ticket{aTicket("bunk-left", 1, 0), aTicket("bunk-left", 2, 0), aTicket("=bunk", 1, 0), aTicket("bunk-left", 1, 1)}
	length := func(label string) measure.Length {
		return measure.Length(rapid.Int64Range(1, int64(3*measure.Metre)).Draw(t, label))
	}
	for range rapid.IntRange(1, 40).Draw(t, "records") {
		seq := int64(len(records) + 1)
		k := rapid.SampledFrom(tickets).Draw(t, "ticket")
		s := states[k.Code]
		if s == nil || rapid.IntRange(0, 9).Draw(t, "again") == 0 {
			n := *k
			n.Revision = code.RevisionOf([]byte{byte(rapid.IntRange(0, 2).Draw(t, "revision"))})
			n.JobName = word(t, "job")
			if rapid.Bool().Draw(t, "due") {
				n.Due = time.Time{}
			}
			if rapid.Bool().Draw(t, "summary") {
				n.Summary = nil
			}
			if rapid.Bool().Draw(t, "usual") {
				n.Route = route.Usual()
			}
			n.Panel.Width = length("width")
			if rapid.Bool().Draw(t, "wind") {
				n.Turns = TurnRange{Least: 1050, Best: 1200, Most: 1375}
			}
			whole := n.Complete()
			records = append(records, Line{Seq: seq, Ticket: whole})
			if s == nil {
				states[k.Code] = NewState(whole, seq)
			} else {
				states[k.Code] = s.Register(whole, seq)
			}
			continue
		}
		m := of(k, rapid.SampledFrom(Kinds()).Draw(t, "kind"), "")
		m.ID = uuid.UUID(rapid.SliceOfN(rapid.Byte(), 16, 16).Draw(t, "id"))
		if m.ID == uuid.Nil {
			continue
		}
		m.Who, m.Where = word(t, "who"), word(t, "where")
		if !m.Reason.IsZero() && rapid.Bool().Draw(t, "own reason") {
			m.Reason = message.Term{ID: rapid.SampledFrom(append(UsualHolds(), UsualSpoilt()...)).Draw(t, "usual reason")}
		} else if !m.Reason.IsZero() {
			m.Reason = message.ReasonTerm.Term(word(t, "reason"))
		}
		zone := time.FixedZone("", rapid.IntRange(-14*60, 14*60).Draw(t, "offset")*60)
		m.Time = noon.Add(time.Duration(rapid.Int64Range(-1e15, 1e15).Draw(t, "time"))).In(zone)
		m.Anyway = (m.Kind == Done || m.Kind == Measured) && rapid.Bool().Draw(t, "anyway")
		if next, ok := s.Next(); ok && m.Kind == Done {
			switch next.Reading {
			case route.Diagonals:
				m.Readings.Diagonals = [2]measure.Length{length("d1"), length("d2")}
			case route.Turns:
				m.Readings.Turns = Turns(rapid.Int32Range(1, int32(MostTurns)).Draw(t, "turns"))
			}
		}
		a := UsualPolicy().Judge(s, m)
		if a.Recorded() && !slices.ContainsFunc(records, func(r Line) bool { return r.Mark != nil && r.Mark.ID == m.ID }) {
			a.Entry.Seq = seq
			states[k.Code] = s.With(a.Entry)
			taken := a.Entry.Mark
			records = append(records, Line{Seq: seq, Mark: &taken})
		}
	}
	return records
}

func sameRecords(a, b []Line) bool {
	return slices.EqualFunc(a, b, func(x, y Line) bool {
		if x.Seq != y.Seq || (x.Mark == nil) != (y.Mark == nil) {
			return false
		}
		if x.Ticket != nil {
			return x.Ticket.Equal(y.Ticket)
		}
		return x.Mark.ID == y.Mark.ID && x.Mark.Kind == y.Mark.Kind && x.Mark.Same(*y.Mark) && y.Mark.Same(*x.Mark) &&
			x.Mark.Time.Format(time.RFC3339Nano) == y.Mark.Time.Format(time.RFC3339Nano)
	})
}

func TestExportRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		records := drawLines(t)
		for _, f := range formats {
			var b bytes.Buffer
			if err := f.export(&b, records); err != nil {
				t.Fatal(err)
			}
			got, err := f.read(bytes.NewReader(b.Bytes()))
			if err != nil {
				t.Fatalf("%s: %v\n%s", f.name, err, b.String())
			}
			if !sameRecords(records, got) {
				t.Fatalf("%s: read back\n%v\nwant\n%v\n%s", f.name, got, records, b.String())
			}
			var again bytes.Buffer
			if err := f.export(&again, got); err != nil || again.String() != b.String() {
				t.Fatalf("%s: exported again it differs", f.name)
			}
		}
	})
}

var formats = []struct {
	name   string
	export func(io.Writer, []Line) error
	read   func(io.Reader) ([]Line, error)
}{
	{"csv", ExportCSV, ImportCSV},
	{"json", ExportJSON, ImportJSON},
}

// sample has the lines of one ticket and two marks.
func sample() []Line {
	k := aTicket("=bunk", 1, 0)
	cut := of(k, Done, "cut")
	cut.ID = uuid.MustParse("00000000-0000-4000-8000-000000000001")
	cut.Revision, cut.Readings.Width = "BK24", 26*measure.Inch+25*measure.Inch/64
	held := of(k, Held, "")
	held.ID = uuid.MustParse("00000000-0000-4000-8000-000000000002")
	held.Revision = "BK24"
	return []Line{{Seq: 1, Ticket: k}, {Seq: 2, Mark: &cut}, {Seq: 3, Mark: &held}}
}

func sampleText(t testing.TB, export func(io.Writer, []Line) error) string {
	t.Helper()
	var b strings.Builder
	if err := export(&b, sample()); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// A spreadsheet must not compute a cell. RFC 4180 has no rule for that, so the
// export puts an apostrophe in front, as spreadsheet programs do.
func TestExportHidesFormulas(t *testing.T) {
	if text := sampleText(t, ExportCSV); !strings.Contains(text, ",'=bunk,") || strings.Contains(text, ",=bunk,") {
		t.Errorf("the formula is not hidden:\n%s", text)
	}
}

func TestImportRefuses(t *testing.T) {
	_, badLength := measure.Parse("6x", measure.Millimetres)
	csvText, jsonText := sampleText(t, ExportCSV), sampleText(t, ExportJSON)
	tests := []struct {
		name, old, new string // what is changed in the sample
		csv, json      string // wanted errors; empty: not tried
	}{
		{"empty", "*", "", "line 1: the file is empty", "line 1, column 1: the document is cut short; export it again"},
		{"binary", "cut", "c\xfft", "the import is not UTF-8 text; import the file as it was exported", "the import is not UTF-8 text; import the file as it was exported"},
		{"unknown record", "\nmark,2", "\nremark,2", `line 4, column 1: record "remark" is not route, ticket or mark`, ""},
		{"unknown record", `"record":"mark"`, `"record":"remark"`, "", `line 4, column 1: record "remark" is not route, ticket or mark`},
		{"mistyped length", "670.321875", "6x", "line 4, column 85: width_mm: " + badLength.Error(), "line 4, column 1: width_mm: " + badLength.Error()},
		{"no time", "2027-03-01T12:00:00Z", "noon", `line 4, column 110: time "noon" is not a time; write it as in 2006-01-02T15:04:05.999999999Z07:00`, `line 4, column 1: time "noon" is not a time; write it as in 2006-01-02T15:04:05.999999999Z07:00`},
		{"same id", "000002", "000001", `line 5: mark 00000000-0000-4000-8000-000000000001 appears already at seq 2`, `line 5: mark 00000000-0000-4000-8000-000000000001 appears already at seq 2`},
		{"route without words", `\"name\":{\"id\":\"step.cut\"}`, `\"name\":\"\"`, "", `line 2, column 1: route "route-1": step 1: name "" is empty; write what to do` + "\n" + `line 3: route: step 1: name "" is empty; write what to do`},
		{"unknown key", `"who"`, `"whom"`, "", `line 4, column 1: unknown field "whom"; the fields are ` + strings.Join(columns, ", ")},
		{"cut short", "]}\n", "", "", "line 5, column 209: the document does not end with \"]\" after its records; it was cut short or changed"},
		{"two documents", "]}\n", "]}\n{}", "", "line 7, column 1: there is more after the document; import one export at a time"},
		{"later format", "marks 2", "marks 3", "", `line 1, column 32: format "shadewright marks 3" is not "shadewright marks 2"; export it with a program of this version`},
		{"a number", `"seq":"2"`, `"seq":2`, "", `line 4, column 1: a number is in the place of text in quotes`},
		{"another document", `{"format"`, `{"shape"`, "", `line 1, column 9: "shape" is in the place of "format"; import a file that was exported as JSON`},
		{"unknown column", "who,where", "whom,where", `line 1: unknown column "whom"; the columns are ` + strings.Join(columns, ", "), ""},
		{"missing column", ",who,where", ",who", `line 1: column "where" is missing; import a file that was exported as CSV`, ""},
		{"column twice", "who,where", "who,who", `line 1: column "who" appears twice`, ""},
		{"short line", "held,,no cloth left", "held", `line 5, column 1: wrong number of fields`, ""},
		{"bare quote", "no cloth left", `no "cloth" left`, `line 5, column 82: bare " in non-quoted-field`, ""},
	}
	for _, tt := range tests {
		try := func(format, text, want string, read func(io.Reader) ([]Line, error)) {
			if want == "" {
				return
			}
			changed := strings.Replace(text, tt.old, tt.new, 1)
			if tt.old == "*" {
				changed = tt.new
			}
			if changed == text {
				t.Fatalf("%s: %q is not in the %s", tt.name, tt.old, format)
			}
			records, err := read(strings.NewReader(changed))
			if err == nil || err.Error() != want || records != nil {
				t.Errorf("%s, %s: %v\nwant %s\n%s", tt.name, format, err, want, changed)
			}
		}
		try("csv", csvText, tt.csv, ImportCSV)
		try("json", jsonText, tt.json, ImportJSON)
	}
}

// Every wrong record is reported, up to 20.
func TestImportTellsAll(t *testing.T) {
	text := sampleText(t, ExportJSON)
	var many strings.Builder
	many.WriteString(strings.TrimSuffix(text, "\n]}\n"))
	for i := range 30 {
		fmt.Fprintf(&many, ",\n{\"record\":\"x%d\"}", i)
	}
	many.WriteString("\n]}\n")
	_, err := ImportJSON(strings.NewReader(many.String()))
	lines := strings.Split(fmt.Sprint(err), "\n")
	if len(lines) != 21 || lines[0] != `line 6, column 1: record "x0" is not route, ticket or mark` || lines[20] != "and 10 more" {
		t.Errorf("%d lines: %v", len(lines), err)
	}
}

func FuzzImport(f *testing.F) {
	f.Add(sampleText(f, ExportCSV))
	f.Add(sampleText(f, ExportJSON))
	f.Add("")
	f.Add(`{"format":"shadewright marks 1","records":[{}]}`)
	f.Fuzz(func(t *testing.T, text string) {
		for _, form := range formats {
			records, err := form.read(strings.NewReader(text))
			if err != nil {
				if records != nil {
					t.Fatalf("%s: records and %v", form.name, err)
				}
				continue
			}
			var b bytes.Buffer
			if err := form.export(&b, records); err != nil {
				t.Fatal(err)
			}
			again, err := form.read(&b)
			if err != nil || !sameRecords(records, again) {
				t.Fatalf("%s: %q\nread back %v, %v", form.name, text, again, err)
			}
		}
	})
}

func TestBoard(t *testing.T) {
	early, late, none := aTicket("a", 1, 0), aTicket("b", 1, 0), aTicket("c", 1, 0)
	for i, k := range []*Ticket{early, late, none} {
		k.Job = uuid.NewSHA1(job, []byte{byte(i)})
		k.JobName = []string{"Canal boat", "Bunkhouse", "Annex"}[i]
		k.Due = []time.Time{noon.AddDate(0, 0, -1).Truncate(24 * time.Hour), noon.Truncate(24 * time.Hour), {}}[i]
	}
	second := *early
	second.Shade = "z"
	b := NewBoard(9, []*State{NewState(none, 1), NewState(&second, 5), NewState(late, 2), NewState(early, 3)})
	var names []string
	for _, j := range b.Jobs {
		for _, s := range j.Tickets {
			names = append(names, j.Name+"/"+s.Ticket.Shade)
		}
	}
	if got, want := strings.Join(names, " "), "Canal boat/a Canal boat/z Bunkhouse/b Annex/c"; got != want {
		t.Errorf("board is %s; want %s: by due date, those without one last, tickets as registered", got, want)
	}
	if got, want := b.Jobs[0].Counts(noon), (Counts{All: 2, Late: 2}); got != want {
		t.Errorf("counts %+v; want %+v", got, want)
	}
	var j, c strings.Builder
	if err := cmp.Or(b.WriteJSON(&j, noon), b.WriteCSV(&c, noon)); err != nil {
		t.Fatal(err)
	}
	wantCSV := "Canal boat," + early.Job.String() + ",2027-02-28,true," + string(early.Code) + ",BK24,a,1,2,0,waiting,0,4,cut,,,,,0\n"
	if lines := strings.SplitAfter(c.String(), "\n"); lines[1] != wantCSV {
		t.Errorf("csv line %q; want %q", lines[1], wantCSV)
	}
	if !strings.HasPrefix(j.String(), `{"seq":9,"tickets":[`+"\n"+`{"job":"Canal boat",`) || !strings.HasSuffix(j.String(), "\n]}\n") && !strings.HasSuffix(j.String(), "]}\n") {
		t.Errorf("json %s", j.String())
	}
}
