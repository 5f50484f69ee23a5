package main

import (
	"fmt"
	"path/filepath"
	"slices"

	"github.com/spf13/cobra"

	"shadewright/render/page"
	"shadewright/render/template"
	"shadewright/ticket"
)

type printOptions struct {
	settingFlags
	out    string
	force  bool
	insist bool
}

func newPrint(s surround) *cobra.Command {
	var opt printOptions
	c := &cobra.Command{
		Use:   "print JOB",
		Short: "Write the marking template, the tickets and the tags as PDF",
		Long: `Print reads a job file and writes template.pdf, tickets.pdf and tags.pdf into a
folder of the job's name, or where --out says. Its own earlier files there are
replaced whole; any other file is left alone. A shade that cannot be made so is
left out and named, exit code 4, unless --insist prints it with its stops on it.`,
		Example: `  shadewright print testdata/jobs/bunkhouse.yaml
  shadewright print --out paper --set paper=a4 testdata/jobs/bunkhouse.yaml`,
		Args: oneJob,
		RunE: func(_ *cobra.Command, args []string) error { return runPrint(s, &opt, args[0]) },
	}
	opt.add(c)
	c.Flags().StringVarP(&opt.out, "out", "o", "", "`folder` to write to (default: one of the job file's name, here)")
	c.Flags().BoolVar(&opt.force, "force", false, "replace files that an earlier run did not write, or that were changed since")
	c.Flags().BoolVar(&opt.insist, "insist", false, "print shades that cannot be made so, too")
	return c
}

func runPrint(s surround, opt *printOptions, path string) error {
	l, err := loadJob(s, &opt.settingFlags, path)
	if err != nil {
		return err
	}
	good, stopped := l.unstopped()
	if opt.insist {
		good, stopped = l.tickets, nil
	}
	left := stoppedError(stopped, "left out; see shadewright check "+path+", or print all the same with --insist")
	if len(good) == 0 {
		return left
	}
	docs, err := l.documents(good)
	if err != nil {
		return err
	}
	dir := opt.out
	if dir == "" {
		dir = baseName(path)
	}
	if err := writeAll(dir, docs, opt.force); err != nil {
		return err
	}
	for _, d := range docs {
		if _, err := fmt.Fprintf(s.out, "%s\t%s\n", filepath.Join(dir, d.name), d.says); err != nil {
			return err
		}
	}
	return left
}
