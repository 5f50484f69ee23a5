package config

import (
	"reflect"
	"strings"
	"testing"

	"shadewright/ticket"
	"shadewright/ticket/mark"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
	"shadewright/ticket/route"
)

// The built-in values are common practice, no source.
func TestRecordBuiltIn(t *testing.T) {
	s := load(t, Options{})
	policy := mark.UsualPolicy()
	policy.Square = ticket.UsualRules(measure.Inches).Opening.Square // as printed on the tickets
	switch r := s.Record; {
	case r.At != "" || r.Prefix != "" || r.Suffix != "" || r.People != nil || r.Places != nil:
		t.Errorf("record = %+v; want nothing set", r)
	case !reflect.DeepEqual(r.Route, route.Usual()):
		t.Errorf("route = %+v; want the usual one", r.Route)
	case len(r.Holds) != 4 || len(r.Spoilt) != 3:
		t.Errorf("reasons = %q, %q", r.Holds, r.Spoilt)
	case s.Policy() != policy:
		t.Errorf("policy = %+v; want the usual one", s.Policy())
	case s.Server != (Server{Listen: "127.0.0.1:8080", Days: 30}):
		t.Errorf("server = %+v", s.Server)
	}
}

func TestRecordValues(t *testing.T) {
	dir := t.TempDir()
	write(t, dir, `units: mm
record: {at: 'postgres://shop:geheim@db/marks', out_of_order: refuse, tolerance: 2 mm}
route:
  - cut
  - {key: steam, name: Steam the panel, bench: cutting, reading: width, cautions: "rotary-blade, ladder"}
  - sew
scanner: {prefix: "<<", suffix: ">>"}
bench:
  people: [ann, Bo B]
  places: table, machine 2
  holds: none
serve: {listen: "127.0.0.1:0", pin: 385201, cert: c.pem, key: k.pem, days: 7}
`)
	s := load(t, Options{JobDir: dir})
	cut, _ := route.Usual().Step("cut")
	sew, _ := route.Usual().Step("sew")
	steam := route.Step{Key: "steam", Name: message.StepTerm.Term("Steam the panel"), Bench: message.BenchTerm.Term("cutting"), Reading: route.Width, Cautions: []route.Caution{route.RotaryBlade, route.Ladder}}
	policy := mark.Policy{OutOfOrder: mark.Refuse, Tolerance: 2 * mm, Style: measure.Usual(measure.Millimetres), Square: ticket.UsualRules(measure.Millimetres).Opening.Square}
	switch r := s.Record; {
	case !reflect.DeepEqual(r.Route, route.Route{cut, steam, sew}):
		t.Errorf("route = %+v", r.Route)
	case s.Policy() != policy:
		t.Errorf("policy = %+v; want %+v", s.Policy(), policy)
	case r.At != "postgres://shop:geheim@db/marks" || r.Prefix != "<<" || r.Suffix != ">>":
		t.Errorf("record = %+v", r)
	case !reflect.DeepEqual(r.People, []string{"ann", "Bo B"}) || !reflect.DeepEqual(r.Places, []string{"table", "machine 2"}) || r.Holds != nil:
		t.Errorf("bench = %q %q %q", r.People, r.Places, r.Holds)
	case s.Server != (Server{Listen: "127.0.0.1:0", PIN: "385201", Cert: "c.pem", Key: "k.pem", Days: 7}):
		t.Errorf("server = %+v", s.Server)
	}
	for _, r := range s.Table() {
		if strings.Contains(r.Value, "geheim") || strings.Contains(r.Value, "385201") {
			t.Errorf("%s shows a secret: %q", r.Key, r.Value)
		}
		if r.Key == "route" && r.Value != "cut, steam, sew" {
			t.Errorf("route is shown as %q", r.Value)
		}
	}
}

func TestRouteByKeys(t *testing.T) {
	s := load(t, Options{Environ: []string{"SHADEWRIGHT_ROUTE=sew, cut"}})
	if got := strings.Join(s.Record.Route.Keys(), " "); got != "sew cut" {
		t.Errorf("route = %s; want sew cut", got)
	}
}

func TestRecordBadFiles(t *testing.T) {
	tests := []struct{ text, want string }{
		{"route: cut, sow", `:1: route: "cut, sow" has "sow", which is not a usual step; did you mean sew?`},
		{"route:\n  - cut\n  - sow", `:3: route: "sow" has "sow", which is not a usual step; did you mean sew?`},
		{"route:\n  - {key: steam}", `:2: route.name: is missing; write for example name: Steam the panel`},
		{"route:\n  - {key: steam, name: Steam, reading: girth}", `:2: route.reading: "girth" is not one of the words allowed here; write diagonals, width or turns`},
		{"route:\n  - {key: steam, name: Steam, cautions: fire}", `:1: route: step 1: unknown caution "fire"; the cautions are rotary-blade, hot-knife, wound-spring, saw, set-tube, sawn-tube, needle, drilling, ladder, emergency-exit, children-cords, flammability`},
		{"route: [cut, cut]", `:1: route: step 2: key "cut" is also the key of step 1; give each step its own key`},
		{"bench: {people: [ann, [bo]]}", `:1: bench.people: is not a single entry; write one entry after each dash, without commas`},
		{"bench: {people: 'ann,,bo'}", `:1: bench.people: "ann,,bo" has an empty or repeated entry at place 2; separate the entries with one comma, and write each entry once`},
		{"record: {at: 'mysql://x'}", `:1: record.at: "mysql://x" is an address for mysql, which cannot hold the record; write the path of a file, or postgres://user@host/name`},
		{"serve: {listen: 8080}", `:1: serve.listen: "8080" is not an address to listen on; write host:port, for example 127.0.0.1:8080`},
		{"serve: {pin: 1234}", `:1: serve.pin: is too easy to guess, or has a character other than a digit or a plain letter; use 6 to 32 digits and letters, not all of them the same`},
		{"serve: {cert: c.pem}", `:1: serve.cert: is set without serve.key; set both, or neither`},
		{"serve: {key: k.pem}", `:1: serve.key: is set without serve.cert; set both, or neither`},
		{"serve: {pin: 111111}", `:1: serve.pin: is too easy to guess, or has a character other than a digit or a plain letter; use 6 to 32 digits and letters, not all of them the same`},
	}
	for _, tt := range tests {
		dir := t.TempDir()
		path := write(t, dir, tt.text)
		if _, err := Load(Options{JobDir: dir}); err == nil || err.Error() != path+tt.want {
			t.Errorf("%q gives\n     %v\nwant %s", tt.text, err, path+tt.want)
		}
	}
	_, err := Load(Options{Flags: map[string]string{"serve.cert": "c.pem"}})
	if want := "flag --set serve.cert: is set without serve.key; set both, or neither"; err == nil || err.Error() != want {
		t.Errorf("a certificate without a key gives %v; want %s", err, want)
	}
}
