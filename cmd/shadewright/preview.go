package main

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"shadewright/cmd/shadewright/outdir"
	"shadewright/render/page"
	"shadewright/render/preview"
	"shadewright/ticket/measure"
)

// previewFlags ask for a picture of every page, to look at.
type previewFlags struct {
	kind, dpi string
	dots      int // dpi, read
}

// previewPrefix begins the name of every preview. It tells preview-mounting-01.svg, a
// picture of a page, from mounting-1.svg, a drawing for a cutter.
const previewPrefix = "preview-"

func (f *previewFlags) addPreviews(c *cobra.Command) {
	c.Flags().StringVar(&f.kind, "preview", "", "also write a picture of every page, to look at, not to cut by: `png or svg`")
	c.Flags().StringVar(&f.dpi, "preview-dpi", "", fmt.Sprintf("`dots` per inch of PNG previews, %d to %d (default: %d)", preview.LeastDPI, preview.MostDPI, preview.UsualDPI))
}

// check reads the flags.
func (f *previewFlags) check() error {
	switch f.kind {
	case "", "png", "svg":
	default:
		return usageError{fmt.Errorf("--preview %q is not a picture format; write png or svg", f.kind)}
	}
	f.dots = preview.UsualDPI
	if f.dpi == "" {
		return nil
	}
	if f.kind != "png" {
		return usageError{fmt.Errorf("--preview-dpi is for PNG previews; add --preview png, or leave it out")}
	}
	n, err := strconv.Atoi(f.dpi)
	if err != nil || n < preview.LeastDPI || n > preview.MostDPI {
		return usageError{fmt.Errorf("--preview-dpi %q is not a resolution; write a whole number from %d to %d", f.dpi, preview.LeastDPI, preview.MostDPI)}
	}
	f.dots = n
	return nil
}

// previews returns the pictures that the flags ask for of a document with this file name.
// Each picture is drawn only when it is written, so that few are in memory.
func (f *previewFlags) previews(file string, d *page.Document) ([]outdir.Document, error) {
	if f.kind == "" {
		return nil, nil
	}
	base := previewPrefix + strings.TrimSuffix(file, ".pdf") + "-"
	digits := max(len(strconv.Itoa(d.Pages())), 2)
	docs := make([]outdir.Document, d.Pages())
	for i := range docs {
		number := i + 1
		draw := func() ([]byte, error) { return preview.SVG(d, number) }
		if f.kind == "png" {
			if err := preview.Fits(d.Size(number), f.dots); err != nil {
				return nil, usageError{fmt.Errorf("--preview png: page %d of %s: %w", number, file, err)}
			}
			draw = func() ([]byte, error) { return preview.PNG(d, number, f.dots) }
		}
		docs[i] = outdir.Document{Name: fmt.Sprintf("%s%0*d.%s", base, digits, number, f.kind), Make: draw}
	}
	docs[0].Listed = base + "*." + f.kind
	docs[0].Says = measure.Count(len(docs), "picture") + " of " + file + " to look at"
	if f.kind == "png" {
		docs[0].Says += fmt.Sprintf(", %d dpi", f.dots)
	}
	return docs, nil
}
