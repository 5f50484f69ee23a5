package language

import (
	"bytes"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"

	"shadewright/ticket/message"
)

const cldrTable = "testdata/cldr.tsv"

// Every form of a time in every language matches Unicode CLDR. ICU wrote the
// table, through testdata/cldr.js; its first line names both versions. In the
// table a plain space stands for any kind of space.
func TestTimesFollowCLDR(t *testing.T) {
	text, err := os.ReadFile(cldrTable)
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(string(text)), "\n")
	if !strings.HasPrefix(lines[0], "# CLDR ") || lines[1] != "tag\tinstant\tday and month\tdate\tclock\tstamp" {
		t.Fatalf("the table begins with %q", lines[:2])
	}
	rows := map[string]int{}
	for _, line := range lines[2:] {
		cells := strings.Split(line, "\t")
		l, err := Named(cells[0])
		if err != nil {
			t.Fatal(err)
		}
		at, err := time.Parse("2006-01-02T15:04", cells[1])
		if err != nil {
			t.Fatal(err)
		}
		rows[l.Tag()]++
		for i, detail := range []message.TimeDetail{message.DayMonth, message.Date, message.Clock, message.Stamp} {
			got := strings.ReplaceAll(l.Say("%s", message.At(at, detail)), nbsp, " ")
			if want := cells[2+i]; got != want {
				t.Errorf("%s, %s, detail %d: %q; want %q (%s)", cells[0], cells[1], detail, got, want, lines[0])
			}
		}
	}
	for _, name := range Names() {
		if rows[name] != 12 {
			t.Errorf("%s: the table has %d rows; want one for each month", name, rows[name])
		}
	}
}

// The table matches the output of its script, if Node.js is installed and has
// the same version of CLDR.
func TestTableOfTimes(t *testing.T) {
	node, err := exec.LookPath("node")
	if err != nil {
		t.Skip("Node.js is not installed; its ICU wrote " + cldrTable)
	}
	want, err := os.ReadFile(cldrTable)
	if err != nil {
		t.Fatal(err)
	}
	got, err := exec.Command(node, "testdata/cldr.js").Output()
	if err != nil {
		t.Fatal(err)
	}
	version := func(table []byte) string {
		first, _, _ := bytes.Cut(table, []byte(","))
		return string(first)
	}
	if version(got) != version(want) {
		t.Skipf("this node has %q; the table has %q", version(got), version(want))
	}
	_, got, _ = bytes.Cut(got, []byte("\n"))
	if _, rows, _ := bytes.Cut(want, []byte("\n")); !bytes.Equal(got, rows) {
		t.Errorf("%s differs from the output of node testdata/cldr.js:\n%s", cldrTable, got)
	}
}

// The hour and its AM or PM stay on one line.
func TestClockDoesNotBreak(t *testing.T) {
	at := time.Date(2027, time.March, 9, 14, 5, 0, 0, time.UTC)
	for _, l := range All() {
		if got := l.Say("%s", message.At(at, message.Clock)); strings.ContainsAny(got, " \u2009") {
			t.Errorf("%s: %q has a space where a line may break", l.Tag(), got)
		}
	}
}
