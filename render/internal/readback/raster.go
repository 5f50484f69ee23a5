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

// Raster renders a page for measuring. PDFium rounds the picture to whole
// pixels and stretches the page to fill it; the scale takes this into account.
func (d *Document) Raster(page, dpi int) Raster {
	d.t.Helper()
	img := d.Render(page, dpi)
	w, h := d.Size(page)
	return Raster{img, Point{float64(img.Rect.Dx()) / w, float64(img.Rect.Dy()) / h}}
}

// A Stroke is a line found in a picture: the middle across it, and the width it
// would have in solid black.
type Stroke struct{ Centre, Width float64 }

// Level measures the level line near at. It takes all ink within reach above
// and below, averaged over span to each side. ok is false if there is no ink.
func (r Raster) Level(at Point, reach, span float64) (s Stroke, ok bool) {
	return r.measure(at.Y, reach, r.perMM.Y, func(y int) float64 {
		return r.mean(at.X, span, r.perMM.X, func(x int) float64 { return r.ink(x, y) })
	})
}

// Upright measures the upright line near at in the same way.
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

// mean averages f over the pixels whose middle is within span of at.
func (r Raster) mean(at, span, scale float64, f func(int) float64) float64 {
	from, to := int(math.Ceil((at-span)*scale-0.5)), int(math.Floor((at+span)*scale-0.5))
	sum := 0.0
	for i := from; i <= to; i++ {
		sum += f(i)
	}
	return sum / float64(max(to-from+1, 1))
}

// measure returns the middle and the width of the ink around at.
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
