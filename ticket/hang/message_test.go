package hang

import (
	"fmt"
	"testing"

	"shadewright/ticket/message"
	"shadewright/ticket/message/pseudo"
)

// A person reads the same word as in the job file, but as a text in the catalogue.
func TestWordsForPeople(t *testing.T) {
	type spoken interface {
		fmt.Stringer
		Message() message.Message
	}
	tests := []struct {
		words []spoken
		after string // what follows the word
	}{
		{[]spoken{Inside, Outside, Ceiling}, " mount"},
		{[]spoken{Standard, Reverse}, " roll"},
		{[]spoken{Wood, Drywall, AluminiumSkin, SteelSkin}, ""},
	}
	for _, tt := range tests {
		for _, w := range tt.words {
			if got, want := w.Message().String(), w.String()+tt.after; got != want || pseudo.Unmarked(pseudo.Put(w.Message())) != nil {
				t.Errorf("%s is said %q, and %q in the pseudo-language; want %q", w, got, pseudo.Put(w.Message()), want)
			}
		}
	}
}

// A clearance has a text with its article. An obstruction keeps the name that the
// shop gave it, whatever that is.
func TestClearanceWords(t *testing.T) {
	w := side()
	p := Place{Mount: Outside, Axle: 40 * mm, Valance: deep(90 * mm), Head: deep(60 * mm), Proud: []Obstruction{{Name: "wall", Proud: mm}}}
	all, _ := p.Clear(w, mm)
	p.Mount, p.Proud = Inside, nil
	inside, _ := p.Clear(w, mm)
	want := map[string]string{
		"opening.axle": "thé wáll", "opening.obstructions": "thé wall", "opening.valance": "thé váláncé", "opening.head": "thé héád",
	}
	for _, c := range all {
		if got := pseudo.Put(c.What()); got != want[c.Field] {
			t.Errorf("%s, to %q, is said %q; want %q", c.Field, c.To, got, want[c.Field])
		}
	}
	if got := pseudo.Put(inside[0].What()); len(all) != 4 || got != "thé gláss" {
		t.Errorf("inside, %d clearances, the first is said %q; want the glass", len(all), got)
	}
}
