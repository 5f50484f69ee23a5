package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"shadewright/cmd/shadewright/outdir"
	"shadewright/config"
	"shadewright/render/calibration"
	"shadewright/render/fullscale"
	"shadewright/render/sheet"
	"shadewright/ticket/form"
	"shadewright/ticket/jobfile"
	"shadewright/ticket/measure"
)

type calibrateOptions struct {
	settingFlags
	printer, across, down, rulers, out string
	force, template                    bool
}

func newCalibrate(s environment) *cobra.Command {
	var opt calibrateOptions
	c := &cobra.Command{
		Use:   "calibrate",
		Short: "Write a sheet to measure the printer by, and keep the correction it needs",
		Long: `Calibrate writes a sheet with two long rulers. Print it at 100 %, actual size. Measure
both rulers from heavy mark to heavy mark and give the two readings. Shadewright keeps
the correction under the printer's name, in shop.yaml in your settings folder, and
draws every full-scale sheet with it. It refuses readings that no printer causes: the
print dialog must have scaled the page.

Use --template to measure the printer of the marking template, such as a plotter, on
the paper that template_paper names. Its correction applies to the template alone. On
roll paper the sheet is half as long again as the paper is wide, so that it can only go
through one way.`,
		Example: `  shadewright calibrate --set paper=letter
  shadewright calibrate --rulers 7.5in,8in --printer office --across "7 31/64 in" --down "8 1/64 in"
  shadewright calibrate --template --set template_paper=roll-24in --set units=in --out plotter.pdf`,
		Args: noWords,
		RunE: func(*cobra.Command, []string) error { return runCalibrate(s, &opt) },
	}
	opt.add(c)
	f := c.Flags()
	f.StringVar(&opt.printer, "printer", "", "`name` of the printer in this shop")
	f.StringVar(&opt.across, "across", "", "`length` you measured on the ruler across the sheet, with its unit")
	f.StringVar(&opt.down, "down", "", "`length` you measured on the ruler down the sheet, with its unit")
	f.StringVar(&opt.rulers, "rulers", "", "the true `lengths` of both rulers, across and down, as the sheet gives them: 7.5in,8in")
	f.StringVarP(&opt.out, "out", "o", "calibration.pdf", "`file` to write the sheet to")
	f.BoolVar(&opt.template, "template", false, "measure the printer of the marking template, on the template's paper")
	f.BoolVar(&opt.force, "force", false, "replace an existing file")
	return c
}

func runCalibrate(s environment, opt *calibrateOptions) error {
	// The sheet has no correction. The settings may already choose the printer that is to
	// be measured, and reading them would fail because its correction is not there yet.
	opt.set = append(opt.set, "printer.name=none", "template_printer.name=none")
	settings, err := opt.load(s, ".")
	if err != nil {
		return err
	}
	l := &loadedJob{settings: settings, file: &jobfile.File{}}
	paper, err := opt.paper(l)
	if err != nil {
		return err
	}
	units := settings.Units()
	if units == measure.Undeclared {
		units = localUnits(s.environ)
	}
	page := fullscale.Options{Paper: paper, Margins: sheet.Margins(settings.Margins), Style: settings.Style(units), Language: languageOf(settings), Printer: opt.printer}
	if opt.across == "" && opt.down == "" {
		return writeCalibration(s, opt, page)
	}
	return keepCorrection(s, opt, page)
}

// paper returns the paper of the calibration sheet.
func (opt *calibrateOptions) paper(l *loadedJob) (sheet.Paper, error) {
	if !opt.template {
		return l.paper()
	}
	p, err := l.templatePaper()
	if err != nil || !p.Roll {
		return p, err
	}
	return sheet.Sized(p.Width, min(p.Width*3/2, sheet.Largest))
}

// command returns the command that takes the readings of the sheet.
func (opt *calibrateOptions) command() string {
	if opt.template {
		return "shadewright calibrate --template"
	}
	return "shadewright calibrate"
}

// chooser returns the group of settings that chooses the printer.
func (opt *calibrateOptions) chooser() string {
	if opt.template {
		return config.ForTemplate
	}
	return config.ForAll
}

func writeCalibration(s environment, opt *calibrateOptions, page fullscale.Options) error {
	doc, err := calibration.Document(page, opt.command())
	if err != nil {
		return err
	}
	d, err := finish(opt.out, doc, "")
	if err != nil {
		return err
	}
	if err := outdir.Write([]outdir.File{{Path: opt.out, Data: d.Data}}, opt.force); err != nil {
		return err
	}
	rulers, err := calibration.Rulers(page)
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(s.talk(), "%s\tcalibration sheet: print it at 100 %%; its rulers should measure %s across and %s down\n", opt.out, page.Style.Format(rulers.Across), page.Style.Format(rulers.Down))
	return err
}

// keepCorrection works out the correction from two readings and keeps it.
func keepCorrection(s environment, opt *calibrateOptions, page fullscale.Options) error {
	measured, err := opt.readings()
	if err != nil {
		return err
	}
	should, err := opt.should(page)
	if err != nil {
		return err
	}
	c, err := calibration.Correct(should, measured)
	if err != nil {
		return usageError{err}
	}
	if s.userDir == "" {
		return errors.New("this machine has no folder for a user's settings; write printer.x and printer.y into shop.yaml beside the job")
	}
	path, text, chosen, err := config.WithPrinter(s.userDir, opt.chooser(), config.Printer{Name: opt.printer, X: c.X, Y: c.Y})
	if errors.Is(err, form.ErrByHand) {
		return fmt.Errorf("%w; write under printers: %s: {x: %.6g, y: %.6g}", err, opt.printer, c.X.Float(), c.Y.Float())
	}
	if err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
		return err
	}
	if err := outdir.Replace(path, text); err != nil {
		return err
	}
	use := "used from now on"
	if opt.template {
		use += " for the marking template"
	}
	if !chosen {
		use = fmt.Sprintf("the settings choose another printer; to use this one, give --set %s.name=%q or change %[1]s.name in this file", opt.chooser(), opt.printer)
	}
	_, err = fmt.Fprintf(s.out, "correction of printer '%s': %.4f across, %.4f down\n%s\t%s\n", opt.printer, c.X.Float(), c.Y.Float(), path, use)
	return err
}

// rulerLength is what a ruler on a sheet can measure.
var rulerLength = form.Length{Least: 10 * measure.Millimetre, Most: 10 * measure.Metre}

// should returns the true lengths of the rulers: those that the sheet names, because the
// settings or the locale may have changed since it was printed, else those that a sheet
// printed now would have.
func (opt *calibrateOptions) should(page fullscale.Options) (calibration.Pair, error) {
	if opt.rulers == "" {
		return calibration.Rulers(page)
	}
	var p calibration.Pair
	across, down, both := strings.Cut(opt.rulers, ",")
	if !both {
		return p, usageError{fmt.Errorf("--rulers %q is not two lengths; write them as the sheet does, for example --rulers 7.5in,8in", opt.rulers)}
	}
	for _, r := range []struct {
		text string
		into *measure.Length
	}{{across, &p.Across}, {down, &p.Down}} {
		if f := rulerLength.Set(r.text, measure.Undeclared, r.into); f != nil {
			return p, usageError{fmt.Errorf("--rulers %q %s; %s", r.text, f.Problem, f.Fix)}
		}
	}
	return p, nil
}

// readings reads the readings from the flags. It reports everything that is wrong at once.
func (opt *calibrateOptions) readings() (calibration.Pair, error) {
	var p calibration.Pair
	var errs []error
	if opt.printer == "" {
		errs = append(errs, errors.New("--printer is missing; name the printer you measured, for example --printer office"))
	} else if f := config.PrinterName(opt.printer); f != nil {
		errs = append(errs, fmt.Errorf("--printer %q %s; %s", opt.printer, f.Problem, f.Fix))
	}
	for _, r := range []struct {
		flag, text string
		into       *measure.Length
	}{{"--across", opt.across, &p.Across}, {"--down", opt.down, &p.Down}} {
		if r.text == "" {
			errs = append(errs, fmt.Errorf("%s is missing; measure both rulers on the sheet", r.flag))
		} else if f := rulerLength.Set(r.text, measure.Undeclared, r.into); f != nil {
			errs = append(errs, fmt.Errorf("%s %q %s; %s", r.flag, r.text, f.Problem, f.Fix))
		}
	}
	if len(errs) > 0 {
		return p, usageError{errors.Join(errs...)}
	}
	return p, nil
}
