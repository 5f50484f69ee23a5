package route

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"shadewright/ticket/message"
	"shadewright/ticket/message/pseudo"
)

func TestUsual(t *testing.T) {
	r := Usual()
	if err := r.Check(); err != nil {
		t.Fatal(err)
	}
	want := strings.Fields("strip cut square lines hem pocket slat-fit sew trim-tube attach trim-slat insert-slat seal mount hang tension inspect")
	if !slices.Equal(r.Keys(), want) {
		t.Errorf("the usual route is %v; want %v (common practice, no source)", r.Keys(), want)
	}
	var used []Caution
	asks := map[Reading]int{}
	for _, s := range r {
		used = append(used, s.Cautions...)
		asks[s.Reading]++
	}
	for _, c := range Cautions() {
		if !slices.Contains(used, c) {
			t.Errorf("no step of the usual route carries caution %q", c)
		}
	}
	for _, reading := range Readings() {
		if asks[reading] != 1 {
			t.Errorf("%d steps ask for %q; want 1", asks[reading], reading)
		}
	}
	var benches []string
	for _, g := range r.Groups() {
		benches = append(benches, g.Bench.String())
	}
	if got := strings.Join(benches, " "); got != "donor cutting sewing fitting site" {
		t.Errorf("benches in order: %s", got)
	}
}

// The program's own steps and benches have translations; a shop's own words stay as
// they are.
func TestMessage(t *testing.T) {
	for _, g := range Usual().Groups() {
		if g.Bench.ID == "" || pseudo.Put(g.Message()) == g.Bench.String() {
			t.Errorf("bench %q is said %q, and %q in the pseudo-language", g.Bench, g.Message(), pseudo.Put(g.Message()))
		}
		for _, s := range g.Steps {
			if s.Name.ID == "" || pseudo.Put(s.Message()) == s.Name.String() {
				t.Errorf("step %q is said %q, and %q in the pseudo-language", s.Name, s.Message(), pseudo.Put(s.Message()))
			}
		}
	}
	own := Step{Key: "cut", Name: words("Cut with the laser"), Bench: words("annex")}
	if got := pseudo.Put(own.Message()); got != own.Name.String() {
		t.Errorf("a shop's own step %q became %q", own.Name, got)
	}
	if got := pseudo.Put(Group{Bench: own.Bench}.Message()); got != own.Bench.String() {
		t.Errorf("a shop's own bench %q became %q", own.Bench, got)
	}
}

// words are a shop's own words.
func words(s string) message.Term { return message.Term{Words: s} }

func TestNextAndSkipped(t *testing.T) {
	r := Route{{Key: "a", Bench: words("1")}, {Key: "b", Bench: words("2")}, {Key: "c", Bench: words("1")}}
	tests := []struct{ done, next, key, skipped string }{
		{"", "a", "a", ""},
		{"", "a", "c", "a b"},
		{"a", "b", "c", "b"},
		{"b", "a", "c", "a"},
		{"a b", "c", "c", ""},
		{"a b c", "", "c", ""},
		{"", "a", "unknown", ""},
	}
	for _, tt := range tests {
		done := func(key string) bool { return slices.Contains(strings.Fields(tt.done), key) }
		next, ok := r.Next(done)
		if next.Key != tt.next || ok != (tt.next != "") {
			t.Errorf("done %q: next is %q, %v; want %q", tt.done, next.Key, ok, tt.next)
		}
		if got := strings.Join(Route(r.Skipped(tt.key, done)).Keys(), " "); got != tt.skipped {
			t.Errorf("done %q: %s skips %q; want %q", tt.done, tt.key, got, tt.skipped)
		}
	}
	if got := len(r.Groups()); got != 3 {
		t.Errorf("%d groups; want 3: a bench the work comes back to is another group", got)
	}
}

func TestEqual(t *testing.T) {
	a := Route{{Key: "cut", Name: words("Cut"), Cautions: []Caution{}}}
	b := Route{{Key: "cut", Name: words("Cut")}}
	if !a.Equal(b) {
		t.Error("no cautions and none given differ")
	}
	for _, o := range []Route{nil, {{Key: "sew", Name: words("Cut")}}, {{Key: "cut", Name: words("Cut"), Reading: Turns}}, {{Key: "cut", Name: words("Cut"), Cautions: []Caution{Saw}}}} {
		if a.Equal(o) {
			t.Errorf("%v equals %v", a, o)
		}
	}
}

// Marking the next step again and again walks the whole route and never skips a
// step.
func TestNextWalksTheRoute(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		keys := rapid.SliceOfNDistinct(rapid.StringMatching(`[a-z][a-z0-9]{0,5}`), 1, 12, rapid.ID[string]).Draw(t, "keys")
		var r Route
		for _, k := range keys {
			r = append(r, Step{Key: k, Name: words(k)})
		}
		if err := r.Check(); err != nil {
			t.Fatal(err)
		}
		var walked []string
		done := func(key string) bool { return slices.Contains(walked, key) }
		for s, ok := r.Next(done); ok; s, ok = r.Next(done) {
			if n := len(r.Skipped(s.Key, done)); n != 0 {
				t.Fatalf("step %q skips %d", s.Key, n)
			}
			walked = append(walked, s.Key)
		}
		if !slices.Equal(walked, keys) {
			t.Fatalf("walked %v; want %v", walked, keys)
		}
	})
}

func TestCheckRefuses(t *testing.T) {
	tests := []struct {
		route Route
		want  string
	}{
		{nil, "the route has no steps; write at least one, or leave the route out to use the usual one"},
		{Route{{Key: "cut", Name: words("Cut")}, {Key: "sew", Name: words("Sew")}, {Key: "cut", Name: words("Again")}},
			`step 3: key "cut" is also the key of step 1; give each step its own key`},
		{Route{{Key: "", Name: words("Cut")}}, `step 1: key "" is empty; use letters a to z, digits and dashes, for example trim-tube`},
		{Route{{Key: "Cut", Name: words("Cut")}}, `step 1: key "Cut" has 'C'; use letters a to z, digits and dashes, for example trim-tube`},
		{Route{{Key: "cut-", Name: words("Cut")}}, `step 1: key "cut-" starts or ends with a dash; use letters a to z, digits and dashes, for example trim-tube`},
		{Route{{Key: strings.Repeat("a", 25), Name: words("Cut")}}, `step 1: key "aaaaaaaaaaaaaaaaaaaaaaaaa" is longer than 24 characters; use letters a to z, digits and dashes, for example trim-tube`},
		{Route{{Key: "cut", Name: words(" ")}}, `step 1: name " " is empty; write what to do`},
		{Route{{Key: "cut", Name: words("Cut\xff")}}, `step 1: name "Cut\xff" is not UTF-8 text; write it again`},
		{Route{{Key: "cut", Name: words("Cut\nit")}}, `step 1: name "Cut\nit" has a control character; write it on one line`},
		{Route{{Key: "cut", Name: words(strings.Repeat("ж", 81))}}, `step 1: name "` + strings.Repeat("ж", 81) + `" is longer than 80 characters; shorten it to fit the ticket`},
		{Route{{Key: "cut", Name: words("Cut"), Bench: words("\t-")}}, `step 1: bench "\t-" has a control character; write it on one line`},
		{Route{{Key: "cut", Name: words("Cut"), Reading: "weight"}}, `step 1: unknown reading "weight"; the readings are diagonals, width, turns`},
		{Route{{Key: "cut", Name: words("Cut"), Cautions: []Caution{"sharks"}}},
			`step 1: unknown caution "sharks"; the cautions are rotary-blade, hot-knife, wound-spring, saw, set-tube, sawn-tube, needle, drilling, ladder, emergency-exit, children-cords, flammability`},
		{Route{{Key: "a b", Name: words("Cut"), Reading: "x"}},
			"step 1: key \"a b\" has ' '; use letters a to z, digits and dashes, for example trim-tube\n" +
				`step 1: unknown reading "x"; the readings are diagonals, width, turns`},
	}
	for _, tt := range tests {
		if err := tt.route.Check(); err == nil || err.Error() != tt.want {
			t.Errorf("%+v.Check() = %v; want %s", tt.route, err, tt.want)
		}
	}
	long := make(Route, 61)
	for i := range long {
		long[i] = Step{Key: "s" + strings.Repeat("x", i%20) + string(rune('a'+i/20)), Name: words("Step")}
	}
	if err := long.Check(); err == nil || err.Error() != "the route has 61 steps; a ticket has room for 60" {
		t.Errorf("61 steps: %v", err)
	}
}
