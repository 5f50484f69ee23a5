package ticket_test

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"shadewright/ticket"
	"shadewright/ticket/measure"
)

// rollersOf makes fixed donor tubes of the given lengths, one of each.
func rollersOf(lengths ...measure.Length) (list []ticket.Roller) {
	for i, l := range lengths {
		r := measured().Roller
		r.Name, r.Shortest, r.Longest, r.Count, r.Spring, r.ByTrial = fmt.Sprint("r", i), 0, l, 1, 0, true
		list = append(list, r)
	}
	return list
}

// A shade whose roller is named keeps it, and no other shade gets that one.
func TestAssignKeepsNamedRollers(t *testing.T) {
	rollers := rollersOf(30*in, 40*in)
	named, open := usual(), usual()
	named.ID, named.Roller = "named", rollers[0]
	open.ID, open.AnyRoller = "open", true
	job := jobOf(named, open)
	a, err := ticket.AssignRollers(job, rollers, options())
	if err != nil || job.Shades[0].Roller.Name != "r0" || job.Shades[1].Roller.Name != "r1" || len(a.Left) != 0 {
		t.Errorf("%v: %s and %s, left %v; want r0, r1 and none", err, job.Shades[0].Roller.Name, job.Shades[1].Roller.Name, a.Left)
	}
}

// Every way to hand out the rollers is tried. None serves more shades, or as many with less
// sawn off. What is sawn off is the tube less cloth and tube_over, by hand.
func TestAssignAgainstEveryWay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, m := rapid.IntRange(1, 4).Draw(t, "shades"), rapid.IntRange(1, 4).Draw(t, "rollers")
		var shades []ticket.Shade
		var widths, lengths []measure.Length
		for i := range n {
			s := usual()
			s.ID, s.AnyRoller, s.Roller = fmt.Sprint("s", i), true, ticket.Roller{}
			s.Finished.Width = measure.Length(rapid.IntRange(12, 30).Draw(t, "width")) * in
			shades, widths = append(shades, s), append(widths, s.Finished.Width)
		}
		for range m {
			lengths = append(lengths, measure.Length(rapid.IntRange(10, 36).Draw(t, "tube"))*in)
		}
		most, least := -1, measure.Length(0)
		taken := make([]bool, m)
		var try func(i, served int, sawn measure.Length)
		try = func(i, served int, sawn measure.Length) {
			if i == n {
				if served > most || served == most && sawn < least {
					most, least = served, sawn
				}
				return
			}
			try(i+1, served, sawn)
			for j, l := range lengths {
				if off := l - widths[i] - in/8; !taken[j] && off >= 0 {
					taken[j] = true
					try(i+1, served+1, sawn+off)
					taken[j] = false
				}
			}
		}
		try(0, 0, 0)
		job := jobOf(shades...)
		a, err := ticket.AssignRollers(job, rollersOf(lengths...), options())
		if err != nil {
			t.Fatal(err)
		}
		served, sawn := 0, measure.Length(0)
		used := map[string]bool{}
		for i, one := range a.Shades {
			s := &job.Shades[i]
			if !one.OK {
				if s.NoRoller == nil || one.Why.IsZero() {
					t.Fatalf("%s got no roller, and nothing says why", s.ID)
				}
				continue
			}
			if used[s.Roller.Name] {
				t.Fatalf("%s is given twice", s.Roller.Name)
			}
			used[s.Roller.Name] = true
			served++
			sawn += one.Sawn
		}
		if served != most || sawn != least || len(a.Left) != m-served {
			t.Fatalf("serves %d with %s sawn off, %d left; the best serves %d with %s", served, sawn, len(a.Left), most, least)
		}
	})
}

// A shade that gets none is a stop that says for each roller why.
func TestAssignSaysWhyNot(t *testing.T) {
	s := usual()
	s.AnyRoller = true
	job := jobOf(s)
	if _, err := ticket.AssignRollers(job, rollersOf(20*in, 10*in), options()); err != nil {
		t.Fatal(err)
	}
	k := mustMake(t, job, options())[0]
	if text := k.Findings[0].Text.String(); !k.Stopped() || !strings.Contains(text, "r0: ") || !strings.Contains(text, "r1: ") || !strings.Contains(text, "reaches only 10 in") {
		t.Errorf("%+v; want a stop with the reason for each roller", k.Findings)
	}
}

func BenchmarkAssignTwenty(b *testing.B) {
	var shades []ticket.Shade
	var lengths []measure.Length
	for i := range 20 {
		s := measured()
		s.ID, s.AnyRoller = fmt.Sprint("s", i), true
		shades, lengths = append(shades, s), append(lengths, measure.Length(30+i)*in)
	}
	for b.Loop() {
		if _, err := ticket.AssignRollers(jobOf(shades...), rollersOf(lengths...), options()); err != nil {
			b.Fatal(err)
		}
	}
}
