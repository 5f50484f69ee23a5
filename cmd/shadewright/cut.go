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
	"shadewright/ticket"
	"shadewright/ticket/form"
	"shadewright/ticket/offcut"
)

func newCut(s environment) *cobra.Command {
	var opt cutOptions
	c := &cobra.Command{
		Use:   "cut JOB",
		Short: "Record that a job was cut: the offcuts it used and those it left",
		Long: `Cut records that a job was cut by its plan. It crosses off the offcuts that the plan
used, and adds those that the plan left under the labels printed for them. The setting
cutting.record names the file of this record. Later plans use the offcuts in it.

Only cut changes the record; check and print never do. Running it twice changes nothing.
After a panel was spoilt and printed again, cut records that panel alone. If a job changes
when half of it is cut, first record that half with --marked: only the panels whose
cutting is marked. Their offcuts are not known then, so add them by hand.`,
		Example: `  shadewright cut --set cutting.record=offcuts.json testdata/jobs/bunkhouse.yaml`,
		Args:    oneJob,
		RunE:    func(c *cobra.Command, args []string) error { return runCut(c.Context(), s, &opt, args[0]) },
	}
	opt.add(c)
	c.Flags().BoolVar(&opt.marked, "marked", false, "record only the panels whose cutting is marked on their tickets")
	return c
}

type cutOptions struct {
	settingFlags
	marked bool
}

func runCut(ctx context.Context, s environment, opt *cutOptions, path string) (err error) {
	l, err := readJob(s, &opt.settingFlags, path)
	if err != nil {
		return err
	}
	if l.settings.Cutting.Record == "" {
		return usageError{errors.New("the shop keeps no record of offcuts; name its file in the setting cutting.record, for example offcuts.json")}
	}
	// Without this lock, two runs at once would overwrite each other's changes.
	lock := l.recordFile() + ".lock"
	f, err := os.OpenFile(lock, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o644)
	if err != nil {
		if errors.Is(err, fs.ErrExist) {
			return fmt.Errorf("%s: another run is changing the record of offcuts; if none is, delete this file", lock)
		}
		return fmt.Errorf("record of offcuts: %w", err)
	}
	defer func() { err = errors.Join(err, f.Close(), os.Remove(lock)) }()
	again, remark := knownRemakes(ctx, s, l)
	if remark != nil {
		return fmt.Errorf("cannot read the record, so it is not known which panels were cut again: %w; nothing is recorded", remark)
	}
	if err := l.make(ctx, s, path, again); err != nil {
		return err
	}
	if len(l.plans) == 0 {
		_, err := fmt.Fprintln(s.err, "shadewright: this job is already recorded as cut; nothing was changed")
		return err
	}
	for _, p := range l.plans {
		if p.Cut {
			return fmt.Errorf("the search for the cut plan of %s was interrupted, so it may not be the printed plan; nothing is recorded; run the command again", p.Goods.Name)
		}
	}
	if _, stopped := l.unstopped(); len(stopped) > 0 {
		return stoppedError(stopped, "nothing is recorded")
	}
	var only func(*ticket.Ticket) bool
	if opt.marked {
		only = func(t *ticket.Ticket) bool { _, done := l.done.cut[t.Code]; return done }
	}
	used, left, some := l.offcuts.Cut(&l.file.Job, l.plans, only)
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
	if some {
		_, err = fmt.Fprintf(s.err, "shadewright: only some panels of a goods are recorded, so what they leave is not known; measure the pieces to keep and add them to %s\n", l.recordFile())
	}
	return err
}

// recordFile returns the path of the record of offcuts.
func (l *loadedJob) recordFile() string {
	name := filepath.FromSlash(l.settings.Cutting.Record)
	if filepath.IsAbs(name) {
		return name
	}
	return filepath.Join(l.dir, name)
}

// readOffcuts reads the shop's record of offcuts, or returns nil if the shop keeps none.
// A missing file is an empty record.
func (l *loadedJob) readOffcuts() (*offcut.Record, error) {
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

// writeOffcuts replaces the record of offcuts.
func (l *loadedJob) writeOffcuts() error {
	data, err := l.offcuts.Bytes()
	if err != nil {
		return err
	}
	return outdir.Replace(l.recordFile(), data)
}
