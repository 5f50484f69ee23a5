package jobfile

import (
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"shadewright/ticket/form"
)

// Every example in the table is accepted where it is advised, for jobs in inches
// and in millimetres. A message must not suggest what Read refuses.
func TestExamples(t *testing.T) {
	for _, units := range []string{"in", "mm"} {
		var b strings.Builder
		for _, k := range keys(newDraft(Options{}), Options{}) {
			value := k.Example
			if k.Name == "units" {
				value = units
			}
			fmt.Fprintf(&b, "%s: %s\n", k.Name, value)
		}
		if _, err := Read("examples.yaml", []byte(b.String()), Options{}); err != nil {
			t.Errorf("the examples make the job\n%s\nwhich is refused:\n%v", b.String(), err)
		}
	}
}

// The same for the examples of keys in groups.
func TestGroupExamples(t *testing.T) {
	var line func(ks []form.Key, leave ...string) string
	line = func(ks []form.Key, leave ...string) string {
		var parts []string
		for _, k := range ks {
			if slices.Contains(leave, k.Name) {
				continue
			}
			value := k.Example
			if inner := form.Inner(k.Kind); inner != nil && strings.HasPrefix(value, "{") {
				value = line(inner, leave...)
			}
			if strings.HasPrefix(value, "lower bunk, ") {
				value = "'" + value + "'"
			}
			parts = append(parts, k.Name+": "+value)
		}
		return "{" + strings.Join(parts, ", ") + "}"
	}
	shade := func(leave ...string) string { return line(shadeKeys(Options{}), leave...) }
	text := "job: a\nunits: mm\nid: 5f0c8f0e-2b0f-4a55-9f0b-6f1f7a2d9c31\n" +
		"allow: " + line(AllowKeys()) + "\nsewing: " + line(SewingKeys()) + "\n" +
		"goods: {reed-mesh: " + line(goodsKeys()) + "}\n" +
		"rollers: {donor: " + line(rollerKeys(), "length") + ", fixed: " + line(rollerKeys(), "shortest", "longest", "rate") + "}\n" +
		"slats: {flat: " + line(slatKeys(), "diameter") + ", rod: " + line(slatKeys(), "width", "thickness") + "}\n" +
		"brackets: {jamb: " + line(bracketKeys()) + "}\n" +
		"shades:\n" +
		"  - " + shade("opening", "bracket", "trial") + "\n" +
		"  - " + strings.Replace(shade("finished", "as_before", "trial", "overlap", "tube_over"), "bunk-left", "in", 1) + "\n" +
		"  - " + strings.NewReplacer("bunk-left", "out", "mount: inside", "mount: outside", "roller: donor", "roller: fixed").Replace(shade("finished", "as_before", "tube_over", "quantity")) + "\n"
	if _, err := Read("examples.yaml", []byte(text), Options{}); err != nil {
		t.Errorf("the examples make the job\n%s\nwhich is refused:\n%v", text, err)
	}
}

func compile(t *testing.T) *jsonschema.Schema {
	t.Helper()
	text, err := Schema(practiceOf)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := jsonschema.UnmarshalJSON(strings.NewReader(string(text)))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	c.AssertFormat()
	if err := c.AddResource("job.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("job.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// plain turns nodes into what an editor passes to a JSON Schema validator.
func plain(n *form.Node) any {
	switch n.Shape {
	case form.Keys:
		out := map[string]any{}
		for _, e := range n.Entries {
			out[e.Key] = plain(e.Value)
		}
		return out
	case form.List:
		out := []any{}
		for _, item := range n.Items {
			out = append(out, plain(item))
		}
		return out
	case form.Blank:
		return nil
	}
	if _, err := strconv.ParseFloat(n.Text, 64); err == nil && !n.Quoted && json.Valid([]byte(n.Text)) {
		return json.Number(n.Text)
	}
	return n.Text
}

// The schema accepts everything that Read accepts.
func TestSchemaAccepts(t *testing.T) {
	s := compile(t)
	for _, path := range []string{sampleInches, sampleMetric, sampleStop} {
		data, err := form.Load(path)
		if err != nil {
			t.Fatal(err)
		}
		top, bad := form.Parse(path, data)
		if bad != nil {
			t.Fatal(bad)
		}
		if err := s.Validate(plain(top)); err != nil {
			t.Errorf("%s: %v", path, err)
		}
	}
}

// Roll paper may be written in several ways, and the schema accepts them all.
func TestSchemaAcceptsRolls(t *testing.T) {
	s := compile(t)
	for _, roll := range []string{"roll-36in", "roll-36", "Roll 914 mm", "ROLL-24in", "roll36in", "36 in roll", "914mm Roll"} {
		text := []byte(strings.Replace(sound, "paper: letter", "template_paper: "+roll, 1))
		if _, err := Read("job.yaml", text, practiceOf); err != nil {
			t.Errorf("%q is refused: %v", roll, err)
		}
		top, bad := form.Parse("job.yaml", text)
		if bad != nil {
			t.Fatal(bad)
		}
		if err := s.Validate(plain(top)); err != nil {
			t.Errorf("the schema refuses %q: %v", roll, err)
		}
	}
}

// The schema refuses what an editor can detect without knowing the units.
func TestSchemaRefuses(t *testing.T) {
	s := compile(t)
	for _, tt := range []struct{ old, new string }{
		{"job: Heron Landing\n", ""},
		{"job: Heron Landing", "jobb: Heron Landing"},
		{"id: 5f0c8f0e-2b0f-4a55-9f0b-6f1f7a2d9c31", "id: 12"},
		{"units: in", "units: cm"},
		{"paper: letter", "paper: foolscap"},
		{"paper: letter", "paper: {width: 36 in}"},
		{"paper: letter", "due: 1.3.2027"},
		{"hem: 5/8", "hem: -1/2"},
		{"hem: 5/8", "hem: 0"},
		{"hem: 5/8", "hem: deep"},
		{"hem: 5/8", "hemm: 1/2"},
		{"kind: coated-mesh", "kind: burlap"},
		{"lay: any", "lay: sideways"},
		{"mass: 440 g/m2", "mass: heavy"},
		{"tube: 1-1/8, ", "tube: thick, "},
		{"id: left", "id: ../left"},
		{"quantity: 2", "quantity: 0"},
		{"quantity: 2", "quantity: 1000000"},
		{"quantity: 2", "quantity: two"},
		{"roll: standard", "roll: back"},
		{"roll: standard", "sewing: {thread: 90}"},
		{"finished: {width: 27-1/2, length: 40}", "finished: {width: 27-1/2}"},
		{"finished: {width: 27-1/2, length: 40}", "note: neither size nor opening"},
		{"roll: standard", "opening: {mount: inside, widths: [30], heights: [40]}"},
		{"roll: standard", "trial: [{below: 10, scale: 350 g}]"},
		{"roll: standard", "behind: paper"},
	} {
		top, bad := form.Parse("job.yaml", []byte(strings.Replace(sound, tt.old, tt.new, 1)))
		if bad != nil {
			t.Fatal(bad)
		}
		if err := s.Validate(plain(top)); err == nil {
			t.Errorf("the schema takes %q for %q", tt.new, tt.old)
		}
	}
}
