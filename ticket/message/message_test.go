package message

import (
	"encoding/json"
	"fmt"
	"testing"
	"time"
)

func TestString(t *testing.T) {
	day := time.Date(2026, time.March, 9, 14, 5, 0, 0, time.UTC)
	tests := []struct {
		m    Message
		want string
	}{ // by hand from testTexts
		{Message{}, ""},
		{Of("test.hem", "1/2 in"), "the hem of 1/2 in"},
		{Of("test.one"), "one"},
		{Of("test.more"), "10 % more"},
		{Of("test.share", 10), "10 % more"},
		{Of("test.full"), "at 100 %, no less"},
		{Count(1, "test.shade", "test.shades", "mesh"), "1 shade of mesh"},
		{Count(0, "test.shade", "test.shades", "mesh"), "0 shades of mesh"},
		{Count(2, "test.shade", "test.shades", "mesh"), "2 shades of mesh"},
		{Verbatim("100 %"), "100 %"},
		{Join("; ", Of("test.one"), Message{}, Verbatim("2")), "one; 2"},
		{Join("", Verbatim("a"), Verbatim("b")), "ab"},
		{List(), ""},
		{List(Verbatim("a")), "a"},
		{List(Verbatim("a"), Verbatim("b")), "a and b"},
		{List(Verbatim("a"), Verbatim("b"), Verbatim("c")), "a, b and c"},
		{Of("test.hem", Of("test.hem", At(day, Clock))), "the hem of the hem of 14:05"},
		{Of("test.hem", At(day, DayMonth)), "the hem of 9 March"},
		{Of("test.hem", At(day, Date)), "the hem of 9 March 2026"},
		{Of("test.hem", At(day, Stamp)), "the hem of Mon 9 Mar, 14:05"}, // 9 March 2026 is a Monday (ISO 8601 week 11)
	}
	for _, tt := range tests {
		if got := tt.m.String(); got != tt.want {
			t.Errorf("%#v = %q; want %q", tt.m, got, tt.want)
		}
	}
}

func TestIn(t *testing.T) {
	m := Of("test.and", Of("test.one"), "12 mm")
	if got, want := m.In(inSpanish, Time.String), "12 mm y uno"; got != want {
		t.Errorf("In = %q; want %q", got, want)
	}
}

func TestJSON(t *testing.T) {
	b, err := json.Marshal(map[string]any{"text": Of("test.hem", "12 mm")})
	if want := `{"text":"the hem of 12 mm"}`; err != nil || string(b) != want {
		t.Errorf("json = %s, %v; want %s", b, err, want)
	}
}

func BenchmarkString(b *testing.B) {
	m := Of("test.and", "1/2 in", Of("test.one"))
	b.ReportAllocs()
	for b.Loop() {
		if fmt.Stringer(m).String() == "" {
			b.Fatal("no text")
		}
	}
}
