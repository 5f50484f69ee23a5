package card

import (
	"slices"
	"testing"

	"shadewright/render/internal/readback"
	"shadewright/render/sheet"
)

func TestTags(t *testing.T) {
	all := made(t, jobOf(inches(), hard()...))
	margins := sheet.Even(3 * mm)
	for name, g := range grids(t) {
		t.Run(name, func(t *testing.T) {
			all := all
			if g.PerSheet() == 1 {
				all = all[2:5] // drawing a sheet for each tag takes time
			}
			opt := Options{Margins: margins, Address: address, Insist: true, Code128: true, Skip: g.PerSheet() / 2}
			doc, err := Tags(all, g, opt)
			d := readback.Open(t, printed(t, doc, err))
			if missing := doc.Missing(); missing != nil {
				t.Errorf("glyphs are missing: %q", missing)
			}
			if want := (opt.Skip + 4*len(all) + g.PerSheet() - 1) / g.PerSheet(); d.Pages() != want {
				t.Errorf("%d sheets; want %d: four labels for each of %d units, after %d used labels", d.Pages(), want, len(all), opt.Skip)
			}
			for i := range d.Pages() {
				d.Marks(i).Clean(t, i, g.Paper, margins)
			}
			for _, dpi := range readback.Few([]int{150, 200, 300}, 1) {
				var got []string
				for i := range d.Pages() {
					for _, c := range d.Codes(i, dpi) {
						if c.Kind == "QR" {
							got = append(got, c.Text)
						}
					}
				}
				slices.Sort(got)
				if want := wanted(all, opt, 4); !slices.Equal(got, want) {
					t.Errorf("%d dpi: read %d codes, want %d: %q", dpi, len(got), len(want), slices.Compact(got))
				}
			}
		})
	}
}
