package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"

	"github.com/spf13/cobra"

	"shadewright/cmd/shadewright/outdir"
	"shadewright/ticket/mark"
	"shadewright/ticket/mark/record"
	"shadewright/ticket/measure"
)

func newRecord(s environment) *cobra.Command {
	c := &cobra.Command{
		Use:   "record",
		Short: "Copy the shop's record out, and in",
		Long: `Record copies the shop's record of tickets and marks. Export writes the record to a
file. Import adds such a file to the record of this or another machine; importing it
twice adds nothing.`,
		Example: `  shadewright record export --out marks.json
  shadewright record import marks.json`,
		Args: noCommand,
		RunE: func(c *cobra.Command, _ []string) error { return c.Help() },
	}
	c.SuggestionsMinimumDistance = 2
	c.AddCommand(newRecordExport(s), newRecordImport(s))
	return c
}

func newRecordExport(s environment) *cobra.Command {
	var opt struct {
		settingFlags
		csv bool
		out string
	}
	c := &cobra.Command{
		Use:   "export",
		Short: "Write every registered ticket and every mark, as JSON or CSV",
		Example: `  shadewright record export --out marks.json
  shadewright record export --csv > marks.csv`,
		Args: noWords,
		RunE: func(c *cobra.Command, _ []string) error {
			settings, err := opt.load(s, ".")
			if err != nil {
				return err
			}
			return withRecord(c.Context(), s, settings, func(rec *record.Record) error {
				return export(c.Context(), s, rec, opt.out, opt.csv)
			})
		},
	}
	opt.add(c)
	c.Flags().BoolVar(&opt.csv, "csv", false, "write a table for a spreadsheet")
	c.Flags().StringVarP(&opt.out, "out", "o", "", "`file` to write (default: standard output)")
	return c
}

func export(ctx context.Context, s environment, rec *record.Record, out string, asCSV bool) error {
	lines, err := rec.Records(ctx)
	if err != nil {
		return err
	}
	write := mark.ExportJSON
	if asCSV {
		write = mark.ExportCSV
	}
	if out == "" {
		return write(s.out, lines)
	}
	var b bytes.Buffer
	if err := write(&b, lines); err != nil {
		return err
	}
	if err := outdir.Replace(out, b.Bytes()); err != nil {
		return err
	}
	_, err = fmt.Fprintf(s.talk(), "%s\t%s\n", out, measure.Count(len(lines), "line"))
	return err
}

func newRecordImport(s environment) *cobra.Command {
	var opt settingFlags
	c := &cobra.Command{
		Use:     "import FILE",
		Short:   "Add an export to the record: all of it or nothing",
		Example: "  shadewright record import marks.json",
		Args:    oneFile,
		RunE: func(c *cobra.Command, args []string) error {
			settings, err := opt.load(s, ".")
			if err != nil {
				return err
			}
			lines, err := readExport(args[0])
			if err != nil {
				return err
			}
			return withRecord(c.Context(), s, settings, func(rec *record.Record) error {
				n, err := rec.Import(c.Context(), lines)
				if err != nil {
					return err
				}
				_, err = fmt.Fprintf(s.talk(), "%s\tadded %s and %s; %s already there\n", rec.Where(), measure.Count(n.Tickets, "ticket"), measure.Count(n.Marks, "mark"), measure.Count(n.Known, "line"))
				return err
			})
		},
	}
	opt.add(c)
	return c
}

func oneFile(c *cobra.Command, args []string) error {
	if len(args) != 1 {
		return usageError{fmt.Errorf("%s takes one file, not %d", c.CommandPath(), len(args))}
	}
	return nil
}

// readExport reads an export. JSON begins with a brace; anything else is read as CSV.
func readExport(path string) (lines []mark.Line, err error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, unread(path, err)
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	data, err := io.ReadAll(f)
	if err != nil {
		return nil, err
	}
	read := mark.ImportCSV
	if bytes.HasPrefix(bytes.TrimLeft(data, "\ufeff \t\r\n"), []byte("{")) {
		read = mark.ImportJSON
	}
	lines, err = read(bytes.NewReader(data))
	if err != nil {
		return nil, fmt.Errorf("%w\n%s is damaged or is not an export; nothing was added; import the newest undamaged export", inFile(path, err), path)
	}
	return lines, nil
}

// inFile puts the file's name before each error.
func inFile(path string, err error) error {
	// Look at the error itself only, not with errors.As: a joined error inside it is part
	// of its text already.
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		var all []error
		for _, one := range joined.Unwrap() {
			all = append(all, inFile(path, one))
		}
		return errors.Join(all...)
	}
	return fmt.Errorf("%s: %w", path, err)
}
