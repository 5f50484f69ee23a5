package preview

import "testing"

// BenchmarkPNG measures drawing a ticket's picture as PNG; BenchmarkSVG
// measures the same as SVG.
func BenchmarkPNG(b *testing.B) {
	d := documents(b, "letter")[1]
	if _, err := d.Bytes(); err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		data, err := PNG(d, 1, UsualDPI)
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(len(data)), "file-B")
	}
}

// BenchmarkRaster measures drawing the picture without encoding it as PNG.
func BenchmarkRaster(b *testing.B) {
	d := documents(b, "letter")[1]
	if _, err := d.Bytes(); err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := draw(d, 1, UsualDPI); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSVG(b *testing.B) {
	d := documents(b, "letter")[1]
	if _, err := d.Bytes(); err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		data, err := SVG(d, 1)
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(len(data)), "file-B")
	}
}
