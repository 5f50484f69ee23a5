package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"
)

func newRoot(s environment) *cobra.Command {
	s.quiet = new(bool)
	root := &cobra.Command{
		Use:   "shadewright",
		Short: "Turn a job file of roller shades into the paper to make them by",
		Long: `Shadewright is for workrooms that put new cloth on donor rollers. From one job file
it prints a full-scale marking template, a ticket for each shade, tags for its parts
and a cut plan. It reports anything that cannot be made before you cut.

Start with shadewright new or shadewright import. shadewright help lists the guides.

` + exitHelp(),
		Args:          noCommand,
		SilenceUsage:  true,
		SilenceErrors: true,
		RunE:          func(c *cobra.Command, _ []string) error { return c.Help() },
	}
	root.PersistentFlags().BoolVarP(s.quiet, "quiet", "q", false, "say only results, errors and what could not be checked")
	root.SetFlagErrorFunc(flagError)
	root.SuggestionsMinimumDistance = 2
	root.AddCommand(newPrint(s), newCheck(s), newBuy(s), newRollers(s), newCut(s), newNest(s), newSquare(s), newSpring(s), newNew(s), newImport(s), newSchema(s))
	root.AddCommand(newBench(s), newScan(s), newBoard(s), newServe(s), newRecord(s), newCalibrate(s), newVersion(s))
	root.SetHelpCommand(newHelp(s, root))
	complete(root)
	return root
}

// noCommand refuses an unknown command and suggests the nearest one.
func noCommand(c *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	if does := fileNotCommand(args[0]); does != "" {
		return usageError{fmt.Errorf("%q is a file, not a command; write %s", args[0], does)}
	}
	fix := "see " + c.CommandPath() + " --help"
	if near := c.SuggestionsFor(args[0]); len(near) > 0 {
		fix = "did you mean " + strings.Join(near, " or ") + "?"
	}
	return usageError{fmt.Errorf("unknown command %q; %s", args[0], fix)}
}

// noWords refuses arguments to a command that takes none.
func noWords(c *cobra.Command, args []string) error {
	if len(args) > 0 {
		return usageError{fmt.Errorf("%s takes no arguments, but was given %q; see %s --help", c.Name(), args[0], c.CommandPath())}
	}
	return nil
}

// oneJob accepts exactly one job file.
func oneJob(c *cobra.Command, args []string) error {
	if len(args) != 1 {
		return usageError{fmt.Errorf("%s takes one job file, not %d; for example %s", c.Name(), len(args), strings.TrimSpace(strings.SplitN(c.Example, "\n", 2)[0]))}
	}
	return nil
}

func exitHelp() string {
	var b strings.Builder
	b.WriteString("Exit codes:\n")
	for _, e := range exitCodes {
		fmt.Fprintf(&b, "  %3d  %s\n", e.code, e.meaning)
	}
	return strings.TrimRight(b.String(), "\n")
}
