package jobfile

import (
	"fmt"
	"reflect"
	"strings"

	"shadewright/ticket"
	"shadewright/ticket/form"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
)

// WriteOptions says how to write a job file.
type WriteOptions struct {
	Options          // the options with which the file will be read
	Head    []string // remarks at the top, one on each line
	Schema  string   // path of the schema from the file's folder, for editors; may be empty
}

// Fields describes what a job file may contain.
type Fields struct {
	keys  []form.Key
	draft *draft
}

// FieldsOf returns the fields of a job file.
func FieldsOf(opt Options) Fields {
	d := newDraft(opt)
	return Fields{keys(d, opt), d}
}

// Has reports whether there is a field at a path.
func (fs Fields) Has(path string) bool {
	_, ok := form.Find(fs.keys, path, fs.draft)
	return ok
}

// At returns the field at a path such as job, allow.hem, goods.width or
// shades.finished.width. It panics if there is no such field, which is a bug in the
// caller.
func (fs Fields) At(path string) form.Field {
	f, ok := form.Find(fs.keys, path, fs.draft)
	if !ok {
		panic("jobfile: no field " + path)
	}
	return f
}

// PartsOf returns the goods, rollers, slats, brackets, allow and sewing of a job as
// they would stand in a file in the given units.
func PartsOf(f *File, u measure.System, opt Options) (map[string]*form.Node, error) {
	d, err := draftOf(f)
	if err != nil {
		return nil, err
	}
	d.units = u
	w := &form.Writer{Units: u, Choose: choose}
	n := w.Node(keys(d, opt), d, newDraft(opt))
	out := map[string]*form.Node{}
	for _, group := range []string{"goods", "rollers", "slats", "brackets", "allow", "sewing"} {
		out[group] = n.At(group)
	}
	return out, nil
}

// Write returns the text of a job file that [Read] turns into the same job, with
// remarks for a person who edits it. It writes all allowances and sewing, so that a
// later change of the shop's practice does not change the job. The error is a
// [Problems] if no file could hold the job.
func Write(f *File, opt WriteOptions) ([]byte, error) {
	d, err := draftOf(f)
	if err != nil {
		return nil, err
	}
	w := &form.Writer{Units: d.units, Choose: choose}
	table := keys(d, opt.Options)
	node := w.Node(table, d, newDraft(opt.Options))
	text := form.Format(node, remarks(table, node, opt))
	back, err := Read(f.Name, text, opt.Options)
	if err != nil {
		return nil, err
	}
	want := f.Job
	want.Supply = d.supply() // only the supply of parts that shades use; no other part is in the job
	if !reflect.DeepEqual(back.Job, want) || back.Paper != f.Paper || back.TemplatePaper != f.TemplatePaper {
		return nil, fmt.Errorf("%s: the job would read back differently", f.Name)
	}
	return text, nil
}

// choose lists the keys to write even if they have their default value: the job's
// allowances and sewing; the lay, whose default is lengthwise; a thread together
// with its needle, because a thread alone gets its usual needle; and optional
// values, which exist only if they are written.
func choose(k form.Key, group, base any) form.Choice {
	switch g := group.(type) {
	case *draft:
		return onlyIf(k.Name == "allow" || k.Name == "sewing", form.InFull)
	case *goodsDraft:
		return onlyIf(k.Name == "lay", form.InFull)
	case *ticket.Sewing:
		b, shade := base.(*ticket.Sewing)
		return onlyIf(shade && (k.Name == "thread" && g.Needle == 0 && b.Needle != 0 || k.Name == "needle" && g.Thread != b.Thread), form.InFull)
	case *rollerDraft:
		if k.Name == "count" {
			return given(g.Count != g.usualCount())
		}
		return onlyIf(k.Name == "pins", given(g.Pins != nil))
	case *shadeDraft:
		return chooseShade(k.Name, g)
	case *openingDraft:
		return chooseOpening(k.Name, g)
	case *obstructionDraft:
		return onlyIf(k.Name == "below", given(g.Below != nil))
	}
	return form.Usual
}

func onlyIf(is bool, c form.Choice) form.Choice {
	if is {
		return c
	}
	return form.Usual
}

func given(is bool) form.Choice {
	if is {
		return form.InFull
	}
	return form.LeaveOut
}

func chooseShade(key string, s *shadeDraft) form.Choice {
	switch key {
	case "finished":
		return given(s.Opening == nil)
	case "opening":
		return given(s.Opening != nil)
	case "behind":
		return given(s.Behind != nil)
	}
	return form.Usual
}

func chooseOpening(key string, o *openingDraft) form.Choice {
	switch key {
	case "depth":
		return given(o.Depth != nil)
	case "head":
		return given(o.Head != nil)
	case "valance":
		return given(o.Valance != nil)
	case "overlap":
		return given(o.Mount != hang.Inside)
	}
	return form.Usual
}

// draftOf turns a job into the draft of a file.
func draftOf(f *File) (*draft, error) {
	d := &draft{
		job: f.Job, units: f.Job.Style.System, paper: f.Paper, template: f.TemplatePaper, onHand: f.Job.Supply.OnHand,
		goods: map[string]goodsDraft{}, rollers: map[string]rollerDraft{}, slats: map[string]slatDraft{}, brackets: map[string]bracketDraft{},
	}
	d.allow = commonest(f.Job.Shades, func(s ticket.Shade) ticket.Allow { return s.Allow })
	d.sewing = commonest(f.Job.Shades, func(s ticket.Shade) ticket.Sewing { return s.Sewing })
	for _, s := range f.Job.Shades {
		sd := shadeDraftOf(s)
		err := define(d.goods, "goods", s.Goods.Name, goodsDraftOf(s.Goods, f.Job.Supply))
		if err == nil && !s.AnyRoller {
			err = define(d.rollers, "rollers", s.Roller.Name, rollerDraftOf(s.Roller, f.Job.Supply))
		}
		if err == nil {
			err = define(d.slats, "slats", s.Slat.Name, slatDraft{Slat: s.Slat, supply: f.Job.Supply.Slats[s.Slat.Name]})
		}
		if err == nil && s.Bracket != nil {
			err = define(d.brackets, "brackets", s.Bracket.Name, bracketDraft{Bracket: *s.Bracket})
		}
		if err != nil {
			return nil, fmt.Errorf("shade %s: %w", s.ID, err)
		}
		d.shades = append(d.shades, sd)
	}
	d.addUnused(f)
	return d, nil
}

// addUnused adds the parts that no shade uses: a shop's list of rollers outlives the
// shades of one job.
func (d *draft) addUnused(f *File) {
	for name, g := range f.Parts.Goods {
		if _, used := d.goods[name]; !used {
			d.goods[name] = goodsDraftOf(g, f.Job.Supply)
		}
	}
	for name, r := range f.Parts.Rollers {
		if _, used := d.rollers[name]; !used {
			d.rollers[name] = rollerDraftOf(r, f.Job.Supply)
		}
	}
	for name, s := range f.Parts.Slats {
		if _, used := d.slats[name]; !used {
			d.slats[name] = slatDraft{Slat: s, supply: f.Job.Supply.Slats[name]}
		}
	}
	for name, b := range f.Parts.Brackets {
		if _, used := d.brackets[name]; !used {
			d.brackets[name] = bracketDraft{Bracket: b}
		}
	}
}

func shadeDraftOf(s ticket.Shade) shadeDraft {
	d := shadeDraft{Shade: s, goods: s.Goods.Name, roller: s.Roller.Name, slat: s.Slat.Name}
	if s.AnyRoller {
		d.roller = anyRoller
	}
	if s.Bracket != nil {
		d.bracket = s.Bracket.Name
	}
	if s.Behind != nil {
		d.behind = *s.Behind
	}
	if s.Trial != nil {
		d.trial = s.Trial[:]
	}
	if o := s.Opening; o != nil {
		d.opening = openingDraft{Opening: *o, depth: orZero(o.Depth), head: orZero(o.Head), valance: orZero(o.Valance)}
		if o.Unobstructed {
			d.opening.obstructions = []obstructionDraft{}
		}
		if o.Diagonals != [2]measure.Length{} {
			d.opening.diagonals = o.Diagonals[:]
		}
		for _, ob := range o.Obstructions {
			d.opening.obstructions = append(d.opening.obstructions, obstructionDraft{Obstruction: ob, below: orZero(ob.Below)})
		}
	}
	return d
}

func orZero(l *measure.Length) measure.Length {
	if l == nil {
		return 0
	}
	return *l
}

// define adds a named part. The same name must not stand for two different parts.
func define[V any](defined map[string]V, group, name string, v V) error {
	if was, ok := defined[name]; ok && !reflect.DeepEqual(was, v) {
		return fmt.Errorf("%s %q differ from those of another shade; give them another name", group, name)
	}
	defined[name] = v
	return nil
}

func goodsDraftOf(g ticket.Goods, s ticket.Supply) goodsDraft {
	d := goodsDraft{Goods: g, supply: s.Goods[g.Name]}
	if g.Selvage[0] == g.Selvage[1] {
		d.both = g.Selvage[0]
	}
	return d
}

func rollerDraftOf(r ticket.Roller, s ticket.Supply) rollerDraft {
	d := rollerDraft{Roller: r, supply: s.Rollers[r.Name]}
	if r.Pins != nil {
		d.pins = *r.Pins
	}
	if r.Shortest == 0 {
		d.length, d.Longest = r.Longest, 0
	}
	return d
}

// commonest returns the value that most shades have, or the first of several such
// values.
func commonest[V comparable](shades []ticket.Shade, pick func(ticket.Shade) V) V {
	var best V
	count := map[V]int{}
	for _, s := range shades {
		count[pick(s)]++
	}
	for _, s := range shades {
		if v := pick(s); count[v] > count[best] {
			best = v
		}
	}
	return best
}

// remarkWidth is the most characters on a line of a remark.
const remarkWidth = 92

// remarks explains each key in the file, and shows each key that could be added.
func remarks(table []form.Key, node *form.Node, opt WriteOptions) map[string][]string {
	out := map[string][]string{}
	if opt.Schema != "" {
		out[""] = []string{"yaml-language-server: $schema=" + opt.Schema}
	}
	out[""] = append(out[""], opt.Head...)
	out[""] = append(out[""], "A length without a unit is in the job's units. Run shadewright check to see what to cut.")
	var absent []string
	for _, k := range table {
		if node.At(k.Name) == nil {
			absent = append(absent, lead(k.Doc, "")...)
			absent = append(absent, k.Name+": "+k.Example, "")
			continue
		}
		out[k.Name] = append(absent, lead(k.Doc, "")...)
		for _, in := range form.Inner(k.Kind) {
			doc := in.Doc
			if words := form.Choices(in.Kind); words != nil {
				doc += " One of " + strings.Join(words, ", ") + "."
			}
			if in.Default != "" {
				doc += " Default: " + in.Default + "."
			}
			out[k.Name] = append(out[k.Name], lead(fmt.Sprintf("  %-13s %s", in.Name, doc), strings.Repeat(" ", 16))...)
		}
		absent = nil
	}
	return out
}

// lead breaks a text into lines, and starts each line after the first with the
// indent.
func lead(text, indent string) []string {
	var lines []string
	for len([]rune(text)) > remarkWidth {
		cut := strings.LastIndexByte(string([]rune(text)[:remarkWidth]), ' ')
		if cut <= len(indent) {
			break
		}
		lines = append(lines, text[:cut])
		text = indent + strings.TrimSpace(text[cut:])
	}
	return append(lines, text)
}
