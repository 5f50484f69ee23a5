package record

import (
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"shadewright/ticket/mark"
	"shadewright/ticket/message"
)

// version2 is what the previous program left before its record came to version 3: a
// record, the jobs that were printed into it, the board and the exports made of it.
const version2 = "testdata/version2/"

func readFile(t testing.TB, name string) string {
	t.Helper()
	b, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// oldRecord makes the record of version 2 at an address.
func oldRecord(t testing.TB, at string) {
	t.Helper()
	text := readFile(t, version2+"record.sql")
	if !isPostgres(at) {
		db := openSQL(t, at)
		if _, err := db.Exec(text); err != nil {
			t.Fatal(err)
		}
		return
	}
	db := openSQL(t, at)
	tx, err := db.Begin()
	if err != nil {
		t.Fatal(err)
	}
	for _, statement := range []string{"CREATE TABLE shadewright (version BIGINT NOT NULL)", "INSERT INTO shadewright VALUES (2)"} {
		if err := run(background, tx, statement); err != nil {
			t.Fatal(err)
		}
	}
	if err := migrate(background, tx, migrations[:2], 0, "BIGINT"); err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(text) {
		if strings.HasPrefix(line, "INSERT") {
			if err := run(background, tx, line); err != nil {
				t.Fatal(err)
			}
		}
	}
	if err := tx.Commit(); err != nil {
		t.Fatal(err)
	}
}

// openSQL opens the database at an address as it is.
func openSQL(t testing.TB, at string) *sql.DB {
	t.Helper()
	driver := "sqlite"
	if isPostgres(at) {
		driver = "pgx"
	}
	db, err := sql.Open(driver, at)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := db.Close(); err != nil {
			t.Error(err)
		}
	})
	return db
}

// rowsOf returns the rows of a table, one on each line.
func rowsOf(t testing.TB, db *sql.DB, table string) []string {
	t.Helper()
	rows, err := db.Query("SELECT * FROM " + table + " ORDER BY 1")
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = rows.Close() }() // Err reports it
	columns, err := rows.Columns()
	if err != nil {
		t.Fatal(err)
	}
	var all []string
	for rows.Next() {
		values := make([]any, len(columns))
		into := make([]any, len(columns))
		for i := range values {
			into[i] = &values[i]
		}
		if err := rows.Scan(into...); err != nil {
			t.Fatal(err)
		}
		var b strings.Builder
		for _, v := range values {
			fmt.Fprintf(&b, "|%v", v)
		}
		all = append(all, b.String()+"|")
	}
	if err := rows.Err(); err != nil {
		t.Fatal(err)
	}
	return all
}

var tables = []string{"routes", "tickets", "marks"}

// After the upgrade, the record of the previous program says what it said before,
// in the words of that program, and keeps ids where it kept English. One line differs by
// intent: a remade ticket keeps the steps that are not about its panel. A copy of the
// old record stands beside it.
func TestUpgrade(t *testing.T) {
	onEach(t, func(t *testing.T, at string) {
		oldRecord(t, at)
		before := map[string][]string{}
		for _, table := range tables {
			before[table] = rowsOf(t, openSQL(t, at), table)
		}
		l := open(t, at)
		b, err := l.Board(background)
		if err != nil {
			t.Fatal(err)
		}
		var board strings.Builder
		if err := b.WriteJSON(&board, time.Date(2026, time.December, 1, 12, 0, 0, 0, time.UTC)); err != nil {
			t.Fatal(err)
		}
		if want := readFile(t, version2+"board.json"); board.String() != want {
			t.Errorf("the board is\n%s\nwant that of the program before\n%s", board.String(), want)
		}
		checkSpanish(t, b)
		checkFacts(t, l.db)
		for _, table := range tables {
			copied := rowsOf(t, copyOf(t, at), copyName(at, table))
			if !slices.Equal(copied, before[table]) {
				t.Errorf("the copy of %s has %d rows, the record before had %d; they are not the same", table, len(copied), len(before[table]))
			}
		}
		history, err := l.History(background, "37ECK5W2GY")
		if err != nil || len(history) != 4 || history[0].Readings != (mark.Readings{}) || history[3].Reason.ID != "reason.stained" {
			t.Errorf("history %+v, %v", history, err)
		}
		shut(t, l)
		shut(t, open(t, at)) // it is upgraded once
		if n := len(copies(t, at)); n != 1 {
			t.Errorf("%d copies; want one", n)
		}
	})
}

// A program of version 2 that was running when the record was upgraded continues to
// write as before. Its marks are read with the meaning they had.
func TestOldProgramGoesOn(t *testing.T) {
	onEach(t, func(t *testing.T, at string) {
		oldRecord(t, at)
		l := open(t, at)
		before, err := l.State(background, "WC4N9MGTCK")
		if err != nil {
			t.Fatal(err)
		}
		// The columns are those of version 2, which its statements use.
		const insert = `INSERT INTO marks (seq, id, code, revision, kind, step, reason, diagonal_1, diagonal_2, width, turns, anyway, who, place, at)
VALUES (59, '0b6f1b1e-1c1f-4b5e-9d35-8c2f6f0d7a11', 'WC4N9MGTCK', 'ERBY', 'held', '', 'no cloth', 0, 0, 0, 0, 0, 'ann', '', '2026-12-02T09:00:00Z')`
		if _, err := l.db.Exec(insert); err != nil {
			t.Fatal(err)
		}
		after, err := l.State(background, "WC4N9MGTCK")
		if err != nil || before.Hold != nil || after.Hold == nil || after.Hold.Reason != (message.Term{ID: "reason.no-cloth"}) {
			t.Errorf("the hold is %+v, %v; want the reason by its id", after.Hold, err)
		}
	})
}

// copyOf opens the kept copy of the old record; copyName is a table there.
func copyOf(t testing.TB, at string) *sql.DB {
	t.Helper()
	if isPostgres(at) {
		return openSQL(t, at)
	}
	db := openSQL(t, at+".version-2")
	var version, id int
	if err := errors.Join(db.QueryRow("PRAGMA user_version").Scan(&version), db.QueryRow("PRAGMA application_id").Scan(&id)); err != nil || version != 2 || id != applicationID {
		t.Errorf("the copy has version %d and id %#x, %v; want 2, ours", version, id, err)
	}
	return db
}

func copyName(at, table string) string {
	if isPostgres(at) {
		return "version_2_" + table
	}
	return table
}

// copies returns the names of all copies, including incomplete ones.
func copies(t testing.TB, at string) []string {
	t.Helper()
	if isPostgres(at) {
		return rowsOf(t, openSQL(t, at), "(SELECT table_name FROM information_schema.tables WHERE table_schema = current_schema() AND table_name LIKE 'version%marks') AS t")
	}
	names, err := filepath.Glob(at + ".version*")
	if err != nil {
		t.Fatal(err)
	}
	return names
}

// checkSpanish compares the Spanish board with the texts of the catalogue, by their
// ids, and the shop's own words.
func checkSpanish(t *testing.T, b mark.Board) {
	t.Helper()
	text := func(id message.ID) string {
		s, ok := message.Spanish.Text(id)
		if !ok || s == id.English() {
			t.Errorf("%s has no Spanish of its own", id)
		}
		return s
	}
	spanish := func(m message.Message) string { return m.In(text, message.Time.String) }
	said := map[string]string{}
	for _, j := range b.Jobs {
		for _, s := range j.Tickets {
			words := []string{}
			for _, h := range []*mark.Hold{s.Hold, s.Spoilt} {
				if h != nil {
					words = append(words, spanish(h.Reason.Message()))
				}
			}
			if next, more := s.Next(); more {
				words = append(words, spanish(next.Message()))
			}
			if sum, ok := s.Ticket.Summarized(); ok {
				words = append(words, spanish(sum.Facts[0].Name.Message), spanish(sum.Goods.Message))
			}
			said[s.Ticket.Name()] = strings.Join(words, "; ")
		}
	}
	for name, want := range map[string][]string{
		"berth, unit 1": {text("reason.stained"), text("common.trim-tube"), "gauze, " + text("ticket.vinyl-coated-polyester-mesh")},
		"berth, unit 3": {text("reason.wrong-size"), text("step.strip"), text("common.trim-tube"), "gauze, " + text("ticket.vinyl-coated-polyester-mesh")},
		"galley":        {"waiting for the tide", text("step.strip"), text("common.trim-tube"), "canvas, " + text("ticket.solution-dyed-acrylic-canvas")},
		"shed, unit 1":  {text("reason.no-cloth"), text("step.hang"), text("common.trim-tube"), "film, " + text("ticket.vinyl-film")},
	} {
		if want := strings.Join(want, "; "); said[name] != want {
			t.Errorf("%s says in Spanish %q; want %q", name, said[name], want)
		}
	}
}

// checkFacts looks for English in the tables.
func checkFacts(t *testing.T, db *sql.DB) {
	t.Helper()
	for _, table := range tables {
		for _, row := range rowsOf(t, db, table) {
			for _, english := range []string{`"en":`, "Cut the panel", "standard roll", "Trim tube", "|no cloth|", "|stained|", "|sewn wrong|", "|wrong size|"} {
				if strings.Contains(row, english) {
					t.Errorf("%s keeps %q: %.300s", table, english, row)
				}
			}
		}
	}
	own := rowsOf(t, db, "(SELECT DISTINCT reason, reason_id FROM marks) AS r")
	slices.Sort(own)
	if got := strings.Join(own, " "); got != "|dropped in the dock|| |waiting for the tide|| ||reason.no-cloth| ||reason.sewn-wrong| ||reason.stained| ||reason.wrong-size| |||" {
		t.Errorf("the reasons are %q; want the shop's own to the letter, the others by their ids", got)
	}
}
