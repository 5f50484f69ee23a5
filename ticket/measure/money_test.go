package measure

import "testing"

func TestParseMoney(t *testing.T) {
	for text, want := range map[string]Money{
		"18.50": 185_000, "18,5": 185_000, " 7 ": 70_000, "0.125": 1250, "0,0001": 1, "1000000": 1_000_000 * Unit,
	} {
		if got, err := ParseMoney(text); err != nil || got != want {
			t.Errorf("ParseMoney(%q) = %d, %v; want %d ten-thousandths", text, got, err, want)
		}
	}
	for text, want := range map[string]string{
		"":          "is empty",
		"-3":        "is negative",
		"$5":        "is not a price",
		"1.":        "is not a price",
		".5":        "is not a price",
		"1e3":       "is not a price",
		"1,250":     "could mean thousands or decimals",
		"0.12345":   "has more than four decimals",
		"1000000.1": "is too large for a price",
		"99999999":  "is too large for a price",
	} {
		_, err := ParseMoney(text)
		p, ok := err.(*ParseError)
		if !ok || p.Problem != want {
			t.Errorf("ParseMoney(%q): %v; want %q", text, err, want)
		}
	}
}

func TestMoneyWords(t *testing.T) {
	for m, want := range map[Money]string{185_000: "18.50", 1250: "0.13", 1249: "0.12", -1250: "-0.13", 0: "0.00"} {
		if got := m.String(); got != want {
			t.Errorf("%d is %s; want %s (halves away from zero)", m, got, want)
		}
	}
	if got := (Style{Comma: true}).Money(185_000); got != "18,50" {
		t.Errorf("with a comma %s; want 18,50", got)
	}
	// 1962 in at 18.50 a yard of 36 in: 54.5 × 18.50 = 1008.25, by hand.
	if got := Money(185_000).For(1962*Inch, Yard); got.String() != "1008.25" {
		t.Errorf("54.5 yd at 18.50 are %s; want 1008.25", got)
	}
	if got := Money(1234).Times(3); got != 3702 {
		t.Errorf("three at 0.1234 are %d; want 3702", got)
	}
}
