package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"shadewright/cmd/shadewright/outdir"
	"shadewright/ticket/form"
	"shadewright/ticket/offcut"
)

func newCut(s environment) *cobra.Command {
	var opt settingFlags
	c := &cobra.Command{
		Use:   "cut JOB",
		Short: "Note that a job was cut: strike off the offcuts it used, put down those it left",
		Long: `Cut notes in the shop's record of offcuts that a job was cut by its plan: what the
plan took from the record is struck off, what it leaves is put down under the
label that was printed for it. The record is the file that the setting
cutting.record names; every later plan offers what is in it. Planning and
printing never change it. To say it twice does nothing twice.`,
		Example: `  shadewright cut --set cutting.record=offcuts.json testdata/jobs/bunkhouse.yaml`,
		Args:    oneJob,
		RunE:    func(c *cobra.Command, args []string) error { return runCut(c.Context(), s, &opt, args[0]) },
	}
	opt.add(c)
	return c
}

func runCut(ctx context.Context, s environment, opt *settingFlags, path string) (err error) {
	l, err := readJob(s, opt, path)
	if err != nil {
		return err
	}
	if l.settings.Cutting.Record == "" {
		return usageError{errors.New("no record of offcuts is kept; name its file in the settings, for example cutting.record: offcuts.json")}
	}
	// Two runs at once would each lose what the other writes.
	lock := l.recordFile() + ".lock"
	f, err := os.OpenFile(lock, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o644)
	if err != nil {
		if errors.Is(err, fs.ErrExist) {
			return fmt.Errorf("%s: another run is writing the record; if none is, take this file away", lock)
		}
		return fmt.Errorf("record of offcuts: %w", err)
	}
	defer func() { err = errors.Join(err, f.Close(), os.Remove(lock)) }()
	if l, err = loadJob(ctx, s, opt, path); err != nil {
		return err
	}
	if l.offcuts.WasCut(l.file.Job.ID) {
		_, err := fmt.Fprintln(s.err, "shadewright: the job was noted as cut before; the record stays as it is")
		return err
	}
	for _, p := range l.plans {
		if p.Cut {
			return fmt.Errorf("the plan of %s was cut short, so it may not be the printed one; nothing is noted", p.Goods.Name)
		}
	}
	if _, stopped := l.unstopped(); len(stopped) > 0 {
		return stoppedError(stopped, "nothing is noted")
	}
	used, left := l.offcuts.Cut(&l.file.Job, l.plans)
	if err := l.writeOffcuts(); err != nil {
		return err
	}
	say := l.file.Job.Style.Format
	for _, list := range []struct {
		what   string
		pieces []offcut.Piece
	}{{"used", used}, {"left", left}} {
		for _, p := range list.pieces {
			if _, err := fmt.Fprintf(s.out, "%s\t%s\t%s × %s\t%s\n", list.what, p.Label, say(p.Width), say(p.Length), p.Goods); err != nil {
				return err
			}
		}
	}
	return nil
}

// recordFile returns the file of the record of offcuts.
func (l *loaded) recordFile() string {
	name := filepath.FromSlash(l.settings.Cutting.Record)
	if filepath.IsAbs(name) {
		return name
	}
	return filepath.Join(l.dir, name)
}

// readOffcuts reads the shop's record; nil if none is kept. A file that is not
// there yet is an empty record.
func (l *loaded) readOffcuts() (*offcut.Record, error) {
	if l.settings.Cutting.Record == "" {
		return nil, nil
	}
	data, err := form.Load(l.recordFile())
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, err
	}
	r, err := offcut.Read(data)
	if err != nil {
		return nil, usageError{fmt.Errorf("%s: %w", l.recordFile(), err)}
	}
	return r, nil
}

// writeOffcuts replaces the record's file whole.
func (l *loaded) writeOffcuts() error {
	data, err := l.offcuts.Bytes()
	if err != nil {
		return err
	}
	return outdir.Replace(l.recordFile(), data)
}
