package scan

import (
	"errors"
	"math/big"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/google/uuid"
	"pgregory.net/rapid"

	"shadewright/ticket/code"
	"shadewright/ticket/mark"
	"shadewright/ticket/message"
	"shadewright/ticket/route"
)

// c is the code of a ticket with Y and Z in it, computed with Python 3 from the
// UUIDv5 "ticket 10:полка 1 0" of the job 5f0c8f0e-2b0f-4a55-9f0b-6f1f7a2d9c31.
const c = "Z3AB4Y9X6N"

func TestParse(t *testing.T) {
	tests := []struct{ in, want, remark, src string }{
		{c, c, "", "as printed"},
		{c + "-BK24", c + "-BK24", "", "as printed"},
		{"z3a-b4y9-x6n", c, "", "typed by hand"},
		{"HTTP://SHOP:8080/T/" + c + "-BK24", c + "-BK24", "", "address"},
		{"\x02" + c + "-BK24\x03\r", c + "-BK24", "", "STX, ETX and CR (ASCII)"},
		{"\ufeff" + c, c, "", "byte order mark"},
		{"]Q1" + c + "-BK24", c + "-BK24", "", "ISO/IEC 15424: ]Q1 is a QR code"},
		{"]C0" + c, c, "", "ISO/IEC 15424: ]C0 is Code 128"},
		{"Q" + c + "-BK24", c + "-BK24", "", "a one-letter identifier in front"},
		{"01:" + c + "-BK24/OK", c + "-BK24", "", "a number before, a word after"},
		{"Q:HTTPS://SHOP.LOCAL/T/" + c + "-BK24;", c + "-BK24", "", "both around an address"},
		{"<<" + c + ">>", c, "", "the shop's own prefix and suffix"},
		{"Y3AB4Z9X6NßBK24", c + "-BK24", "US German", "by hand from the drawings: Y and Z swapped, - is ß"},
		{"HTTPÖ--SHOPÖ8080-T-Y3AB4Z9X6NßBK24", c + "-BK24", "US German", "by hand: : is Ö, / is -"},
		{"httpö--shopö8080-t-y3ab4z9x6nßbk24", c + "-BK24", "US German", "the same by a scanner that sends small letters"},
		{"HTTP\xd6--SHOP\xd68080-T-Y3AB4Z9X6N\xdfBK24", c + "-BK24", "US German", "the same on a Latin-1 terminal"},
		{`W"QB'YçX-N)BKé'`, c + "-BK24", "US French", `by hand: digits are &é"'(-è_çà, A Q and W Z swapped, - is )`},
		{`HTTPM!!SHOPM_à_à!T!W"QB'YçX-N)BKé'`, c + "-BK24", "US French", "by hand: : is M, / is !"},
		{"Y3AB4Z9X6N/BK24", c + "-BK24", "German US", "by hand: a German scanner's - is / on a US computer"},
		{"STEP:SEW:" + check("STEP:SEW"), "STEP sew", "", "bench sheet"},
		{"step:sew:" + strings.ToLower(check("STEP:SEW")), "STEP sew", "", "the same in small letters"},
		{"STEPÖSEWÖBY", "STEP sew", "US German", "by hand: : is Ö, Y and Z swapped; the check is BZ"},
	}
	p := Parser{Prefix: "<<", Suffix: ">>"}
	for _, tt := range tests {
		l, err := p.Parse(tt.in)
		got := l.Code.With(l.Revision)
		if l.Control.Word != "" {
			got = string(l.Control.Word) + " " + l.Control.Value
		}
		if err != nil || got != tt.want {
			t.Errorf("Parse(%q) = %s, %v; want %s (%s)", tt.in, got, err, tt.want, tt.src)
		}
		from, to, _ := strings.Cut(tt.remark, " ")
		want := "the scanner is set to a " + from + " keyboard and the computer to a " + to + " one"
		if tt.remark == "" {
			want = ""
		}
		if l.Remark != want {
			t.Errorf("Parse(%q) remarks %q; want %q", tt.in, l.Remark, want)
		}
	}
}

func TestParseRefuses(t *testing.T) {
	tests := []struct{ in, want string }{
		{"", "no code was read; scan the ticket or type its 10 symbols"},
		{"\r\n", "no code was read; scan the ticket or type its 10 symbols"},
		{"Z3AB4Y9X6P", `code "Z3AB4Y9X6P" is mistyped: one symbol is wrong, or two are swapped; type it again or scan it`},
		{"Y3AB4Z9X6N", `"Y3AB4Z9X6N" is mistyped, or the scanner is set to a German keyboard and the computer to a US one; set the scanner to the computer's keyboard, or type the code again`},
		{"STEP:SEW:ZZ", `"STEP:SEW:ZZ" is mistyped or cut short; scan it on the bench sheet again`},
		{"STEP:SEW", `"STEP:SEW" is mistyped or cut short; scan it on the bench sheet again`},
		{"UNDO:SEW:" + check("UNDO:SEW"), `"UNDO:SEW:` + check("UNDO:SEW") + `" is mistyped or cut short; scan it on the bench sheet again`},
		{"BY:%GG:" + check("BY:%GG"), `"BY:%GG:` + check("BY:%GG") + `" is not a code of a bench sheet; print the bench sheet again`},
		{"BY:%00:" + check("BY:%00") + strings.Repeat("A", 600), `"BY:%00:` + check("BY:%00") + strings.Repeat("A", 31) + `…" is too long for a code; scan the code on the ticket or tag`},
		{c + "-BK24 " + c + "-BK24", `code "` + c + `-BK24 ` + c + `-BK24" has 28 symbols; a code has 10, and 4 more with its revision`},
		{"2001234567893", `"2001234567893" is a trade article number, not a ticket; scan the code on the ticket or tag`},
	}
	for _, tt := range tests {
		if l, err := (Parser{}).Parse(tt.in); err == nil || err.Error() != tt.want {
			t.Errorf("Parse(%q) = %+v, %v; want %s", tt.in, l, err, tt.want)
		}
	}
}

func drawCode(t *rapid.T) code.Code {
	return code.Derive(uuid.UUID(rapid.SliceOfN(rapid.Byte(), 16, 16).Draw(t, "id")))
}

// Parse understands any code typed through any two keyboards, unless only letters
// changed. Then it refuses the code, and never returns another one.
func TestKeyboards(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ticket := drawCode(t)
		text := rapid.SampledFrom([]string{
			ticket.With("BK24"), "HTTP://192.168.1.20:8080/T/" + ticket.With("BK24"), string(ticket),
		}).Draw(t, "text")
		m := rapid.SampledFrom(mismatches).Draw(t, "keyboards")
		typed := typeOn(m, text)
		l, err := Parser{}.Parse(typed)
		_, certain, _ := m.restore(typed)
		switch {
		case err == nil && l.Code == ticket:
		case err == nil:
			t.Fatalf("%q typed as %q was read as %s", text, typed, l.Code)
		case certain:
			t.Fatalf("%q typed as %q: %v", text, typed, err)
		}
	})
}

// typeOn returns what a computer receives for a text from a scanner that is set to
// another keyboard.
func typeOn(m mismatch, text string) string {
	typed := map[rune]rune{}
	for got, meant := range m.meant {
		typed[meant] = got
	}
	return strings.Map(func(r rune) rune { return typed[r] }, text)
}

// A mismatch of keyboards never explains away a typing mistake.
func TestSlipsAreRefused(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ticket := drawCode(t)
		i := rapid.IntRange(0, code.Length-1).Draw(t, "place")
		r := rapid.RuneFrom([]rune(code.Alphabet)).Draw(t, "symbol")
		if byte(r) == ticket[i] {
			t.Skip("the same symbol is not a mistake")
		}
		slip := ticket[:i] + code.Code(r) + ticket[i+1:]
		for _, form := range []string{string(slip), slip.Grouped(), slip.With("BK24"), strings.ToLower(slip.Grouped())} {
			if l, err := (Parser{}).Parse(form); err == nil {
				t.Fatalf("%s for %s was read as %s", form, ticket, l.Code)
			}
		}
	})
}

func TestControlRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var all []Word
		for w := range valued {
			all = append(all, w)
		}
		ctl := Control{Word: rapid.SampledFrom(all).Draw(t, "word")}
		if valued[ctl.Word] {
			ctl.Value = strings.ToLower(rapid.StringN(1, 30, 60).Draw(t, "value"))
		}
		if ctl.Check() != nil {
			t.Skip("a sheet has no such code")
		}
		text := ctl.String()
		if strings.Trim(text, "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ%-.:") != "" {
			t.Fatalf("%q is not made of alphanumeric mode's characters", text)
		}
		for _, in := range []string{text, strings.ToLower(text), "]Q1" + text} {
			if l, err := (Parser{}).Parse(in); err != nil || l.Control != ctl {
				t.Fatalf("Parse(%q) = %+v, %v; want %+v", in, l, err, ctl)
			}
		}
		// A wrong character, and two swapped ones, in the body.
		body, sum := text[:len(text)-2], text[len(text)-2:]
		i := rapid.IntRange(0, len(body)-2).Draw(t, "i")
		j := rapid.IntRange(0, len(body)-2).Draw(t, "j")
		b := []byte(body)
		b[i], b[j] = b[j], b[i]
		if string(b) != body && check(string(b[:len(b)-1])) == sum {
			t.Fatalf("%q with %d and %d swapped goes undetected", text, i, j)
		}
		b = []byte(body)
		b[i] = byte(rapid.IntRange(' ', 'Z').Draw(t, "wrong"))
		if string(b) != body && check(string(b[:len(b)-1])) == sum {
			t.Fatalf("%q with %q at %d goes undetected", text, b[i], i)
		}
	})
}

// The properties of its numbers that the check's comment claims.
func TestControlCheckProof(t *testing.T) {
	if !big.NewInt(prime).ProbablyPrime(0) || prime > len(code.Alphabet)*len(code.Alphabet) || prime <= utf8.RuneSelf {
		t.Fatalf("%d is not a prime above all characters and within what two symbols can write", prime)
	}
	seen, power := map[int]bool{}, 1
	for range prime - 1 {
		seen[power] = true
		power = power * root % prime
	}
	if len(seen) != prime-1 {
		t.Errorf("%d has only %d different powers modulo %d", root, len(seen), prime)
	}
	// By hand: "AT" is 65×11 + 84 = 799 = 27×29 + 16, the symbols Y and J.
	if got := check("AT"); got != "YJ" {
		t.Errorf(`check("AT") = %s; want YJ by hand`, got)
	}
}

func TestControlCheckRefuses(t *testing.T) {
	tests := []struct {
		c    Control
		want string
	}{
		{Control{Word: "DANCE"}, `unknown word "DANCE"; the words are AT, BY, CLEAR, HOLD, NEXT, RELEASE, REMADE, STEP, UNDO`},
		{Control{Word: By}, `BY has no value; give one`},
		{Control{Word: Undo, Value: "x"}, `UNDO takes no value, but has "x"`},
		{Control{Word: By, Value: "Ann"}, `value "Ann" of BY has capitals; write it in small letters`},
	}
	for _, tt := range tests {
		if err := tt.c.Check(); err == nil || err.Error() != tt.want {
			t.Errorf("%+v.Check() = %v; want %s", tt.c, err, tt.want)
		}
	}
}

func TestDesk(t *testing.T) {
	now := time.Date(2027, 3, 1, 9, 0, 0, 0, time.UTC)
	const other = "KM46SAXN4E"
	type want struct {
		kind   mark.Kind
		step   string
		reason message.Term
		say    string
	}
	steps := []struct {
		after time.Duration
		in    Line
		want  want
	}{
		{0, Line{Code: c}, want{kind: mark.Done}},
		{time.Second, Line{Code: c}, want{say: "NO  Z3A-B4Y9-X6N: scanned twice in a row, so nothing more was marked; to mark another step, wait a moment and scan again"}},
		{time.Second, Line{Code: other}, want{kind: mark.Done}},
		{time.Second, Line{Code: c}, want{kind: mark.Done}},
		{3 * time.Second, Line{Code: c}, want{kind: mark.Done}},
		{0, Line{Control: Control{Step, "sew"}}, want{say: "OK  each ticket scanned now marks: sew"}},
		{0, Line{Control: Control{By, "ann"}}, want{say: "OK  marks are now made by ann"}},
		{0, Line{Code: c}, want{kind: mark.Done, step: "sew"}},
		{0, Line{Control: Control{Word: Undo}}, want{say: "OK  scan the ticket to undo"}},
		{0, Line{Code: c}, want{kind: mark.Undone, step: "sew"}},
		{0, Line{Code: other}, want{kind: mark.Done, step: "sew"}},
		{0, Line{Control: Control{Hold, "no cloth"}}, want{say: "OK  scan the ticket to hold: no cloth"}},
		{0, Line{Code: other}, want{kind: mark.Held, reason: message.Term{ID: "reason.no-cloth"}}},
		{0, Line{Control: Control{Word: Release}}, want{say: "OK  scan the ticket to release"}},
		{2 * time.Minute, Line{Code: other}, want{say: "NO  RELEASE was scanned more than 1m0s ago and no longer counts; scan it again, or scan the ticket again to mark it"}},
		{0, Line{Code: other}, want{kind: mark.Done, step: "sew"}},
		{0, Line{Control: Control{Word: Release}}, want{say: "OK  scan the ticket to release"}},
		{-time.Hour, Line{Code: other}, want{say: "NO  RELEASE was scanned more than 1m0s ago and no longer counts; scan it again, or scan the ticket again to mark it"}},
		{0, Line{Control: Control{Remade, "torn"}}, want{say: "OK  scan the ticket whose panel is spoilt: torn"}},
		{0, Line{Code: c}, want{kind: mark.Remade, reason: message.Term{Words: "torn"}}},
		{0, Line{Control: Control{Word: Next}}, want{say: "OK  each ticket scanned now marks its next step"}},
		{0, Line{Control: Control{At, "bench 2"}}, want{say: "OK  marks are now made at bench 2"}},
		{0, Line{Code: other, Revision: "BK24"}, want{kind: mark.Done}},
		{0, Line{Control: Control{Word: Clear}}, want{say: "OK  step, person and place are cleared; each ticket scanned now marks its next step"}},
		{0, Line{Code: other}, want{kind: mark.Done}},
	}
	var d Desk
	ids := map[uuid.UUID]bool{}
	for i, s := range steps {
		now = now.Add(s.after)
		got := d.Take(s.in, now)
		m := got.Mark
		if (want{m.Kind, m.Step, m.Reason, got.Say}) != s.want || got.Send != (s.want.kind != "") {
			t.Fatalf("line %d: %+v; want %+v", i+1, got, s.want)
		}
		if !got.Send {
			continue
		}
		if ids[m.ID] || m.Code != s.in.Code || m.Revision != s.in.Revision || !m.Time.Equal(now) {
			t.Errorf("line %d: mark %+v", i+1, m)
		}
		ids[m.ID] = true
		if err := m.Check(); err != nil {
			t.Errorf("line %d: %v", i+1, err)
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{c, c + "-BK24", "Y3AB4Z9X6NßBK24", `W"QB'YçX-N)BKé'`, "STEP:SEW:ZZ", Control{By, "jürgen"}.String(), "]Q1", "\xff\xfe", "::", "-" + c + "-"} {
		f.Add(s, "", "")
	}
	f.Add("ab"+c+"cd", "AB", "CD")
	f.Add(strings.Repeat("\xf1", 600), "", "") // a long line in Latin-1
	f.Add("\x85\x18G00", "", "")
	f.Fuzz(func(t *testing.T, in, prefix, suffix string) {
		l, err := Parser{Prefix: prefix, Suffix: suffix}.Parse(in)
		if err != nil {
			var e *Error
			var ce *code.Error
			if !errors.As(err, &e) && !errors.As(err, &ce) || strings.ContainsAny(err.Error(), "\r\n") || !utf8.ValidString(err.Error()) {
				t.Fatalf("Parse(%q): %q", in, err)
			}
			return
		}
		if l.Control.Word != "" {
			again, err := Parser{}.Parse(l.Control.String())
			if err != nil || again.Control != l.Control || l.Code != "" {
				t.Fatalf("Parse(%q) = %+v, read again %+v, %v", in, l, again, err)
			}
			return
		}
		if l.Reading != route.None && l.Code == "" {
			return
		}
		if l.Code.Check() != nil || l.Revision != "" && l.Revision.Check() != nil {
			t.Fatalf("Parse(%q) let %+v pass", in, l)
		}
	})
}

func BenchmarkParse(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := (Parser{}).Parse("HTTPÖ--SHOPÖ8080-T-Y3AB4Z9X6NßBK24"); err != nil {
			b.Fatal(err)
		}
	}
}
