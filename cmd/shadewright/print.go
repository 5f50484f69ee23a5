package main

import (
	"context"
	"fmt"
	"path/filepath"

	"github.com/spf13/cobra"

	"shadewright/render/page"
	"shadewright/render/template"
	"shadewright/ticket"
)

type printOptions struct {
	settingFlags
	out    string
	force  bool
	insist bool
}

func newPrint(s surround) *cobra.Command {
	var opt printOptions
	c := &cobra.Command{
		Use:   "print JOB",
		Short: "Write the marking template, the tickets, the tags and the cut plan as PDF",
		Long: `Print reads a job file and writes template.pdf, tickets.pdf, tags.pdf and
cutplan.pdf into a folder of the job's name, or where --out says. Its own earlier files there are
replaced whole; any other file is left alone. A shade that cannot be made so is
left out and named, exit code 4, unless --insist prints it with its stops on it; it
has no place on the cut plan.`,
		Example: `  shadewright print testdata/jobs/bunkhouse.yaml
  shadewright print --out paper --set paper=a4 testdata/jobs/bunkhouse.yaml`,
		Args: oneJob,
		RunE: func(c *cobra.Command, args []string) error { return runPrint(c.Context(), s, &opt, args[0]) },
	}
	opt.add(c)
	c.Flags().StringVarP(&opt.out, "out", "o", "", "`folder` to write to (default: one of the job file's name, here)")
	c.Flags().BoolVar(&opt.force, "force", false, "replace files that an earlier run did not write, or that were changed since")
	c.Flags().BoolVar(&opt.insist, "insist", false, "print shades that cannot be made so, too")
	return c
}

func runPrint(ctx context.Context, s surround, opt *printOptions, path string) error {
	l, err := loadJob(ctx, s, &opt.settingFlags, path)
	if err != nil {
		return err
	}
	good, stopped := l.unstopped()
	if opt.insist {
		good, stopped = l.tickets, nil
	}
	left := stoppedError(stopped, "left out; see shadewright check "+path+", or print all the same with --insist")
	if len(good) == 0 {
		return left
	}
	docs, err := l.documents(good)
	if err != nil {
		return err
	}
	dir := opt.out
	if dir == "" {
		dir = baseName(path)
	}
	if err := writeAll(dir, docs, opt.force); err != nil {
		return err
	}
	for _, d := range docs {
		if _, err := fmt.Fprintf(s.out, "%s\t%s\n", filepath.Join(dir, d.name), d.says); err != nil {
			return err
		}
	}
	return left
}

// documents draws everything that is printed of the tickets.
func (l *loaded) documents(tickets []*ticket.Ticket) ([]document, error) {
	paper, err := l.paper()
	if err != nil {
		return nil, err
	}
	marking, err := template.Document(tickets, template.Options{
		Paper: paper, Margins: l.margins(), Overlap: l.settings.Overlap, Style: l.file.Job.Style,
		Job: l.file.Job.Name, Printer: l.settings.Printer.Name, Correction: l.correction(),
	})
	if err != nil {
		return nil, err
	}
	one, err := finish("template.pdf", marking, fmt.Sprintf("marking template, %s", sheets(marking)))
	if err != nil {
		return nil, err
	}
	cuts, err := l.cutPlan(tickets)
	if err != nil {
		return nil, err
	}
	two, err := finish("cutplan.pdf", cuts, fmt.Sprintf("cut plan and what to buy, %s", sheets(cuts)))
	if err != nil {
		return nil, err
	}
	return []document{one, two}, nil
}

// correction is what the shop's printer needs, for what must come out true.
func (l *loaded) correction() page.Correction {
	p := l.settings.Printer
	return page.Correction{X: p.X, Y: p.Y}
}

// finish writes a drawn document to memory. A letter that no face can draw is
// printed as a box with its number; the summary says so.
func finish(name string, d *page.Document, says string) (document, error) {
	if m := d.Missing(); len(m) > 0 {
		says += fmt.Sprintf("; no glyph for %q, a box with its number stands for it", m)
	}
	data, err := d.Bytes()
	if err != nil {
		return document{}, fmt.Errorf("%s: %w", name, err)
	}
	return document{name: name, data: data, says: says}, nil
}

func sheets(d *page.Document) string {
	if d.Pages() == 1 {
		return "1 sheet"
	}
	return fmt.Sprintf("%d sheets", d.Pages())
}
