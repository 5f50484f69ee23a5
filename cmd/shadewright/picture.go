package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"shadewright/cmd/shadewright/outdir"
	"shadewright/render/fullscale"
	"shadewright/render/mounting"
	"shadewright/render/page"
	"shadewright/render/template"
	"shadewright/render/vector"
	"shadewright/ticket/measure"
)

// pictureFlags ask for full-scale drawings for a cutter or a projector.
type pictureFlags struct{ svg, dxf bool }

func (f *pictureFlags) addPictures(c *cobra.Command) {
	c.Flags().BoolVar(&f.svg, "svg", false, "also write each band in one piece, and the mounting sheets, as SVG: units in millimetres, in layers")
	c.Flags().BoolVar(&f.dxf, "dxf", false, "also write these drawings as DXF, release 12")
}

// pictures draws the bands and the mounting sheets that the flags ask for.
func (f *pictureFlags) pictures(l *loadedJob, sel selection) ([]outdir.Document, error) {
	if !f.svg && !f.dxf {
		return nil, nil
	}
	bands, mounts, err := l.fullScale()
	if err != nil {
		return nil, err
	}
	mounts.Printer, mounts.Correction = "", page.Correction{} // those are for a printer, not a cutter
	var docs []outdir.Document
	for _, w := range template.Wholes(sel.template, bands) {
		p := vector.New(w.Title(), w.Size)
		w.Draw(p)
		docs = append(docs, f.files("band-"+strings.ToLower(w.Name), p, "band for "+w.For)...)
	}
	brackets := mounting.FromTickets(sel.mounts)
	if len(brackets) == 0 {
		return docs, nil
	}
	var sheets []*vector.Picture
	err = mounting.Draw(brackets, mounts,
		func(title string, size measure.Size) fullscale.Layered {
			p := vector.New(title, size)
			sheets = append(sheets, p)
			return p
		})
	if err != nil {
		return nil, usageError{err}
	}
	for i, p := range sheets {
		docs = append(docs, f.files(fmt.Sprintf("mounting-%d", i+1), p, "mounting sheet")...)
	}
	return docs, nil
}

// files returns a drawing in the formats that the flags ask for.
func (f *pictureFlags) files(base string, p *vector.Picture, what string) []outdir.Document {
	says := fmt.Sprintf("%s, %s × %s", what, p.Size().Width, p.Size().Length)
	var docs []outdir.Document
	if f.svg {
		docs = append(docs, outdir.Document{Name: base + ".svg", Data: p.SVG(), Says: says})
	}
	if f.dxf {
		docs = append(docs, outdir.Document{Name: base + ".dxf", Data: p.DXF(), Says: says})
	}
	return docs
}
