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
		Short: "Show where every ticket stands",
		Long: `Board lists every ticket by job: where it stands, what comes next, which tickets are
held or late, and how long each has taken so far. --steps adds how long each step took.
--watch prints the board again whenever it changes.`,
		Example: `  shadewright board
  shadewright board --csv > board.csv`,
		Args: noWords,
		RunE: func(c *cobra.Command, _ []string) error { return runBoard(c.Context(), s, &opt) },
	}
	opt.add(c)
	c.Flags().BoolVar(&opt.json, "json", false, "print the board for a program, as one JSON document")
	c.Flags().BoolVar(&opt.csv, "csv", false, "print the board as a table for a spreadsheet")
	c.Flags().BoolVarP(&opt.watch, "watch", "w", false, "print the board again whenever something changes, until Ctrl-C")
	c.Flags().BoolVar(&opt.steps, "steps", false, "list each finished step: who did it and how long it took")
	return c
}

func runBoard(ctx context.Context, s environment, opt *boardOptions) error {
	if opt.json && opt.csv || opt.steps && (opt.json || opt.csv) {
		return usageError{errors.New("use only one of --json, --csv and --steps")}
	}
	c, err := opt.load(s, ".")
	if err != nil {
		return err
	}
	return withRecord(ctx, s, c, func(rec *record.Record) error {
		for seq := int64(-1); ; {
			b, err := rec.Board(ctx)
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
			if _, err := rec.Changes(ctx, seq); err != nil {
				return watched(ctx, err)
			}
		}
	})
}

// watched returns nil if the user ended the watching, which is not a failure, and any
// other error as it is.
func watched(ctx context.Context, err error) error {
	if ctx.Err() != nil && errors.Is(err, ctx.Err()) {
		return nil
	}
	return err
}

// clearScreen clears a terminal and moves the cursor to its top (ECMA-48: CUP and ED).
const clearScreen = "\x1b[H\x1b[2J"

// write prints the board in one piece, so that a screen does not flicker. Again says that
// an earlier board was printed.
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
