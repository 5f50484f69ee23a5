package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/google/uuid"
	"github.com/spf13/cobra"

	"shadewright/cmd/shadewright/outdir"
	"shadewright/cmd/shadewright/workbook"
	"shadewright/ticket/form"
	"shadewright/ticket/intake"
	"shadewright/ticket/intake/grid"
	"shadewright/ticket/jobfile"
	"shadewright/ticket/measure"
)

type importOptions struct {
	settingFlags
	blank, sheet, out, name, units, like, apart string
	force                                       bool
}

func newImport(s environment) *cobra.Command {
	var opt importOptions
	c := &cobra.Command{
		Use:   "import LIST",
		Short: "Turn a size list into a job file: CSV, TSV or XLSX",
		Long: `Import reads a size list, a spreadsheet with one shade in each row, and writes a job
file. It knows columns by their headings, in any order, and shows what it used each
column as. If it cannot understand a row, it names the row and the column and writes
nothing. With --apart it writes such rows to a file of their own, turns the others into
the job, and exits with code 5.

--blank writes a size list to fill in, with one worked row. End its name in .csv or .xlsx.`,
		Example: `  shadewright import --blank measured.xlsx
  shadewright import --out hut.yaml testdata/sheets/plain.csv
  shadewright import --units mm --like testdata/jobs/narrowboat.yaml testdata/sheets/semicolon.csv`,
		Args: cobra.ArbitraryArgs,
		RunE: func(c *cobra.Command, args []string) error { return runImport(s, &opt, c, args) },
	}
	opt.add(c)
	f := c.Flags()
	f.StringVar(&opt.blank, "blank", "", "write a size list to fill in, with one worked row, to this `file`")
	f.StringVar(&opt.sheet, "sheet", "", "`name` of the sheet in a workbook (default: the first with headings)")
	f.StringVarP(&opt.out, "out", "o", "", "job `file` to write (default: the list's name with .yaml, in this folder)")
	f.StringVar(&opt.name, "name", "", "`name` of the job (default: the list's name)")
	f.StringVar(&opt.units, "units", "", "unit of bare numbers: `in or mm`")
	f.StringVar(&opt.like, "like", "", "job `file` to take goods, rollers, slats and allowances from")
	f.StringVar(&opt.apart, "apart", "", "CSV `file` for rows that import cannot understand")
	f.BoolVar(&opt.force, "force", false, "replace existing files")
	return c
}

func runImport(s environment, opt *importOptions, c *cobra.Command, args []string) error {
	units := measure.Undeclared
	if opt.units != "" {
		if f := jobfile.Units().Set(opt.units, 0, &units); f != nil {
			return usageError{fmt.Errorf("--units %q %s; %s", opt.units, f.Problem, f.Fix)}
		}
	}
	if opt.blank != "" {
		if len(args) > 0 {
			return usageError{fmt.Errorf("--blank writes a size list and reads none; leave out %q", args[0])}
		}
		return writeBlank(s, opt, units)
	}
	if len(args) != 1 {
		return usageError{fmt.Errorf("import takes one size list, not %d; for example shadewright import measured.csv", len(args))}
	}
	res, jopt, err := readSheet(s, opt, units, args[0])
	if err != nil {
		return err
	}
	if err := showColumns(s, res); err != nil {
		return err
	}
	if len(res.Apart) > 0 && opt.apart == "" || res.File == nil {
		return errors.Join(res.Problems(), nothingWritten(res))
	}
	return writeImported(s, opt, jopt, res, args[0])
}

// nothingWritten is the last error after those of the rows.
func nothingWritten(res *intake.Result) error {
	return form.Problems{{File: res.Grid.File, Fault: form.Fault{
		Problem: fmt.Sprintf("%d of %d rows cannot be understood, so nothing is written", len(res.Apart), len(res.Apart)+res.Taken),
		Fix:     "correct them, or write them to another file with --apart FILE"}}}
}

func readSheet(s environment, opt *importOptions, units measure.System, path string) (*intake.Result, jobfile.Options, error) {
	settings, err := opt.load(s, ".")
	if err != nil {
		return nil, jobfile.Options{}, err
	}
	if units == measure.Undeclared {
		units = settings.Units()
	}
	jopt := jobOptions(settings)
	in := intake.Options{Options: jopt, Name: opt.name, ID: uuid.New(), Units: units}
	if in.Name == "" {
		in.Name = baseName(path)
	}
	if opt.like != "" {
		parts := jopt
		parts.OnlyParts = true
		if in.Like, err = jobfile.ReadPath(opt.like, parts); err != nil {
			return nil, jopt, unread(opt.like, err)
		}
	}
	data, err := grid.Load(path)
	if err != nil {
		return nil, jopt, unread(path, err)
	}
	if kindOfFile(path) == jobKind {
		return nil, jopt, usageError{fmt.Errorf("%s: is already a job, by its name; see shadewright check %s", path, path)}
	}
	grids, err := readGrids(path, data, opt.sheet)
	if err != nil {
		return nil, jopt, err
	}
	res, err := intake.Read(grids, in)
	return res, jopt, err
}

func readGrids(path string, data []byte, sheet string) ([]*grid.Grid, error) {
	if grid.IsWorkbook(data) {
		return workbook.Read(path, data, sheet)
	}
	if sheet != "" {
		return nil, usageError{fmt.Errorf("--sheet %q: %s is a text file and has no sheets; leave out --sheet", sheet, path)}
	}
	g, err := grid.Read(path, data)
	return []*grid.Grid{g}, err
}

// showColumns shows what each column is used as.
func showColumns(s environment, res *intake.Result) error {
	rows := [][]string{{"column", "heading", "used as"}}
	for _, m := range res.Columns {
		rows = append(rows, []string{grid.Letter(m.Column), m.Heading, m.Means()})
	}
	if err := writeTable(s.talk(), rows); err != nil {
		return err
	}
	for _, n := range res.Notes {
		if _, err := fmt.Fprintln(s.talk(), n); err != nil {
			return err
		}
	}
	return nil
}

func writeImported(s environment, opt *importOptions, jopt jobfile.Options, res *intake.Result, from string) error {
	out := opt.out
	if out == "" {
		out = baseName(from) + ".yaml"
	}
	text, err := jobfile.Write(res.File, jobfile.WriteOptions{Options: jopt, Schema: schemaBeside(out),
		Head: []string{"Made from " + filepath.Base(from) + "."}})
	if err != nil {
		return err
	}
	files := []outdir.File{{Path: out, Data: text}}
	if len(res.Apart) > 0 {
		rest, err := grid.CSV(res.Sheet())
		if err != nil {
			return err
		}
		files = append(files, outdir.File{Path: opt.apart, Data: rest})
	}
	if err := outdir.Write(files, opt.force); err != nil {
		return err
	}
	if _, err := fmt.Fprintf(s.talk(), "\n%s\t%s; see shadewright check %s\n", out, measure.Count(res.Taken, "row"), out); err != nil {
		return err
	}
	if len(res.Apart) > 0 {
		return fmt.Errorf("%w: %s left out and written to %s\n%w", errPart, measure.Count(len(res.Apart), "row"), opt.apart, res.Problems())
	}
	return nil
}

func writeBlank(s environment, opt *importOptions, units measure.System) error {
	settings, err := opt.load(s, ".")
	if err != nil {
		return err
	}
	for _, u := range []measure.System{settings.Units(), localUnits(s.environ)} {
		if units == measure.Undeclared {
			units = u
		}
	}
	rows, remarks := intake.Blank(units)
	var data []byte
	switch ext := strings.ToLower(filepath.Ext(opt.blank)); ext {
	case ".csv":
		data, err = grid.CSV(rows)
	case ".xlsx":
		data, err = workbook.Write("shades", rows, remarks)
	default:
		return usageError{fmt.Errorf("--blank %q ends in %q; end it in .csv or .xlsx", opt.blank, ext)}
	}
	if err != nil {
		return err
	}
	if err := outdir.Write([]outdir.File{{Path: opt.blank, Data: data}}, opt.force); err != nil {
		return err
	}
	_, err = fmt.Fprintf(s.talk(), "%s\tone worked row; write yours below it, then run: shadewright import %s\n", opt.blank, opt.blank)
	return err
}

// schemaBeside returns the name of the schema if the folder of the job has one.
func schemaBeside(job string) string {
	const name = "job.schema.json"
	if _, err := os.Stat(filepath.Join(filepath.Dir(job), name)); err != nil {
		return "" // an editor would complain about a missing schema
	}
	return name
}
