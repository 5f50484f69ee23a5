package main

import (
	"context"
	"errors"

	"github.com/spf13/cobra"

	"shadewright/render/terminal"
	"shadewright/ticket/buying"
)

type buyOptions struct {
	settingFlags
	csv, json bool
}

func newBuy(s environment) *cobra.Command {
	var opt buyOptions
	c := &cobra.Command{
		Use:   "buy JOB",
		Short: "List what a job makes necessary to buy, and what it costs",
		Long: `Buy lays a job's panels on their goods and lists what to buy, in the steps that
things are sold in: goods, slats, tape, thread, needles, blades and, where the
shop buys them, rollers, brackets and end parts. What the job says is on hand is
taken off. Prices are those of the job and the shop; a shade that cannot be made
so is left out, exit code 4.`,
		Example: `  shadewright buy testdata/jobs/bunkhouse.yaml
  shadewright buy --csv testdata/jobs/bunkhouse.yaml`,
		Args: oneJob,
		RunE: func(c *cobra.Command, args []string) error { return runBuy(c.Context(), s, &opt, args[0]) },
	}
	opt.add(c)
	c.Flags().BoolVar(&opt.csv, "csv", false, "print the list for a spreadsheet")
	c.Flags().BoolVar(&opt.json, "json", false, "print the list for a program, lengths in millimetres")
	return c
}

func runBuy(ctx context.Context, s environment, opt *buyOptions, path string) error {
	if opt.csv && opt.json {
		return usageError{errors.New("--csv and --json are two ways to print the list; give one of them")}
	}
	l, err := loadJob(ctx, s, &opt.settingFlags, path)
	if err != nil {
		return err
	}
	list, err := buying.Make(&l.file.Job, l.tickets, l.plans, l.settings.Buying)
	if err != nil {
		return err
	}
	switch style := l.file.Job.Style; {
	case opt.json:
		err = writeJSON(s.out, list.Report())
	case opt.csv:
		err = terminal.BuyingCSV(s.out, list, style)
	default:
		err = terminal.Buying(s.out, list, style)
	}
	if err != nil {
		return err
	}
	_, stopped := l.unstopped()
	return stoppedError(stopped, "left out; see shadewright check "+path)
}
