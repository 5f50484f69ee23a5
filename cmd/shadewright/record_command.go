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
		Short: "Copy the record of marks out, and in",
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
		Short: "Write every registration and mark as JSON, or as CSV",
		Example: `  shadewright record export --out marks.json
  shadewright record export --csv > marks.csv`,
		Args: noWords,
		RunE: func(c *cobra.Command, _ []string) error {
			settings, err := opt.load(s, ".")
			if err != nil {
				return err
			}
			return withRecord(c.Context(), s, settings, func(log *record.Record) error {
				return export(c.Context(), s, log, opt.out, opt.csv)
			})
		},
	}
	opt.add(c)
	c.Flags().BoolVar(&opt.csv, "csv", false, "write a table for a spreadsheet")
	c.Flags().StringVarP(&opt.out, "out", "o", "", "`file` to write, whole or not at all (default: standard output)")
	return c
}

func export(ctx context.Context, s environment, log *record.Record, out string, asCSV bool) error {
	records, err := log.Records(ctx)
	if err != nil {
		return err
	}
	write := mark.ExportJSON
	if asCSV {
		write = mark.ExportCSV
	}
	if out == "" {
		return write(s.out, records)
	}
	var b bytes.Buffer
	if err := write(&b, records); err != nil {
		return err
	}
	if err := outdir.Replace(out, b.Bytes()); err != nil {
		return err
	}
	_, err = fmt.Fprintf(s.out, "%s\t%s\n", out, measure.Count(len(records), "record"))
	return err
}

func newRecordImport(s environment) *cobra.Command {
	var opt settingFlags
	c := &cobra.Command{
		Use:     "import FILE",
		Short:   "Add what an export holds to the record: all of it or nothing",
		Example: "  shadewright record import marks.json",
		Args:    oneFile,
		RunE: func(c *cobra.Command, args []string) error {
			settings, err := opt.load(s, ".")
			if err != nil {
				return err
			}
			records, err := readExport(args[0])
			if err != nil {
				return err
			}
			return withRecord(c.Context(), s, settings, func(log *record.Record) error {
				n, err := log.Import(c.Context(), records)
				if err != nil {
					return err
				}
				_, err = fmt.Fprintf(s.out, "%s\t%s, %s added, %d known before\n", log.Where(), measure.Count(n.Tickets, "registration"), measure.Count(n.Marks, "mark"), n.Known)
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

// readExport reads an export in either form, which its first mark tells.
func readExport(path string) (records []mark.Line, err error) {
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
	records, err = read(bytes.NewReader(data))
	if err != nil {
		return nil, fmt.Errorf("%w\n%s is damaged or no export; nothing was added: import the newest export that is whole", inFile(path, err), path)
	}
	return records, nil
}

// inFile puts a file's name before each thing that is wrong with it.
func inFile(path string, err error) error {
	// Only the error itself: what it wraps is told by it.
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		var all []error
		for _, one := range joined.Unwrap() {
			all = append(all, inFile(path, one))
		}
		return errors.Join(all...)
	}
	return fmt.Errorf("%s: %w", path, err)
}
