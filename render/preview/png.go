package preview

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/png"

	"shadewright/render/page"
	"shadewright/ticket/measure"
)

// The allowed resolutions in dots to the inch: the lowest shows a page's
// layout, the highest matches an office printer, and the usual one shows small
// type on a screen.
const (
	LeastDPI = 20
	MostDPI  = 600
	UsualDPI = 100
)

// mostDots limits a picture's memory, one byte a dot. A page of 36 × 200 in on
// roll paper has 72 million dots at 100 dots to the inch.
const mostDots = 100_000_000

// PNG returns a page, numbered from 1, of a written document as a picture that
// states its resolution. The picture has sixteen greys: about half the size of
// one with 256, and filled areas keep their exact grey.
func PNG(d *page.Document, number, dpi int) ([]byte, error) {
	r, err := draw(d, number, dpi)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	if err := png.Encode(&b, r.reduced()); err != nil {
		return nil, err
	}
	return withResolution(b.Bytes(), dpi), nil
}

func draw(d *page.Document, number, dpi int) (*raster, error) {
	size := d.Size(number)
	if err := Fits(size, dpi); err != nil {
		return nil, err
	}
	r := newRaster(size, dots(size.Width, dpi), dots(size.Length, dpi))
	if err := d.Replay(number, r); err != nil {
		return nil, err
	}
	return r, r.err
}

// greys is the number of shades in a picture: as many as four bits hold.
const greys = 16

// reduced returns the picture in evenly spaced greys, with the nearest of them
// replaced by each grey that the page uses. It overwrites the raster's own
// dots.
func (r *raster) reduced() *image.Paletted {
	const step = 255 / (greys - 1)
	nearest := func(v uint8) uint8 { return uint8((int(v) + step/2) / step) }
	palette := make(color.Palette, greys)
	for i := range palette {
		palette[i] = color.Gray{Y: uint8(i * step)}
	}
	for ink := range r.inks { // from dark to light
		if r.inks[ink] {
			palette[nearest(uint8(ink))] = color.Gray{Y: uint8(ink)}
		}
	}
	for i, v := range r.Pix {
		r.Pix[i] = nearest(v)
	}
	return &image.Paletted{Pix: r.Pix, Stride: r.Stride, Rect: r.Rect, Palette: palette}
}

// dots returns the number of dots along a length, at least one.
func dots(l measure.Length, dpi int) int {
	return max(int(ratio(int64(l)*int64(dpi), int64(measure.Inch))), 1)
}

// Fits returns an error with a remedy if a page would have too many dots.
func Fits(size measure.Size, dpi int) error {
	n := int64(dots(size.Width, dpi)) * int64(dots(size.Length, dpi))
	if n <= mostDots {
		return nil
	}
	return fmt.Errorf("%v × %v has %d million dots at %d dpi, more than the limit of %d million; use a lower resolution, or SVG",
		size.Width, size.Length, n/1_000_000, dpi, mostDots/1_000_000)
}

// withResolution inserts the chunk with the dots per metre after the header
// (PNG, third edition, 11.3.4.3), so that a viewer knows the page's size.
func withResolution(data []byte, dpi int) []byte {
	const header = 8 + 8 + 13 + 4 // signature; length, type, data and check sum of IHDR
	perMetre := uint32(ratio(int64(dpi)*int64(measure.Metre), int64(measure.Inch)))
	chunk := binary.BigEndian.AppendUint32(nil, 9)
	chunk = append(chunk, "pHYs"...)
	chunk = binary.BigEndian.AppendUint32(chunk, perMetre)
	chunk = binary.BigEndian.AppendUint32(chunk, perMetre)
	chunk = append(chunk, 1) // the unit is the metre
	chunk = binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(chunk[4:]))
	return append(append(bytes.Clone(data[:header]), chunk...), data[header:]...)
}
