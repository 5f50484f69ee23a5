package record

import (
	"bytes"
	"io"
	"strings"
	"testing"

	"shadewright/ticket/mark"
)

func TestExportImport(t *testing.T) {
	type format struct {
		name  string
		write func(io.Writer, []mark.Line) error
		read  func(io.Reader) ([]mark.Line, error)
	}
	onEach(t, func(t *testing.T, at string) {
		l := open(t, at)
		a, b := aTicket("bunk-left", 1, 0), aTicket("bunk-left", 2, 0)
		register(t, l, a, b)
		newer := *a
		newer.Revision = "T6TY"
		send(t, l, of(a, mark.Done, ""), mark.Taken)
		register(t, l, &newer)
		send(t, l, of(b, mark.Remade, ""), mark.Taken)
		register(t, l, aTicket("bunk-left", 2, 1), a) // the first values again
		send(t, l, of(a, mark.Held, ""), mark.Taken)
		board := boardOf(t, l)
		records, err := l.Records(background)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range []format{{"csv", mark.ExportCSV, mark.ImportCSV}, {"json", mark.ExportJSON, mark.ImportJSON}} {
			var text bytes.Buffer
			if err := f.write(&text, records); err != nil {
				t.Fatal(err)
			}
			read, err := f.read(&text)
			if err != nil {
				t.Fatalf("%s: %v", f.name, err)
			}
			other := open(t, newFile(t))
			if got, err := other.Import(background, read); err != nil || got != (Imported{Tickets: 5, Marks: 3}) {
				t.Errorf("%s: imported %+v, %v", f.name, got, err)
			}
			if got := boardOf(t, other); got != board {
				t.Errorf("%s: board after import\n%s\nwant\n%s", f.name, got, board)
			}
			for _, again := range []*Record{other, l} {
				if got, err := again.Import(background, read); err != nil || got != (Imported{Known: 8}) {
					t.Errorf("%s: imported again %+v, %v", f.name, got, err)
				}
				if got := boardOf(t, again); got != board {
					t.Errorf("%s: importing again changed the board", f.name)
				}
			}
		}
		lost := of(aTicket("nobody", 1, 0), mark.Done, "cut")
		good := of(b, mark.Held, "")
		lost.Revision, good.Revision = "BK24", "BK24"
		_, err = l.Import(background, []mark.Line{{Seq: 1, Mark: &good}, {Seq: 2, Mark: &lost}})
		if err == nil || !strings.HasPrefix(err.Error(), "record 2 of the import: mark "+lost.ID.String()+" at 10 names ticket") {
			t.Errorf("a mark of nobody: %v", err)
		}
		if got := boardOf(t, l); got != board {
			t.Error("half an import is there")
		}
	})
}

// An export of the previous version makes the same record as upgrading that
// version's record: the board is the same, and importing the export there adds
// nothing.
func TestOldExports(t *testing.T) {
	at := newFile(t)
	oldRecord(t, at)
	upgraded := open(t, at)
	board := boardOf(t, upgraded)
	for name, read := range map[string]func(io.Reader) ([]mark.Line, error){"export.json": mark.ImportJSON, "export.csv": mark.ImportCSV} {
		records, err := read(strings.NewReader(readFile(t, version2+name)))
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		fresh := open(t, newFile(t))
		if n, err := fresh.Import(background, records); err != nil || n != (Imported{Tickets: 31, Marks: 27}) {
			t.Errorf("%s: imported %+v, %v; want the 31 registrations and 27 marks that it was made of", name, n, err)
		}
		if got := boardOf(t, fresh); got != board {
			t.Errorf("%s: the board is\n%s\nwant\n%s", name, got, board)
		}
		checkFacts(t, fresh.db)
		if n, err := upgraded.Import(background, records); err != nil || n != (Imported{Known: 58}) {
			t.Errorf("%s: imported into the record that it was made of: %+v, %v", name, n, err)
		}
	}
}
