package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"shadewright/render/fullscale"
	"shadewright/render/template"
	"shadewright/render/vector"
	"shadewright/ticket"
)

// pictureFlags ask for the bands of the template as drawings, each in one piece.
type pictureFlags struct{ svg, dxf bool }

func (f *pictureFlags) addPictures(c *cobra.Command) {
	c.Flags().BoolVar(&f.svg, "svg", false, "write each band of the template in one piece as SVG too, a unit a millimetre, in layers")
	c.Flags().BoolVar(&f.dxf, "dxf", false, "the same as DXF of release 12")
}

// pictures draws the bands that were asked for. A cutter needs no correction of a
// printer.
func (f *pictureFlags) pictures(l *loaded, tickets []*ticket.Ticket) []document {
	if !f.svg && !f.dxf {
		return nil
	}
	var docs []document
	for _, w := range template.Wholes(tickets, fullscale.Options{Style: l.file.Job.Style}) {
		p := vector.New("Band "+w.Name+" of "+l.file.Job.Name, w.Size)
		w.Draw(p)
		base := "band-" + strings.ToLower(w.Name)
		says := fmt.Sprintf("band for %s, %s × %s", w.For, w.Size.Width, w.Size.Length)
		if f.svg {
			docs = append(docs, document{name: base + ".svg", data: p.SVG(), says: says})
		}
		if f.dxf {
			docs = append(docs, document{name: base + ".dxf", data: p.DXF(), says: says})
		}
	}
	return docs
}
