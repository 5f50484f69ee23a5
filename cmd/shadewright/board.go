package main

import (
	"bytes"
	"context"
	"errors"
	"time"

	"github.com/spf13/cobra"

	"shadewright/render/terminal"
	"shadewright/ticket/mark"
	"shadewright/ticket/mark/record"
)

type boardOptions struct {
	settingFlags
	json, csv, watch, steps bool
}

func newBoard(s environment) *cobra.Command {
	var opt boardOptions
	c := &cobra.Command{
		Use:   "board",
		Short: "Say where every ticket stands",
		Long: `Board lists every ticket by job: where it stands, what comes next, what is held
or late, and how long it took so far; with --steps, how long each step took. With
--watch it goes on and prints the board again whenever it changes.`,
		Example: `  shadewright board
  shadewright board --csv > board.csv`,
		Args: noWords,
		RunE: func(c *cobra.Command, _ []string) error { return runBoard(c.Context(), s, &opt) },
	}
	opt.add(c)
	c.Flags().BoolVar(&opt.json, "json", false, "print one document for a program")
	c.Flags().BoolVar(&opt.csv, "csv", false, "print a table for a spreadsheet")
	c.Flags().BoolVarP(&opt.watch, "watch", "w", false, "print again whenever something changes, until Ctrl-C")
	c.Flags().BoolVar(&opt.steps, "steps", false, "list each step that is done, by whom and how long it took")
	return c
}

func runBoard(ctx context.Context, s environment, opt *boardOptions) error {
	if opt.json && opt.csv || opt.steps && (opt.json || opt.csv) {
		return usageError{errors.New("--json, --csv and --steps are three ways to print the board; give one of them")}
	}
	c, err := opt.load(s, ".")
	if err != nil {
		return err
	}
	return withRecord(ctx, s, c, func(log *record.Record) error {
		for seq := int64(-1); ; {
			b, err := log.Board(ctx)
			if err != nil {
				return err
			}
			if b.Seq != seq {
				if err := opt.write(s, b, seq >= 0); err != nil {
					return err
				}
				seq = b.Seq
			}
			if !opt.watch {
				return nil
			}
			if _, err := log.Changes(ctx, seq); err != nil {
				return watched(ctx, err)
			}
		}
	})
}

// watched is how watching ends: by the person, which is no failure.
func watched(ctx context.Context, err error) error {
	if ctx.Err() != nil && errors.Is(err, ctx.Err()) {
		return nil
	}
	return err
}

// clearScreen empties a terminal and goes to its top (ECMA-48: CUP and ED).
const clearScreen = "\x1b[H\x1b[2J"

// write prints the board at once, so that a screen does not flicker; again says
// that one was printed before.
func (o *boardOptions) write(s environment, b mark.Board, again bool) error {
	text := bytes.NewBufferString(o.between(s, again))
	now := time.Now()
	var err error
	switch {
	case o.json:
		err = b.WriteJSON(text, now)
	case o.csv:
		err = b.WriteCSV(text, now)
	default:
		err = terminal.Board(text, b, now, o.steps)
	}
	if err != nil {
		return err
	}
	_, err = s.out.Write(text.Bytes())
	return err
}

func (o *boardOptions) between(s environment, again bool) string {
	switch {
	case o.watch && isTerminal(s.out) && !o.json && !o.csv:
		return clearScreen
	case again && !o.json:
		return "\n"
	}
	return ""
}
