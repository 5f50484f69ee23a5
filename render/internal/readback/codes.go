package readback

import (
	"cmp"
	"image"
	"slices"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/multi/qrcode"
	"github.com/makiuchi-d/gozxing/oned"
)

// A Code is a symbol read from a page.
type Code struct {
	Kind string // "QR" or "Code 128"
	Text string
	At   Point  // the middle of the points the reader found
	Raw  []byte // a QR code's data codewords, padding included
}

// Codes renders a page and reads every code on it, from the top down.
func (d *Document) Codes(page, dpi int) []Code {
	d.t.Helper()
	r := d.Raster(page, dpi)
	codes := append(readQR(d, r), readCode128(d, r)...)
	slices.SortStableFunc(codes, func(a, b Code) int { return cmp.Or(cmp.Compare(a.At.Y, b.At.Y), cmp.Compare(a.At.X, b.At.X)) })
	return codes
}

// bitmap prepares a picture for the decoders.
func (d *Document) bitmap(g *image.Gray) *gozxing.BinaryBitmap {
	d.t.Helper()
	w, h := g.Rect.Dx(), g.Rect.Dy()
	light, err := gozxing.NewPlanarYUVLuminanceSource(g.Pix, g.Stride, h, 0, 0, w, h, false)
	d.must(err)
	b, err := gozxing.NewBinaryBitmap(gozxing.NewHybridBinarizer(light))
	d.must(err)
	return b
}

func readQR(d *Document, r Raster) []Code {
	d.t.Helper()
	found, err := qrcode.NewQRCodeMultiReader().DecodeMultiple(d.bitmap(r.Gray), map[gozxing.DecodeHintType]any{
		gozxing.DecodeHintType_TRY_HARDER: true})
	if err != nil {
		if _, none := err.(gozxing.NotFoundException); none {
			return nil
		}
		d.t.Fatalf("read QR codes: %v", err)
	}
	var codes []Code
	for _, f := range found {
		codes = append(codes, Code{Kind: "QR", Text: f.GetText(), Raw: f.GetRawBytes(), At: r.middle(f.GetResultPoints())})
	}
	return codes
}

// middle returns the middle of points in the picture, in millimetres.
func (r Raster) middle(pts []gozxing.ResultPoint) Point {
	var m Point
	for _, p := range pts {
		m.X += p.GetX() / float64(len(pts)) / r.perMM.X
		m.Y += p.GetY() / float64(len(pts)) / r.perMM.Y
	}
	return m
}

// readCode128 scans rows a millimetre apart and then columns, because a bar
// code may stand upright. A code counts if three rows give the same text.
func readCode128(d *Document, r Raster) []Code {
	d.t.Helper()
	codes := scanRows(r)
	turned := Raster{turn(r.Gray), Point{r.perMM.Y, r.perMM.X}}
	for _, c := range scanRows(turned) {
		c.At.X, c.At.Y = c.At.Y, c.At.X
		codes = append(codes, c)
	}
	return codes
}

// turn returns the picture with its axes swapped. This also mirrors it; the
// decoder reads mirrored bars.
func turn(g *image.Gray) *image.Gray {
	t := image.NewGray(image.Rect(0, 0, g.Rect.Dy(), g.Rect.Dx()))
	for y := range g.Rect.Dy() {
		for x := range g.Rect.Dx() {
			t.Pix[x*t.Stride+y] = g.Pix[y*g.Stride+x]
		}
	}
	return t
}

// rowsAgree is how many scanned rows must give the same text.
const rowsAgree = 3

// scanRows reads the horizontal bar codes of a picture.
func scanRows(r Raster) []Code {
	type seen struct {
		Code
		rows int
		last float64
	}
	var found []*seen
	step := max(int(r.perMM.Y), 1)
	for y := step / 2; y < r.Rect.Dy(); y += step {
		for _, c := range readRow(r, y) {
			i := slices.IndexFunc(found, func(s *seen) bool {
				return s.Text == c.Text && abs(s.At.X-c.At.X) < 5 && c.At.Y-s.last < 5
			})
			if i < 0 {
				found = append(found, &seen{Code: c, rows: 1, last: c.At.Y})
				continue
			}
			found[i].rows++
			found[i].last = c.At.Y
			found[i].At.Y += (c.At.Y - found[i].At.Y) / float64(found[i].rows)
		}
	}
	var codes []Code
	for _, s := range found {
		if s.rows >= rowsAgree {
			codes = append(codes, s.Code)
		}
	}
	return codes
}

// readRow reads the codes along one row of pixels, in either direction.
func readRow(r Raster, y int) []Code {
	row := slices.Clone(r.Pix[y*r.Stride:][:r.Rect.Dx()])
	codes := alongRow(row, r, y)
	slices.Reverse(row)
	for _, c := range alongRow(row, r, y) {
		c.At.X = float64(r.Rect.Dx())/r.perMM.X - c.At.X
		codes = append(codes, c)
	}
	return codes
}

func alongRow(pix []byte, r Raster, y int) []Code {
	decoder := oned.NewCode128Reader().(interface {
		DecodeRow(int, *gozxing.BitArray, map[gozxing.DecodeHintType]any) (*gozxing.Result, error)
	})
	var codes []Code
	for from := 0; from < len(pix); {
		bits := gozxing.NewBitArray(len(pix) - from)
		for i, v := range pix[from:] {
			if v < 128 {
				bits.Set(i)
			}
		}
		res, err := decoder.DecodeRow(y, bits, nil)
		if _, none := err.(gozxing.NotFoundException); none {
			return codes
		} else if err != nil { // the start of a code without the rest
			from += max(int(r.perMM.X), 1)
			continue
		}
		a, b := res.GetResultPoints()[0].GetX(), res.GetResultPoints()[1].GetX()
		codes = append(codes, Code{Kind: "Code 128", Text: res.GetText(),
			At: Point{(float64(from) + (a+b)/2) / r.perMM.X, (float64(y) + 0.5) / r.perMM.Y}})
		from += max(int(b), 1)
	}
	return codes
}

func abs(v float64) float64 { return max(v, -v) }
