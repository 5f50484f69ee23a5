package card

import (
	"fmt"
	"io"
	"testing"

	"shadewright/render/language"
	"shadewright/render/sheet"
	"shadewright/ticket"
	"shadewright/ticket/measure"
)

// shadesOf returns n different shades of one unit each.
func shadesOf(n int) []ticket.Shade {
	var all []ticket.Shade
	for i := range n {
		all = append(all, with(fmt.Sprintf("shade-%d", i), func(s *ticket.Shade) { s.Place = fmt.Sprintf("cabin %d, lake side", i) }))
	}
	return all
}

// Different shades: each needs its own layout.
func BenchmarkTickets(b *testing.B) {
	for _, n := range []int{12, 1000, 10000} {
		b.Run(fmt.Sprintf("shades-%d", n), func(b *testing.B) {
			benchTickets(b, made(b, jobOf(inches(), shadesOf(n)...)))
		})
	}
	b.Run("units-1000", func(b *testing.B) { // alike: all share one layout
		s := usual()
		s.Quantity = 1000
		benchTickets(b, made(b, jobOf(inches(), s)))
	})
}

func benchTickets(b *testing.B, all []*ticket.Ticket) {
	opt := Options{Paper: paper(b, "letter"), Address: address}
	b.ReportAllocs()
	for b.Loop() {
		doc, err := Tickets(all, opt)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := doc.WriteTo(io.Discard); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*len(all)), "µs/page")
}

func BenchmarkPlan(b *testing.B) {
	all := made(b, jobOf(inches(), usual()))
	opt := Options{Paper: paper(b, "letter"), Address: address}
	area, err := printable(opt, measure.Usual(measure.Inches))
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		newLayout(all[0], area, opt, newSetter(language.Language{}))
	}
}

func BenchmarkTags(b *testing.B) {
	all := made(b, jobOf(inches(), shadesOf(1000)...))
	g, err := paper(b, "letter").Grid(10, 3, sheet.Even(5*mm), 0, 0)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		doc, err := Tags(all, g, Options{Address: address})
		if err != nil {
			b.Fatal(err)
		}
		if _, err := doc.WriteTo(io.Discard); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*len(all)*4), "µs/tag")
}
