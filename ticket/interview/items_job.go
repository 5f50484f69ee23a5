package interview

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"shadewright/ticket/form"
)

const (
	yes = "yes"
	no  = "no"
)

// jobItems ask about the whole job.
var jobItems = []item{
	{path: "job", schema: "job", ask: "What is the job called", help: "The name stands on all paper and on the board.", example: [2]string{"Heron Landing bunkhouse", "Heron Landing bunkhouse"}},
	{path: "client", schema: "client", ask: "Who is it for", help: "The name on the tickets.", optional: true},
	{path: "due", schema: "due", ask: "When is it due", optional: true, tidy: tidyDay, say: sayDay, example: [2]string{"June 25 or 2027-06-25", "25 June or 2027-06-25"},
		help: "The day by which the shades must hang.", more: "Write June 25, 25 June 2027, 2027-06-25 or 6/25/2027. Without a year, the next such day is meant. 6/5/2027 could be two days, so write the month as a word."},
	{path: "units", schema: "units", ask: "Which unit do you measure in", words: same("in", "mm"), def: func(g *group) string { return g.w.opt.Units.String() },
		alias: map[string]string{"inch": "in", "inches": "in", `"`: "in", "pulgadas": "in", "millimetres": "mm", "millimeters": "mm", "millimetre": "mm", "millimeter": "mm", "milímetros": "mm", "metric": "mm"},
		help:  "The unit of a number without a unit. You may always write the other one, such as 12 mm.", more: "Measure and cut with the same tape: in prints sixteenths of an inch, mm prints half millimetres. If you change it later, each length keeps its size."},
	{path: "paper", schema: "paper", ask: "What paper is in the printer", def: func(g *group) string { return g.w.opt.Paper },
		help: "A name such as letter, a4, legal or tabloid, or a width x height.", more: "The full-scale sheets are laid out for this paper. A larger paper needs fewer joints."},
}

// anotherShade ends the job, or starts one more shade.
var anotherShade = item{path: "more", ask: "Is there another shade", help: "Answer no to write the job file.", words: same(yes, no), def: always(yes),
	load: func(g *group) (string, bool) {
		var n int
		_, err := fmt.Sscanf(g.at, "shades[%d].", &n)
		if err == nil && g.w.oldShade(n+1) == nil {
			return no, true
		}
		return yes, err == nil
	}}

func tidyDay(v *Interview, text string) (string, error) {
	today := v.opt.Today
	if today.IsZero() {
		today = time.Now()
	}
	t, f := form.Day(text, today)
	if f != nil {
		return "", errors.New(strings.Join([]string{fmt.Sprintf("%q %s", form.Shorten(text), f.Problem), f.Fix}, "; "))
	}
	return t.Format(time.DateOnly), nil
}

func sayDay(text string) string {
	t, err := time.Parse(time.DateOnly, text)
	if err != nil {
		return text
	}
	return form.LongDay(t)
}
