package record

import (
	"cmp"
	"context"
	"crypto/rand"
	"database/sql"
	"encoding/hex"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"shadewright/ticket/code"
	"shadewright/ticket/mark"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
	"shadewright/ticket/route"
)

// postgresVariable holds the address of a PostgreSQL database in which the tests
// may create schemas.
const postgresVariable = "SHADEWRIGHT_TEST_POSTGRES"

var (
	job  = uuid.MustParse("5f0c8f0e-2b0f-4a55-9f0b-6f1f7a2d9c31")
	noon = time.Date(2027, 3, 1, 12, 0, 0, 0, time.FixedZone("", 3600))
)

// onEach runs a test on every kind of record. at is an address at which there is no
// record yet.
func onEach(t *testing.T, test func(t *testing.T, at string)) {
	t.Run("sqlite", func(t *testing.T) { test(t, newFile(t)) })
	t.Run("postgres", func(t *testing.T) { test(t, newSchema(t)) })
}

func newFile(t testing.TB) string { return filepath.Join(t.TempDir(), "marks.db") }

// newSchema creates an empty schema and drops it after the test.
func newSchema(t testing.TB) string {
	t.Helper()
	server := os.Getenv(postgresVariable)
	if server == "" {
		t.Skipf("no PostgreSQL to test on; set %s to the address of one", postgresVariable)
	}
	var b [8]byte
	if _, err := rand.Read(b[:]); err != nil {
		t.Fatal(err)
	}
	schema := "test_" + hex.EncodeToString(b[:])
	db, err := sql.Open("pgx", server)
	if err != nil {
		t.Fatal(err)
	}
	run := func(statement string) {
		if _, err := db.Exec(statement); err != nil {
			t.Error(err)
		}
	}
	run("CREATE SCHEMA " + schema)
	t.Cleanup(func() {
		run("DROP SCHEMA " + schema + " CASCADE")
		if err := db.Close(); err != nil {
			t.Error(err)
		}
	})
	u, err := url.Parse(server)
	if err != nil {
		t.Fatal(err)
	}
	q := u.Query()
	q.Set("search_path", schema)
	u.RawQuery = q.Encode()
	return u.String()
}

func open(t testing.TB, at string) *Record {
	return openWith(t, at, Options{Policy: mark.UsualPolicy()})
}

func openWith(t testing.TB, at string, o Options) *Record {
	t.Helper()
	l, err := Open(context.Background(), at, o)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { shut(t, l) })
	return l
}

func shut(t testing.TB, l *Record) {
	t.Helper()
	if err := l.Close(); err != nil {
		t.Error(err)
	}
}

// aTicket returns a ticket of the test's job with a route of three steps.
func aTicket(shade string, unit, remake int) *mark.Ticket {
	t := ticketOf(job, "Heron Landing bunkhouse", shade, unit, route.Route{
		{Key: "cut", Name: message.StepTerm.Term("Cut the panel")},
		{Key: "square", Name: message.StepTerm.Term("Square the panel"), Reading: route.Diagonals},
		{Key: "sew", Name: message.StepTerm.Term("Sew the pocket")},
	})
	if t.Remake = remake; remake > 0 {
		t.Replaces = code.Derive(code.Identity(job, shade, unit, remake-1))
	}
	return named(t)
}

func ticketOf(job uuid.UUID, name, shade string, unit int, r route.Route) *mark.Ticket {
	return named(&mark.Ticket{
		Job: job, JobName: name, Due: time.Date(2027, 3, 1, 0, 0, 0, 0, time.UTC),
		Shade: shade, Unit: unit, Of: 6, Revision: "BK24",
		Panel:   measure.Size{Width: 26*measure.Inch + 3*measure.Inch/8, Length: 48 * measure.Inch},
		Summary: []byte(`{"place":"lower bunk"}`), Route: r,
	})
}

// named gives a ticket its identity and code.
func named(t *mark.Ticket) *mark.Ticket {
	t.ID = code.Identity(t.Job, t.Shade, t.Unit, t.Remake)
	t.Code = code.Derive(t.ID)
	return t
}

func register(t testing.TB, l *Record, tickets ...*mark.Ticket) {
	t.Helper()
	if _, err := l.Register(context.Background(), tickets); err != nil {
		t.Fatal(err)
	}
}

// of makes a mark of a kind on a ticket; step may be empty.
func of(t *mark.Ticket, kind mark.Kind, step string) mark.Mark {
	m := mark.Mark{ID: uuid.New(), Code: t.Code, Kind: kind, Step: step, Who: "ann", Where: "bench 2", Time: noon}
	if kind == mark.Held || kind == mark.Remade {
		m.Reason = message.ReasonTerm.Term("no cloth left")
	}
	return m
}

// send sends a mark and expects an outcome.
func send(t testing.TB, l *Record, m mark.Mark, want mark.Outcome) mark.Answer {
	t.Helper()
	a, err := l.Mark(context.Background(), m)
	if err != nil {
		t.Fatalf("mark %s %s: %v", m.Kind, m.Step, err)
	}
	if a.Outcome != want {
		t.Fatalf("mark %s %s: %s, %q; want %s", m.Kind, m.Step, a.Outcome, a.Message().String(), want)
	}
	return a
}

// boardOf returns the board as its CSV, which has everything that a person sees.
func boardOf(t testing.TB, l *Record) string {
	t.Helper()
	b, err := l.Board(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	var s strings.Builder
	if err := cmp.Or(b.WriteJSON(&s, noon), b.WriteCSV(&s, noon)); err != nil {
		t.Fatal(err)
	}
	return s.String()
}

func TestMarksAreKept(t *testing.T) {
	onEach(t, func(t *testing.T, at string) {
		l := open(t, at)
		a, b := aTicket("bunk-left", 1, 0), aTicket("bunk-left", 2, 0)
		register(t, l, a, b)
		send(t, l, of(a, mark.Done, ""), mark.Taken)
		square := of(a, mark.Done, "square")
		square.Readings.Diagonals = [2]measure.Length{50 * measure.Inch, 50 * measure.Inch}
		if got := send(t, l, square, mark.Taken); got.Entry.Seq != 4 || got.Entry.Revision != "BK24" {
			t.Errorf("second mark is %+v; want seq 4 (two registrations, two marks) and the revision filled in", got.Entry)
		}
		send(t, l, of(b, mark.Held, ""), mark.Taken)
		before := boardOf(t, l)
		if !strings.Contains(before, `"standing":"held"`) || !strings.Contains(before, `"done":2`) {
			t.Errorf("board: %s", before)
		}
		shut(t, l)
		again := open(t, at)
		if after := boardOf(t, again); after != before {
			t.Errorf("board after opening again\n%s\nwant\n%s", after, before)
		}
		history, err := again.History(context.Background(), a.Code)
		if err != nil || len(history) != 2 || !history[1].Same(square) || history[1].Time.Format(time.RFC3339) != "2027-03-01T12:00:00+01:00" {
			t.Errorf("history %+v, %v", history, err)
		}
		send(t, again, square, mark.Again)
		other := square
		other.Who = "bo"
		if _, err := again.Mark(context.Background(), other); err == nil || !strings.Contains(err.Error(), "give each mark a new UUID") {
			t.Errorf("another mark under the same id: %v", err)
		}
	})
}
