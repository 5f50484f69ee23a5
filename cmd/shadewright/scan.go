package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"shadewright/ticket/mark/record"
	"shadewright/ticket/mark/scan"
)

type scanOptions struct {
	settingFlags
	step, by, at string
	quiet        bool
	large        bool
}

func newScan(s environment) *cobra.Command {
	var opt scanOptions
	c := &cobra.Command{
		Use:   "scan",
		Short: "Mark steps with a scanner that types",
		Long: `Scan reads one code on each line and marks a step of that ticket as done: the step that
--step names, or the ticket's next one. It answers each line with one line that begins
with the verdict, and with a sound. One beep means go on; three beeps mean read the
answer. Codes on the bench sheet change step, person and place, undo and hold; see
bench --help. Type a reading after the scan of its ticket: diagonals 59-1/16 59-1/8,
width 27-1/2 or turns 12.

Scan continues after a bad line and stops at the end of its input (Ctrl-D). It exits
with code 5 if a line needs attention.`,
		Example: `  shadewright scan
  shadewright scan --step sew --by ann --at "machine 2"`,
		Args: noWords,
		RunE: func(c *cobra.Command, _ []string) error { return runScan(c.Context(), s, &opt) },
	}
	opt.add(c)
	c.Flags().StringVar(&opt.step, "step", "", "`key` of the step that every ticket marks (default: the ticket's next one)")
	c.Flags().StringVar(&opt.by, "by", "", "`name` of the person who works here")
	c.Flags().StringVar(&opt.at, "at", "", "`name` of this bench")
	c.Flags().BoolVarP(&opt.quiet, "quiet", "q", false, "make no sound")
	c.Flags().BoolVar(&opt.large, "large", false, "answer in letters of double height, on terminals that have them")
	return c
}

func runScan(ctx context.Context, s environment, opt *scanOptions) error {
	c, err := opt.load(s, ".")
	if err != nil {
		return err
	}
	if opt.step != "" && c.Record.Route.Index(opt.step) < 0 {
		return usageError{fmt.Errorf("--step %q is not a step of the shop's route; its steps are %s", opt.step, strings.Join(c.Record.Route.Keys(), ", "))}
	}
	return withRecord(ctx, s, c, func(rec *record.Record) error {
		b := &scanner{
			rec:    rec,
			parser: scan.Parser{Prefix: c.Record.Prefix, Suffix: c.Record.Suffix, Units: c.Policy().Style.System},
			desk:   scan.Desk{Step: opt.step, Who: opt.by, Where: opt.at},
			out:    s.out, large: opt.large,
		}
		if !opt.quiet && s.hears {
			b.sound = newSounder(s.err, s.pause)
			defer b.sound.end()
		}
		return b.work(ctx, s.in)
	})
}

// A scanner answers the lines of one scanner.
type scanner struct {
	rec    *record.Record
	parser scan.Parser
	desk   scan.Desk
	out    io.Writer
	large  bool
	sound  *sounder // nil: quiet
	bad    int
}

// work answers line after line until the input or the run ends.
func (b *scanner) work(ctx context.Context, in io.Reader) error {
	lines := readLines(ctx, in)
	for {
		select {
		case <-ctx.Done():
			return ctx.Err()
		case l := <-lines:
			switch {
			case errors.Is(l.err, io.EOF):
				return b.verdict()
			case l.err != nil:
				return l.err
			case strings.TrimSpace(l.text) == "":
				continue
			}
			words, good := b.answer(ctx, l.text)
			if err := b.say(words, good); err != nil {
				return err
			}
		}
	}
}

// verdict returns the error of a run in which a line needs attention.
func (b *scanner) verdict() error {
	if b.bad == 0 {
		return nil
	}
	return partError{errors.New(needAttention(b.bad))}
}

func needAttention(lines int) string {
	if lines == 1 {
		return "1 line needs attention; its answer says what to do"
	}
	return fmt.Sprintf("%d lines need attention; each answer says what to do", lines)
}

// answer handles one line and returns the answer.
func (b *scanner) answer(ctx context.Context, line string) (words string, good bool) {
	l, err := b.parser.Parse(line)
	if err != nil {
		return "NO  " + err.Error(), false
	}
	act := b.desk.Take(l, time.Now())
	words, good = act.Say, act.Good
	if act.Send {
		a, err := b.rec.Mark(ctx, act.Mark)
		if err != nil {
			return "NO  " + strings.ReplaceAll(err.Error(), "\n", "; "), false
		}
		b.desk.Answered(a)
		words, good = a.Message().String(), a.Good()
	}
	if l.Remark != "" {
		words += " (" + l.Remark + ")"
	}
	return words, good
}

// say writes an answer on one line. A large answer is the same line twice, once as the
// upper and once as the lower halves of its letters (ESC # 3 and ESC # 4 of the DEC
// VT100).
func (b *scanner) say(words string, good bool) error {
	if !good {
		b.bad++
	}
	if b.sound != nil {
		b.sound.make(good)
	}
	text := words + "\n"
	if b.large {
		text = "\x1b#3" + words + "\n\x1b#4" + words + "\n"
	}
	_, err := io.WriteString(b.out, text)
	return err
}

// longestScan is the longest part of a line that is read. The rest is dropped, and the
// parser refuses the line for its length.
const longestScan = 4096

// A typed is one line of input, or the error that ended the input.
type typed struct {
	text string
	err  error
}

// readLines sends the lines of a reader, then the error that ended them. A read cannot be
// interrupted, so it has its own goroutine; a run that ends leaves that goroutine behind.
func readLines(ctx context.Context, in io.Reader) <-chan typed {
	lines := make(chan typed)
	go func() {
		r := bufio.NewReaderSize(in, longestScan)
		for {
			line, more, err := r.ReadLine()
			l := typed{string(line), err}
			for more && err == nil {
				_, more, err = r.ReadLine()
			}
			select {
			case lines <- l:
			case <-ctx.Done():
				return
			}
			if l.err != nil {
				return
			}
		}
	}()
	return lines
}

// A sounder rings the terminal's bell in the background, so that the next scan need not
// wait.
type sounder struct {
	verdicts chan bool
	done     chan struct{}
}

// The bell rings badRings times for an answer that needs attention. Without a pause, a
// terminal merges two rings into one.
const (
	badRings  = 3
	ringPause = 180 * time.Millisecond
)

func newSounder(w io.Writer, pause func(time.Duration)) *sounder {
	if pause == nil {
		pause = time.Sleep
	}
	s := &sounder{verdicts: make(chan bool, 64), done: make(chan struct{})}
	go func() {
		defer close(s.done)
		for good := range s.verdicts {
			rings := badRings
			if good {
				rings = 1
			}
			for i := range rings {
				if i > 0 {
					pause(ringPause)
				}
				// The answer is on the screen too, so a bell that fails is no error.
				_, _ = io.WriteString(w, "\a")
			}
		}
	}()
	return s
}

// make rings for an answer. It drops the ring if too many are waiting.
func (s *sounder) make(good bool) {
	select {
	case s.verdicts <- good:
	default:
	}
}

// end rings for the answers still waiting and stops.
func (s *sounder) end() {
	close(s.verdicts)
	<-s.done
}
