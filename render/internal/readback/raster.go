package readback

import (
	"image"
	"math"
)

// A Raster is a rendered page with its scale.
type Raster struct {
	*image.Gray
	perMM Point // pixels per millimetre
}

// Raster renders a page to be measured. PDFium rounds the picture to whole
// pixels and stretches the page to it; the scale allows for that.
func (d *Document) Raster(page, dpi int) Raster {
	d.t.Helper()
	img := d.Render(page, dpi)
	w, h := d.Size(page)
	return Raster{img, Point{float64(img.Rect.Dx()) / w, float64(img.Rect.Dy()) / h}}
}

// A Stroke is a line found in a picture: where its middle is, across, and how
// wide it is if it were wholly black.
type Stroke struct{ Centre, Width float64 }

// Level measures a level line near at: all ink within reach above and below,
// averaged over span to each side. ok is false if there is none.
func (r Raster) Level(at Point, reach, span float64) (s Stroke, ok bool) {
	return r.measure(at.Y, reach, r.perMM.Y, func(y int) float64 {
		return r.mean(at.X, span, r.perMM.X, func(x int) float64 { return r.ink(x, y) })
	})
}

// Upright measures an upright line near at, likewise.
func (r Raster) Upright(at Point, reach, span float64) (s Stroke, ok bool) {
	return r.measure(at.X, reach, r.perMM.X, func(x int) float64 {
		return r.mean(at.Y, span, r.perMM.Y, func(y int) float64 { return r.ink(x, y) })
	})
}

// ink returns how dark a pixel is, from 0 to 1.
func (r Raster) ink(x, y int) float64 {
	if !image.Pt(x, y).In(r.Rect) {
		return 0
	}
	return 1 - float64(r.GrayAt(x, y).Y)/255
}

// mean averages f over the pixels whose middles lie within span of at.
func (r Raster) mean(at, span, scale float64, f func(int) float64) float64 {
	from, to := int(math.Ceil((at-span)*scale-0.5)), int(math.Floor((at+span)*scale-0.5))
	sum := 0.0
	for i := from; i <= to; i++ {
		sum += f(i)
	}
	return sum / float64(max(to-from+1, 1))
}

// measure returns the middle and the amount of ink around at.
func (r Raster) measure(at, reach, scale float64, f func(int) float64) (Stroke, bool) {
	var sum, moment float64
	for i := int((at - reach) * scale); i <= int((at+reach)*scale); i++ {
		v := f(i)
		sum += v
		moment += v * (float64(i) + 0.5)
	}
	if sum == 0 {
		return Stroke{}, false
	}
	return Stroke{Centre: moment / sum / scale, Width: sum / scale}, true
}
