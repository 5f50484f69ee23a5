package main

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"shadewright/render/terminal"
	"shadewright/ticket/finding"
	"shadewright/ticket/jobfile"
	"shadewright/ticket/measure"
	"shadewright/ticket/square"
)

type squareOptions struct {
	settingFlags
	units                    string
	top, bottom, left, right string
	json                     bool
}

func newSquare(s environment) *cobra.Command {
	var opt squareOptions
	c := &cobra.Command{
		Use:   "square WIDTH LENGTH DIAGONAL DIAGONAL",
		Short: "Say from two diagonals how far a panel is off square, and what to trim",
		Long: `Square takes the width and length that a panel should have, and its two diagonals as you
measured them: first from the top left corner, then from the top right. It says how
far the panel is off square, which way its top leans, and what to trim where. Equal
diagonals prove a rectangle only if opposite sides are equal too, so give the sides if
you measured them.`,
		Example: `  shadewright square --units in 28-1/2 49 56-13/16 56-9/16
  shadewright square 724mm 1245mm 1443mm 1437mm --top 723mm --bottom 725mm`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) != 4 {
				return usageError{fmt.Errorf("square takes a width, a length and two diagonals, not %d lengths; for example shadewright square --units in 28-1/2 49 56-13/16 56-9/16", len(args))}
			}
			return nil
		},
		RunE: func(_ *cobra.Command, args []string) error { return runSquare(s, &opt, args) },
	}
	opt.add(c)
	c.Flags().StringVar(&opt.units, "units", "", "unit of bare numbers: `in or mm`")
	c.Flags().StringVar(&opt.top, "top", "", "`width` at the top, as measured")
	c.Flags().StringVar(&opt.bottom, "bottom", "", "`width` at the bottom, as measured")
	c.Flags().StringVar(&opt.left, "left", "", "`length` at the left, as measured")
	c.Flags().StringVar(&opt.right, "right", "", "`length` at the right, as measured")
	c.Flags().BoolVar(&opt.json, "json", false, "print every number for a program, lengths in millimetres")
	return c
}

func runSquare(s environment, opt *squareOptions, args []string) error {
	settings, err := opt.load(s, ".")
	if err != nil {
		return err
	}
	units := settings.Units()
	if err := unitsFlag(opt.units, &units); err != nil {
		return err
	}
	q, err := opt.quad(args, units)
	if err != nil {
		if units == measure.Undeclared && strings.Contains(err.Error(), "has no unit") {
			err = fmt.Errorf("%w; or give the unit of bare numbers with --units in or --units mm", err)
		}
		return usageError{err}
	}
	style := settings.Style(spokenIn(units, args))
	result, found, err := q.Judge(settings.Rules(style.System).Opening.Square.For(q.Size), style)
	if err != nil {
		return usageError{err}
	}
	finding.Sort(found)
	if opt.json {
		return writeJSON(s.out, result.Report(found))
	}
	return terminal.Square(s.out, q, result, found, style)
}

// unitsFlag reads --units, if it is given.
func unitsFlag(text string, units *measure.System) error {
	if text == "" {
		return nil
	}
	if f := jobfile.Units().Set(text, measure.Undeclared, units); f != nil {
		return usageError{fmt.Errorf("--units %q %s; %s", text, f.Problem, f.Fix)}
	}
	return nil
}

// quad reads the measures and reports at once all that it cannot read.
func (opt *squareOptions) quad(args []string, units measure.System) (square.Quad, error) {
	var q square.Quad
	var errs []error
	for _, v := range []struct {
		name, text string
		into       *measure.Length
	}{
		{"WIDTH", args[0], &q.Size.Width}, {"LENGTH", args[1], &q.Size.Length},
		{"DIAGONAL", args[2], &q.Diagonals[0]}, {"DIAGONAL", args[3], &q.Diagonals[1]},
		{"--top", opt.top, &q.Top}, {"--bottom", opt.bottom, &q.Bottom}, {"--left", opt.left, &q.Left}, {"--right", opt.right, &q.Right},
	} {
		if v.text == "" && strings.HasPrefix(v.name, "--") {
			continue
		}
		l, err := measure.Parse(v.text, units)
		if err != nil {
			errs = append(errs, fmt.Errorf("%s: %w", v.name, err))
			continue
		}
		*v.into = l
	}
	return q, errors.Join(errs...)
}

// spokenIn returns the unit of the results: that of bare numbers, else that of the width.
func spokenIn(units measure.System, args []string) measure.System {
	switch {
	case units != measure.Undeclared:
		return units
	case strings.Contains(strings.ToLower(args[0]), "m"): // mm, cm or m; inches and feet have no m
		return measure.Millimetres
	}
	return measure.Inches
}
