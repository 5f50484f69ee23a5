package code

import "testing"

func TestLetters(t *testing.T) {
	tests := []struct {
		n             int
		want, chalked string
	}{ // counted by hand: 26 letters, and 24 without I and O
		{0, "A", "A"}, {7, "H", "H"}, {8, "I", "J"}, {13, "N", "P"}, {23, "X", "Z"}, {24, "Y", "AA"},
		{25, "Z", "AB"}, {26, "AA", "AC"}, {51, "AZ", "BD"}, {52, "BA", "BE"}, {701, "ZZ", "AEF"}, {702, "AAA", "AEG"},
	}
	for _, tt := range tests {
		if got := Letters(tt.n); got != tt.want {
			t.Errorf("Letters(%d) = %s; want %s", tt.n, got, tt.want)
		}
		if got := Chalked(tt.n); got != tt.chalked {
			t.Errorf("Chalked(%d) = %s; want %s", tt.n, got, tt.chalked)
		}
	}
}
