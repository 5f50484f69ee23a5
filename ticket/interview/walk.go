package interview

import (
	"fmt"
	"slices"
	"strings"

	"shadewright/ticket/form"
	"shadewright/ticket/goods"
	"shadewright/ticket/measure"
)

// A walk runs through the interview from the start. It uses up the answers and
// stops at the first question without one; after that it asks no more.
type walk struct {
	*Interview
	pos     int // answers used so far
	pending *Question
	units   measure.System

	top    *form.Node // the job file, as far as its groups are complete
	parts  map[string]*form.Node
	shades []*form.Node
}

func (v *Interview) walk() *walk {
	w := &walk{Interview: v, top: keysNode(), parts: map[string]*form.Node{}}
	w.job()
	for _, k := range kinds {
		w.parts[k.group] = keysNode()
	}
	w.allShades()
	for _, k := range kinds {
		if len(w.parts[k.group].Entries) > 0 {
			put(w.top, k.group, w.parts[k.group])
		}
	}
	if len(w.shades) > 0 {
		put(w.top, "shades", &form.Node{Shape: form.List, Items: w.shades})
	}
	return w
}

// complete counts the parts and shades that have all their answers.
func (w *walk) complete() int {
	n := len(w.shades)
	for _, k := range kinds {
		n += len(w.parts[k.group].Entries)
	}
	return n
}

func keysNode() *form.Node { return &form.Node{Shape: form.Keys} }

func put(at *form.Node, key string, v *form.Node) {
	at.Entries = append(at.Entries, form.Entry{Key: key, Value: v})
}

// putText writes a key unless its text is empty.
func putText(at *form.Node, key, text string) {
	if text != "" {
		put(at, key, &form.Node{Shape: form.Plain, Text: text})
	}
}

// ask returns the answer to a question, or "" if the interview has not come that
// far.
func (w *walk) ask(q Question) string {
	text, open := w.given(q.Key)
	if open {
		w.pending = &q
	}
	return text
}

// given returns the answer to a question. open is true if this is the question to
// ask next.
func (w *walk) given(key string) (text string, open bool) {
	switch {
	case w.pending != nil:
		return "", false
	case w.pos < len(w.answers) && w.answers[w.pos].Key == key:
		w.pos++
		return w.answers[w.pos-1].Text, false
	}
	return "", true
}

// field asks for a field of the job file. The help is the field's own.
func (w *walk) field(key, path, ask string, change func(*Question)) string {
	text, open := w.given(key)
	if !open {
		return text
	}
	f := w.fields.At(path)
	q := Question{Key: key, Ask: ask, Help: f.Doc + " For example " + strings.TrimSuffix(f.Example, ".") + ".", path: path}
	_, q.Length = f.Kind.(form.Length)
	q.Choices = form.Choices(f.Kind)
	if change != nil {
		change(&q)
	}
	w.pending = &q
	return ""
}

func optional(q *Question) { q.Optional = true }

func byDefault(text string) func(*Question) { return func(q *Question) { q.Default = text } }

// job asks about the whole job.
func (w *walk) job() {
	putText(w.top, "job", w.field("job", "job", "What is the job called", nil))
	putText(w.top, "id", w.opt.ID.String())
	putText(w.top, "client", w.field("client", "client", "Who is it for", optional))
	putText(w.top, "due", w.field("due", "due", "When is it due", optional))
	units := w.field("units", "units", "Which unit do you measure in", byDefault(w.opt.Units.String()))
	w.units = measure.Millimetres
	if units == measure.Inches.String() {
		w.units = measure.Inches
	}
	putText(w.top, "units", units)
	putText(w.top, "paper", w.field("paper", "paper", "What paper is in the printer", byDefault(w.opt.Paper)))
}

// A kind is one kind of parts that a shade is made of.
type kind struct {
	group, key, word string
	ask              func(w *walk, at, name string) *form.Node
}

var kinds = []kind{
	{"goods", "goods", "goods", (*walk).goods},
	{"rollers", "roller", "roller", (*walk).roller},
	{"slats", "slat", "slat", (*walk).slat},
}

const (
	another = "another"
	yes     = "yes"
	no      = "no"
)

// allShades asks for one shade after another.
func (w *walk) allShades() {
	last := map[string]string{}
	for n := 1; w.pending == nil; n++ {
		at := fmt.Sprintf("shade %d, ", n)
		chosen := map[string]string{}
		for _, k := range kinds {
			chosen[k.group] = w.choose(k, at, last[k.group])
		}
		last = chosen
		w.shade(at, chosen)
		more := w.ask(Question{Key: at + "more", Ask: "Is there another shade", Help: "Answer no to write the job file.", Default: yes, Choices: []string{yes, no}})
		if more == no {
			return
		}
	}
}

// choose asks which part a shade is made of. It offers the last part first, then
// all others described so far, then a new one.
func (w *walk) choose(k kind, at, last string) string {
	known := w.parts[k.group]
	if last != "" {
		choices := []string{last}
		for _, e := range known.Entries {
			if e.Key != last {
				choices = append(choices, e.Key)
			}
		}
		name := w.ask(Question{Key: at + k.key, Ask: "Which " + k.word, Help: "The one used last comes first. Answer " + another + " to describe a new one.",
			Default: last, Choices: append(choices, another)})
		if name != another {
			return name
		}
	}
	name := w.ask(Question{Key: at + k.key + " name", Ask: "What do you call the " + k.word, Help: "A short name of your own; shades refer to it.", Default: w.freshName(k),
		path: "job", also: func(s string) string {
			if known.At(s) != nil || s == another {
				return "is already used; write another name"
			}
			return ""
		}})
	if n := k.ask(w, at+k.key+" "+name+", ", name); w.pending == nil {
		put(known, name, n)
	}
	return name
}

// freshName returns a name that no part has yet.
func (w *walk) freshName(k kind) string {
	name := k.word
	for n := 2; w.parts[k.group].At(name) != nil; n++ {
		name = fmt.Sprintf("%s-%d", k.word, n)
	}
	return name
}

func (w *walk) goods(at, _ string) *form.Node {
	n := keysNode()
	put := func(key, ask string, change func(*Question)) {
		putText(n, key, w.field(at+key, "goods."+key, ask, change))
	}
	put("kind", "What kind of cloth is it", byDefault(goods.Kinds()[0]))
	put("width", "How wide is the roll of cloth", nil)
	put("selvage", "How wide is the selvage at each side", byDefault("0"))
	put("thickness", "How thick is the cloth", optional)
	put("mass", "How heavy is the cloth per area", optional)
	put("lay", "How may panels lie on the cloth", byDefault("lengthwise"))
	return n
}

func (w *walk) roller(at, _ string) *form.Node {
	n := keysNode()
	put := func(key, ask string) { putText(n, key, w.field(at+key, "rollers."+key, ask, nil)) }
	put("tube", "What is the outside diameter of the tube")
	putText(n, "count", w.field(at+"count", "rollers.count", "How many of these rollers do you have", byDefault("1")))
	drawn := w.ask(Question{Key: at + "telescopes", Ask: "Does the tube telescope", Help: "A telescoping tube is two tubes, one inside the other.", Default: yes, Choices: []string{yes, no}})
	if drawn == no {
		put("length", "How long is the tube")
	} else {
		put("shortest", "How short can you set the tube")
		put("longest", "How long can you set the tube")
	}
	return n
}

func (w *walk) slat(at, _ string) *form.Node {
	n := keysNode()
	put := func(key, ask string) { putText(n, key, w.field(at+key, "slats."+key, ask, nil)) }
	form := w.ask(Question{Key: at + "form", Ask: "Is the slat flat or round", Help: "A round slat is a rod.", Default: "flat", Choices: []string{"flat", "round"}})
	if form == "round" {
		put("diameter", "What is the rod's diameter")
	} else {
		put("width", "How wide is the slat")
		put("thickness", "How thick is the slat")
	}
	return n
}

// shade asks about the shade itself.
func (w *walk) shade(at string, chosen map[string]string) {
	place := w.field(at+"place", "shades.place", "Where does the shade hang", optional)
	n := keysNode()
	putText(n, "id", w.field(at+"id", "shades.id", "What is the shade's short name", func(q *Question) {
		q.Default = w.freshID(place)
		q.also = func(s string) string {
			if w.hasID(s) {
				return "is the name of another shade; write another name, or go back and change that shade's quantity"
			}
			return ""
		}
	}))
	putText(n, "place", place)
	for _, k := range kinds {
		putText(n, k.key, chosen[k.group])
	}
	key, size := w.size(at)
	putText(n, "quantity", w.field(at+"quantity", "shades.quantity", "How many shades like this", byDefault("1")))
	put(n, key, size)
	putText(n, "roll", w.field(at+"roll", "shades.roll", "On which side of the tube does the cloth fall", byDefault("standard")))
	putText(n, "note", w.field(at+"note", "shades.note", "Is there anything the bench should know", optional))
	if w.pending == nil {
		w.shades = append(w.shades, n)
	}
}

// size asks for the finished size, or for the opening.
func (w *walk) size(at string) (key string, n *form.Node) {
	n = keysNode()
	from := w.ask(Question{Key: at + "from", Ask: "Did you measure the finished shade or the opening", Default: "finished", Choices: []string{"finished", "opening"},
		Help: "The finished size is the visible cloth. Shadewright can work it out from the opening."})
	if from != "opening" {
		for _, side := range []string{"width", "length"} {
			putText(n, side, w.field(at+side, "shades.finished."+side, "Finished "+side, nil))
		}
		return "finished", n
	}
	putText(n, "mount", w.field(at+"mount", "shades.opening.mount", "What are the brackets fixed to", byDefault("inside")))
	w.readings(n, at, series{"widths", "Width of the opening", []string{"at the top", "in the middle", "at the bottom"}, 1})
	w.readings(n, at, series{"heights", "Height of the opening", []string{"at the left", "in the middle", "at the right"}, 1})
	w.readings(n, at, series{"diagonals", "Diagonal of the opening", []string{"from the top left", "from the top right"}, 0})
	putText(n, "depth", w.field(at+"depth", "shades.opening.depth", "How deep is the recess", optional))
	return "opening", n
}

// A series is several readings of one length, of which the first few are required.
type series struct {
	key, ask string
	where    []string
	needed   int
}

// readings asks for a series. If one diagonal is given, the other is required too.
func (w *walk) readings(n *form.Node, at string, s series) {
	list := &form.Node{Shape: form.List}
	// Each question takes one reading, but the field's own example shows all of
	// them.
	help := w.fields.At("shades.opening."+s.key).Doc + " Enter one at a time, for example 34-3/8 in."
	if w.units == measure.Millimetres {
		help = strings.TrimSuffix(help, "34-3/8 in.") + "873 mm."
	}
	for i, place := range s.where {
		must := i < s.needed || s.key == "diagonals" && len(list.Items) > 0
		text := w.field(fmt.Sprintf("%s%s %d", at, s.key, i+1), "shades.opening."+s.key, s.ask+" "+place, func(q *Question) {
			q.Optional = !must
			q.Help = help
		})
		if text != "" {
			list.Items = append(list.Items, &form.Node{Shape: form.Plain, Text: text})
		} else if s.key == "diagonals" {
			break
		}
	}
	if len(list.Items) > 0 {
		put(n, s.key, list)
	}
}

func (w *walk) hasID(id string) bool {
	return slices.ContainsFunc(w.shades, func(n *form.Node) bool { return strings.EqualFold(n.At("id").Text, id) })
}

// freshID makes a short name from the place, or from a number.
func (w *walk) freshID(place string) string {
	base := form.Slug(place)
	if base == "" {
		base = fmt.Sprintf("shade-%d", len(w.shades)+1)
	}
	id := base
	for n := 2; w.hasID(id); n++ {
		id = fmt.Sprintf("%s-%d", base, n)
	}
	return id
}
