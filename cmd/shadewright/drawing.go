package main

import (
	"fmt"
	"slices"
	"sync"

	"shadewright/cmd/shadewright/outdir"
	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/ticket/measure"
)

// A drawing is a document to draw: its file name, what it is, and the word for its pages.
type drawing struct {
	name, what, page string
	draw             func() (*page.Document, error)
	roll             func(measure.Length) string // puts lengths of roll paper into words; nil if it comes on sheets
}

// paper says how much roll paper a document takes, for whoever orders it.
func (d drawing) paper(drawn *page.Document) string {
	if d.roll == nil {
		return ""
	}
	var long []string
	for _, s := range drawn.Sizes() {
		long = append(long, d.roll(s.Width))
	}
	return fmt.Sprintf(" of roll paper %s wide, %s long", d.roll(drawn.Sizes()[0].Length), measure.And(long))
}

// A drawer draws documents: previews says which pictures of pages to make, progress shows
// how far it is.
type drawer struct {
	previews *previewFlags
	progress *progress
}

// drawAll draws documents at the same time and returns them in their order, each followed
// by its previews.
func (pr drawer) drawAll(list []drawing) ([]outdir.Document, error) {
	docs := make([][]outdir.Document, len(list))
	errs := make([]error, len(list))
	drawn := pr.progress.count("drawing: %d of %d documents", len(list))
	var wg sync.WaitGroup
	for i, d := range list {
		wg.Go(func() {
			docs[i], errs[i] = pr.draw(d)
			drawn()
		})
	}
	wg.Wait()
	return slices.Concat(docs...), sheet.Join(errs)
}

func (pr drawer) draw(d drawing) ([]outdir.Document, error) {
	drawn, err := d.draw()
	if err != nil { // the paper does not suit; the job or the settings chose it
		return nil, usageError{err}
	}
	doc, err := finish(d.name, drawn, d.what+", "+measure.Count(drawn.Pages(), d.page)+d.paper(drawn))
	if err != nil {
		return nil, err
	}
	previews, err := pr.previews.previews(d.name, drawn)
	return append([]outdir.Document{doc}, previews...), err
}

// finish writes a drawn document to memory. For a letter that the typeface lacks it prints
// a box with the letter's number, and the summary says so.
func finish(name string, d *page.Document, says string) (outdir.Document, error) {
	if m := d.Missing(); len(m) > 0 {
		says += fmt.Sprintf("; the typeface lacks %q and prints a box with its number", m)
	}
	data, err := d.Bytes()
	if err != nil {
		return outdir.Document{}, fmt.Errorf("%s: %w", name, err)
	}
	return outdir.Document{Name: name, Data: data, Says: says}, nil
}
