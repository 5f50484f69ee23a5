package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"github.com/spf13/cobra"

	"shadewright/cmd/shadewright/outdir"
	"shadewright/render/card"
	"shadewright/render/fullscale"
	"shadewright/render/mounting"
	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/render/template"
	"shadewright/ticket"
	"shadewright/ticket/mark/record"
	"shadewright/ticket/measure"
)

type printOptions struct {
	settingFlags
	out      string
	force    bool
	insist   bool
	noRecord bool
	pictureFlags
	previewFlags
}

func newPrint(s environment) *cobra.Command {
	var opt printOptions
	c := &cobra.Command{
		Use:   "print JOB",
		Short: "Write the marking template, the tickets, the tags, the cut plan and the mounting sheets as PDF",
		Long: `Print reads a job file and writes template.pdf, tickets.pdf, tags.pdf, cutplan.pdf
and, where brackets and openings are given, mounting.pdf into a folder of the
job's name, or where --out says. Its own earlier files there are replaced whole;
earlier mounting sheets and drawings that are not written again stay, and are
named. Any other file is left alone. A shade that cannot be made so is left out
and named, exit code 4, unless --insist prints it with its stops on it; it has no
place on the cut plan.

--preview also writes a picture of every page, preview-tickets-01.png and so on, to
look at. Earlier previews that are not written again are removed, since they show
what was. For a cutter or a projector take --svg or --dxf, which draw true to scale.

The tickets that were printed are registered in the shop's record, where scan,
board and serve find them; a panel that was spoilt gets its new ticket. If the
record cannot be reached the paper is written all the same, exit code 5.`,
		Example: `  shadewright print testdata/jobs/bunkhouse.yaml
  shadewright print --out paper --set paper=a4 testdata/jobs/bunkhouse.yaml
  shadewright print --svg --dxf --out cutter testdata/jobs/narrowboat.yaml
  shadewright print --preview png --out look testdata/jobs/narrowboat.yaml`,
		Args: oneJob,
		RunE: func(c *cobra.Command, args []string) error { return runPrint(c.Context(), s, &opt, args[0]) },
	}
	opt.add(c)
	c.Flags().StringVarP(&opt.out, "out", "o", "", "`folder` to write to (default: one of the job file's name, here)")
	c.Flags().BoolVar(&opt.force, "force", false, "replace files that an earlier run did not write, or that were changed since")
	c.Flags().BoolVar(&opt.insist, "insist", false, "print shades that cannot be made so, too")
	c.Flags().BoolVar(&opt.noRecord, "no-record", false, "do not register the tickets; nobody can mark them")
	opt.addPictures(c)
	opt.addPreviews(c)
	return c
}

func runPrint(ctx context.Context, s environment, opt *printOptions, path string) (err error) {
	if err := opt.previewFlags.check(); err != nil {
		return err
	}
	l, err := readJob(s, &opt.settingFlags, path)
	if err != nil {
		return err
	}
	var reg *register
	if opt.noRecord {
		err = l.make(ctx, s, path, nil)
	} else {
		reg = openRegister(ctx, s, l.settings)
		defer func() { err = errors.Join(err, reg.close()) }()
		err = l.make(ctx, s, path, reg.remakes(ctx, &l.file.Job))
	}
	if err != nil {
		return err
	}
	if ctx.Err() != nil { // it ended the search for a plan, which is to be printed and registered
		ctx = context.WithoutCancel(ctx)
	}
	good, stopped := l.unstopped()
	if opt.insist {
		good, stopped = l.tickets, nil
	}
	left := stoppedError(stopped, "left out; see shadewright check "+path+", or print all the same with --insist")
	if len(good) == 0 {
		return left
	}
	dir := opt.out
	if dir == "" {
		dir = baseName(path)
	}
	p := s.progress()
	defer p.wipe()
	docs, stay, err := opt.write(ctx, l, good, outdir.Folder{Dir: dir, Force: opt.force, Outdated: previewPrefix}, p)
	if err != nil {
		return err
	}
	var registered string
	if reg != nil {
		registered, err = reg.add(ctx, good, p)
	}
	p.wipe()
	return errors.Join(summarize(s.out, dir, docs, registered), warnOfEarlier(s.err, dir, stay), err, left)
}

// write draws the paper of tickets and writes it to a folder. It returns the names of
// what stays there of an earlier run, too.
func (opt *printOptions) write(ctx context.Context, l *loaded, good []*ticket.Ticket, to outdir.Folder, p *progress) (docs []outdir.Document, stay []string, err error) {
	docs, err = l.documents(good, press{&opt.previewFlags, p})
	if err != nil {
		return nil, nil, err
	}
	drawn, err := opt.pictures(l, good)
	if err != nil {
		return nil, nil, err
	}
	docs = append(docs, drawn...)
	to.Wrote = p.count("writing: %d of %d files (Ctrl-C stops, and leaves what was there)", len(docs))
	stay, err = to.Write(ctx, docs)
	return docs, stay, err
}

// warnOfEarlier names what print does not write of every job and an earlier run left
// in the folder: a hole that is drilled by a job before is in the wrong place. A
// preview stays only if it cannot be removed.
func warnOfEarlier(errs io.Writer, dir string, stay []string) error {
	var names []string
	for _, name := range stay {
		if strings.HasPrefix(name, "mounting") || strings.HasPrefix(name, "band-") || strings.HasPrefix(name, previewPrefix) {
			names = append(names, filepath.Join(dir, name))
		}
	}
	if len(names) == 0 {
		return nil
	}
	_, err := fmt.Fprintf(errs, "shadewright: %s: left from an earlier run, and may not fit what was printed now; delete what is not needed any more\n", and(names))
	return err
}

// summarize lists what was written, and what became of the tickets in the record.
func summarize(out io.Writer, dir string, docs []outdir.Document, registered string) error {
	for _, d := range docs {
		if d.Says == "" {
			continue
		}
		name := d.Listed
		if name == "" {
			name = d.Name
		}
		if _, err := fmt.Fprintf(out, "%s\t%s\n", filepath.Join(dir, name), d.Says); err != nil {
			return err
		}
	}
	if registered == "" {
		return nil
	}
	_, err := fmt.Fprintln(out, registered)
	return err
}

// registeredWords tells what became of the tickets in the record.
func registeredWords(where string, n record.Registered) string {
	words := fmt.Sprintf("%s\t%s registered", where, count(n.New, "new ticket"))
	if n.Renewed > 0 {
		words += fmt.Sprintf(", %s: throw away the paper before", count(n.Renewed, "renewed ticket"))
	}
	if n.Same > 0 {
		words += fmt.Sprintf(", %s as before", count(n.Same, "ticket"))
	}
	return words
}

// documents draws everything that is printed of the tickets.
func (l *loaded) documents(tickets []*ticket.Ticket, pr press) ([]outdir.Document, error) {
	paper, err := l.paper()
	if err != nil {
		return nil, err
	}
	grid, err := l.labels(paper)
	if err != nil {
		return nil, err
	}
	bands, mounts, err := l.fullScale()
	if err != nil {
		return nil, err
	}
	cards := card.Options{
		Paper: paper, Margins: l.margins(), Address: l.settings.Address, Code128: l.settings.Bars, Insist: true,
		Info: page.Info{Creator: "Shadewright"}, Language: languageOf(l.settings),
	}
	if cards.Codes, err = card.Encode(tickets, cards); err != nil {
		return nil, err
	}
	tags := "tags for panel, tube, slat and hardware"
	if n, err := card.Barless(tickets, grid, cards); err == nil && n > 0 { // an error is met again when they are drawn
		tags += fmt.Sprintf(" (%s too small for a Code 128: laser scanners cannot read them)", count(n, "label"))
	}
	list := []drawing{
		{name: "template.pdf", what: "marking template", page: "sheet", draw: func() (*page.Document, error) { return template.Document(tickets, bands) }},
		{name: "tickets.pdf", what: fmt.Sprintf("tickets of %s", count(len(tickets), "shade")), page: "page", draw: func() (*page.Document, error) { return card.Tickets(tickets, cards) }},
		{name: "tags.pdf", what: tags, page: "sheet", draw: func() (*page.Document, error) { return card.Tags(tickets, grid, cards) }},
		{name: "cutplan.pdf", what: "cut plan and what to buy", page: "sheet", draw: func() (*page.Document, error) { return l.cutPlan(tickets) }},
	}
	if bands.Paper.Roll {
		list[0].roll = bands.Style.Exact
	}
	if brackets := mounting.FromTickets(tickets); len(brackets) > 0 {
		list = append(list, drawing{name: "mounting.pdf", what: "mounting sheets of " + count(len(brackets), "shade"), page: "sheet",
			draw: func() (*page.Document, error) { return mountingSheets(brackets, mounts) }})
	}
	return pr.drawAll(list)
}

// fullScale returns how the template and the mounting sheets are drawn. Both are
// on the template's paper, unless that is a roll: a mounting sheet is held at a wall.
func (l *loaded) fullScale() (bands, mounts fullscale.Options, err error) {
	mounts = fullscale.Options{
		Margins: l.margins(), Overlap: l.settings.Overlap, Style: l.file.Job.Style,
		Job: l.file.Job.Name, Language: languageOf(l.settings), Printer: l.settings.Printer.Name, Correction: l.correction(),
	}
	if mounts.Paper, err = l.paper(); err != nil {
		return bands, mounts, err
	}
	bands = mounts
	if bands.Paper, err = l.templatePaper(); err != nil {
		return bands, mounts, err
	}
	bands.Printer, bands.Correction = l.templatePrinter(bands.Paper)
	if !bands.Paper.Roll {
		mounts = bands
	}
	return bands, mounts, nil
}

// mountingSheets draws the mounting sheets. If the paper is too small for them,
// all else may stay on it.
func mountingSheets(brackets []mounting.Sheet, o fullscale.Options) (*page.Document, error) {
	doc, err := mounting.Document(brackets, o)
	if _, ok := errors.AsType[*sheet.SmallError](err); ok {
		err = fmt.Errorf("%w, or only what is at full scale on it with --set template_paper=a4", err)
	}
	return doc, err
}

// A drawing is a document to be drawn: its file, what it is, and what its pages
// are called.
type drawing struct {
	name, what, page string
	draw             func() (*page.Document, error)
	roll             func(measure.Length) string // puts lengths of roll paper into words; nil: it comes on sheets
}

// paper says what roll paper a document takes, for who orders it.
func (d drawing) paper(drawn *page.Document) string {
	if d.roll == nil {
		return ""
	}
	var long []string
	for _, s := range drawn.Sizes() {
		long = append(long, d.roll(s.Width))
	}
	return fmt.Sprintf(" of roll paper %s wide, %s long", d.roll(drawn.Sizes()[0].Length), and(long))
}

// and lists things as one says them: a, b and c.
func and(list []string) string {
	last := len(list) - 1
	if last < 1 {
		return strings.Join(list, "")
	}
	return strings.Join(list[:last], ", ") + " and " + list[last]
}

// A press is how documents are drawn: what pictures of their pages are made, and
// where it is shown how far it is.
type press struct {
	previews *previewFlags
	progress *progress
}

// drawAll draws documents side by side and returns them in their order, each with
// its previews.
func (pr press) drawAll(list []drawing) ([]outdir.Document, error) {
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

func (pr press) draw(d drawing) ([]outdir.Document, error) {
	drawn, err := d.draw()
	if err != nil { // the paper is the job's or the shop's choice
		return nil, usageError{err}
	}
	doc, err := finish(d.name, drawn, d.what+", "+count(drawn.Pages(), d.page)+d.paper(drawn))
	if err != nil {
		return nil, err
	}
	previews, err := pr.previews.previews(d.name, drawn)
	return append([]outdir.Document{doc}, previews...), err
}

// labels returns how the shop's tags lie on their sheet.
func (l *loaded) labels(paper sheet.Paper) (sheet.Grid, error) {
	s := l.settings.Labels
	if s.Single {
		one, err := sheet.Sized(s.Width, s.Height)
		return sheet.Single(one), err
	}
	grid, err := paper.Grid(s.Rows, s.Columns, sheet.Margins(s.Margins), s.GapX, s.GapY)
	if err != nil {
		return grid, usageError{err}
	}
	return grid, nil
}

// templatePrinter returns the printer of the template: another one, if the shop
// says so by its name or by its factors, else the one of all else. A roll of paper does not fit that one, so its
// correction would be wrong there.
func (l *loaded) templatePrinter(p sheet.Paper) (string, page.Correction) {
	if t := l.settings.TemplatePrinter; t.Name != "" || t.X != measure.One || t.Y != measure.One {
		return t.Name, page.Correction{X: t.X, Y: t.Y}
	}
	if p.Roll {
		return "", page.Correction{}
	}
	return l.settings.Printer.Name, l.correction()
}

func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// correction is what the shop's printer needs, for what must come out true.
func (l *loaded) correction() page.Correction {
	p := l.settings.Printer
	return page.Correction{X: p.X, Y: p.Y}
}

// finish writes a drawn document to memory. A letter that no face can draw is
// printed as a box with its number; the summary says so.
func finish(name string, d *page.Document, says string) (outdir.Document, error) {
	if m := d.Missing(); len(m) > 0 {
		says += fmt.Sprintf("; no glyph for %q, a box with its number stands for it", m)
	}
	data, err := d.Bytes()
	if err != nil {
		return outdir.Document{}, fmt.Errorf("%s: %w", name, err)
	}
	return outdir.Document{Name: name, Data: data, Says: says}, nil
}
