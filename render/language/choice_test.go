package language

import (
	"strings"
	"testing"
)

func TestChoices(t *testing.T) {
	tests := []struct{ shop, want string }{ // by hand from the list of languages
		{"en", "en English, es español"},
		{"en-US", "en-US English, es-US español"},
		{"en-GB", "en-GB English, es español"},
		{"es-US", "en-US English, es-US español"},
		{"es-MX", "en English, es-MX español"},
	}
	for _, tt := range tests {
		l, err := Named(tt.shop)
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, c := range l.Choices() {
			got = append(got, c.Tag()+" "+c.Plain())
		}
		if all := strings.Join(got, ", "); all != tt.want {
			t.Errorf("a shop with %s chooses among %s; want %s", tt.shop, all, tt.want)
		}
	}
}
