package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

// BenchmarkPrint measures from reading a job file to closing the template, the tickets and
// the tags. It also reports the peak of the heap for each unit.
func BenchmarkPrint(b *testing.B) {
	for _, units := range []int{12, 1000, 10_000} {
		b.Run(fmt.Sprint(units), func(b *testing.B) {
			dir := b.TempDir()
			job := filepath.Join(dir, "job.yaml")
			if err := os.WriteFile(job, []byte(jobOf(units)), 0o644); err != nil {
				b.Fatal(err)
			}
			b.ReportAllocs()
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			for b.Loop() {
				var out, errs bytes.Buffer
				s := environment{in: strings.NewReader(""), out: &out, err: &errs}
				if code := run(context.Background(), []string{"print", "--no-record", "--out", filepath.Join(dir, "out"), job}, s); code != exitDone {
					b.Fatalf("exit %d: %s", code, errs.String())
				}
			}
			runtime.ReadMemStats(&after)
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*units), "µs/unit")
			b.ReportMetric(float64(after.HeapSys-before.HeapSys)/float64(units)/1024, "KiB-heap/unit")
		})
	}
}

// jobOf returns a job of shades with 25 units each. Each shade has a different width.
func jobOf(units int) string {
	var b strings.Builder
	b.WriteString(strings.Split(minimal, "shades:")[0] + "shades: [\n")
	for i := 0; units > 0; i++ {
		n := min(units, 25)
		units -= n
		fmt.Fprintf(&b, "{id: s%d, place: cabin %d, goods: m, roller: d, slat: f, quantity: %d, finished: {width: %d mm, length: 900 mm}},\n", i, i, n, 550+i%340)
	}
	return b.String() + "]}\n"
}
