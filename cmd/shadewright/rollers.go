package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"shadewright/render/terminal"
	"shadewright/ticket"
)

func newRollers(s environment) *cobra.Command {
	var opt struct {
		settingFlags
		json bool
	}
	c := &cobra.Command{
		Use:   "rollers JOB",
		Short: "Show which roller each shade gets, and which are left",
		Long: `Rollers shows the roller of each shade. A shade with roller: any in the job file leaves
the choice to Shadewright: it gets one whose tube has the length, that clears what it
must, and whose spring lifts it. As many shades as possible get one, and then the least is
sawn off; no choice is better. A shade for which no roller works is named, with the reason
for each roller, and the exit code is 4.`,
		Example: `  shadewright rollers testdata/jobs/bunkhouse.yaml`,
		Args:    oneJob,
		RunE: func(c *cobra.Command, args []string) error {
			l, err := readJob(s, &opt.settingFlags, args[0])
			if err != nil {
				return err
			}
			a, shades := l.file.Assignment, l.file.Job.Shades
			if opt.json {
				err = writeJSON(s.out, ticket.ReportRollers(shades, a))
			} else {
				err = terminal.Rollers(s.out, shades, a, l.file.Job.Style)
			}
			if err != nil {
				return err
			}
			var none []string
			for i := range shades {
				if shades[i].NoRoller != nil {
					none = append(none, shades[i].Called().String())
				}
			}
			return stoppedError(none, fmt.Sprintf("see shadewright check %s", args[0]))
		},
	}
	opt.add(c)
	c.Flags().BoolVar(&opt.json, "json", false, "print the same for a program, lengths in millimetres")
	return c
}
