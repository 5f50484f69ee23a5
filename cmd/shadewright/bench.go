package main

import (
	"fmt"
	"path/filepath"

	"github.com/spf13/cobra"

	"shadewright/cmd/shadewright/outdir"
	"shadewright/config"
	"shadewright/render/bench"
	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/ticket/jobfile"
	"shadewright/ticket/measure"
)

func newBench(s environment) *cobra.Command {
	var opt struct {
		settingFlags
		out   string
		force bool
	}
	c := &cobra.Command{
		Use:   "bench",
		Short: "Write the bench sheet: codes for steps, people, undo and hold",
		Long: `Bench writes bench.pdf, the sheet of codes that lies beside a scanner. Scan a step once,
and every ticket after it marks that step. A scan of undo, hold or a spoilt panel
applies to the next ticket only. The settings bench.people, bench.places, bench.holds
and bench.spoilt list people, places and reasons.`,
		Example: "  shadewright bench --set bench.people='ann, bo'",
		Args:    noWords,
		RunE: func(c *cobra.Command, _ []string) error {
			settings, err := opt.load(s, ".")
			if err != nil {
				return err
			}
			doc, err := benchSheet(settings)
			if err != nil {
				return err
			}
			if _, err := (outdir.Folder{Dir: opt.out, Force: opt.force}).Write(c.Context(), []outdir.Document{doc}); err != nil {
				return err
			}
			_, err = fmt.Fprintf(s.talk(), "%s\t%s\n", filepath.Join(opt.out, doc.Name), doc.Says)
			return err
		},
	}
	opt.add(c)
	c.Flags().StringVarP(&opt.out, "out", "o", "bench", "`folder` to write to")
	c.Flags().BoolVar(&opt.force, "force", false, "replace a file that Shadewright did not write or that was changed since")
	return c
}

func benchSheet(c config.Settings) (outdir.Document, error) {
	paper, err := paperOf(jobfile.Paper(c.Paper))
	if err != nil {
		return outdir.Document{}, usageError{err}
	}
	r := c.Record
	drawn, err := bench.Document(bench.Shop{Route: r.Route, People: r.People, Places: r.Places, Holds: r.Holds, Spoilt: r.Spoilt}, bench.Options{
		Paper: paper, Margins: sheet.Margins(c.Margins), Style: c.Policy().Style, Code128: c.Bars,
		Info: page.Info{Creator: "Shadewright"}, Language: languageOf(c),
	})
	if err != nil {
		return outdir.Document{}, usageError{err}
	}
	return finish("bench.pdf", drawn, "bench sheet, "+measure.Count(drawn.Pages(), "page"))
}
