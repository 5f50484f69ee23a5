package main

import (
	"context"
	"errors"
	"fmt"
	"math"
	"strconv"

	"github.com/spf13/cobra"

	"shadewright/render/terminal"
	"shadewright/ticket/form"
	"shadewright/ticket/measure"
	"shadewright/ticket/nest"
	"shadewright/ticket/piecelist"
)

type nestOptions struct {
	settingFlags
	units                string
	width, length, table string
	allowance, repeat    string
	seconds              string
	json                 bool
}

func newNest(s environment) *cobra.Command {
	var opt nestOptions
	c := &cobra.Command{
		Use:   "nest --width WIDTH PIECES.csv",
		Short: "Lay any rectangles on a roll: valances, patches, cushions",
		Long: `Nest reads a list of rectangles and lays them on the shortest length of roll, with
straight cuts from edge to edge. The file has the columns label, width, length,
quantity and turn (yes or no); quantity and turn are optional. A bare number is in
--units, else in the shop's units, else in inches. Press Ctrl-C to use the best plan so
far. With --json, x_mm is across the roll and y_mm along it.`,
		Example: `  shadewright nest --width 58 testdata/pieces.csv
  shadewright nest --units mm --width 1370 --seconds 10 --json testdata/pieces.csv`,
		Args: func(c *cobra.Command, args []string) error {
			if len(args) != 1 {
				return usageError{fmt.Errorf("nest takes one CSV file, not %d; for example shadewright nest --width 58 testdata/pieces.csv", len(args))}
			}
			return nil
		},
		RunE: func(c *cobra.Command, args []string) error { return runNest(c.Context(), s, &opt, args[0]) },
	}
	opt.add(c)
	f := c.Flags()
	f.StringVar(&opt.width, "width", "", "usable `width` of the roll, between the selvages")
	f.StringVar(&opt.length, "length", "", "`length` of the roll (default: as long as needed)")
	f.StringVar(&opt.table, "table", "", "`length` of the cutting table: the first cuts divide the roll into sections no longer than this (default: cutting.table, if the shop set it)")
	f.StringVar(&opt.allowance, "allowance", "", "`length` of cloth to leave on each side of every piece")
	f.StringVar(&opt.repeat, "repeat", "", "`length` after which the pattern repeats")
	f.StringVar(&opt.units, "units", "", "unit of bare numbers: `in or mm`")
	f.StringVar(&opt.seconds, "seconds", "", "how many `seconds` to search, 0 to 3600 (default: cutting.seconds)")
	f.BoolVar(&opt.json, "json", false, "print the plan for a program, lengths in millimetres")
	return c
}

func runNest(ctx context.Context, s environment, opt *nestOptions, path string) error {
	settings, err := opt.load(s, ".")
	if err != nil {
		return err
	}
	units := settings.Units()
	if err := unitsFlag(opt.units, &units); err != nil {
		return err
	}
	if units == measure.Undeclared {
		units = measure.Inches
	}
	roll, err := opt.roll(units)
	if err != nil {
		return err
	}
	if opt.table == "" {
		roll.Table = settings.Limits.Table // the built-in table stops no piece
	}
	list, err := readPieces(path, units)
	if err != nil {
		return err
	}
	style := settings.Style(units)
	seconds := float64(settings.Cutting.Seconds)
	if opt.seconds != "" {
		if seconds, err = secondsOf(opt.seconds); err != nil {
			return err
		}
	}
	effort, done := searchFor(s, seconds, style.Format)
	order := nest.Order{Roll: roll, Pieces: list.Pieces, Units: units}
	plan, err := nest.Make(ctx, order, effort)
	done()
	if err != nil {
		return list.Problems(err)
	}
	if plan.Interrupted {
		if _, err := fmt.Fprintln(s.err, "shadewright: interrupted: this is the best plan so far"); err != nil {
			return err
		}
	}
	if opt.json {
		err = writeJSON(s.out, nest.ReportOf(order, plan))
	} else {
		err = terminal.Nest(s.out, order, plan, style)
	}
	if err == nil && plan.Short > 0 {
		return fmt.Errorf("%w: %s more is needed", errShortRoll, style.Words(plan.Short, measure.Up))
	}
	return err
}

// errShortRoll ends a run whose plan needs more roll than there is.
var errShortRoll = errors.New("the roll is too short for all pieces")

func readPieces(path string, units measure.System) (*piecelist.List, error) {
	data, err := form.Load(path)
	if err != nil {
		return nil, unread(path, err)
	}
	return piecelist.Read(path, data, units)
}

// roll reads the lengths from the flags and reports all that are wrong.
func (o *nestOptions) roll(units measure.System) (nest.Roll, error) {
	var r nest.Roll
	var errs []error
	if o.width == "" {
		errs = append(errs, errors.New("--width is missing; give the usable width of the roll, for example --width 58in"))
	}
	if _, err := secondsOf(o.seconds); err != nil && o.seconds != "" {
		errs = append(errs, err)
	}
	for _, f := range []struct {
		name, text string
		least      measure.Length
		into       *measure.Length
	}{
		{"width", o.width, measure.Millimetre, &r.Width}, {"length", o.length, measure.Millimetre, &r.Length},
		{"table", o.table, 0, &r.Table}, {"allowance", o.allowance, 0, &r.Allowance}, {"repeat", o.repeat, 0, &r.Repeat},
	} {
		if f.text == "" {
			continue
		}
		kind := form.Length{Least: f.least, Most: measure.Longest}
		if fault := kind.Set(f.text, units, f.into); fault != nil {
			errs = append(errs, fmt.Errorf("--%s %q %s; %s", f.name, f.text, fault.Problem, fault.Fix))
		}
	}
	if len(errs) > 0 {
		return r, usageError{errors.Join(errs...)}
	}
	return r, nil
}

// secondsOf reads the length of a search in seconds.
func secondsOf(text string) (float64, error) {
	v, err := strconv.ParseFloat(text, 64)
	if err != nil && !errors.Is(err, strconv.ErrRange) || math.IsNaN(v) {
		return 0, usageError{fmt.Errorf("--seconds %q is not a number; write a number from 0 to %d", text, nest.MostSeconds)}
	}
	if v < 0 || v > nest.MostSeconds {
		return 0, usageError{fmt.Errorf("--seconds %q is out of range; write a number from 0 to %d", text, nest.MostSeconds)}
	}
	return v, nil
}
