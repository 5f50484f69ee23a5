package interview

import (
	"fmt"
	"slices"
	"strings"

	"shadewright/ticket/form"
	"shadewright/ticket/measure"
)

// settle returns the earlier answer or the default for an empty answer. It completes
// the beginning of a choice, corrects its capitals, and writes a date in figures.
func (v *Interview) settle(q Question, text string) (string, error) {
	text = strings.TrimSpace(text)
	switch {
	case text == Pass && q.Optional, text == "" && q.Was == Pass:
		return "", nil
	case text == "" && q.Was != "":
		return q.Was, nil
	case text == "":
		return q.Default, nil
	}
	if q.item != nil && q.item.tidy != nil {
		return q.item.tidy(v, text)
	}
	return q.choice(text), nil
}

// choice completes the beginning of a choice. A text that could mean two is returned
// as it is.
func (q Question) choice(text string) string {
	low := strings.ToLower(text)
	if q.item != nil && q.item.alias[low] != "" {
		return q.item.alias[low]
	}
	for _, c := range q.Choices {
		if strings.EqualFold(c, text) {
			return c
		}
	}
	if found := q.begins(text); len(found) == 1 {
		return found[0]
	}
	return text
}

// begins returns the choices that begin with a text.
func (q Question) begins(text string) (found []string) {
	for _, c := range q.Choices {
		if strings.HasPrefix(strings.ToLower(c), strings.ToLower(text)) {
			found = append(found, c)
		}
	}
	return found
}

// field checks the form of an answer.
func (v *Interview) field(q Question, text string) error {
	if slices.Contains(q.Choices, text) {
		return nil
	}
	if two := q.begins(text); len(two) > 1 {
		return fmt.Errorf("%q could mean %s; write more of it", form.Shorten(text), strings.Join(two, " or "))
	}
	if q.Choices != nil && !q.Free {
		fix := "write " + strings.Join(q.Choices, ", ")
		if near := form.Nearest(text, q.Choices); near != "" {
			fix = "did you mean " + near + "?"
		}
		return fmt.Errorf("%q is not one of the words allowed here; %s", form.Shorten(text), fix)
	}
	if q.item != nil {
		if err := v.byItem(q.item, text); err != nil {
			return err
		}
	}
	if q.also != nil {
		if why := q.also(text); why != "" {
			return fmt.Errorf("%q %s", form.Shorten(text), why)
		}
	}
	return nil
}

// byItem checks an answer by the field of the job file that it fills.
func (v *Interview) byItem(it *item, text string) error {
	if !it.several() {
		return v.byField(it.schema, text)
	}
	texts, err := measure.Split(text)
	if pe, ok := err.(*measure.ParseError); ok {
		return fmt.Errorf("%q %s; %s", pe.Text, pe.Problem, pe.Fix)
	}
	names := it.names
	if len(texts) < it.least || len(texts) > len(names) {
		want := fmt.Sprint(it.least)
		if it.least < len(names) {
			want = fmt.Sprintf("%d to %d", it.least, len(names))
		}
		return fmt.Errorf("%q has %s; write %s: %s, for example %s", form.Shorten(text), measure.Count(len(texts), "length"), want, strings.Join(names, ", "), it.eg(v.units))
	}
	var all []measure.Length
	for i, t := range texts {
		path := it.schema
		if len(it.parts) > 0 {
			path += "." + it.parts[i]
		}
		if err := v.byField(path, t); err != nil {
			return err
		}
		l, err := measure.Parse(t, v.units)
		if err != nil {
			return err // the field has accepted it, so this cannot happen
		}
		all = append(all, l)
	}
	// Three readings of one opening never differ by half; a slip of the keys does, such
	// as 27 12 for 27 1/2.
	if len(it.parts) == 0 && 2*slices.Max(all) > 3*slices.Min(all) {
		return fmt.Errorf("%q is understood as %s, too far apart for one opening; write for example %s", form.Shorten(text), strings.Join(texts, " and "), it.eg(v.units))
	}
	return nil
}

func (v *Interview) byField(path, text string) error {
	if path == "" {
		return nil
	}
	if f := v.fields.At(path).Check(text, v.units); f != nil {
		return fmt.Errorf("%q %s; %s", form.Shorten(text), f.Problem, f.Fix)
	}
	return nil
}

// withUnits adds the unit to each bare number of an answer.
func withUnits(text string, u measure.System) string {
	texts, err := measure.Split(text)
	if err != nil || len(texts) == 0 {
		return text
	}
	for i, t := range texts {
		if _, bare := measure.Parse(t, measure.Undeclared); bare != nil {
			if _, err := measure.Parse(t, u); err == nil {
				texts[i] = t + " " + u.String()
			}
		}
	}
	return strings.Join(texts, "; ")
}

// understood repeats an answer for the person, a length in both units.
func (v *Interview) understood(q Question, text string) string {
	switch {
	case text == "":
		return "passed over"
	case q.item == nil || !q.item.length || slices.Contains(q.Choices, text):
		if q.item != nil && q.item.say != nil {
			return q.item.say(text)
		}
		return text
	}
	texts := []string{text}
	if q.item.several() {
		texts, _ = measure.Split(text) // it was checked
	}
	var out []string
	for i, t := range texts {
		l, err := measure.Parse(t, v.units)
		if err != nil {
			return text // a unit changed below it; it will be asked again
		}
		s := Both(l, v.units)
		if len(texts) > 1 && len(q.item.parts) > 0 {
			s = q.item.names[i] + " " + form.LengthText(l, v.units)
		} else if len(texts) > 1 {
			s = form.LengthText(l, v.units)
		}
		out = append(out, s)
	}
	if len(out) > 1 {
		return strings.Join(out, ", ") + " " + plainUnit(v.units)
	}
	return strings.Join(out, ", ")
}

func plainUnit(u measure.System) string {
	return map[measure.System]string{measure.Inches: "(in)", measure.Millimetres: "(mm)"}[u]
}

// Both writes a length in the person's unit, exactly, and in the other unit: 31-5/8
// in ≈ 803.3 mm. The other unit is rounded to what its rule shows.
func Both(l measure.Length, u measure.System) string {
	other := measure.Style{System: measure.Millimetres, Metric: measure.Millimetre / 10}
	if u == measure.Millimetres {
		other = measure.Style{System: measure.Inches, Denominator: 32}
	}
	w := other.Words(l, measure.Nearest)
	if l < measure.Inch/32 {
		return form.LengthText(l, measure.Undeclared) // no rule shows it
	}
	sign := " = "
	if w.Rounded {
		sign = " ≈ "
	}
	own := form.LengthText(l, u)
	if !strings.HasSuffix(own, "mm") {
		own += " " + u.String()
	}
	if u == measure.Inches && strings.HasSuffix(own, "mm") { // typed in the other unit
		return own + " ≈ " + measure.Usual(u).Format(l)
	}
	return own + sign + w.String()
}
