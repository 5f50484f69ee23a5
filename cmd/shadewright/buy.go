package main

import (
	"context"
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"shadewright/render/terminal"
	"shadewright/ticket"
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
		Short: "List what to buy for a job, and what it costs",
		Long: `Buy lays the panels of a job on their goods and lists what to buy, rounded up to amounts
that are sold: goods, slats, tape, thread, needles, blades and, if the shop buys
them, rollers, brackets and end parts. Buy takes off whatever the job has on hand.
Prices come from the job and the settings. Buy leaves out a shade that cannot be made
as ordered, and exits with code 4.`,
		Example: `  shadewright buy testdata/jobs/bunkhouse.yaml
  shadewright buy --csv testdata/jobs/bunkhouse.yaml`,
		Args: oneJob,
		RunE: func(c *cobra.Command, args []string) error { return runBuy(c.Context(), s, &opt, args[0]) },
	}
	opt.add(c)
	c.Flags().BoolVar(&opt.csv, "csv", false, "print the list as a table for a spreadsheet")
	c.Flags().BoolVar(&opt.json, "json", false, "print the list for a program, lengths in millimetres")
	return c
}

func runBuy(ctx context.Context, s environment, opt *buyOptions, path string) error {
	if opt.csv && opt.json {
		return usageError{errors.New("use either --csv or --json, not both")}
	}
	l, err := readJob(s, &opt.settingFlags, path)
	if err != nil {
		return err
	}
	again, remark := knownRemakes(ctx, s, l)
	if remark != nil {
		if _, err := fmt.Fprintf(s.err, "shadewright: cannot read the record, so panels that are cut are on this list too: %v\n", remark); err != nil {
			return err
		}
	}
	if err := l.make(ctx, s, path, again); err != nil {
		return err
	}
	var rest []*ticket.Ticket
	for _, t := range l.tickets {
		if !l.isCut(t) {
			rest = append(rest, t)
		}
	}
	if len(rest) < len(l.tickets) {
		if _, err := fmt.Fprintf(s.hints(), "shadewright: %s cut already and not on this list\n", count(len(l.tickets)-len(rest), "panel is", "panels are")); err != nil {
			return err
		}
	}
	list, err := buying.Make(&l.file.Job, rest, l.plans, l.settings.Buying)
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
