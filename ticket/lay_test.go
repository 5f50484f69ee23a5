package ticket_test

import (
	"testing"

	"shadewright/ticket"
	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
	"shadewright/ticket/message/pseudo"
)

// What comes out of the goods, and what would hold the rest. The panel of the usual
// shade is as wide as its cloth, and longer by wrap, hem and pocket.
func TestLay(t *testing.T) {
	const in = measure.Inch
	tests := []struct {
		name   string
		change func(*ticket.Shade, *ticket.Limits)
		level  finding.Level // of the finding about goods; ok says whether there is one
		ok     bool
		remedy string
	}{
		{"fits", func(*ticket.Shade, *ticket.Limits) {}, 0, false, ""},
		{"turned", func(s *ticket.Shade, _ *ticket.Limits) { s.Finished.Width = 60 * in }, finding.Note, true, "check that every panel in the room is turned the same way"},
		{"may not turn", func(s *ticket.Shade, _ *ticket.Limits) { s.Finished.Width, s.Goods.Lay = 60*in, ticket.Lengthwise }, finding.Stop, true, "use goods at least 60 in wide between the selvages"},
		{"a repeat may not turn", func(s *ticket.Shade, _ *ticket.Limits) { s.Finished.Width, s.Goods.Repeat = 60*in, 10*in }, finding.Stop, true, "use goods at least 60 in wide between the selvages"},
		{"neither way", func(s *ticket.Shade, _ *ticket.Limits) {
			s.Finished = measure.Size{Width: 60 * in, Length: 70 * in}
		}, finding.Stop, true, "use goods at least 60 in wide between the selvages"},
		{"the allowance counts", func(s *ticket.Shade, _ *ticket.Limits) {
			s.Finished.Width, s.Goods.Lay, s.Goods.Allowance = 53*in, ticket.Lengthwise, in/4
		}, finding.Stop, true, "use goods at least 53-1/2 in wide between the selvages"},
		{"longer than the table", func(s *ticket.Shade, l *ticket.Limits) { s.Goods.Lay, l.Table = ticket.Lengthwise, 40*in }, finding.Stop, true, "give the table its length in cutting.table, or 0 if cloth may hang over the end"},
		{"longer than the table with its allowance, any way", func(s *ticket.Shade, l *ticket.Limits) { s.Goods.Allowance, l.Table = in/4, 26*in+in*3/8 }, finding.Stop, true, "give the table its length in cutting.table, or 0 if cloth may hang over the end; or use goods at least 46-1/4 in wide between the selvages"},
		{"turned on the table", func(_ *ticket.Shade, l *ticket.Limits) { l.Table = 40 * in }, finding.Note, true, "check that every panel in the room is turned the same way"},
	}
	for _, tt := range tests {
		s, opt := usual(), options()
		s.Finished = measure.Size{Width: 26*in + in*3/8, Length: 37 * in}
		s.Goods.Width, s.Goods.Selvage, s.Goods.Lay = 54*in, [2]measure.Length{in / 2, in / 2}, ticket.AnyWay
		s.Roller.Longest, s.Roller.Shortest = 200*in, 0
		tt.change(&s, &opt.Limits)
		k := mustMake(t, jobOf(s), opt)[0]
		found := false
		for _, f := range k.Findings {
			if f.Field == "goods" {
				found = true
				if !tt.ok || f.Level != tt.level || f.Remedy.String() != tt.remedy {
					t.Errorf("%s: %s: %s; %s; want %s; %s", tt.name, f.Level, f.Text.String(), f.Remedy.String(), tt.level, tt.remedy)
				}
			}
		}
		if found != tt.ok {
			t.Errorf("%s: findings %+v; want one about goods: %v", tt.name, k.Findings, tt.ok)
		}
	}
	s, opt := usual(), options()
	s.Goods.Repeat, opt.Limits.Table = 100*in, 90*in
	k := mustMake(t, jobOf(s), opt)[0]
	if f := k.Findings[0]; f.Field != "goods.repeat" || f.Level != finding.Stop {
		t.Errorf("a repeat longer than the table: %+v; want a stop", f)
	}
}

func TestPlaceWords(t *testing.T) {
	for _, tt := range []struct {
		place ticket.PlanPlace
		want  string
	}{
		{ticket.PlanPlace{Section: 1, Cuts: []int{1}}, "section 1, cut 1"},
		{ticket.PlanPlace{Section: 2, Cuts: []int{4, 5}}, "section 2, cuts 4 and 5"},
		{ticket.PlanPlace{Section: 2, Cuts: []int{4, 5, 6}}, "section 2, cuts 4–6"},
		{ticket.PlanPlace{Section: 2, Cuts: []int{4, 5, 6, 9, 11, 12}}, "section 2, cuts 4–6, 9, 11 and 12"},
		{ticket.PlanPlace{On: "shelf-3"}, "piece on hand shelf-3"},
	} {
		if got := tt.place.String(); got != tt.want {
			t.Errorf("%+v is %q; want %q", tt.place, got, tt.want)
		}
		if w := pseudo.Unmarked(pseudo.Put(tt.place.Message()), "shelf"); w != nil {
			t.Errorf("%q has words in English only: %q", tt.place, w)
		}
	}
}
