package ticket_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"shadewright/ticket"
	"shadewright/ticket/finding"
	"shadewright/ticket/goods"
	"shadewright/ticket/measure"
	"shadewright/ticket/route"
)

const (
	in = measure.Inch
	mm = measure.Millimetre
)

// usual is a shade of 25 × 35 in with the usual allowances (common practice, no source).
func usual() ticket.Shade {
	return ticket.Shade{
		ID: "bunk", Quantity: 1,
		Finished: measure.Size{Width: 25 * in, Length: 35 * in}, // common practice, no source
		AsBefore: true,
		Goods:    ticket.Goods{Name: "mesh", Kind: goods.CoatedMesh, Width: 54 * in, Selvage: [2]measure.Length{in / 2, in / 2}, Thickness: 600 * measure.Micrometre, Mass: 440 * measure.GramPerSquareMetre},
		Roller:   ticket.Roller{Name: "donor", Tube: in * 9 / 8, Shortest: 20 * in, Longest: 36 * in, ByTrial: true},
		Slat:     ticket.Slat{Name: "flat", Width: in, Thickness: in * 3 / 32, Mass: 160 * measure.GramPerMetre},
		Allow:    ticket.Allow{Wrap: 7 * in, Hem: in / 2, Pocket: in * 5 / 4, StitchInset: in / 8, TubeOver: in / 8, SlatGap: in / 8},
		Sewing:   ticket.Sewing{StitchLength: 6 * mm, Thread: 92, BackTack: in / 2, Waste: 15},
	}
}

func options() ticket.Options {
	return ticket.Options{
		Limits: ticket.Limits{Snug: in / 16, TrimMargin: in / 2},
		Route:  route.Usual(),
	}
}

// one makes the only ticket of a job of one shade. It also examines the texts for
// people, in a metric job with decimal commas.
func one(t *testing.T, s ticket.Shade) *ticket.Ticket {
	t.Helper()
	job := jobOf(s)
	job.Style = measure.Usual(measure.Millimetres)
	job.Style.Comma = true
	mustMake(t, job, options())
	return mustMake(t, jobOf(s), options())[0]
}

func TestFigure(t *testing.T) {
	k := one(t, usual())
	tests := []struct {
		name      string
		got, want measure.Length
		src       string
	}{
		{"panel width", k.Panel.Width, 25 * in, "common practice, no source"},
		{"panel length", k.Panel.Length, 43*in + in*3/4, "35 + 7 + 1/2 + 1-1/4, common practice, no source"},
		{"hem fold", k.Folds.HemFold, in / 2, "common practice, no source"},
		{"hem mark", k.Folds.HemMark, in, "common practice, no source"},
		{"pocket fold", k.Folds.PocketFold, in * 7 / 4, "common practice, no source"},
		{"pocket mark", k.Folds.PocketMark, 3 * in, "common practice, no source"},
		{"stitch row", k.Folds.Stitch, in * 23 / 8, "common practice, no source: 2-7/8"},
		{"printed diagonal", k.Cut.Diagonal, 50*in + in*3/8, "common practice, no source: 50-3/8"},
		{"tube", k.Tube.Trim, 25*in + in/8, "tube 1/8 longer than the cloth, common practice, no source"},
		{"slat", k.Slat.Trim, 24*in + in*3/4, "1/8 short at each end, common practice, no source"},
		{"tape run", k.Tape.Total, 75 * in, "three runs of 25, by hand"},
		{"edges", k.Edge.Length, 87*in + in/2, "two sides of 43-3/4 (common practice, no source), by hand"},
		{"pocket inside", k.Pocket.Inside, in*9/8 - 600*measure.Micrometre, "1-1/4 less 1/8 less the cloth of 0.6 mm, by hand"},
		{"pocket needs", k.Pocket.Needs, in + in*3/32, "half the girth of 1 × 3/32, by hand"},
		{"seam", k.Stitch.Seam, 25 * in, "one row from side to side"},
	}
	for _, tt := range tests {
		if tt.got != tt.want {
			t.Errorf("%s = %s; want %s (%s)", tt.name, tt.got, tt.want, tt.src)
		}
	}
	// Common practice, no source, for the sides: √(25² + 43.75²) in = 50.389110… by Python 3, decimal.
	if got := k.Panel.Diagonal.Millimetres(); math.Abs(got-1279.883418) > 1e-6 {
		t.Errorf("diagonal = %.6f mm; want 1279.883418", got)
	}
	// 25.4 / 6 = 4.2333: common practice calls 6 mm about 4.2 per inch.
	if math.Abs(k.Stitch.PerInch-4.2333) > 1e-4 || k.Stitch.Type != "301" {
		t.Errorf("stitch %s, %.4f per inch; want 301 (ISO 4915), 4.2333", k.Stitch.Type, k.Stitch.PerInch)
	}
	if k.Stitch.ThreadSize != 92 || k.Stitch.Needle != 20 || k.Stitch.NeedleMetric != 125 {
		t.Errorf("thread %d needle %d (Nm %d); want 92, 20 (125): common practice, no source; metric number: canvasetc.com, 125/20", k.Stitch.ThreadSize, k.Stitch.Needle, k.Stitch.NeedleMetric)
	}
	// Row of 25 in, 1/2 in sewn twice at each end: 660.4 mm × (2 + 2·1.8/6) × 1.15
	// = 1974.596 mm, by hand with C = 2 + 2TS (textilecalculations.com).
	if got := k.Stitch.Thread.Millimetres(); math.Abs(got-1974.596) > 0.001 {
		t.Errorf("thread = %.3f mm; want 1974.596", got)
	}
	if k.Stopped() {
		t.Errorf("the usual shade is stopped: %+v", k.Findings[0])
	}
}

// Rounding never makes a part that does not fit.
func TestCutFits(t *testing.T) {
	for _, w := range []measure.Length{25*in + in/32, 25*in + in/64, 25*in + in*3/64, 700*mm + 333*measure.Micrometre, 25*in - 1, 25*in + 1} {
		for _, l := range []measure.Length{35*in + in/64, 888 * mm, 35*in - 1} {
			s := usual()
			s.Finished = measure.Size{Width: w, Length: l}
			s.Allow.TubeOver = 0
			k := one(t, s)
			switch {
			case k.Cut.Width > k.Panel.Width:
				t.Errorf("width %s is cut %s: wider than asked", w, k.Cut.Width)
			case k.Cut.Width > k.Cut.Tube:
				t.Errorf("width %s: cloth %s is wider than its tube %s", w, k.Cut.Width, k.Cut.Tube)
			case k.Cut.Slat > k.Slat.Trim || k.Cut.Slat > k.Cut.Width-2*s.Allow.SlatGap:
				t.Errorf("width %s: slat %s does not go into cloth %s", w, k.Cut.Slat, k.Cut.Width)
			case k.Cut.Length < k.Panel.Length:
				t.Errorf("length %s is cut %s: shorter than asked", l, k.Cut.Length)
			}
		}
	}
}

// The same with side hems that are not whole steps of the rule, and with no room to
// spare at the tube and at the slat's ends.
func TestCutFitsSideHems(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		length := func(label string, least, most measure.Length) measure.Length {
			return measure.Length(rapid.Int64Range(int64(least), int64(most)).Draw(r, label))
		}
		s := usual()
		s.Finished.Width = length("width", 200*mm, 1200*mm)
		s.Allow.SideHem = length("side hem", 0, 20*mm)
		s.Allow.TubeOver = length("tube over", 0, 2*mm)
		s.Allow.SlatGap = length("slat gap", 0, 2*mm)
		k := one(t, s)
		cloth, step := k.Cut.Width-2*s.Allow.SideHem, in/16
		switch {
		case cloth > k.Cut.Tube:
			r.Fatalf("cloth %s, hemmed, is wider than its tube %s", cloth, k.Cut.Tube)
		case k.Cut.Slat > cloth:
			r.Fatalf("slat %s is longer than its pocket %s", k.Cut.Slat, cloth)
		case k.Cut.Width > k.Panel.Width || k.Cut.Width <= k.Panel.Width-2*step:
			r.Fatalf("panel %s is cut %s", k.Panel.Width, k.Cut.Width)
		case k.Cut.Width%step != 0 || k.Cut.Tube%step != 0 || k.Cut.Slat%step != 0:
			r.Fatalf("%+v: not whole sixteenths", k.Cut)
		}
	})
}

func TestFindings(t *testing.T) {
	tests := []struct {
		name   string
		change func(*ticket.Shade)
		level  finding.Level
		field  string
	}{
		{"slat needs more than the pocket holds", func(s *ticket.Shade) { s.Slat.Width = in * 5 / 4 }, finding.Stop, "slat"},
		{"rod needs half its girth", func(s *ticket.Shade) { s.Slat = ticket.Slat{Name: "rod", Diameter: in * 3 / 4} }, finding.Stop, "slat"},
		{"snug pocket", func(s *ticket.Shade) {}, finding.Note, "slat"},
		{"tube too long for the roller", func(s *ticket.Shade) { s.Finished.Width = 36 * in }, finding.Stop, "roller"},
		{"tube too short for the roller", func(s *ticket.Shade) { s.Finished.Width = 19 * in }, finding.Stop, "roller"},
		{"roller nearly drawn out", func(s *ticket.Shade) { s.Finished.Width = 35*in + in*3/4 }, finding.Note, "roller"},
		{"hem deeper than the pocket", func(s *ticket.Shade) { s.Allow.Hem = 2 * in }, finding.Stop, "allow.hem"},
		{"row misses the hem", func(s *ticket.Shade) { s.Allow.StitchInset = in / 2 }, finding.Stop, "allow.stitch_inset"},
		{"pocket deeper than the shade", func(s *ticket.Shade) { s.Finished.Length = in }, finding.Stop, "allow.pocket"},
		{"no slat is left", func(s *ticket.Shade) { s.Allow.SlatGap = 13 * in }, finding.Stop, "allow.slat_gap"},
		{"panel wider than one-way goods", func(s *ticket.Shade) {
			s.Finished.Width, s.Roller.Longest, s.Goods.Lay = 60*in, 80*in, ticket.Lengthwise
		}, finding.Stop, "goods"},
		{"panel goes neither way", func(s *ticket.Shade) {
			s.Finished, s.Roller.Longest = measure.Size{Width: 60 * in, Length: 60 * in}, 80*in
		}, finding.Stop, "goods"},
		{"panel goes only turned", func(s *ticket.Shade) { s.Finished.Width, s.Roller.Longest = 60*in, 80*in }, finding.Note, "goods"},
		{"needle too fine for the thread", func(s *ticket.Shade) { s.Sewing.Needle = 14 }, finding.Caution, "sewing.needle"},
		{"stitch out of the ordinary", func(s *ticket.Shade) { s.Sewing.StitchLength = 12 * mm }, finding.Caution, "sewing.stitch"},
		{"thickness unknown", func(s *ticket.Shade) { s.Goods.Thickness = 0 }, finding.Unchecked, "goods.thickness"},
		{"cotton without a side hem", func(s *ticket.Shade) { s.Goods.Kind = goods.CottonDuck }, finding.Note, "allow.side_hem"},
	}
	for _, tt := range tests {
		s := usual()
		tt.change(&s)
		k := one(t, s)
		found := false
		for _, f := range k.Findings {
			found = found || f.Level == tt.level && f.Field == tt.field
			if f.Text.IsZero() || f.Source == "" || f.Remedy.IsZero() {
				t.Errorf("%s: finding without text, source or remedy: %+v", tt.name, f)
			}
		}
		if !found {
			t.Errorf("%s: no %s on %s in %+v", tt.name, tt.level, tt.field, k.Findings)
		}
		if k.Stopped() != (k.Findings[0].Level == finding.Stop) {
			t.Errorf("%s: Stopped() = %v with %s first", tt.name, k.Stopped(), k.Findings[0].Level)
		}
	}
}

// Goods 36 in wide yield the panel of 25 × 43-3/4 in (common practice, no source):
// 25 ≤ 36.
func TestGoodsYield(t *testing.T) {
	s := usual()
	s.Goods.Width, s.Goods.Selvage = 36*in, [2]measure.Length{}
	for _, f := range one(t, s).Findings {
		if f.Field == "goods" {
			t.Errorf("the panel does not come out of goods 36 in wide: %+v", f)
		}
	}
}
