package interview

import (
	"fmt"
	"slices"
	"strings"

	"shadewright/ticket/form"
	"shadewright/ticket/measure"
)

// A walk runs through all questions from the start. A group with an open question
// stops there; the groups after it go on, so that their answers are not lost.
type walk struct {
	*Interview
	seen    []given // the questions that have an answer
	pending *Question
	before  int // answers before the pending question

	top     *form.Node // the job file, as far as its groups are complete
	known   map[string][]string
	parts   map[string]*form.Node // by kind of part
	asked   map[string]bool       // the parts that were described, such as goods.mesh
	used    map[string]int        // how many shades use a roller
	pockets map[string]string     // by slat and cloth: the pocket that was chosen
	mounted map[string]*form.Node // by mount: the last shade with it
	shades  []*form.Node          // complete ones
	ids     map[int]string        // of complete shades, by their number

	judged bool
	wrong  []form.Problem // once judged

	open       map[string][]form.Entry // by kind: parts with a question open
	openShades map[int]*form.Node
}

type given struct {
	Question
	text, about string
}

// A group asks the items of the job, of a part or of a shade.
type group struct {
	w     *walk
	at    string // what the keys of its questions begin with
	about string // the shade or part, for a list of answers
	name  string // of the part, for its questions
	n     *form.Node
	old   bool       // it stands in the file that is changed
	open  bool       // a question is open
	last  *form.Node // the shade before; nil if there is none
}

func (v *Interview) walk() *walk {
	w := &walk{Interview: v, top: clone(v.base), known: map[string][]string{}, parts: map[string]*form.Node{}, asked: map[string]bool{}, used: map[string]int{}, mounted: map[string]*form.Node{}, pockets: map[string]string{}, ids: map[int]string{}, open: map[string][]form.Entry{}, openShades: map[int]*form.Node{}}
	g := &group{w: w, n: w.top, old: v.base != nil}
	for i := range jobItems {
		text := g.ask(&jobItems[i])
		switch jobItems[i].path {
		case "job":
			if !g.old {
				setAt(w.top, "id", plain(v.opt.ID.String()))
			}
		case "units":
			if v.units = measure.Millimetres; text == measure.Inches.String() {
				v.units = measure.Inches
			}
		}
	}
	if g.open {
		return w
	}
	for _, k := range kinds {
		w.parts[k.group] = clone(at(w.top, k.group))
		for _, e := range w.parts[k.group].Entries {
			w.known[k.group] = append(w.known[k.group], e.Key)
		}
	}
	w.allShades()
	for _, k := range kinds {
		if len(w.parts[k.group].Entries) > 0 {
			setAt(w.top, k.group, w.parts[k.group])
		}
	}
	setAt(w.top, "shades", nil)
	if len(w.shades) > 0 {
		setAt(w.top, "shades", &form.Node{Shape: form.List, Items: w.shades})
	}
	return w
}

// oldShade returns a shade of the file that is changed, counted from 1, or nil.
func (v *Interview) oldShade(n int) *form.Node {
	if list := at(v.base, "shades"); list != nil && n <= len(list.Items) {
		return list.Items[n-1]
	}
	return nil
}

// allShades asks for one shade after another.
func (w *walk) allShades() {
	var last *form.Node
	for n := 1; ; n++ {
		old := w.oldShade(n)
		g := &group{w: w, at: fmt.Sprintf("shades[%d].", n), n: clone(old), old: old != nil, last: last}
		g.about = fmt.Sprintf("shade %d", n)
		w.shade(g)
		switch {
		case !g.open:
			w.shades = append(w.shades, g.n)
			w.ids[n] = textAt(g.n, "id")
		case g.old:
			w.shades = append(w.shades, old)
		}
		if g.open {
			w.openShades[n] = g.n
		}
		if last = g.n; at(g.n, "opening") != nil {
			w.mounted[textAt(g.n, "opening.mount")] = g.n
		}
		more := &group{w: w, at: g.at, n: keysNode(), old: w.oldShade(n) != nil}
		if more.ask(&anotherShade) != yes {
			return
		}
	}
}

// ask asks an item, and writes its answer into the group. It returns the answer as the
// person gave it, or "" if the group has an open question.
func (g *group) ask(it *item) string {
	if g.open {
		return ""
	}
	if it.when != nil && !it.when(g) {
		setAt(g.n, it.path, nil)
		return ""
	}
	text, ok := g.w.given(g.question(it), g, it)
	_, typed := g.w.answers[g.at+it.path]
	switch {
	case !ok:
		g.open = true
	case g.old && !typed: // the file has it already, or leaves it out
	case it.schema == "" || text == asInFile:
	case it.write != nil:
		it.write(g, text)
	case text == "":
		setAt(g.n, it.path, nil)
	default:
		setAt(g.n, it.path, it.node(text))
	}
	return text
}

// question makes the question of an item.
func (g *group) question(it *item) Question {
	q := Question{Key: g.at + it.path, Ask: it.ask, Help: it.help, More: it.more, Free: it.free, Optional: it.optional, Skip: it.skip, item: it}
	if strings.Contains(q.Ask, "%s") {
		q.Ask = fmt.Sprintf(q.Ask, g.name)
	}
	if it.example[0] != "" {
		q.Help = strings.TrimSpace(q.Help + " For example " + it.eg(g.w.units) + ".")
	}
	for _, w := range it.words {
		q.Choices = append(q.Choices, w.said)
	}
	if it.instead != nil {
		q.Skip += it.instead(g)
	}
	if it.def != nil {
		q.Default = it.def(g)
	}
	if it.also != nil {
		q.also = func(text string) string { return it.also(g, text) }
	}
	return q
}

// given returns the answer to a question: the one that was given, or the value in the
// file that is changed. It returns false if the question is open.
func (w *walk) given(q Question, g *group, it *item) (string, bool) {
	text, ok := w.answers[q.Key]
	if !ok && g.old {
		if text, ok = g.fromFile(q, it); ok && text == asInFile {
			w.seen = append(w.seen, given{q, text, g.about})
			return text, true
		}
	}
	if why := w.refused[q.Key]; why != "" {
		q.Was, q.Why, ok = text, why, false
	}
	if ok && text != "" {
		if err := w.field(q, text); err != nil {
			q.Was, q.Why, ok = text, err.Error(), false
		}
	}
	if ok && (text != "" || q.Optional) {
		w.seen = append(w.seen, given{q, text, g.about})
		return text, true
	}
	if w.pending == nil {
		w.pending, w.before = &q, len(w.seen)
	}
	return "", false
}

// fromFile returns the answer in the file that is changed.
func (g *group) fromFile(q Question, it *item) (string, bool) {
	if it.load != nil {
		return it.load(g)
	}
	if n := at(g.n, it.path); n != nil {
		return it.fromNode(n), true
	}
	if q.Optional {
		return "", true
	}
	return q.Default, q.Default != ""
}

// A kind is one kind of parts that a shade is made of.
type kind struct {
	group, key, word string
	items            []item
	optional         bool
	skip             string
}

const another = "another"

// choose asks which part a shade is made of: one described before, or a new one.
func (g *group) choose(k kind) string {
	w := g.w
	name := another
	if len(w.known[k.group]) > 0 {
		name = g.ask(g.which(k))
	}
	if name == another {
		name = g.ask(g.naming(k))
	}
	if g.open || name == "" {
		setAt(g.n, k.key, nil)
		return ""
	}
	setAt(g.n, k.key, plain(name))
	if slices.Index(w.known[k.group], name) < 0 {
		w.known[k.group] = append(w.known[k.group], name)
	}
	w.describe(k, name)
	return name
}

// which is the item that chooses among the parts described before.
func (g *group) which(k kind) *item {
	names := g.offer(k)
	it := &item{path: k.key, schema: "shades." + k.key, ask: "Which " + k.word, words: same(append(names, another)...), optional: k.optional, skip: k.skip,
		help: "The likeliest comes first. Answer " + another + " to describe a new one.", def: always(append(names, another)[0])}
	if k.group == "brackets" && textAt(g.alike(), k.key) == "" {
		it.def = nil // the brackets described so far are for another mount
	}
	if k.group == "rollers" {
		it.help = "Rollers that are still free and reach come first, the shortest before the others. Answer " + another + " to describe one more."
		if len(names) > 0 && (g.w.free(names[0]) <= 0 || !g.reaches(names[0])) {
			it.def = always(another)
		}
	}
	return it
}

// naming is the item that names a new part.
func (g *group) naming(k kind) *item {
	it := &item{path: k.key + ".name", ask: "What do you call the " + k.word, help: "A short name of your own; shades refer to it, and it is written on the paper.",
		optional: k.optional, skip: k.skip}
	if !k.optional {
		it.def = func(g *group) string { return g.freshName(k) }
	}
	it.load = func(g *group) (string, bool) { return textAt(g.n, k.key), k.optional || textAt(g.n, k.key) != "" }
	it.also = func(g *group, text string) string {
		if text == another || slices.Contains(g.w.known[k.group], text) && !g.w.isName(g.at+k.key+".name", text) {
			return "is already used; write another name"
		}
		if why := g.w.byField("job", text); why != nil {
			return strings.TrimPrefix(why.Error(), fmt.Sprintf("%q ", form.Shorten(text)))
		}
		return ""
	}
	return it
}

// isName reports whether a name is the answer to this very question.
func (w *walk) isName(key, text string) bool {
	return w.answers[key] == text && !slices.ContainsFunc(w.seen, func(a given) bool { return a.Key != key && strings.HasSuffix(a.Key, ".name") && a.text == text })
}

// freshName returns a name that no part has yet.
func (g *group) freshName(k kind) string {
	name := k.word
	for n := 2; slices.Contains(g.w.known[k.group], name); n++ {
		name = fmt.Sprintf("%s-%d", k.word, n)
	}
	return name
}

// describe asks for everything about a part, once.
func (w *walk) describe(k kind, name string) {
	key := k.group + "." + name
	if w.asked[key] {
		return
	}
	w.asked[key] = true
	old := at(w.base, k.group)
	if old != nil {
		old = old.At(name)
	}
	g := &group{w: w, at: key + ".", about: k.word + " " + name, name: name, n: clone(old), old: old != nil}
	for i := range k.items {
		g.ask(&k.items[i])
	}
	if k.group == "brackets" {
		g.holes()
	}
	if g.open {
		w.open[k.group] = append(w.open[k.group], form.Entry{Key: name, Value: g.n})
	} else {
		setPart(w.parts[k.group], name, g.n)
	}
}

// setPart puts a part under its name, which may contain a dot.
func setPart(parts *form.Node, name string, v *form.Node) {
	for i := range parts.Entries {
		if parts.Entries[i].Key == name {
			parts.Entries[i].Value = v
			return
		}
	}
	parts.Entries = append(parts.Entries, form.Entry{Key: name, Value: v})
}
