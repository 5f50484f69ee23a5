package card

import (
	"fmt"
	"reflect"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/ticket"
	"shadewright/ticket/goods"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
)

// words returns the texts on a ticket and its tag, without places and type
// sizes.
func words(t testing.TB, k *ticket.Ticket) string {
	t.Helper()
	was := k.Revision
	k.Revision = "2222" // the revision itself is under test
	defer func() { k.Revision = was }()
	opt := Options{Paper: sheet.Paper{Size: measure.Size{Width: 216 * mm, Length: 900 * mm}}, Insist: true}
	text := recorded(t, k, opt)
	var rec page.Recorder
	c, err := codesOf(k, Options{})
	if err != nil {
		t.Fatal(err)
	}
	st := newSetter(opt.Language)
	for _, p := range st.parts(k) {
		g := tag{st, page.Box(0, 0, 400*mm, 90*mm), p, unit{k, c}}
		if err := g.draw(&rec); err != nil {
			t.Fatal(err)
		}
	}
	var list []string
	for _, m := range textLine.FindAllStringSubmatch(text+rec.String(), -1) {
		list = append(list, m[1])
	}
	return strings.Join(list, "\n")
}

var textLine = regexp.MustCompile(`(?m)^text [^"]*("(?:[^"\\]|\\.)*")`)

// otherwise changes a value of each type to another sensible one.
var otherwise = map[reflect.Type]func(reflect.Value){
	reflect.TypeFor[measure.Length]():     func(v reflect.Value) { v.SetInt(v.Int() + int64(in/8)) },
	reflect.TypeFor[measure.ArealMass]():  func(v reflect.Value) { v.SetInt(v.Int() + int64(60*measure.GramPerSquareMetre)) },
	reflect.TypeFor[measure.LinearMass](): func(v reflect.Value) { v.SetInt(v.Int() + int64(70*measure.GramPerMetre)) },
	reflect.TypeFor[measure.SpringRate](): func(v reflect.Value) { v.SetInt(v.Int() + int64(measure.NewtonMillimetre)/5) },
	reflect.TypeFor[measure.System](): func(v reflect.Value) {
		v.Set(reflect.ValueOf(measure.Inches + measure.Millimetres - v.Interface().(measure.System)))
	},
	reflect.TypeFor[uuid.UUID]():    func(v reflect.Value) { v.Index(0).SetUint(v.Index(0).Uint() ^ 1) },
	reflect.TypeFor[time.Time]():    func(v reflect.Value) { v.Set(reflect.ValueOf(v.Interface().(time.Time).AddDate(0, 0, 1))) },
	reflect.TypeFor[goods.Kind]():   func(v reflect.Value) { v.SetUint(1 + v.Uint()%6) },
	reflect.TypeFor[hang.Roll]():    func(v reflect.Value) { v.SetUint(1 - v.Uint()) },
	reflect.TypeFor[hang.Mount]():   func(v reflect.Value) { v.SetUint((v.Uint() + 1) % 3) },
	reflect.TypeFor[hang.Behind]():  func(v reflect.Value) { v.SetUint((v.Uint() + 1) % 4) },
	reflect.TypeFor[ticket.Lay]():   func(v reflect.Value) { v.SetUint(1 - v.Uint()) },
	reflect.TypeFor[ticket.Match](): func(v reflect.Value) { v.SetUint((v.Uint() + 1) % 3) },
}

// ofTables lists values that must come from a table: thread and needle sizes.
var ofTables = map[string]int64{".Sewing.Thread": 69, ".Sewing.Needle": 18}

// leaves calls each for every single value below v.
func leaves(path string, v reflect.Value, each func(path string, v reflect.Value)) {
	if _, ok := otherwise[v.Type()]; ok {
		each(path, v)
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			leaves(path+"."+v.Type().Field(i).Name, v.Field(i), each)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			leaves(path, v.Elem(), each)
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			leaves(fmt.Sprintf("%s[%d]", path, i), v.Index(i), each)
		}
	default:
		each(path, v)
	}
}

// change changes a value.
func change(t testing.TB, path string, v reflect.Value) {
	t.Helper()
	if f := otherwise[v.Type()]; f != nil {
		f(v)
		return
	}
	for end, n := range ofTables {
		if strings.HasSuffix(path, end) {
			v.SetInt(n)
			return
		}
	}
	switch v.Kind() {
	case reflect.String:
		v.SetString(v.String() + "x")
	case reflect.Int, reflect.Int64:
		v.SetInt(v.Int() + 1)
	case reflect.Float64:
		v.SetFloat(v.Float() + 1)
	case reflect.Bool:
		v.SetBool(!v.Bool())
	case reflect.Map, reflect.Func:
	default:
		t.Fatalf("%s: otherwise has no entry for %s", path, v.Type())
	}
}

// bases are shades that together have everything a ticket can show.
func bases() map[string]func() *ticket.Job {
	withBracket := func(s *ticket.Shade) {
		wood := hang.Wood
		s.Behind = &wood
		s.Bracket = &hang.Bracket{
			Plate: measure.Size{Width: in * 13 / 16, Length: in * 13 / 8}, Axle: hang.Point{X: in * 7 / 16, Y: in * 13 / 16},
			Holes: []hang.Hole{{At: hang.Point{X: in / 4, Y: in / 4}, Diameter: 4 * mm}}, Projection: in / 16,
		}
	}
	shade := func(i int) ticket.Shade { return hard()[i] }
	return map[string]func() *ticket.Job{
		"usual":   func() *ticket.Job { return jobOf(inches(), shade(0)) },
		"metric":  func() *ticket.Job { return jobOf(millimetres(), shade(0)) },
		"reverse": func() *ticket.Job { return jobOf(inches(), shade(1)) },
		"stopped": func() *ticket.Job { return jobOf(inches(), shade(2)) },
		"recess": func() *ticket.Job {
			s := shade(5)
			withBracket(&s)
			return jobOf(inches(), s)
		},
		"trial": func() *ticket.Job {
			s := shade(6)
			withBracket(&s)
			s.Bracket.Projection = 2 * in
			return jobOf(inches(), s)
		},
	}
}

// The test changes every value of a job, one at a time. If the change is
// readable on the ticket, the revision must change; the decimal mark is the
// exception, because it belongs to the language. If the change is not readable,
// at most the values of the mounting sheet may change.
func TestRevisionIsWhatIsPrinted(t *testing.T) {
	read := 0
	for name, base := range bases() {
		first := made(t, base())[0]
		was := words(t, first)
		leaves("", reflect.ValueOf(base()).Elem(), func(path string, _ reflect.Value) {
			job := base()
			leaves("", reflect.ValueOf(job).Elem(), func(p string, v reflect.Value) {
				if p == path {
					change(t, p, v)
				}
			})
			k := made(t, job)[0]
			now, changed := words(t, k), difference(first.Printed().String(), k.Printed().String())
			switch other := now != was; {
			case path == ".Style.Comma" && (!other || k.Revision != first.Revision):
				t.Errorf("%s: with another decimal mark: printed %v, revisions %s and %s", name, other, first.Revision, k.Revision)
			case path == ".Style.Comma":
			case other && k.Revision == first.Revision:
				t.Errorf("%s: another %s is printed, but the revision stays:\n%s", name, path, difference(was, now))
			case !other && strings.Count(changed, "\n") != strings.Count(changed, "\nmount."):
				t.Errorf("%s: another %s is not printed, but the ticket's values change:%s", name, path, changed)
			case other:
				read++
			}
		})
	}
	if read < 250 {
		t.Errorf("only %d changes are readable; the test must try every value of six shades", read)
	}
}

// difference returns the lines in which two texts differ.
func difference(a, b string) string {
	x, y := strings.Split(a, "\n"), strings.Split(b, "\n")
	var out []string
	for i := range max(len(x), len(y)) {
		var l, r string
		if i < len(x) {
			l = x[i]
		}
		if i < len(y) {
			r = y[i]
		}
		if l != r {
			out = append(out, "\n"+l+" → "+r)
		}
	}
	return strings.Join(out, "")
}
