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
	label    string // --first-label
	force    bool
	insist   bool
	changed  bool
	measure  bool
	all      bool
	noRecord bool
	template string
	pictureFlags
	previewFlags
}

func newPrint(s environment) *cobra.Command {
	var opt printOptions
	c := &cobra.Command{
		Use:   "print JOB",
		Short: "Write template, tickets, tags, cut plan and mounting sheets as PDF",
		Long: `Print reads a job file and writes template.pdf, tickets.pdf, tags.pdf, cutplan.pdf and,
for shades with brackets and openings, mounting.pdf. They go into a folder named after
the job, or the folder that --out names. Print replaces the files that it wrote there
before, and no others. It names older mounting sheets and drawings that stay in the
folder.

Print leaves out a shade that cannot be made as ordered, names it, and exits with code
4. With --insist it prints such a shade with its stops on the ticket; the cut plan still
leaves it out.

The template has the bands, true to scale in strips to tape together, and a gauge: a ruler
of one sheet with the same lines. --template bands or --template gauge prints only one of
them. The first sheet says where the gauge alone would do, and how many sheets it saves.

--preview also writes a picture of every page, preview-tickets-01.png and so on, to look
at. Print removes earlier previews that no longer show the paper. For a cutter or a
projector use --svg or --dxf, which draw true to scale.

If a measure is missing, print says last what nobody could check without it, and exits
with code 5.

Print registers its tickets in the shop's record, so that scan, board and serve find
them. A unit whose panel was spoilt gets a new ticket. If print cannot reach the record,
it still writes the paper, and exits with code 5. Print names each ticket that changed
since it was last printed, and what changed on it: throw its old paper away.

Once panels of a job are cut, print leaves them alone: it prints the tickets that are not
cut, and a plan for their panels from what is left. That is one panel after a spoilt one,
and the rest after a change halfway. If the job now asks for another size of a panel that
is cut, print says whether to trim it or to cut it again. --all prints every ticket.

--changed prints only new and changed tickets with their tags, into a folder of its own.
It adds the template and the mounting sheets of shades whose lines or brackets changed,
and the whole cut plan if a panel moved, a panel's size changed or a ticket is new. After
you take a shade out of the job, print everything again.

--measure prints only the measuring sheets, to take to the windows: for each unit a page
with a drawing of the opening, a box for each reading, and the code of its ticket. They
go into the folder JOB-measuring. For sheets before there is a job see new --sheet.`,
		Example: `  shadewright print testdata/jobs/bunkhouse.yaml
  shadewright print --out paper --set paper=a4 testdata/jobs/bunkhouse.yaml
  shadewright print --svg --dxf --out cutter testdata/jobs/narrowboat.yaml
  shadewright print --preview png --out look testdata/jobs/narrowboat.yaml
  shadewright print --template gauge --out gauge testdata/jobs/bunkhouse.yaml
  shadewright print --changed testdata/jobs/bunkhouse.yaml
  shadewright print --measure testdata/jobs/bunkhouse.yaml`,
		Args: oneJob,
		RunE: func(c *cobra.Command, args []string) error { return runPrint(c.Context(), s, &opt, args[0]) },
	}
	opt.add(c)
	c.Flags().StringVarP(&opt.out, "out", "o", "", "`folder` to write to (default: the job file's name, in this folder)")
	c.Flags().StringVar(&opt.label, "first-label", "", "first free `label` of a begun label sheet, counted from 1 row by row; next: after the last one printed")
	c.Flags().BoolVar(&opt.force, "force", false, "replace files that Shadewright did not write or that were changed since")
	c.Flags().BoolVar(&opt.insist, "insist", false, "also print shades that cannot be made as ordered")
	c.Flags().BoolVar(&opt.changed, "changed", false, "print only what is new or changed since the last print, into the folder JOB-changed")
	c.Flags().BoolVar(&opt.all, "all", false, "also print the tickets whose panels are cut")
	c.Flags().BoolVar(&opt.measure, "measure", false, "print only measuring sheets to take to the windows, into the folder JOB-measuring")
	c.Flags().BoolVar(&opt.noRecord, "no-record", false, "do not register the tickets, so nobody can mark their steps")
	c.Flags().StringVar(&opt.template, "template", "", "`parts` of the template: both, bands, or gauge for the one-sheet ruler alone (default: setting template)")
	opt.addPictures(c)
	opt.addPreviews(c)
	return c
}

func runPrint(ctx context.Context, s environment, opt *printOptions, path string) (err error) {
	if err := opt.check(); err != nil {
		return err
	}
	if opt.measure {
		return opt.printMeasuring(ctx, s, path)
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
		l.done = reg.cutting(ctx, &l.file.Job)
		err = l.make(ctx, s, path, reg.remakes(ctx, &l.file.Job))
	}
	if err != nil {
		return err
	}
	if ctx.Err() != nil { // Ctrl-C ended the search for a plan; still print and register that plan
		ctx = context.WithoutCancel(ctx)
	}
	good, stopped := l.unstopped()
	if opt.insist {
		good, stopped = l.tickets, nil
	}
	left := stoppedError(stopped, "left out; see shadewright check "+path+", or print every shade with --insist")
	if len(good) == 0 {
		return left
	}
	sel, kept := everything(good), 0
	if rest, n := l.uncut(good); n > 0 && !opt.all {
		sel, kept = rest, n
	} else if n > 0 {
		sel.all = rest.all // the plan never has a panel that is cut
		sel.plan = rest.plan
	}
	changes := sayCutChanges(s.err, l.cutChanges(good))
	if kept > 0 && len(sel.tickets) == 0 {
		_, err := fmt.Fprintf(s.talk(), "%s: every panel is cut and no ticket changed; nothing is written; to print everything again, add --all\n", path)
		return errors.Join(err, left, changes)
	}
	if kept > 0 {
		if _, err := fmt.Fprintf(s.hints(), "shadewright: %s cut already: not printed again, and not on the cut plan; to print every ticket, add --all\n", count(kept, "panel is", "panels are")); err != nil {
			return err
		}
	}
	if opt.changed {
		if sel, err = reg.changed(ctx, good); err != nil {
			return err
		}
		if len(sel.tickets) == 0 {
			_, err := fmt.Fprintf(s.talk(), "%s: no ticket is new or changed; nothing is written\n", path)
			return errors.Join(err, left)
		}
	}
	if err := opt.print(ctx, s, l, reg, sel, opt.folder(l, path)); err != nil {
		return errors.Join(err, left)
	}
	return errors.Join(left, changes, sayUnchecked(s.err, l.tickets))
}

// check reads the flags.
func (opt *printOptions) check() error {
	if opt.changed && opt.noRecord {
		return usageError{errors.New("--changed needs the record to know what was printed before; leave out --no-record")}
	}
	if opt.measure && (opt.changed || opt.insist) {
		return usageError{errors.New("--measure prints measuring sheets and nothing else; leave out --changed and --insist")}
	}
	if opt.template != "" {
		if _, ok := templateParts[opt.template]; !ok {
			return usageError{fmt.Errorf("--template %q is unknown; write both, bands or gauge", opt.template)}
		}
		opt.set = append(opt.set, "template="+opt.template)
	}
	return opt.previewFlags.check()
}

// templateParts holds the values of the setting template.
var templateParts = map[string]template.Parts{"both": template.Both, "bands": template.Bands, "gauge": template.Gauge}

// folder returns the folder for the paper. Changed paper has its own folder, so that you
// can send all of it to the printer; earlier files there are removed.
func (opt *printOptions) folder(l *loadedJob, path string) outdir.Folder {
	f := outdir.Folder{Dir: opt.out, Force: opt.force, Outdated: func(name string) bool { return strings.HasPrefix(name, previewPrefix) }}
	switch {
	case f.Dir != "":
	case opt.changed:
		f.Dir, f.Outdated = l.folderName(path)+"-changed", func(string) bool { return true }
	default:
		f.Dir = l.folderName(path)
	}
	return f
}

// print writes the selected paper, registers its tickets and lists both.
func (opt *printOptions) print(ctx context.Context, s environment, l *loadedJob, reg *register, sel selection, to outdir.Folder) error {
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
	return errors.Join(summarize(s.talk(), to.Dir, docs, registered), warnOfEarlier(s.err, to.Dir, stay), err)
}

// write draws the selected paper and writes it to a folder. Stay names the files of an
// earlier run that stay there.
func (opt *printOptions) write(ctx context.Context, l *loadedJob, sel selection, to outdir.Folder, p *progress) (docs []outdir.Document, stay []string, err error) {
	labels, err := l.beginLabels(opt.label)
	if err != nil {
		return nil, nil, err
	}
	docs, err = l.documents(sel, labels, drawer{&opt.previewFlags, p})
	if err != nil {
		return nil, nil, err
	}
	drawn, err := opt.pictures(l, sel)
	if err != nil {
		return nil, nil, err
	}
	docs = append(docs, drawn...)
	to.Wrote = p.count("writing: %d of %d files (Ctrl-C stops and keeps the earlier files)", len(docs))
	if stay, err = to.Write(ctx, docs); err != nil {
		return docs, stay, err
	}
	return docs, stay, labels.keep(card.Labels(sel.tickets, languageOf(l.settings)))
}

// warnOfEarlier names mounting sheets, drawings and previews that an earlier run left in
// the folder. Not every job has mounting sheets, and a hole drilled by another job's sheet
// is in the wrong place. A preview stays only if print cannot remove it.
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
	_, err := fmt.Fprintf(errs, "shadewright: %s: left by an earlier run, may not match this one; delete what you no longer need\n", measure.And(names))
	return err
}

// summarize lists the files, and how the tickets were registered.
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

// documents draws the selected paper.
func (l *loadedJob) documents(sel selection, labels labelSheet, pr drawer) ([]outdir.Document, error) {
	paper, err := l.paper()
	if err != nil {
		return nil, err
	}
	grid := labels.grid
	bands, mounts, err := l.fullScale()
	if err != nil {
		return nil, err
	}
	cards := card.Options{
		Paper: paper, Margins: l.margins(), Address: l.settings.Address, Code128: l.settings.Bars, Insist: true, Skip: labels.used,
		Info: page.Info{Creator: "Shadewright"}, Language: languageOf(l.settings),
	}
	tickets := sel.tickets
	if cards.Codes, err = card.Encode(tickets, cards); err != nil {
		return nil, err
	}
	tags := "tags for panel, tube, slat and hardware"
	if n, err := card.Barless(tickets, grid, cards); err == nil && n > 0 { // drawing the tags reports the error, if any
		tags += fmt.Sprintf(" (%s too small for a Code 128: laser scanners cannot read them)", measure.Count(n, "label"))
	}
	tags += labels.says(card.Labels(tickets, cards.Language))
	var list []drawing
	if len(sel.template) > 0 {
		d := drawing{name: "template.pdf", what: "marking template", page: "sheet", draw: func() (*page.Document, error) {
			return template.Document(sel.template, templateParts[l.settings.Template], bands)
		}}
		if bands.Paper.Roll {
			d.roll = bands.Style.Exact
		}
		list = append(list, d)
	}
	list = append(list,
		drawing{name: "tickets.pdf", what: fmt.Sprintf("tickets of %s", measure.Count(len(tickets), "shade")), page: "page", draw: func() (*page.Document, error) { return card.Tickets(tickets, cards) }},
		drawing{name: "tags.pdf", what: tags, page: "sheet", draw: func() (*page.Document, error) { return card.Tags(tickets, grid, cards) }},
	)
	if sel.plan {
		list = append(list, drawing{name: "cutplan.pdf", what: "cut plan and what to buy", page: "sheet", draw: func() (*page.Document, error) { return l.cutPlan(sel.all) }})
	}
	if brackets := mounting.FromTickets(sel.mounts); len(brackets) > 0 {
		list = append(list, drawing{name: "mounting.pdf", what: "mounting sheets of " + measure.Count(len(brackets), "shade"), page: "sheet",
			draw: func() (*page.Document, error) { return mountingSheets(brackets, mounts) }})
	}
	return pr.drawAll(list)
}

// fullScale returns the options of the template and of the mounting sheets. Both use the
// template's paper. If that is roll paper, mounting sheets use the job's paper: you hold
// them to a wall.
func (l *loadedJob) fullScale() (bands, mounts fullscale.Options, err error) {
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

// mountingSheets draws the mounting sheets. If the paper is too small, the error also says
// how to use larger paper for full-scale sheets only.
func mountingSheets(brackets []mounting.Sheet, o fullscale.Options) (*page.Document, error) {
	doc, err := mounting.Document(brackets, o)
	if _, ok := errors.AsType[*sheet.SmallError](err); ok {
		err = fmt.Errorf("%w, or larger paper for full-scale sheets only, with --set template_paper=a4", err)
	}
	return doc, err
}

// templatePrinter returns the printer of the template and its correction: the one in the
// setting template_printer, if its name or a factor is set, else the shop's printer. Roll
// paper goes through another machine, so the shop's correction does not apply to it.
func (l *loadedJob) templatePrinter(p sheet.Paper) (string, page.Correction) {
	if t := l.settings.TemplatePrinter; t.Name != "" || t.X != measure.One || t.Y != measure.One {
		return t.Name, page.Correction{X: t.X, Y: t.Y}
	}
	if p.Roll {
		return "", page.Correction{}
	}
	return l.settings.Printer.Name, l.correction()
}

// correction returns the shop's printer's correction, for full-scale sheets.
func (l *loadedJob) correction() page.Correction {
	p := l.settings.Printer
	return page.Correction{X: p.X, Y: p.Y}
}
