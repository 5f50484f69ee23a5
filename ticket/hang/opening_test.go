package hang

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"shadewright/ticket/measure"
)

// sixteenths makes a list of readings in inches and sixteenths.
func sixteenths(n ...measure.Length) []measure.Length {
	l := make([]measure.Length, len(n))
	for i, x := range n {
		l[i] = x * in / 16
	}
	return l
}

func deep(l measure.Length) *measure.Length { return &l }

// Worked by hand from measuring guides, which rules_test.go names: widths 34-7/16,
// 34-3/8, 34-1/2.
func TestFitInside(t *testing.T) {
	o := Opening{
		Mount:  Inside,
		Widths: sixteenths(34*16+7, 34*16+6, 34*16+8), Heights: sixteenths(60*16, 60*16+1, 60*16),
		Depth: deep(3 * in),
	}
	f, found, err := UsualRules(measure.Inches).Fit(o, 0, inches)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name string
		got  measure.Length
		want string
		src  string
	}{
		{"width", f.Opening.Width, "34-3/8 in", touch + ": the narrowest of three widths"},
		{"width", f.Opening.Width, "34-3/8 in", payless + ": the narrowest of three widths"},
		{"tip to tip", f.TipToTip, "34-1/4 in", bracket + ", 1/8 in off"},
		{"tube", f.TubeTrim, "33-3/4 in", bracket + ", 5/8 in off"},
		{"finished width", f.Finished.Width, "33-1/4 in", bracket + ", 1-1/8 in off"},
		{"panel", f.PanelWidth, "33-1/4 in", "no side hems: as wide as the cloth"},
		{"gap", f.LightGap, "9/16 in", hideaway + ": 9/16 in at each side"},
		{"length", f.Finished.Length, "60 in", touch + ": the longest of three, 60-1/16, and down to 1/8"},
	} {
		if got := inches.Format(c.got); got != c.want {
			t.Errorf("%s %s; want %s (%s)", c.name, got, c.want, c.src)
		}
	}
	// 34-1/2 less 34-3/8 is 1/8: within 1/8 in, beyond 1/16 in.
	if levels(found) != "note opening.widths" {
		t.Errorf("findings %v; want a note on widths that differ by 1/8 in", found)
	}
	complete(t, found)
	if keys := stepKeys(f); keys != "width_top width_middle width_bottom width width tip_off tip_to_tip barrel_off tube_trim cloth_off finished_width "+
		"height_left height_middle height_right height height finished_length" {
		t.Errorf("steps %s", keys)
	}
	if f, _, _ = UsualRules(measure.Inches).Fit(o, in, inches); inches.Format(f.PanelWidth) != "35-1/4 in" {
		t.Errorf("panel with side hems of 1 in %s; want 35-1/4 in", inches.Format(f.PanelWidth))
	}
}

func stepKeys(f Fit) string {
	var keys []string
	for _, s := range f.Steps {
		keys = append(keys, s.Key)
	}
	return strings.Join(keys, " ")
}

// Rounding down: 34-7/16 is 34-3/8 to 1/8 in (paylessdecor.com).
func TestFitRoundsDown(t *testing.T) {
	o := Opening{Widths: sixteenths(551, 551, 551), Heights: sixteenths(960, 960, 960), Depth: deep(3 * in)}
	f, found, err := UsualRules(measure.Inches).Fit(o, 0, inches)
	if err != nil || inches.Format(f.Opening.Width) != "34-3/8 in" || len(found) != 0 {
		t.Errorf("%v, %v, %v; want 34-3/8 in and no finding", inches.Format(f.Opening.Width), found, err)
	}
}

// Guides disagree on the height: longest, or shortest.
func TestFitHeight(t *testing.T) {
	for _, c := range []struct {
		policy Policy
		want   measure.Length
		src    string
	}{
		{Longest, 1502 * mm, newYork + ": the longest for what hangs from the top"},
		{Shortest, 1500 * mm, payless + ": the smallest of three"},
		{Middle, 1501 * mm, noSource},
	} {
		r := UsualRules(measure.Millimetres)
		r.Height, r.HeightOff = c.policy, 10*mm
		f, _, err := r.Fit(Opening{Widths: []measure.Length{900 * mm, 900 * mm, 900 * mm},
			Heights: []measure.Length{1501 * mm, 1502 * mm, 1500 * mm}, Depth: deep(80 * mm)}, 0, metric)
		if err != nil || f.Finished.Length != c.want-10*mm {
			t.Errorf("%v: %v, %v; want %v less 10 mm (%s)", c.policy, f.Finished.Length, err, c.want, c.src)
		}
	}
}

// Outside, 1-1/2 in at each side (designers-touch.com/measuring.asp): 36 wide
// becomes 39; the roller is longer than its cloth by 1 in, within the 7/8 to 1 in
// of a guide, and the barrel by 1/2 in.
func TestFitOutside(t *testing.T) {
	r := UsualRules(measure.Inches)
	o := Opening{Mount: Outside, Widths: sixteenths(576, 575, 576), Heights: sixteenths(768, 768, 768), Overlap: r.Overlap}
	o.Overlap.Below = 2 * in
	f, found, err := r.Fit(o, 0, inches)
	if err != nil {
		t.Fatal(err)
	}
	if f.Finished != (measure.Size{Width: 39 * in, Length: 51*in + in/2}) || f.TubeTrim != 39*in+in/2 || f.TipToTip != 40*in || len(found) != 0 {
		t.Errorf("%+v, %v; want 39 × 51-1/2, tube 39-1/2, tips 40", f, found)
	}
}

func TestFitFindings(t *testing.T) {
	w := []measure.Length{900 * mm, 900 * mm, 900 * mm}
	h := []measure.Length{1200 * mm, 1200 * mm, 1200 * mm}
	with := func(l []measure.Length, i int, v measure.Length) []measure.Length {
		l = slices.Clone(l)
		l[i] = v
		return l
	}
	ok := Opening{Widths: w, Heights: h, Depth: deep(80 * mm)}
	for _, c := range []struct {
		name   string
		change func(*Opening)
		levels string
		words  string
	}{
		{"sound", func(o *Opening) {}, "", ""},
		{"spread", func(o *Opening) { o.Widths = with(w, 1, 904*mm) }, "caution opening.widths", "differ by 4 mm"},
		{"small spread", func(o *Opening) { o.Heights = with(h, 1, 1202*mm) }, "note opening.heights", "differ by 2 mm"},
		{"inch slip", func(o *Opening) { o.Widths = with(w, 2, 925*mm+400*um) }, "stop opening.widths",
			"the bottom width, 925.5 mm, is 25.5 mm more than the others, close to whole inches"},
		{"a whole inch less", func(o *Opening) { o.Widths = with(w, 0, 874*mm+600*um) }, "stop opening.widths",
			"the top width, 874.5 mm, is 25.5 mm less than the others, close to whole inches"},
		{"centimetres more", func(o *Opening) { o.Heights = with(h, 2, 1230*mm) }, "stop opening.heights",
			"the right height, 1230 mm, is 30 mm more than the others, close to whole centimetres"},
		{"off by no mark", func(o *Opening) { o.Heights = with(h, 1, 1215*mm) }, "stop opening.heights", "the middle height, 1215 mm, is 15 mm more than the others -> "},
		{"less by no mark", func(o *Opening) { o.Widths = with(w, 1, 885*mm) }, "stop opening.widths", "the middle width, 885 mm, is 15 mm less than the others -> "},
		{"inches for centimetres", func(o *Opening) { o.Heights = with(h, 1, 472*mm) }, "stop opening.heights", "inches given as centimetres"},
		{"feet for inches", func(o *Opening) { o.Widths = with(w, 1, 75*mm) }, "stop opening.widths", "feet given as inches"},
		{"no two agree", func(o *Opening) { o.Widths = []measure.Length{900 * mm, 930 * mm, 960 * mm} }, "caution opening.widths", "differ by 60 mm"},
		{"rounded inches for millimetres", func(o *Opening) { o.Widths = with(w, 0, 35*mm) }, "stop opening.widths", "inches given as millimetres"},
		{"thirty-five for thirty-five inches", func(o *Opening) { o.Widths = []measure.Length{35 * mm, 900 * mm, 35 * mm} }, "stop opening.widths", "the middle width, 900 mm, is unlike the others, 35 mm: inches given"},
		{"centimetre slip", func(o *Opening) { o.Heights = with(h, 0, 1180*mm) }, "stop opening.heights",
			"the left height, 1180 mm, is 20 mm less than the others, close to whole centimetres"},
		{"inches for millimetres", func(o *Opening) { o.Widths = with(w, 1, 35*mm+433*um) }, "stop opening.widths", "inches given as millimetres"},
		{"centimetres", func(o *Opening) { o.Heights = with(h, 1, 120*mm) }, "stop opening.heights", "centimetres given as millimetres"},
		{"all in the wrong unit", func(o *Opening) { o.Widths = []measure.Length{35 * mm, 35 * mm, 35 * mm} }, "stop opening.widths", "smaller than any shade"},
		{"all far too large", func(o *Opening) {
			o.Heights = []measure.Length{30 * measure.Metre, 30 * measure.Metre, 30 * measure.Metre}
		}, "stop opening.heights", "larger than any shade"},
		{"too small in height", func(o *Opening) { o.Heights = []measure.Length{48 * mm, 48 * mm, 48 * mm} }, "stop opening.heights", "a height of 48 mm is smaller"},
		{"too large in width", func(o *Opening) { o.Widths = []measure.Length{9 * measure.Metre, 9 * measure.Metre} }, "caution opening.widths, stop opening.widths", "a width of 9000 mm is larger"},
		{"two widths of two units", func(o *Opening) { o.Widths = []measure.Length{90 * mm, 900 * mm} }, "caution opening.widths, stop opening.widths", "the width 1, 90 mm, is unlike the others, 900 mm: centimetres"},
		{"one reading", func(o *Opening) { o.Widths = w[:1] }, "caution opening.widths", "only 1 of 3 width readings"},
		{"two readings of two units", func(o *Opening) { o.Heights = []measure.Length{1200 * mm, 47*mm + 250*um} },
			"caution opening.heights, stop opening.heights", "height 1"},
		{"no depth", func(o *Opening) { o.Depth = nil }, "unchecked opening.depth", "was not measured"},
		{"zero depth", func(o *Opening) { o.Depth = deep(0) }, "stop opening.depth", "nothing can hang inside"},
		{"outside needs no depth", func(o *Opening) { o.Depth, o.Mount = nil, Outside }, "", ""},
		{"one diagonal", func(o *Opening) { o.Diagonals[1] = 1500 * mm }, "caution opening.diagonals", "only one diagonal"},
		{"square", func(o *Opening) { o.Diagonals = [2]measure.Length{1502 * mm, 1499 * mm} }, "", ""},
		// 0.9 × 1.2 m is 11.6 square feet, so 3 mm is the limit.
		{"out of square", func(o *Opening) { o.Diagonals = [2]measure.Length{1502 * mm, 1498 * mm} }, "caution opening.diagonals", "leans to the left by 3.5 mm"},
		{"out of square the other way", func(o *Opening) { o.Diagonals = [2]measure.Length{1498 * mm, 1502 * mm} }, "caution opening.diagonals", "leans to the right by 3.5 mm"},
		{"out of square outside", func(o *Opening) { o.Mount, o.Diagonals = Outside, [2]measure.Length{1502 * mm, 1498 * mm} }, "note opening.diagonals", "differ by 4 mm"},
		{"diagonals of another opening", func(o *Opening) { o.Diagonals = [2]measure.Length{1540 * mm, 1540 * mm} }, "caution opening.diagonals", "40 mm more than the sides give"},
	} {
		o := ok
		c.change(&o)
		_, found, err := UsualRules(measure.Millimetres).Fit(o, 0, metric)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		complete(t, found)
		if levels(found) != c.levels || !strings.Contains(texts(found), c.words) {
			t.Errorf("%s: findings %q\n%s\nwant %q with %q", c.name, levels(found), texts(found), c.levels, c.words)
		}
	}
}

func TestFitRefuses(t *testing.T) {
	three := []measure.Length{900 * mm, 900 * mm, 900 * mm}
	for _, c := range []struct {
		o     Opening
		field string
		words string
	}{
		{Opening{Heights: three}, "opening.widths", "has no reading"},
		{Opening{Widths: three}, "opening.heights", "has no reading"},
		{Opening{Widths: []measure.Length{900 * mm, 0, 900 * mm}, Heights: three}, "opening.widths", "zero or missing"},
		{Opening{Widths: three, Heights: []measure.Length{-mm}}, "opening.heights", "negative"},
		{Opening{Widths: []measure.Length{20 * mm}, Heights: three}, "opening.widths", "leaves no cloth"},
		{Opening{Widths: three, Heights: three, Depth: deep(-mm)}, "opening.depth", "negative"},
		{Opening{Widths: three, Heights: three, Mount: Outside, Overlap: Overlap{Left: -mm}}, "opening.overlap.left", "negative"},
		{Opening{Widths: three, Heights: three, Mount: 9}, "opening.mount", "not a known mount"},
		{Opening{Widths: three, Heights: three, Diagonals: [2]measure.Length{5000 * mm, 1200 * mm}}, "opening.diagonals", "cannot be a diagonal"},
	} {
		_, _, err := UsualRules(measure.Millimetres).Fit(c.o, 0, metric)
		wantInputError(t, err, c.field, c.words)
	}
	r := UsualRules(measure.Inches)
	r.TipOff = 2 * in
	_, _, err := r.Fit(Opening{Widths: three, Heights: three}, 0, inches)
	wantInputError(t, err, "cloth_off", "tip_off must be the least")
}

// Inside, nothing is larger than the opening that it must go into, and the roller
// fits its cloth: cloth ≤ tube ≤ tip to tip ≤ narrowest reading.
func TestFitProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		system := rapid.SampledFrom([]measure.System{measure.Inches, measure.Millimetres}).Draw(t, "system")
		r := UsualRules(system)
		r.Height = rapid.SampledFrom([]Policy{Longest, Shortest, Middle}).Draw(t, "policy")
		o := Opening{Mount: rapid.SampledFrom([]Mount{Inside, Outside, Ceiling}).Draw(t, "mount"), Overlap: r.Overlap, Depth: deep(80 * mm)}
		for range rapid.IntRange(1, 5).Draw(t, "readings") {
			o.Widths = append(o.Widths, lengths(t, "w", 100*mm, 5000*mm))
			o.Heights = append(o.Heights, lengths(t, "h", 100*mm, 5000*mm))
		}
		f, found, err := r.Fit(o, 0, measure.Usual(system))
		if err != nil {
			t.Fatal(err)
		}
		if f.Finished.Width > f.TubeTrim || f.TubeTrim > f.TipToTip {
			t.Fatalf("cloth %v, tube %v, tips %v", f.Finished.Width, f.TubeTrim, f.TipToTip)
		}
		if o.Mount == Inside && (f.TipToTip > slices.Min(o.Widths) || f.Finished.Length > slices.Max(o.Heights)) {
			t.Fatalf("%+v does not go into %+v", f, o)
		}
		if o.Mount == Inside && r.Height == Shortest && f.Finished.Length > slices.Min(o.Heights) {
			t.Fatalf("%v is longer than the shortest height", f.Finished.Length)
		}
		if o.Mount != Inside && (f.Finished.Width < slices.Max(o.Widths) || f.Finished.Length < slices.Min(o.Heights)) {
			t.Fatalf("%+v does not cover %+v", f, o)
		}
		if o.Mount == Inside && len(found) > 0 && f.LightGap*2 != r.ClothOff {
			t.Fatalf("gap %v", f.LightGap)
		}
	})
}

// The steps add up: each result follows from the steps before it.
func TestStepsAddUp(t *testing.T) {
	r := UsualRules(measure.Inches)
	for _, m := range []Mount{Inside, Outside} {
		o := Opening{Mount: m, Widths: sixteenths(576, 575, 577), Heights: sixteenths(768, 767, 766), Overlap: r.Overlap, Depth: deep(3 * in)}
		f, _, err := r.Fit(o, 0, inches)
		if err != nil {
			t.Fatal(err)
		}
		sums := map[string]measure.Length{}
		for _, s := range f.Steps {
			sums[s.Kind.String()+" "+s.Key] = s.Value
			if s.Kind != Measured && s.Kind != Reached && s.Why == "" {
				t.Errorf("%v: step %s has no reason", m, s.Key)
			}
		}
		if m == Inside {
			for key, off := range map[string]string{"tip_to_tip": "tip_off", "tube_trim": "barrel_off", "finished_width": "cloth_off"} {
				if sums["reached "+key] != sums["rounded width"]-sums["taken off "+off] {
					t.Errorf("%s is not the width less %s: %v", key, off, sums)
				}
			}
			continue
		}
		if sums["reached finished_width"] != sums["rounded width"]+sums["added overlap_left"]+sums["added overlap_right"] ||
			sums["reached tip_to_tip"] != sums["reached finished_width"]+sums["added tip_over"] {
			t.Errorf("outside does not add up: %v", sums)
		}
	}
}

// Every rule and limit has a reason, and a value that the shop chose says so.
func TestReasons(t *testing.T) {
	for _, r := range Reasons() {
		if r.Why == "" || why(r.Setting, true) != r.Why {
			t.Errorf("%s has no reason of its own", r.Setting)
		}
	}
	for _, s := range []string{"width_step", "length_step", "tip_off", "barrel_off", "cloth_off", "height_off", "agree", "differ", "slip", "smallest", "largest"} {
		if strings.HasPrefix(UsualRules(measure.Inches).why(s), "shop setting") || strings.HasPrefix(UsualRules(measure.Millimetres).why(s), "shop setting") {
			t.Errorf("the usual %s counts as the shop's own", s)
		}
	}
	for _, s := range []string{"wraps_caution", "wraps_stop", "gap", "lift", "fly", "sag", "wide_shade", "wide_tube", "rate_error"} {
		if strings.HasPrefix(UsualLimits(measure.Inches).why(s), "shop setting") || strings.HasPrefix(UsualLimits(measure.Millimetres).why(s), "shop setting") {
			t.Errorf("the usual %s counts as the shop's own", s)
		}
	}
	r := UsualRules(measure.Inches)
	r.ClothOff = in
	if got := r.why("cloth_off"); got != "shop setting cloth_off" {
		t.Errorf("a changed rule says %q", got)
	}
}
