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

// The resolutions of a picture, in dots to the inch: from what shows a page's
// layout to what an office printer has, and one that shows small type on a screen.
const (
	LeastDPI = 20
	MostDPI  = 600
	UsualDPI = 100
)

// mostDots is the largest picture that is drawn, a byte of memory each: a page of roll
// paper of 36 × 200 in at 100 dots to the inch has 72 million.
const mostDots = 100_000_000

// PNG returns a page, from 1, of a document that was written, as a picture in
// sixteen greys that says its resolution. It takes about half the room of one in
// 256, and where a page is filled the grey is the page's own.
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

// greys is how many shades a picture has: what four bits hold.
const greys = 16

// reduced returns the picture in greys that are evenly spread, but for those that
// give way to the nearest ink of the page. It takes the place of the raster's own.
func (r *raster) reduced() *image.Paletted {
	const step = 255 / (greys - 1)
	nearest := func(v uint8) uint8 { return uint8((int(v) + step/2) / step) }
	palette := make(color.Palette, greys)
	for i := range palette {
		palette[i] = color.Gray{Y: uint8(i * step)}
	}
	for ink := range r.inks { // in the order of their shades
		if r.inks[ink] {
			palette[nearest(uint8(ink))] = color.Gray{Y: uint8(ink)}
		}
	}
	for i, v := range r.Pix {
		r.Pix[i] = nearest(v)
	}
	return &image.Paletted{Pix: r.Pix, Stride: r.Stride, Rect: r.Rect, Palette: palette}
}

// dots returns how many dots there are to a length, at least one.
func dots(l measure.Length, dpi int) int {
	return max(int(ratio(int64(l)*int64(dpi), int64(measure.Inch))), 1)
}

// Fits returns an error that says what to do if a page would have too many dots.
func Fits(size measure.Size, dpi int) error {
	n := int64(dots(size.Width, dpi)) * int64(dots(size.Length, dpi))
	if n <= mostDots {
		return nil
	}
	return fmt.Errorf("%v × %v has %d million dots at %d dpi; at most %d million are drawn: take fewer dots to the inch, or SVG",
		size.Width, size.Length, n/1_000_000, dpi, mostDots/1_000_000)
}

// withResolution puts the chunk that says how many dots a metre has behind the
// header (PNG, third edition, 11.3.4.3), so that a viewer shows the page's size.
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
