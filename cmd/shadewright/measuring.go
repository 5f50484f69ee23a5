package main

import (
	"context"
	"fmt"
	"path/filepath"

	"shadewright/cmd/shadewright/outdir"
	"shadewright/config"
	"shadewright/render/card"
	"shadewright/render/measuring"
	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/ticket"
	"shadewright/ticket/code"
	"shadewright/ticket/measure"
)

// measuringFile is the name of the measuring sheets.
const measuringFile = "measuring.pdf"

// printMeasuring writes a measuring sheet for each unit of a job. It needs no ticket, so
// a shade that cannot be made yet has its sheet too.
func (opt *printOptions) printMeasuring(ctx context.Context, s environment, path string) error {
	l, err := readJob(s, &opt.settingFlags, path)
	if err != nil {
		return err
	}
	paper, err := l.paper()
	if err != nil {
		return usageError{err}
	}
	to := outdir.Folder{Dir: opt.out, Force: opt.force}
	if to.Dir == "" {
		to.Dir = l.folderName(path) + "-measuring"
	}
	return writeMeasuring(ctx, s, to, l.settings, paper, l.openings())
}

// openings lists what the job knows of each unit's opening.
func (l *loadedJob) openings() (list []measuring.Opening) {
	job := &l.file.Job
	for i := range job.Shades {
		sh := &job.Shades[i]
		for unit := 1; unit <= sh.Quantity; unit++ {
			o := measuring.Opening{
				Job: job.Name, Shade: ticket.UnitName(sh.ID, unit, sh.Quantity), Room: sh.Room, Place: sh.Place, Units: job.Style.System,
				Code: code.Derive(code.Identity(job.ID, sh.ID, unit, 0)),
			}
			o.Content = card.Address(l.settings.Address, string(o.Code))
			if sh.Opening != nil {
				o.Mount = &sh.Opening.Mount
			}
			list = append(list, o)
		}
	}
	return list
}

// blankMeasuring writes one measuring sheet on which nothing is known.
func blankMeasuring(ctx context.Context, s environment, c config.Settings, to outdir.Folder, paper sheet.Paper) error {
	return writeMeasuring(ctx, s, to, c, paper, []measuring.Opening{{Units: c.Units()}})
}

func writeMeasuring(ctx context.Context, s environment, to outdir.Folder, c config.Settings, paper sheet.Paper, list []measuring.Opening) error {
	drawn, err := measuring.Document(list, measuring.Options{
		Paper: paper, Margins: sheet.Margins(c.Margins), Style: c.Policy().Style,
		Info: page.Info{Creator: "Shadewright"}, Language: languageOf(c),
	})
	if err != nil {
		return usageError{err}
	}
	doc, err := finish(measuringFile, drawn, "measuring sheets, "+measure.Count(drawn.Pages(), "page"))
	if err != nil {
		return err
	}
	if _, err := to.Write(ctx, []outdir.Document{doc}); err != nil {
		return err
	}
	_, err = fmt.Fprintf(s.talk(), "%s\t%s\n", filepath.Join(to.Dir, doc.Name), doc.Says)
	return err
}
