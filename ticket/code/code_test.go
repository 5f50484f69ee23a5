package code

import (
	"errors"
	"math/big"
	"strings"
	"testing"

	"github.com/google/uuid"
	"pgregory.net/rapid"
)

var job = uuid.MustParse("5f0c8f0e-2b0f-4a55-9f0b-6f1f7a2d9c31")

// The wanted values are from Python 3: uuid.uuid5(job, name), then int(uuid) %
// 29**9 in base 29. The check is what 10·s₁ + 9·s₂ + … + 2·s₉ lacks to a multiple
// of 29.
func TestDerive(t *testing.T) {
	const py = "computed with Python 3, uuid and whole numbers"
	tests := []struct {
		id   uuid.UUID
		uuid string
		want Code
		src  string
	}{
		{uuid.Nil, "00000000-0000-0000-0000-000000000000", "2222222222", "by hand: zero at every position"},
		{uuid.Max, "ffffffff-ffff-ffff-ffff-ffffffffffff", "AYEG36YCVW", py},
		{Identity(job, "bunk-left", 1, 0), "eb095ea1-e9a8-589f-aba0-6c0cd43e104c", "KM46SAXN4E", py},
		{Identity(job, "bunk-left", 2, 0), "a9e34b8a-c302-5dd6-9437-ac6c2ac5bb82", "RPRYHJAPK3", py},
		{Identity(job, "bunk-left", 1, 1), "efcd18b8-73da-5035-98c9-16735935ec5d", "7M4NP9EXY2", py},
		{Identity(job, "полка", 1, 0), "b518bdd0-147e-5c18-a33c-48543ab34930", "Z3AB4Y9X6N", py},
	}
	for _, tt := range tests {
		if tt.id.String() != tt.uuid {
			t.Errorf("identity %s; want %s (%s)", tt.id, tt.uuid, tt.src)
		}
		if got := Derive(tt.id); got != tt.want {
			t.Errorf("Derive(%s) = %s; want %s (%s)", tt.id, got, tt.want, tt.src)
		}
	}
}

func TestRevisionOf(t *testing.T) {
	tests := []struct{ in, want, src string }{
		{"", "KSSJ", "Python 3, hashlib.sha256 and whole numbers"},
		{"abc", "BK24", "the same"},
		{"panel 26-3/8 x 48", "8P29", "the same"},
	}
	for _, tt := range tests {
		if got := RevisionOf([]byte(tt.in)); string(got) != tt.want {
			t.Errorf("RevisionOf(%q) = %s; want %s (%s)", tt.in, got, tt.want, tt.src)
		}
	}
}

// This proves the check for all codes, not for a sample. A code is valid if its
// weighted sum is zero modulo 29; a mistake changes that sum by a product that is
// never zero.
func TestEverySlipIsRefusedProof(t *testing.T) {
	if base != 29 || !big.NewInt(int64(base)).ProbablyPrime(0) {
		t.Fatalf("the alphabet has %d symbols; the check needs the prime 29", base)
	}
	weight := func(i int) int { return Length - i }
	for i := range Length {
		for diff := 1; diff < base; diff++ { // one symbol is wrong by diff
			if weight(i)*diff%base == 0 {
				t.Errorf("symbol %d wrong by %d goes undetected", i+1, diff)
			}
			for j := range i { // symbols i and j, which differ by diff, are swapped
				if (weight(i)-weight(j))*diff%base == 0 {
					t.Errorf("symbols %d and %d swapped go undetected", i+1, j+1)
				}
			}
		}
	}
}

// The same on real codes, to show that the code does what the proof assumes.
func TestEverySlipIsRefused(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawCode(t)
		for i := range c {
			for _, r := range Alphabet {
				if byte(r) != c[i] {
					refused(t, c[:i]+Code(r)+c[i+1:])
				}
			}
			for j := range i {
				if c[i] != c[j] {
					b := []byte(c)
					b[i], b[j] = b[j], b[i]
					refused(t, Code(b))
				}
			}
		}
	})
}

func refused(t *rapid.T, c Code) {
	var e *Error
	if _, _, err := Parse(string(c)); !errors.As(err, &e) || e.Problem != Mistyped {
		t.Fatalf("Parse(%s) gave %v; want a mistyped code", c, err)
	}
}

func drawCode(t *rapid.T) Code {
	return Derive(uuid.UUID(rapid.SliceOfN(rapid.Byte(), 16, 16).Draw(t, "id")))
}

func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawCode(t)
		r := RevisionOf(rapid.SliceOf(rapid.Byte()).Draw(t, "content"))
		if err := errors.Join(c.Check(), r.Check()); err != nil {
			t.Fatal(err)
		}
		forms := map[string]Revision{
			c.With(r): r, c.With(""): "", c.Grouped(): "", c.Grouped() + " " + string(r): r,
			strings.ToLower(c.With(r)):                                     r,
			"HTTP://192.168.1.20:8080/T/" + c.With(r):                      r,
			"https://shop.local/t/" + string(c) + "-" + string(r) + "/":    r,
			" " + strings.Join(strings.Split(string(c), ""), " ") + "\r\n": "",
			string(c[:5]) + "–" + string(c[5:]):                            "",
		}
		for in, rev := range forms {
			if gc, gr, err := Parse(in); gc != c || gr != rev || err != nil {
				t.Fatalf("Parse(%q) = %s, %s, %v; want %s, %s", in, gc, gr, err, c, rev)
			}
		}
	})
}

func TestParseRefuses(t *testing.T) {
	tests := []struct {
		in      string
		problem Problem
		want    string
	}{
		{"", Empty, "no code was read; scan the ticket or type its 10 symbols"},
		{" - \t", Empty, "no code was read; scan the ticket or type its 10 symbols"},
		{"KM46SAXN4", WrongLength, `code "KM46SAXN4" has 9 symbols; a code has 10, and 4 more with its revision`},
		{"KM46-SAXN-4EB-K2", WrongLength, `code "KM46-SAXN-4EB-K2" has 13 symbols; a code has 10, and 4 more with its revision`},
		{"KM46SAXN4F", Mistyped, `code "KM46SAXN4F" is mistyped: one symbol is wrong, or two are swapped; type it again or scan it`},
		{"km4-6SAX-NE4", Mistyped, `code "km4-6SAX-NE4" is mistyped: one symbol is wrong, or two are swapped; type it again or scan it`},
		{"KM4-6SOX-N4E", Foreign, `code "KM4-6SOX-N4E" has 'O' at place 6; codes never use it, nor 0 1 I L O Q U; read the code again`},
		{"KM46SAXN4E-BK2U", Foreign, `code "KM46SAXN4E-BK2U" has 'U' at place 14; codes never use it, nor 0 1 I L O Q U; read the code again`},
		{"КM46SAXN4E", Foreign, `code "КM46SAXN4E" has 'К' at place 1; codes never use it, nor 0 1 I L O Q U; read the code again`},
		// Numbers from 20 to 29 are a shop's own (GS1 General Specifications, prefixes).
		// Check digit by hand: 2+3+2+9+4+15+6+21+8+27 = 97, so 3.
		{"2001234567893", SomethingElse, `"2001234567893" is a trade article number, not a ticket; scan the code on the ticket or tag`},
		{"HTTPS://EXAMPLE.ORG/MENU", SomethingElse, `"HTTPS://EXAMPLE.ORG/MENU" is another address, not a ticket; scan the code on the ticket or tag`},
		{"ftp://shop/T/KM46SAXN4E", SomethingElse, `"ftp://shop/T/KM46SAXN4E" is another address, not a ticket; scan the code on the ticket or tag`},
		{"WIFI:S:bench;;", SomethingElse, `"WIFI:S:bench;;" is another kind of code, not a ticket; scan the code on the ticket or tag`},
		{"KM46SAXN4E\xff", SomethingElse, `"KM46SAXN4E�" is too long, or not text, not a ticket; scan the code on the ticket or tag`},
		{strings.Repeat("A", 1000), SomethingElse, `"` + strings.Repeat("A", 40) + `…" is too long, or not text, not a ticket; scan the code on the ticket or tag`},
	}
	for _, tt := range tests {
		c, r, err := Parse(tt.in)
		var e *Error
		if !errors.As(err, &e) {
			t.Errorf("Parse(%q) = %s, %s, %v; want an *Error", tt.in, c, r, err)
			continue
		}
		if e.Problem != tt.problem || e.Error() != tt.want {
			t.Errorf("Parse(%q) gave %d %q; want %d %q", tt.in, e.Problem, e, tt.problem, tt.want)
		}
	}
}

// A name that ends like the number after it must not collide with another name.
func TestIdentityIsUnambiguous(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		type of struct {
			shade        string
			unit, remake int
		}
		draw := func(label string) of {
			return of{
				rapid.StringMatching(`[a1 :.]{0,4}`).Draw(t, label),
				rapid.IntRange(1, 12).Draw(t, label+" unit"), rapid.IntRange(0, 2).Draw(t, label+" remake"),
			}
		}
		a, b := draw("a"), draw("b")
		same := Identity(job, a.shade, a.unit, a.remake) == Identity(job, b.shade, b.unit, b.remake)
		if same != (a == b) {
			t.Fatalf("%v and %v: same identity is %v", a, b, same)
		}
	})
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"KM46SAXN4E-BK24", "km4 6sax n4e", "HTTP://A:1/T/KM46SAXN4E-BK24", "KM46SAXN4F", "ТЕСТ", "://", "http:///T/"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, in string) {
		c, r, err := Parse(in)
		if err != nil {
			var e *Error
			if c != "" || r != "" || !errors.As(err, &e) || strings.ContainsAny(err.Error(), "\n\r") {
				t.Fatalf("Parse(%q) = %q, %q, %v", in, c, r, err)
			}
			return
		}
		if c.Check() != nil || r != "" && r.Check() != nil {
			t.Fatalf("Parse(%q) let %s, %s pass", in, c, r)
		}
		if c2, r2, err := Parse(c.With(r)); c2 != c || r2 != r || err != nil {
			t.Fatalf("Parse(%q) then Parse(%q) = %s, %s, %v", in, c.With(r), c2, r2, err)
		}
	})
}

func BenchmarkParse(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := Parse("HTTP://192.168.1.20:8080/T/KM46SAXN4E-BK24"); err != nil {
			b.Fatal(err)
		}
	}
}
