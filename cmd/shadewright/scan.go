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
	"shadewright/ticket/measure"
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
		Short: "Take codes from a scanner that types, and mark steps",
		Long: `Scan reads one code a line and marks a step of that ticket done: the one that
--step names, or whichever comes next. Each line is answered with one line, the
verdict first, and a sound: one beep and go on, three and read what it says. It
goes on after a bad line and ends with the input (Ctrl-D). Codes of the bench
sheet change step, person and place, undo and hold; see bench --help. What a step
asks for is typed after its ticket: diagonals 59-1/16 59-1/8, width 27-1/2 or
turns 12.

Exit code 5 says that not every line could be taken.`,
		Example: `  shadewright scan
  shadewright scan --step sew --by ann --at "machine 2"`,
		Args: noWords,
		RunE: func(c *cobra.Command, _ []string) error { return runScan(c.Context(), s, &opt) },
	}
	opt.add(c)
	c.Flags().StringVar(&opt.step, "step", "", "`key` of the step that every ticket marks (default: the ticket's next one)")
	c.Flags().StringVar(&opt.by, "by", "", "`name` of who works here")
	c.Flags().StringVar(&opt.at, "at", "", "`name` of this bench")
	c.Flags().BoolVarP(&opt.quiet, "quiet", "q", false, "make no sound")
	c.Flags().BoolVar(&opt.large, "large", false, "answer in letters twice as high, on terminals that can")
	return c
}

func runScan(ctx context.Context, s environment, opt *scanOptions) error {
	c, err := opt.load(s, ".")
	if err != nil {
		return err
	}
	if opt.step != "" && c.Record.Route.Index(opt.step) < 0 {
		return usageError{fmt.Errorf("--step %q is no step of the shop's route; its steps are %s", opt.step, strings.Join(c.Record.Route.Keys(), ", "))}
	}
	return withRecord(ctx, s, c, func(log *record.Record) error {
		b := &scanner{
			log:    log,
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

// A scanner is one at work: it types, and is answered.
type scanner struct {
	log    *record.Record
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

// verdict is how a run of lines ends.
func (b *scanner) verdict() error {
	if b.bad == 0 {
		return nil
	}
	return partError{fmt.Errorf("%s could not be taken as scanned; each was answered", measure.Count(b.bad, "line"))}
}

// answer takes one line and returns what is said to it.
func (b *scanner) answer(ctx context.Context, line string) (words string, good bool) {
	l, err := b.parser.Parse(line)
	if err != nil {
		return "NO  " + err.Error(), false
	}
	deed := b.desk.Take(l, time.Now())
	words, good = deed.Say, deed.Good
	if deed.Send {
		a, err := b.log.Mark(ctx, deed.Mark)
		if err != nil {
			return "NO  " + strings.ReplaceAll(err.Error(), "\n", "; "), false
		}
		b.desk.Heard(a)
		words, good = a.Message().String(), a.Good()
	}
	if l.Remark != "" {
		words += " (" + l.Remark + ")"
	}
	return words, good
}

// say answers on one line; a large one is two lines of half letters, as the
// DEC VT100 and its heirs show them (ESC # 3 and ESC # 4).
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

// longestScan bounds a line; what follows is dropped, and the line refused for
// its length.
const longestScan = 4096

// A typed is a line, or why there are no more.
type typed struct {
	text string
	err  error
}

// readLines sends the lines of a reader, then the error that ended them. A read
// cannot be broken off, so it has a goroutine of its own, which a run that ends
// leaves behind.
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

// A sounder rings the terminal's bell without keeping the next scan waiting.
type sounder struct {
	verdicts chan bool
	done     chan struct{}
}

// bad is how often the bell rings for an answer that is to be read; between two
// rings a terminal needs a pause to make them two.
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
				// A terminal that takes no bell has nobody to tell.
				_, _ = io.WriteString(w, "\a")
			}
		}
	}()
	return s
}

// make rings for an answer; if many wait to be rung, it is left out.
func (s *sounder) make(good bool) {
	select {
	case s.verdicts <- good:
	default:
	}
}

// end rings what is left and stops.
func (s *sounder) end() {
	close(s.verdicts)
	<-s.done
}
