package hang

import (
	"fmt"
	"math"
	"slices"

	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
	"shadewright/ticket/square"
)

// Keys of the job file for findings about an opening.
const (
	fieldWidths    = "opening.widths"
	fieldHeights   = "opening.heights"
	fieldDiagonals = "opening.diagonals"
	fieldDepth     = "opening.depth"
)

// readings judges the widths and heights of an opening.
func (r Rules) readings(found *finding.List, o Opening, st measure.Style) {
	for _, s := range []series{{fieldWidths, widthWords, o.Widths}, {fieldHeights, heightWords, o.Heights}} {
		s.count(found)
		if s.size(found, r, st) || s.slip(found, r, st) {
			continue
		}
		s.spread(found, r, st)
	}
}

// A series is the readings of one dimension of an opening.
type series struct {
	field    string
	words    seriesWords
	readings []measure.Length
}

// seriesWords holds the words for a series.
type seriesWords struct {
	each                          [3]message.ID // for three readings
	nth                           message.ID    // for any other number of readings
	few, small, large, readingsBy message.ID
}

var widthWords = seriesWords{
	each: [3]message.ID{"hang.the-top-width", "hang.the-middle-width", "hang.the-bottom-width"}, nth: "hang.the-width",
	few:   "hang.few-widths",
	small: "hang.width-too-small", large: "hang.width-too-large",
	readingsBy: "hang.width-readings-differ",
}

var heightWords = seriesWords{
	each: [3]message.ID{"hang.the-left-height", "hang.the-middle-height", "hang.the-right-height"}, nth: "hang.the-height",
	few:   "hang.few-heights",
	small: "hang.height-too-small", large: "hang.height-too-large",
	readingsBy: "hang.height-readings-differ",
}

// name returns the name of reading i.
func (s series) name(i int) message.Message {
	if len(s.readings) == len(s.words.each) {
		return message.Of(s.words.each[i])
	}
	return message.Of(s.words.nth, i+1)
}

func (s series) count(found *finding.List) {
	if n := len(s.readings); n < 3 {
		found.Add(finding.Finding{
			Level: finding.Caution, Field: s.field,
			Text:   message.Of(s.words.few, n),
			Value:  fmt.Sprint(n),
			Limit:  "3",
			Source: "measuring guides: measure each way in three places",
			Remedy: message.Of("hang.measure-missing-place"),
		})
	}
}

// size reports an opening that is implausibly small or large.
func (s series) size(found *finding.List, r Rules, st measure.Style) bool {
	short, long := slices.Min(s.readings), slices.Max(s.readings)
	f := finding.Finding{Level: finding.Stop, Field: s.field,
		Remedy: message.Of("hang.check-number-and-unit", st.Decimal(25.4, 1))}
	switch {
	case long < r.Smallest:
		f.Text = message.Of(s.words.small, st.Format(long))
		f.Value, f.Limit, f.Source = st.Format(long), st.Format(r.Smallest), r.why("smallest")
	case short > r.Largest:
		f.Text = message.Of(s.words.large, st.Format(short))
		f.Value, f.Limit, f.Source = st.Format(short), st.Format(r.Largest), r.why("largest")
	default:
		return false
	}
	found.Add(f)
	return true
}

// slip reports the one reading that differs from the others, because it was made in
// another unit or misread by a mark of the tape.
func (s series) slip(found *finding.List, r Rules, st measure.Style) bool {
	i, ok := s.odd(r)
	if !ok {
		return false
	}
	l := s.readings[i]
	other := s.rest(i)
	name := s.name(i)
	f := finding.Finding{
		Level: finding.Stop, Field: s.field, Source: r.why("slip"), Limit: st.Format(r.Slip),
		Value: st.Format(l), Remedy: message.Of("hang.measure-again"),
	}
	switch unit := otherUnit(l, other); {
	case unit != "":
		f.Text = message.Of("hang.unlike-others", name, st.Format(l), st.Format(other), message.Of(unit))
		f.Remedy = message.Of("hang.check-its-unit")
	case l > other:
		f.Text = message.Of(moreThanOthers[marksOf(l-other)], name, st.Format(l), st.Format(l-other))
	default:
		f.Text = message.Of(lessThanOthers[marksOf(other-l)], name, st.Format(l), st.Format(other-l))
	}
	found.Add(f)
	return true
}

// odd returns the reading that is at least Slip away from all others while the
// others agree. Of two readings, neither is the odd one unless the units differ.
func (s series) odd(r Rules) (int, bool) {
	if len(s.readings) == 2 {
		return 0, otherUnit(s.readings[0], s.readings[1]) != ""
	}
	for i, l := range s.readings {
		var others []measure.Length
		others = append(append(others, s.readings[:i]...), s.readings[i+1:]...)
		if len(others) < 2 {
			return 0, false
		}
		low, high := slices.Min(others), slices.Max(others)
		if high-low <= r.Differ && (l <= low-r.Slip || l >= high+r.Slip) {
			return i, true
		}
	}
	return 0, false
}

// rest returns the other reading that is nearest to reading i.
func (s series) rest(i int) measure.Length {
	best := measure.Length(math.MaxInt64)
	var near measure.Length
	for j, l := range s.readings {
		if d := (l - s.readings[i]).Abs(); j != i && d < best {
			best, near = d, l
		}
	}
	return near
}

// otherUnit names the mistake in the unit that turns b into a, within 3 %.
func otherUnit(a, b measure.Length) message.ID {
	ratio := float64(a) / float64(b)
	for _, u := range []struct {
		factor float64
		text   message.ID
	}{
		{25.4, "hang.unit-inches-mm"},
		{10, "hang.unit-cm-mm"},
		{2.54, "hang.unit-inches-cm"},
		{12, "hang.unit-feet-inches"},
	} {
		if math.Abs(ratio/u.factor-1) < 0.03 || math.Abs(ratio*u.factor-1) < 0.03 {
			return u.text
		}
	}
	return ""
}

// marks are the marks that a tape shows large: people easily misread by one of
// them.
type marks uint8

const (
	noMarks marks = iota
	wholeInches
	wholeCentimetres
)

// The texts about the odd reading, by the marks that it is off by.
var (
	moreThanOthers = [...]message.ID{
		"hang.more-than-others",
		"hang.more-than-others-inches",
		"hang.more-than-others-cm",
	}
	lessThanOthers = [...]message.ID{
		"hang.less-than-others",
		"hang.less-than-others-inches",
		"hang.less-than-others-cm",
	}
)

// marksOf returns the marks of which a difference is a whole number.
func marksOf(d measure.Length) marks {
	const near = measure.Inch / 16
	if d >= measure.Inch-near && (d-d.Round(measure.Inch, measure.Nearest)).Abs() <= near {
		return wholeInches
	}
	if d >= measure.Centimetre-measure.Millimetre && (d-d.Round(measure.Centimetre, measure.Nearest)).Abs() <= measure.Millimetre {
		return wholeCentimetres
	}
	return noMarks
}

// spread judges how far the readings differ.
func (s series) spread(found *finding.List, r Rules, st measure.Style) {
	d := slices.Max(s.readings) - slices.Min(s.readings)
	level, limit, setting := finding.Caution, r.Differ, "differ"
	if d <= r.Differ {
		level, limit, setting = finding.Note, r.Agree, "agree"
	}
	if d <= limit {
		return
	}
	found.Add(finding.Finding{
		Level: level, Field: s.field, Value: st.Fine(d), Limit: st.Fine(limit), Source: r.why(setting),
		Text:   message.Of(s.words.readingsBy, st.Fine(d)),
		Remedy: message.Of("hang.consider-outside-if-differ"),
	})
}

// recess judges the depth alone; [Place] compares it with the roll.
func (r Rules) recess(found *finding.List, o Opening, st measure.Style) {
	switch {
	case o.Mount != Inside:
	case o.Depth == nil:
		found.Add(finding.Finding{
			Level: finding.Unchecked, Field: fieldDepth,
			Text:   message.Of("hang.depth-unknown"),
			Source: finding.NoGuess,
			Remedy: message.Of("hang.measure-depth"),
		})
	case *o.Depth == 0:
		found.Add(finding.Finding{
			Level: finding.Stop, Field: fieldDepth,
			Text:  message.Of("hang.depth-zero"),
			Value: st.Format(0), Source: "geometry",
			Remedy: message.Of("hang.fix-depth"),
		})
	}
}

// diagonals judges whether the opening is square.
func (r Rules) diagonals(found *finding.List, o Opening, f *Fit, st measure.Style) error {
	one, two := o.Diagonals[0], o.Diagonals[1]
	if one == 0 && two == 0 {
		return nil
	}
	if one == 0 || two == 0 {
		found.Add(finding.Finding{
			Level: finding.Caution, Field: fieldDiagonals,
			Text:   message.Of("hang.one-diagonal"),
			Source: "geometry", Remedy: message.Of("hang.measure-other-diagonal"),
		})
		return nil
	}
	size := measure.Size{Width: mean(o.Widths), Length: mean(o.Heights)}
	q := square.Quad{Size: size, Diagonals: o.Diagonals, Field: fieldDiagonals}
	s, err := q.Measure(r.Square.For(size), st)
	if err != nil {
		return err
	}
	f.Square = &s
	level := finding.Caution
	if o.Mount != Inside {
		level = finding.Note
	}
	if s.Difference > s.Allowed {
		found.Add(finding.Finding{
			Level: level, Field: fieldDiagonals,
			Text: message.Of(s.Leans(
				"hang.opening-leans-left",
				"hang.opening-leans-right",
			), st.Fine(s.Difference), st.Fine(s.TopOver)),
			Value: st.Fine(s.Difference), Limit: st.Fine(s.Allowed), Source: r.squareWhy(),
			Remedy: message.Of("hang.expect-uneven-gap"),
		})
	}
	s.Misfits(found, q, st)
	return nil
}

func mean(l []measure.Length) measure.Length {
	var sum measure.Length
	for _, x := range l {
		sum += x
	}
	return sum / measure.Length(len(l))
}
