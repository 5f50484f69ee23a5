package nest_test

import (
	"fmt"
	"os"
	"slices"
	"strconv"
	"testing"

	"shadewright/ticket/measure"
	"shadewright/ticket/nest"
)

// seconds is how long the benchmark searches each published instance. Set it to
// compare with the times that others report.
func seconds(b *testing.B) float64 {
	text := os.Getenv("SHADEWRIGHT_SECONDS")
	if text == "" {
		return 2
	}
	s, err := strconv.ParseFloat(text, 64)
	if err != nil {
		b.Fatal(err)
	}
	return s
}

// BenchmarkPublished reports for each published set the mean gap to the plan's own
// bound, the mean gap to the bound by area, and the mean time.
func BenchmarkPublished(b *testing.B) {
	bySet := map[string][]instance{}
	var names []string
	for _, in := range published(b) {
		if !slices.Contains(names, in.set) {
			names = append(names, in.set)
		}
		bySet[in.set] = append(bySet[in.set], in)
	}
	for _, set := range names {
		for _, turn := range []bool{false, true} {
			b.Run(fmt.Sprintf("%s/turn=%t", set, turn), func(b *testing.B) { benchSet(b, bySet[set], turn) })
		}
	}
}

func benchSet(b *testing.B, set []instance, turn bool) {
	var gap, byArea float64
	proven := 0
	for b.Loop() {
		gap, byArea, proven = 0, 0, 0
		for _, in := range set {
			p, err := nest.Make(b.Context(), in.order(turn), nest.Seconds(seconds(b)))
			if err != nil {
				b.Fatal(err)
			}
			if testing.Verbose() {
				b.Logf("%s: used %v, bound %v, proven %t", in.name, p.Used, p.Bound, p.Proven)
			}
			gap += p.Gap()
			byArea += float64(p.Used)/float64(in.area()) - 1
			if p.Proven {
				proven++
			}
		}
	}
	n := float64(len(set))
	b.ReportMetric(100*gap/n, "%gap")
	b.ReportMetric(100*byArea/n, "%over-area")
	b.ReportMetric(float64(proven), "proven")
	b.ReportMetric(b.Elapsed().Seconds()/float64(b.N)/n, "s/plan")
	b.ReportMetric(0, "ns/op")
}

// panels makes up n panels of a job: openings come in a few sizes, with several of
// each.
func panels(n int) nest.Order {
	o := nest.Order{Roll: nest.Roll{Width: 1370 * mm}}
	for i := 0; n > 0; i++ {
		q := min(n, 1+i%4)
		o.Pieces = append(o.Pieces, nest.Piece{
			Label: fmt.Sprint(i), Quantity: q, Turn: i%3 == 0,
			Width: measure.Length(350+i*i*173%900) * mm, Length: measure.Length(700+i*i*311%1700) * mm,
		})
		n -= q
	}
	return o
}

// BenchmarkFirst measures the time to the first plan for several numbers of panels.
func BenchmarkFirst(b *testing.B) {
	for _, n := range []int{5, 10, 20, 50, 100, 200, 500, 1000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			o := panels(n)
			b.ReportAllocs()
			for b.Loop() {
				if _, err := nest.Make(b.Context(), o, nest.Effort{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkSearch measures the time and the gap of a search that does one second's
// work.
func BenchmarkSearch(b *testing.B) {
	for _, n := range []int{5, 10, 20, 60, 100, 200, 500, 1000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			o := panels(n)
			var p nest.Plan
			for b.Loop() {
				var err error
				if p, err = nest.Make(b.Context(), o, nest.Seconds(1)); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(100*p.Gap(), "%gap")
			b.ReportMetric(p.Used.Metres(), "m")
		})
	}
}
