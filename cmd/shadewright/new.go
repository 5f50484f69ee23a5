package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/google/uuid"
	"github.com/spf13/cobra"

	"shadewright/cmd/shadewright/ask"
	"shadewright/cmd/shadewright/outdir"
	"shadewright/config"
	"shadewright/ticket/interview"
	"shadewright/ticket/jobfile"
	"shadewright/ticket/measure"
)

type newOptions struct {
	settingFlags
	plain, fresh bool
}

func newNew(s environment) *cobra.Command {
	var opt newOptions
	c := &cobra.Command{
		Use:   "new JOB",
		Short: "Ask for the openings one by one and write a job file",
		Long: `New asks for a job in the order in which one measures: the job, its cloth, roller
and slat, then shade after shade. A length may be written in any way; what was
understood is repeated, and what would be cut is shown as soon as a shade is
complete. In a terminal, escape goes back a question and ctrl-c stops; typed, the
words are back, stop and ?. A conversation that was stopped is taken up where it
was by running the command again.

Questions are asked line by line where there is no terminal, with --plain, or if
ACCESSIBLE is set, for screen readers.`,
		Example: `  shadewright new boathouse.yaml`,
		Args: func(c *cobra.Command, args []string) error {
			if len(args) != 1 {
				return usageError{fmt.Errorf("new takes the job file to write, not %d files; for example shadewright new boathouse.yaml", len(args))}
			}
			return nil
		},
		RunE: func(c *cobra.Command, args []string) error { return runNew(c.Context(), s, &opt, args[0]) },
	}
	opt.add(c)
	c.Flags().BoolVar(&opt.plain, "plain", false, "ask line by line")
	c.Flags().BoolVar(&opt.fresh, "fresh", false, "begin anew and forget a conversation that was stopped")
	return c
}

// errStoppedAsking says that the person left before the job was complete.
var errStoppedAsking = errors.New("stopped")

// A brokenOffError says that an interrupt ended the conversation; what was answered
// is on disk.
type brokenOffError struct{ path string }

func (e brokenOffError) Error() string {
	return "interrupted; go on with shadewright new " + e.path
}

func (brokenOffError) Unwrap() error { return context.Canceled }

// An asker puts a question and returns what was typed: an answer, or one of the
// words of package ask. Check judges an answer before it is taken.
type asker interface {
	Ask(ctx context.Context, q interview.Question, check func(string) error) (string, error)
	Say(line string) error
}

func runNew(ctx context.Context, s environment, opt *newOptions, path string) error {
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		return fmt.Errorf("%s: is a folder; name the file to write, for example %s", path, filepath.Join(path, "boathouse.yaml"))
	} else if err == nil {
		return fmt.Errorf("%s: is there already; name another, or change it in an editor", path)
	} else if !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	if _, err := os.Stat(filepath.Dir(path)); errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("%s: there is no folder %s; make it first, or write the job elsewhere", path, filepath.Dir(path))
	}
	settings, err := opt.load(s, filepath.Dir(path))
	if err != nil {
		return err
	}
	iopt := interview.Options{Options: jobOptions(settings), ID: uuid.New(), Units: settings.Units(), Paper: usualPaper(s, settings)}
	if iopt.Units == measure.Undeclared {
		iopt.Units = localUnits(s.environ)
	}
	d := &dialogue{environment: s, path: path, unfinished: path + ".unfinished"}
	if err := d.begin(iopt, opt.fresh); err != nil {
		return err
	}
	if d.asker = ask.NewLines(s.in, s.out); !opt.plain && s.canDraw() {
		d.asker = ask.NewPrompt(s.in.(*os.File), s.out, s.environ) // canDraw saw that it is one
	}
	if err := d.run(ctx); err != nil {
		return err
	}
	return d.finish(iopt.Options)
}

// usualPaper returns the paper that the shop chose, else that of the locale.
func usualPaper(s environment, c config.Settings) string {
	for _, r := range c.Table() {
		if r.Key == "paper" && r.From != config.BuiltIn {
			return r.Value
		}
	}
	return localPaper(s.environ)
}

// A dialogue leads an interview and keeps it on disk.
type dialogue struct {
	environment
	asker
	path, unfinished string
	talk             *interview.Interview
}

// begin takes up what was stopped, or begins anew.
func (d *dialogue) begin(opt interview.Options, fresh bool) error {
	data, err := os.ReadFile(d.unfinished)
	switch {
	case errors.Is(err, fs.ErrNotExist), fresh:
		d.talk = interview.New(opt)
		return nil
	case err != nil:
		return err
	}
	if d.talk, err = interview.Resume(data, opt); err != nil {
		return fmt.Errorf("%s: %w; begin anew with --fresh", d.unfinished, err)
	}
	_, err = fmt.Fprintf(d.out, "Going on after %s; back changes the last one.\n", measure.Count(d.talk.Answered(), "answer"))
	return err
}

// run asks until all is said. Each answer is on disk before the next question.
func (d *dialogue) run(ctx context.Context) error {
	for {
		q, more := d.talk.Next()
		if !more {
			return nil
		}
		text, err := d.Ask(ctx, q, d.talk.Check)
		switch {
		case errors.Is(err, context.Canceled):
			return brokenOffError{d.path}
		case err != nil:
			return err
		}
		if err := d.take(q, text); err != nil {
			return err
		}
	}
}

func (d *dialogue) take(q interview.Question, text string) error {
	switch text {
	case ask.Stop:
		return fmt.Errorf("%w: %w; go on with shadewright new %s", errPart, errStoppedAsking, d.path)
	case ask.Help:
		return d.Say(q.Help + " " + ask.Back + " goes back, " + ask.Stop + " stops.")
	case ask.Back:
		if !d.talk.Back() {
			return d.Say("This is the first question.")
		}
		return d.keep()
	}
	said, err := d.talk.Answer(text)
	if err != nil {
		return d.Say(err.Error())
	}
	for _, line := range said {
		if err := d.Say(line); err != nil {
			return err
		}
	}
	return d.keep()
}

func (d *dialogue) keep() error {
	data, err := d.talk.Save()
	if err != nil {
		return err
	}
	return outdir.Replace(d.unfinished, data)
}

// finish writes the job and forgets the conversation.
func (d *dialogue) finish(opt jobfile.Options) error {
	f, err := d.talk.File()
	if err != nil {
		return err
	}
	text, err := jobfile.Write(f, jobfile.WriteOptions{Options: opt, Schema: schemaBeside(d.path), Head: []string{"Measured with shadewright new; change it in any text editor."}})
	if err != nil {
		return err
	}
	if err := outdir.Write([]outdir.File{{Path: d.path, Data: text}}, false); err != nil {
		return err
	}
	if err := os.Remove(d.unfinished); err != nil {
		return err
	}
	_, err = fmt.Fprintf(d.out, "\n%s\t%s; next: shadewright check %s\n", d.path, measure.Count(len(f.Job.Shades), "shade"), d.path)
	return err
}
