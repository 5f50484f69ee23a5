package ticket

import (
	"os"
	"reflect"
	"regexp"
	"testing"
)

func listOf(format int, keysAndTexts ...string) Printed {
	p := Printed{Format: format}
	for i := 0; i < len(keysAndTexts); i += 2 {
		p.Values = append(p.Values, Value{keysAndTexts[i], keysAndTexts[i+1]})
	}
	return p
}

// By hand: what changed, and what cannot be compared.
func TestChanges(t *testing.T) {
	// A later format adds one value and drops another.
	later := spanTable{"bead.length": {from: 3}, "tape.runs": {from: 2, to: 2}}
	tests := []struct {
		name     string
		old, now Printed
		want     []Change
		ok       bool
	}{
		{"the same", listOf(2, "unit", "1"), listOf(2, "unit", "1"), nil, true},
		{"another", listOf(2, "unit", "1", "sag", "0.1"), listOf(2, "unit", "1", "sag", "0.2"), []Change{{"sag", "0.1", "0.2"}}, true},
		{"one more", listOf(2, "unit", "1"), listOf(2, "unit", "1", "sag", "0.2"), []Change{{"sag", "", "0.2"}}, true},
		{"one less", listOf(2, "unit", "1", "sag", "0.1"), listOf(2, "unit", "1"), []Change{{"sag", "0.1", ""}}, true},
		{"a step between others", listOf(2, "step", "a", "step", "b", "step", "c"), listOf(2, "step", "a", "step", "x", "step", "b", "step", "c"),
			[]Change{{"step", "", "x"}}, true},
		{"the second of three", listOf(2, "w", "1", "w", "2", "w", "3"), listOf(2, "w", "1", "w", "5", "w", "3"), []Change{{"w", "2", "5"}}, true},
		{"in the order of the page", listOf(2, "b", "1", "a", "1"), listOf(2, "a", "2", "b", "2"), []Change{{"a", "1", "2"}, {"b", "1", "2"}}, true},
		{"a later format adds a value", listOf(2, "unit", "1"), listOf(3, "unit", "1", "bead.length", "5nm"), nil, true},
		{"and has it from then on", listOf(3, "unit", "1"), listOf(3, "unit", "1", "bead.length", "5nm"), []Change{{"bead.length", "", "5nm"}}, true},
		{"a later format gives one up", listOf(2, "unit", "1", "tape.runs", "3"), listOf(3, "unit", "1"), nil, true},
		{"a later format shows what else changed", listOf(2, "unit", "1", "tape.runs", "3"), listOf(3, "unit", "2", "bead.length", "5nm"), []Change{{"unit", "1", "2"}}, true},
		{"format 1 kept no reading", listOf(1, "unit", "1"), listOf(2, "unit", "1", "opening.width", "5nm", "spring.turns", "9.0"), nil, true},
		{"format 1 kept whether there is a note", listOf(1, "unit", "1"), listOf(2, "unit", "1", "shade.note", `"mind"`), []Change{{"shade.note", "", `"mind"`}}, true},
		{"format 1 kept the trim", listOf(1, "slat.trim", "5nm"), listOf(2, "slat.trim", "6nm"), []Change{{"slat.trim", "5nm", "6nm"}}, true},
		{"nothing in common", listOf(1, "sag", "1"), listOf(2, "sag", "2"), nil, false},
		{"nothing known", Printed{}, listOf(3, "bead.length", "5nm"), nil, false},
	}
	for _, tt := range tests {
		got, ok := later.changes(tt.old, tt.now)
		if len(got) == 0 {
			got = nil
		}
		if !reflect.DeepEqual(got, tt.want) || ok != tt.ok {
			t.Errorf("%s: %v, %v; want %v, %v", tt.name, got, ok, tt.want, tt.ok)
		}
	}
}

// A key of format 1 that no list has would compare nothing, and a key without a
// name would be shown as it is.
func TestKeys(t *testing.T) {
	var source []byte
	for _, file := range []string{"printed.go", "fitting.go"} {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		source = append(source, text...)
	}
	printed := map[string]bool{}
	for _, m := range regexp.MustCompile(`l\.[A-Z]\w+\("([a-z_.]+)"`).FindAllStringSubmatch(string(source), -1) {
		if m[1] != "opening." { // taken off or added; named by the step
			printed[m[1]] = true
		}
	}
	if len(printed) < 90 {
		t.Fatalf("only %d keys are found in the source", len(printed))
	}
	for key := range printed {
		if _, ok := names[key]; !ok {
			t.Errorf("%s has no name", key)
		}
	}
	for key := range names {
		if !printed[key] && spans[key].to == 0 { // records still hold papers with keys of earlier formats
			t.Errorf("%s has a name and is in no list", key)
		}
	}
	for key := range ofFormatOne {
		if !printed[key] && spans[key].to == 0 {
			t.Errorf("%s of format 1 is in no list", key)
		}
	}
}

// By hand, in the words of the ticket: 43-1/2 in is 1104.9 mm, 43-3/8 in 1101.725
// mm.
func TestDescribe(t *testing.T) {
	inches := listOf(2, "rule.unit", "in", "rule.step", "1587500nm")
	metric := listOf(2, "rule.unit", "mm", "rule.step", "500000nm")
	tests := []struct {
		in      Printed
		comma   bool
		changes []Change
		want    string
	}{
		{inches, false, []Change{{"slat.trim", "1104900000nm", "1101725000nm"}}, "slat 43-1/2 → 43-3/8 in"},
		{metric, true, []Change{{"slat.trim", "1104900000nm", "1101725000nm"}}, "slat 1105 → 1101,5 mm"},
		{inches, false, []Change{{"slat.trim", "1101725000nm", "1101725001nm"}}, "slat 43-3/8 in → 1101.725001 mm"},
		{metric, true, []Change{{"spring.turns", "9.0", "12.5"}}, "spring turns 9,0 → 12,5"},
		{inches, false, []Change{{"unit.of", "2", "3"}, {"cut.width", "25400000nm", "50800000nm"}}, "panel width 1 → 2 in, number of units 2 → 3"},
		{inches, false, []Change{{"plan.section", "1", "2"}, {"plan.cuts", "4", "8"}, {"mount.hole", "x", "y"}}, "place on the cut plan, mounting sheet"},
		{inches, false, []Change{{"shade.note", "", `"Mind, 1,5 in"`}}, "note, new: Mind, 1,5 in"},
		{inches, false, []Change{{"shade.note", `"Mind the crank."`, `"Mind the crank of the casement."`}}, "note now: Mind the crank of the casement."},
		{inches, false, []Change{{"roller.name", `"donor"`, `"wash"`}}, "roller donor → wash"},
		{inches, false, []Change{{"roll", "standard", "reverse"}}, "roll standard → reverse"},
		{inches, false, []Change{{"step", "", `["weld","Weld the pocket","hot bench"]`}}, "step, new: Weld the pocket"},
		{inches, false, []Change{{"opening.tip_off", "3175000nm", ""}}, "taken off, gone: 1/8 in"},
		{inches, false, []Change{{"opening.overlap_left", "25400000nm", "28575000nm"}}, "added 1 → 1-1/8 in"},
		{inches, false, []Change{{"bead.length", "1nm", "2nm"}}, "bead.length 0.000001 → 0.000002 mm"},
		{inches, false, []Change{{"sag", "1", "2"}, {"weight", "1", "2"}, {"unit", "1", "2"}, {"thread.size", "1", "2"}, {"needle.number", "1", "2"}, {"stitch.plies", "1", "2"}, {"unit.of", "1", "2"}, {"stitch.type", "1", "2"}},
			"sag in mm 1 → 2, grams that hang 1 → 2, unit 1 → 2, thread 1 → 2, needle 1 → 2, plies 1 → 2, 2 more changes"},
	}
	for _, tt := range tests {
		if got := Describe(tt.changes, tt.in.Style(tt.comma)).String(); got != tt.want {
			t.Errorf("%v is described as %q; want %q", tt.changes, got, tt.want)
		}
	}
}
