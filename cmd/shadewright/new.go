package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/google/uuid"
	"github.com/spf13/cobra"

	"shadewright/cmd/shadewright/ask"
	"shadewright/cmd/shadewright/outdir"
	"shadewright/config"
	"shadewright/render/sheet"
	"shadewright/ticket/interview"
	"shadewright/ticket/jobfile"
	"shadewright/ticket/measure"
)

type newOptions struct {
	settingFlags
	plain, fresh bool
	sheet        bool
}

func newNew(s environment) *cobra.Command {
	var opt newOptions
	c := &cobra.Command{
		Use:   "new JOB",
		Short: "Ask for the openings one by one and write a job file",
		Long: `New asks questions in the order in which you measure: the job, then opening after
opening, each with its bracket, roller, cloth and slat. Write a length in any way, and
several readings on one line: 27 1/2 27 1/2 27 5/8. New repeats what it understood, says
at once what a question passed over leaves unchecked, and shows what would be cut as
soon as a shade is complete.

Any answer can be changed, and only what no longer fits is asked again. In a terminal,
press escape to go back a question, ctrl-l to pick an answer out of the list of all
answers, and ctrl-c to stop. Line by line, type back, list, stop or ?. A - passes a
question over. To carry on after you stopped, run the same command again.

If the job exists, new shows what it holds and asks what to do: add a shade, change one
with its present answers, remove one, or change a part or the job itself. It shows which
lines of the file change before it writes them. Your comments, order and layout stay.

--sheet asks nothing: it writes measuring.pdf, a measuring sheet to copy and take to the
windows. Its boxes are in the order of the questions.

New asks line by line with --plain, without a terminal, or for screen readers, if
ACCESSIBLE is set.`,
		Example: `  shadewright new boathouse.yaml
  shadewright new --sheet`,
		Args: func(c *cobra.Command, args []string) error {
			if opt.sheet {
				if len(args) > 0 {
					return usageError{errors.New("new --sheet writes a blank measuring sheet and takes no job; for the sheets of a job see shadewright print --measure")}
				}
				return nil
			}
			if len(args) != 1 {
				return usageError{fmt.Errorf("new takes the one job file to write, not %d; for example shadewright new boathouse.yaml", len(args))}
			}
			return nil
		},
		RunE: func(c *cobra.Command, args []string) error {
			if opt.sheet {
				return opt.printSheet(c.Context(), s)
			}
			return runNew(c.Context(), s, &opt, args[0])
		},
	}
	opt.add(c)
	c.Flags().BoolVar(&opt.plain, "plain", false, "ask line by line")
	c.Flags().BoolVar(&opt.fresh, "fresh", false, "start again and discard the answers given before")
	c.Flags().BoolVar(&opt.sheet, "sheet", false, "write a blank measuring sheet instead of asking")
	return c
}

// printSheet writes a blank measuring sheet into the folder measuring.
func (opt *newOptions) printSheet(ctx context.Context, s environment) error {
	settings, err := opt.load(s, ".")
	if err != nil {
		return err
	}
	paper, err := sheet.Named(usualPaper(s, settings))
	if err != nil {
		paper, err = paperOf(jobfile.Paper(settings.Paper))
	}
	if err != nil {
		return usageError{err}
	}
	return blankMeasuring(ctx, s, settings, outdir.Folder{Dir: "measuring"}, paper)
}

// errStoppedAsking ends a run in which the user stopped before the job was complete.
var errStoppedAsking = errors.New("stopped")

// A brokenOffError ends a run that an interrupt stopped. All answers are on disk.
type brokenOffError struct{ path string }

func (e brokenOffError) Error() string {
	return "interrupted; to continue, run shadewright new " + e.path
}

func (brokenOffError) Unwrap() error { return context.Canceled }

// An asker asks a question until check accepts the answer, and returns it. It returns one
// of the words of package ask if the user typed that.
type asker interface {
	Ask(ctx context.Context, q interview.Question, check func(string) error) (string, error)
	Say(line string) error
}

func runNew(ctx context.Context, s environment, opt *newOptions, path string) error {
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		return fmt.Errorf("%s: is a folder; name the file to write, for example %s", path, filepath.Join(path, "boathouse.yaml"))
	} else if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	if _, err := os.Stat(filepath.Dir(path)); errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("%s: there is no folder %s; create it first, or write the job elsewhere", path, filepath.Dir(path))
	}
	settings, err := opt.load(s, filepath.Dir(path))
	if err != nil {
		return err
	}
	iopt := interview.Options{Options: jobOptions(settings), ID: uuid.New(), Units: settings.Units(), Paper: usualPaper(s, settings), Today: time.Now()}
	if iopt.Units == measure.Undeclared {
		iopt.Units = localUnits(s.environ)
	}
	if _, err := os.Stat(path); err == nil {
		return editJob(ctx, s, opt, iopt, path)
	}
	d := &dialogue{environment: s, path: path, unfinished: path + ".unfinished"}
	if err := d.begin(iopt, opt.fresh); err != nil {
		return err
	}
	d.asker = opt.asker(s)
	if err := d.run(ctx); err != nil {
		return err
	}
	return d.finish(iopt.Options)
}

// asker draws the questions if the terminal can.
func (opt *newOptions) asker(s environment) asker {
	if !opt.plain && s.canDraw() {
		return ask.NewPrompt(s.in.(*os.File), s.out, s.environ) // canDraw has checked that it is a file
	}
	return ask.NewLines(s.in, s.out)
}

// usualPaper returns the paper in the shop's settings, else that of the locale.
func usualPaper(s environment, c config.Settings) string {
	for _, r := range c.Table() {
		if r.Key == "paper" && r.From != config.BuiltIn {
			return r.Value
		}
	}
	return localPaper(s.environ)
}

// A dialogue runs an interview and keeps its answers on disk.
type dialogue struct {
	environment
	asker
	path, unfinished string
	talk             *interview.Interview
}

// begin continues the interview that was stopped, or starts a new one.
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
		return fmt.Errorf("%s: %w; start again with --fresh", d.unfinished, err)
	}
	_, err = fmt.Fprintf(d.out, "Continuing after %s; go back to change the last one.\n", measure.Count(d.talk.Answered(), "answer"))
	return err
}

// run asks until the job is complete. It writes each answer to disk before it asks the
// next question.
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
		if err := d.take(ctx, q, text); err != nil {
			return err
		}
	}
}

func (d *dialogue) take(ctx context.Context, q interview.Question, text string) error {
	switch text {
	case ask.Stop:
		return fmt.Errorf("%w: %w; to continue, run shadewright new %s", errPart, errStoppedAsking, d.path)
	case ask.Help:
		return d.Say(cmp.Or(q.More, q.Help) + " " + ask.Back + " goes back, " + ask.List + " shows all answers, " + ask.Stop + " stops.")
	case ask.List:
		return d.choose(ctx)
	case ask.Back:
		if !d.talk.Back() {
			return d.Say("This is the first question.")
		}
		return nil
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

// goOn is the row of the list of answers that changes none.
const goOn = "0  go on without a change"

// choose lists what was entered, and asks again the question that the user picks.
func (d *dialogue) choose(ctx context.Context) error {
	entered := d.talk.Entered()
	rows := []string{goOn}
	for i, e := range entered {
		about := ""
		if e.About != "" {
			about = e.About + ": "
		}
		rows = append(rows, fmt.Sprintf("%d  %s%s: %s", i+1, about, e.Ask, e.Text))
	}
	pick := func(text string) (int, error) {
		if i := slices.Index(rows, text); i >= 0 {
			return i, nil
		}
		n, err := strconv.Atoi(strings.TrimSpace(text))
		if err != nil || n < 0 || n > len(entered) {
			return 0, fmt.Errorf("%q is not a number of the list; write 0 to %d", text, len(entered))
		}
		return n, nil
	}
	q := interview.Question{Ask: "Which answer do you want to change", Help: "Type its number.", Choices: rows, Rows: true, Default: goOn}
	text, err := d.Ask(ctx, q, func(text string) error { _, err := pick(cmp.Or(text, goOn)); return err })
	switch {
	case errors.Is(err, context.Canceled):
		return brokenOffError{d.path}
	case err != nil:
		return err
	case text == ask.Stop:
		return d.take(ctx, q, text)
	}
	n, err := pick(cmp.Or(text, goOn))
	if err != nil || n == 0 { // a word such as back leaves the list
		return nil
	}
	d.talk.Goto(entered[n-1].Key)
	return nil
}

func (d *dialogue) keep() error {
	data, err := d.talk.Save()
	if err != nil {
		return err
	}
	return outdir.Replace(d.unfinished, data)
}

// finish writes the job and deletes the file of answers.
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
