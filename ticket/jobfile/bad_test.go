package jobfile

import (
	"errors"
	"strings"
	"testing"

	"shadewright/ticket"
	"shadewright/ticket/measure"
)

// practiceOf is the practice for these tests: it has a longest side of 120 in and
// knows four papers.
var practiceOf = Options{Papers: []string{"a3", "a4", "letter", "tabloid"}, Practice: ticket.Practice{Limits: ticket.Limits{LongestSide: 120 * measure.Inch}}}

func TestBadEdits(t *testing.T) {
	for _, tt := range badEdits {
		if !strings.Contains(sound, tt.old) {
			t.Fatalf("the sound job has no %q to change", tt.old)
		}
		refuses(t, strings.Replace(sound, tt.old, tt.new, 1), tt.new, tt.want)
	}
}

// refuses checks the whole message about a text, and that the error is a Problems.
func refuses(t *testing.T, text, what, want string) {
	t.Helper()
	f, err := Read("job.yaml", []byte(text), practiceOf)
	want = "job.yaml:" + strings.ReplaceAll(want, "\n", "\njob.yaml:")
	if err == nil || err.Error() != want {
		t.Errorf("%q is read as\n     %v\nwant %s", what, err, want)
	}
	var ps Problems
	if f != nil || !errors.As(err, &ps) {
		t.Errorf("%q gives a file %v and an error of type %T; want none and a Problems", what, f, err)
	}
}

func TestBadFiles(t *testing.T) {
	tests := []struct{ name, text, want string }{
		{"empty", "", " is empty; start one with shadewright new or shadewright import"},
		{"blank lines", " \n\n", " is empty; start one with shadewright new or shadewright import"},
		{"remarks alone", "# nothing yet\n", " is empty; start one with shadewright new or shadewright import"},
		{"one word", "bunkhouse\n", "1: is one value, not a group of keys; write lines such as key: value"},
		{"a list", "- a\n- b\n", "1: is a list, not a group of keys; write lines such as key: value"},
		{"a PDF", "%PDF-1.7\n", " is a PDF; write it with a text editor and save it as UTF-8"},
		{"a spreadsheet", "PK\x03\x04\x14\x00", " is a spreadsheet, a document or an archive; write it with a text editor and save it as UTF-8"},
		{"an old spreadsheet", "\xd0\xcf\x11\xe0\xa1\xb1", " is a spreadsheet or a document; write it with a text editor and save it as UTF-8"},
		{"a picture", "\x89PNG\r\n", " is a picture; write it with a text editor and save it as UTF-8"},
		{"UTF-16", "\xff\xfej\x00o\x00b\x00", " is UTF-16 text; write it with a text editor and save it as UTF-8"},
		{"binary", "job: a\n\x00\x01", "2: has the control character U+0000; write it with a text editor and save it as UTF-8"},
		{"Latin-1", "job: Caf\xe9\n", "1: has the byte 0xe9, which is not UTF-8; write it with a text editor and save it as UTF-8"},
		{"too large", strings.Repeat("# 50 MB of remarks\n", 50_000_000/19), " has 47.7 MiB, which is over the limit of 1 MiB; check that this is the right file, or split it"},
		{"just too large", sound + "#" + strings.Repeat("x", 1<<20-len(sound)), " has 1.0 MiB, which is over the limit of 1 MiB; check that this is the right file, or split it"},
		{"brackets without end", "job: " + strings.Repeat("[", 20_000), "1: has too many brackets or groups inside each other; check the brackets and dashes"},
		{"dashes without end", strings.Repeat("- ", 20_000), "1: has too many brackets or groups inside each other; check the brackets and dashes"},
		{"too deep", "job: " + strings.Repeat("[", 20) + strings.Repeat("]", 20) + "\n", "1: has too many groups inside each other; check the indentation and the brackets\n" +
			"1: job: is a list; write for example job: Heron Landing bunkhouse\n" + missing("id", "units", "goods", "rollers", "slats", "shades")},
		{"two documents", sound + "---\n" + sound, "25: starts a second document; keep one document in the file, and remove the line of three dashes"},
		{"an unclosed quote", "job: \"Heron\n", "1: opens a quote that is never closed; close the quote, or leave the quotes out: 2' 7 5/8\" needs none"},
		{"an escape", `job: "C:\Users"` + "\n", `1: has a \ in double quotes; use single quotes, or none`},
		{"an unclosed list", "job: [a\nid: b\n", "1: opens a [ that is not closed, or lacks a comma inside; close it, or put the text in quotes"},
		{"a stray bracket", "job: a\n}\n", "2: is not aligned with the keys above it, or has text after a closing quote; check the indentation and the quotes"},
		{"a value after a quote", "job: '3' 7\nid: b\n", "1: is not aligned with the keys above it, or has text after a closing quote; check the indentation and the quotes"},
		{"a directive", "%YAML 9.9\n---\njob: a\n", "1: cannot be read (found incompatible YAML document); check the quotes, brackets and indentation"},
		{"a key that is null", "~: a\n", "1: has a key without a name; write key: value\n" + missing("job", "id", "units", "goods", "rollers", "slats", "shades")},
	}
	for _, tt := range tests {
		want := tt.want
		if strings.HasPrefix(want, " ") { // about the whole file, so without a line
			_, err := Read("job.yaml", []byte(tt.text), practiceOf)
			if err == nil || err.Error() != "job.yaml:"+want {
				t.Errorf("%s is read as\n     %v\nwant job.yaml:%s", tt.name, err, want)
			}
			continue
		}
		refuses(t, tt.text, tt.name, want)
	}
}

// missing returns the messages about keys that are missing from line 1.
func missing(names ...string) string {
	var lines []string
	for _, k := range keys(newDraft(Options{}), Options{}) {
		for _, n := range names {
			if k.Name == n {
				lines = append(lines, "1: "+n+": is missing; write for example "+n+": "+k.Example)
			}
		}
	}
	return strings.Join(lines, "\n")
}

// A file of aliases that would expand to 10⁹ values is refused at once, before they
// expand.
func TestAliasBomb(t *testing.T) {
	var b strings.Builder
	b.WriteString("a: &a [x, x, x, x, x, x, x, x, x, x]\n")
	for _, c := range "bcdefghi" {
		last := string(c - 1)
		b.WriteString(string(c) + ": &" + string(c) + " [*" + strings.Repeat(last+", *", 9) + last + "]\n")
	}
	_, err := Read("job.yaml", []byte(b.String()), Options{})
	var ps Problems
	if !errors.As(err, &ps) || !strings.HasPrefix(err.Error(), `job.yaml:1: "&a" is a reference mark; leave it out; put text that starts with & in quotes`) {
		t.Errorf("an alias bomb is read as %v", err)
	}
}

// A file that is wrong everywhere gets at most a hundred lines of messages.
func TestManyProblems(t *testing.T) {
	text := sound + strings.Repeat("  - {id: x, color: red}\n", 200)
	_, err := Read("job.yaml", []byte(text), Options{})
	lines := strings.Split(err.Error(), "\n")
	// Each added shade lacks four keys and has an unknown one, and 199 of them
	// repeat an id.
	if want := "job.yaml: 1099 more problems"; len(lines) != 101 || lines[100] != want {
		t.Errorf("%d lines, the last %q; want 101 and %q", len(lines), lines[len(lines)-1], want)
	}
}
