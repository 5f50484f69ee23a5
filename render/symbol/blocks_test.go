package symbol

import (
	"image"
	"image/color"
	"strings"
	"testing"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/qrcode"
)

// Another library reads what a terminal shows, both dark and light.
func TestBlocksRead(t *testing.T) {
	const content = "HTTP://192.168.1.20:8080"
	s, err := QR(content, Medium)
	if err != nil {
		t.Fatal(err)
	}
	for _, light := range []bool{false, true} {
		lines := strings.Split(strings.TrimSuffix(s.Blocks(light), "\n"), "\n")
		const scale = 4
		img := image.NewGray(image.Rect(0, 0, (s.Wide+2*s.Quiet)*scale, len(lines)*2*scale))
		for y, line := range lines {
			for x, r := range []rune(line) {
				for half := range 2 {
					ink := r == '█' || r == '▀' && half == 0 || r == '▄' && half == 1
					c := color.Gray{Y: 255}
					if ink == light { // a block has the colour of text: dark on a light terminal, light on a dark one
						c.Y = 0
					}
					for i := range scale * scale {
						img.SetGray(x*scale+i%scale, (y*2+half)*scale+i/scale, c)
					}
				}
			}
		}
		bmp, err := gozxing.NewBinaryBitmapFromImage(img)
		if err != nil {
			t.Fatal(err)
		}
		got, err := qrcode.NewQRCodeReader().Decode(bmp, nil)
		if err != nil || got.GetText() != content {
			t.Errorf("light %t: read %v, %v; want %q", light, got, err, content)
		}
	}
}
