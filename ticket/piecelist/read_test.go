package piecelist_test

import (
	"context"
	"strings"
	"testing"

	"shadewright/ticket/measure"
	"shadewright/ticket/nest"
	"shadewright/ticket/piecelist"
)

const in = measure.Inch

func TestRead(t *testing.T) {
	want := nest.Piece{Label: "valance, long", Width: 24*in + in/2, Length: 40 * in, Quantity: 2, Turn: true}
	for name, text := range map[string]string{
		"plain":           "label,width,length,quantity,turn\n\"valance, long\",24-1/2,40,2,yes\n",
		"another order":   "turn,quantity,length,width,label\nyes,2,40 in,24 1/2,\"valance, long\"\n",
		"units":           "label,width,length,quantity,turn\n\"valance, long\",622.3 mm,3 ft 4 in,2,yes\n",
		"byte order mark": "\ufefflabel,width,length,quantity,turn\r\n\"valance, long\",24.5,40,2,yes\r\n",
		"semicolons":      "Label; Width; Length; Quantity; Turn\nvalance, long;24,5;40;2;yes\n",
		"blank lines":     "label,width,length,quantity,turn\n\n,,,,\n\"valance, long\",24½,40,2,yes\n\n",
	} {
		l, err := piecelist.Read("p.csv", []byte(text), measure.Inches)
		if err != nil || len(l.Pieces) != 1 || l.Pieces[0] != want {
			t.Errorf("%s: %+v, %v; want %+v", name, l, err, want)
		}
	}
	l, err := piecelist.Read("p.csv", []byte("label,width,length\na,1,2\nb,3,4\n"), measure.Inches)
	if err != nil || l.Pieces[1].Quantity != 1 || l.Pieces[1].Turn || l.Lines[1] != 3 {
		t.Errorf("without quantity and turn: %+v, %v; want 1, no, line 3", l, err)
	}
}

func TestBad(t *testing.T) {
	const head = "label,width,length,quantity,turn\n"
	tests := []struct{ text, want string }{
		{"", `p.csv: has no pieces; write a line for each piece under label,width,length,quantity,turn`},
		{head, `p.csv: has no pieces; write a line for each piece under label,width,length,quantity,turn`},
		{"label,widht,length\n", "p.csv:1: unknown column \"widht\"; did you mean width?\np.csv:1: width: is missing; start the file with the line label,width,length,quantity,turn"},
		{"label,width,length,width\n", `p.csv:1: width: appears twice; keep one of them`},
		{head + "a,-3,4,1,no\n", `p.csv:2: width: "-3" is negative; write a length above zero`},
		{head + "a,0,4,1,no\n", `p.csv:2: width: "0" is zero; write a length above zero`},
		{head + "a,3,4,0,no\n", `p.csv:2: quantity: "0" is out of range; write a number from 1 to 10000`},
		{head + "a,3,4,1000000,no\n", `p.csv:2: quantity: "1000000" is out of range; write a number from 1 to 10000`},
		{head + "a,3,4,1,maybe\n", `p.csv:2: turn: "maybe" is not one of the words allowed here; write yes or no`},
		{head + "a,,4,1,no\n,3,4,1,no\n", "p.csv:2: width: has no value; write for example 24-1/2 in\np.csv:3: label: has no value; write for example valance"},
		{head + "a,3,4\n", `p.csv:2: has 3 values for 5 columns; put values with a comma in quotes`},
		{head + "a,3,4,1,no,\n", `p.csv:2: has 6 values for 5 columns; put values with a comma in quotes`},
		{head + "\"a,3,4,1,no\nb,3,4,1,no\n", `p.csv:3: has a quote that is never closed, or a quote inside a value; put the value in quotes and double each quote inside it, as in "31-5/8"""`},
		{head + "a\x00,3,4,1,no\n", `p.csv: is not UTF-8 text; save it as CSV, UTF-8`},
		{head + "Caf\xe9,3,4,1,no\n", `p.csv: is not UTF-8 text; save it as CSV, UTF-8`},
		{head + strings.Repeat("a,1,1,1,no\n", 100_000), `p.csv: has more than 1 MiB; check that this is the right file`},
	}
	for _, tt := range tests {
		l, err := piecelist.Read("p.csv", []byte(tt.text), measure.Inches)
		if err == nil || err.Error() != tt.want || l != nil {
			t.Errorf("%.60q is read as\n     %v\nwant %s", tt.text, err, tt.want)
		}
	}
	if _, err := piecelist.Read("p.csv", []byte(head+"a,3,4,1,no\n"), measure.Undeclared); err == nil {
		t.Error("a bare number is accepted without a unit")
	}
}

// Errors of package nest get the line of their piece.
func TestProblems(t *testing.T) {
	l, err := piecelist.Read("p.csv", []byte("label,width,length,turn\nsmall,10,10,no\nwide,60,70,yes\n"), measure.Inches)
	if err != nil {
		t.Fatal(err)
	}
	_, err = nest.Make(context.Background(), nest.Order{Roll: nest.Roll{Width: 54 * in}, Pieces: l.Pieces, Units: measure.Inches}, nest.Effort{})
	want := `p.csv:3: piece "wide": 60 in × 70 in fits neither way on 54 in of usable width; use goods with at least 60 in of usable width, or make the piece at most 54 in wide`
	if got := l.Problems(err); got == nil || got.Error() != want {
		t.Errorf("%v\nwant %s", got, want)
	}
	if got := l.Problems(context.Canceled); got != context.Canceled {
		t.Errorf("another error becomes %v", got)
	}
}

// Every list that Read accepts can be planned, and has a line for each piece.
func FuzzRead(f *testing.F) {
	f.Add("label,width,length,quantity,turn\na,24-1/2,40,2,yes\n")
	f.Add("label;width;length\na;1,5;2\n")
	f.Add("\ufefflabel,width\n\"")
	f.Fuzz(func(t *testing.T, text string) {
		l, err := piecelist.Read("p.csv", []byte(text), measure.Inches)
		if err != nil {
			if l != nil || !strings.HasPrefix(err.Error(), "p.csv:") {
				t.Errorf("%v, %v", l, err)
			}
			return
		}
		if len(l.Pieces) == 0 || len(l.Lines) != len(l.Pieces) {
			t.Errorf("%d pieces on %d lines", len(l.Pieces), len(l.Lines))
		}
		for i, p := range l.Pieces {
			if p.Label == "" || p.Width <= 0 || p.Length <= 0 || p.Quantity < 1 || l.Lines[i] < 2 || i > 0 && l.Lines[i] <= l.Lines[i-1] {
				t.Errorf("line %d: %+v", l.Lines[i], p)
			}
		}
	})
}
