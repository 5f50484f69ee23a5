package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"shadewright/cmd/shadewright/outdir"
	"shadewright/render/card"
	"shadewright/render/fullscale"
	"shadewright/render/mounting"
	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/render/template"
	"shadewright/ticket/measure"
)

type printOptions struct {
	settingFlags
	out      string
	force    bool
	insist   bool
	changed  bool
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
record cannot be reached the paper is written all the same, exit code 5. Print names
each ticket that is not as it was printed before, with what changed on it: throw its
old paper away.

--changed prints only new and changed tickets with their tags, into a folder of its
own. The template and the mounting sheets come with it for the shades whose lines or
brackets changed; the cut plan comes whole if a panel's place or size changed, or a
ticket is new. Print everything again after taking a shade out of the job.`,
		Example: `  shadewright print testdata/jobs/bunkhouse.yaml
  shadewright print --out paper --set paper=a4 testdata/jobs/bunkhouse.yaml
  shadewright print --svg --dxf --out cutter testdata/jobs/narrowboat.yaml
  shadewright print --preview png --out look testdata/jobs/narrowboat.yaml
  shadewright print --changed testdata/jobs/bunkhouse.yaml`,
		Args: oneJob,
		RunE: func(c *cobra.Command, args []string) error { return runPrint(c.Context(), s, &opt, args[0]) },
	}
	opt.add(c)
	c.Flags().StringVarP(&opt.out, "out", "o", "", "`folder` to write to (default: one of the job file's name, here)")
	c.Flags().BoolVar(&opt.force, "force", false, "replace files that an earlier run did not write, or that were changed since")
	c.Flags().BoolVar(&opt.insist, "insist", false, "print shades that cannot be made so, too")
	c.Flags().BoolVar(&opt.changed, "changed", false, "print only what is new or changed since the last print, into JOB-changed")
	c.Flags().BoolVar(&opt.noRecord, "no-record", false, "do not register the tickets; nobody can mark them")
	opt.addPictures(c)
	opt.addPreviews(c)
	return c
}

func runPrint(ctx context.Context, s environment, opt *printOptions, path string) (err error) {
	if err := opt.check(); err != nil {
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
	sel := everything(good)
	if opt.changed {
		if sel, err = reg.changed(ctx, good); err != nil {
			return err
		}
		if len(sel.tickets) == 0 {
			_, err := fmt.Fprintf(s.out, "%s: no ticket is new or changed; nothing is written\n", path)
			return errors.Join(err, left)
		}
	}
	return errors.Join(opt.print(ctx, s, l, reg, sel, opt.folder(path)), left)
}

// check reads the flags.
func (opt *printOptions) check() error {
	if opt.changed && opt.noRecord {
		return usageError{errors.New("--changed asks the record what was printed before; leave out --no-record")}
	}
	return opt.previewFlags.check()
}

// folder returns where the paper goes. What changed has a folder of its own, in
// which everything is to be sent to the printer: earlier files go.
func (opt *printOptions) folder(path string) outdir.Folder {
	f := outdir.Folder{Dir: opt.out, Force: opt.force, Outdated: func(name string) bool { return strings.HasPrefix(name, previewPrefix) }}
	switch {
	case f.Dir != "":
	case opt.changed:
		f.Dir, f.Outdated = baseName(path)+"-changed", func(string) bool { return true }
	default:
		f.Dir = baseName(path)
	}
	return f
}

// print writes what was selected, registers its tickets and lists both.
func (opt *printOptions) print(ctx context.Context, s environment, l *loaded, reg *register, sel selection, to outdir.Folder) error {
	p := s.progress()
	defer p.wipe()
	docs, stay, err := opt.write(ctx, l, sel, to, p)
	if err != nil {
		return err
	}
	var registered string
	if reg != nil {
		registered, err = reg.add(ctx, sel, p)
	}
	p.wipe()
	return errors.Join(summarize(s.out, to.Dir, docs, registered), warnOfEarlier(s.err, to.Dir, stay), err)
}

// write draws what was selected and writes it to a folder. It returns the names of
// what stays there of an earlier run, too.
func (opt *printOptions) write(ctx context.Context, l *loaded, sel selection, to outdir.Folder, p *progress) (docs []outdir.Document, stay []string, err error) {
	docs, err = l.documents(sel, press{&opt.previewFlags, p})
	if err != nil {
		return nil, nil, err
	}
	drawn, err := opt.pictures(l, sel)
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

// documents draws everything that was selected.
func (l *loaded) documents(sel selection, pr press) ([]outdir.Document, error) {
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
	tickets := sel.tickets
	if cards.Codes, err = card.Encode(tickets, cards); err != nil {
		return nil, err
	}
	tags := "tags for panel, tube, slat and hardware"
	if n, err := card.Barless(tickets, grid, cards); err == nil && n > 0 { // an error is met again when they are drawn
		tags += fmt.Sprintf(" (%s too small for a Code 128: laser scanners cannot read them)", count(n, "label"))
	}
	var list []drawing
	if len(sel.template) > 0 {
		d := drawing{name: "template.pdf", what: "marking template", page: "sheet", draw: func() (*page.Document, error) { return template.Document(sel.template, bands) }}
		if bands.Paper.Roll {
			d.roll = bands.Style.Exact
		}
		list = append(list, d)
	}
	list = append(list,
		drawing{name: "tickets.pdf", what: fmt.Sprintf("tickets of %s", count(len(tickets), "shade")), page: "page", draw: func() (*page.Document, error) { return card.Tickets(tickets, cards) }},
		drawing{name: "tags.pdf", what: tags, page: "sheet", draw: func() (*page.Document, error) { return card.Tags(tickets, grid, cards) }},
	)
	if sel.plan {
		list = append(list, drawing{name: "cutplan.pdf", what: "cut plan and what to buy", page: "sheet", draw: func() (*page.Document, error) { return l.cutPlan(sel.all) }})
	}
	if brackets := mounting.FromTickets(sel.mounts); len(brackets) > 0 {
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
