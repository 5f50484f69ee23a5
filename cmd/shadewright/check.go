package main

import (
	"cmp"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"shadewright/config"
	"shadewright/render/terminal"
	"shadewright/ticket"
)

type checkOptions struct {
	settingFlags
	json     bool
	settings bool
	draw     bool
}

func newCheck(s environment) *cobra.Command {
	var opt checkOptions
	c := &cobra.Command{
		Use:   "check JOB",
		Short: "Show what would be cut, and everything that is wrong",
		Long: `Check reads a job file, works out every dimension and reports everything that is wrong
or worth knowing. It writes no file. If a shade cannot be made as ordered, check exits
with code 4. If a measure is missing, check names what nobody could check without it, and
exits with code 5.`,
		Example: `  shadewright check testdata/jobs/bunkhouse.yaml
  shadewright check --draw testdata/jobs/narrowboat.yaml
  shadewright check --json testdata/jobs/bunkhouse.yaml
  shadewright check --settings testdata/jobs/bunkhouse.yaml`,
		Args: oneJob,
		RunE: func(c *cobra.Command, args []string) error { return runCheck(c.Context(), s, &opt, args[0]) },
	}
	opt.add(c)
	c.Flags().BoolVar(&opt.json, "json", false, "print every number for a program, lengths in millimetres")
	c.Flags().BoolVar(&opt.draw, "draw", false, "draw each panel with its lines, as text")
	c.Flags().BoolVar(&opt.settings, "settings", false, "show each setting, its value and where it comes from")
	return c
}

func runCheck(ctx context.Context, s environment, opt *checkOptions, path string) error {
	if opt.settings {
		c, err := opt.load(s, filepath.Dir(path))
		if err != nil {
			return err
		}
		return writeSettings(s.out, c.Table(), opt.json)
	}
	l, err := readJob(s, &opt.settingFlags, path)
	if err != nil {
		return err
	}
	again, remark := knownRemakes(ctx, s, l)
	if err := l.make(ctx, s, path, again); err != nil {
		return err
	}
	if remark != nil {
		if _, err := fmt.Fprintf(s.err, "shadewright: cannot read the record, so remade units have their old codes here: %v\n", remark); err != nil {
			return err
		}
	}
	if opt.json {
		err = writeJSON(s.out, ticket.ReportOf(&l.file.Job, l.tickets))
	} else {
		err = terminal.Check(s.out, &l.file.Job, l.tickets)
	}
	if err == nil && opt.draw && !opt.json {
		err = terminal.Draw(s.out, &l.file.Job, l.tickets)
	}
	if err != nil {
		return err
	}
	_, stopped := l.unstopped()
	return cmp.Or(stoppedError(stopped, "see the findings"), uncheckedError(ticket.UncheckedOf(l.tickets)))
}

func writeJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}

// writeSettings prints the shop's settings as a table, or as JSON for a program.
func writeSettings(w io.Writer, rows []config.Row, asJSON bool) error {
	if asJSON {
		type row struct {
			Key    string `json:"key"`
			Value  string `json:"value"`
			From   string `json:"from"`
			Doc    string `json:"doc"`
			Reason string `json:"reason"`
		}
		out := make([]row, len(rows))
		for i, r := range rows {
			out[i] = row{r.Key, r.Value, r.From, r.Doc, r.Reason}
		}
		return writeJSON(w, out)
	}
	table := [][]string{{"setting", "value", "from", "meaning"}}
	for _, r := range rows {
		meaning := r.Doc
		if r.From == config.BuiltIn {
			meaning += " (" + r.Reason + ")"
		}
		table = append(table, []string{r.Key, r.Value, r.From, meaning})
	}
	return writeTable(w, table)
}

// writeTable writes rows in columns.
func writeTable(w io.Writer, rows [][]string) error {
	tw := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	for _, r := range rows {
		if _, err := fmt.Fprintln(tw, strings.Join(r, "\t")); err != nil {
			return err
		}
	}
	return tw.Flush()
}
