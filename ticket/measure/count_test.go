package measure

import "testing"

func TestCountAndList(t *testing.T) {
	for _, tt := range []struct{ got, want string }{
		{Count(1, "sheet"), "1 sheet"},
		{Count(0, "sheet"), "0 sheets"},
		{Count(3, "sheet"), "3 sheets"},
		{And(nil), ""},
		{And([]string{"a"}), "a"},
		{And([]string{"a", "b"}), "a and b"},
		{And([]string{"a", "b", "c"}), "a, b and c"},
	} {
		if tt.got != tt.want {
			t.Errorf("got %q; want %q", tt.got, tt.want)
		}
	}
}
