package main

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"shadewright/render/terminal"
	"shadewright/ticket"
	"shadewright/ticket/form"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
)

type springOptions struct {
	settingFlags
	at   []string
	json bool
}

func newSpring(s environment) *cobra.Command {
	var opt springOptions
	c := &cobra.Command{
		Use:   "spring JOB SHADE",
		Short: "Say how far to wind a spring, or find its rate with a hanging scale",
		Long: `Spring says how many turns to wind the spring of a shade's roller, and how to do it by
hand. If you do not know the spring's rate, spring says how to find it: hook a hanging
scale to the slat, and read it at two lengths of cloth off the tube. Give both readings
with --at.`,
		Example: `  shadewright spring testdata/jobs/bunkhouse.yaml pantry
  shadewright spring testdata/jobs/bunkhouse.yaml pantry --at 9-1/2=530g --at 28-1/2=700g`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) != 2 {
				return usageError{fmt.Errorf("spring takes a job file and the id of a shade, not %s; for example shadewright spring testdata/jobs/bunkhouse.yaml pantry", measure.Count(len(args), "word"))}
			}
			return nil
		},
		RunE: func(_ *cobra.Command, args []string) error { return runSpring(s, &opt, args[0], args[1]) },
	}
	opt.add(c)
	c.Flags().StringArrayVar(&opt.at, "at", nil, "a reading, as `cloth=scale`, for example 10in=350g")
	c.Flags().BoolVar(&opt.json, "json", false, "print every number for a program, lengths in millimetres")
	return c
}

func runSpring(s environment, opt *springOptions, path, id string) error {
	l, err := readJob(s, &opt.settingFlags, path)
	if err != nil {
		return err
	}
	job := l.file.Job
	shade, err := shadeNamed(&job, id)
	if err != nil {
		return usageError{err}
	}
	shade.Quantity = 1 // the springs of two units differ, so try one
	if len(opt.at) > 0 {
		if shade.Trial, err = trial(opt.at, job.Style.System); err != nil {
			return usageError{err}
		}
		shade.Roller.Spring = 0
	}
	job.Shades = []ticket.Shade{shade}
	how := l.options()
	if err := ticket.Try(&job, &shade, how); err != nil {
		return usageError{err} // reading the job found no fault, so the readings are wrong
	}
	tickets, err := ticket.Make(&job, how)
	if err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	if opt.json {
		err = writeJSON(s.out, tickets[0].SpringReport())
	} else {
		err = terminal.Spring(s.out, tickets[0])
	}
	if w := tickets[0].Wind; err == nil && w != nil && !w.OK {
		return stoppedError([]string{id}, "no number of turns both lifts the shade and keeps it from flying")
	}
	return err
}

func shadeNamed(job *ticket.Job, id string) (ticket.Shade, error) {
	var ids []string
	for _, s := range job.Shades {
		if s.ID == id {
			return s, nil
		}
		ids = append(ids, s.ID)
	}
	return ticket.Shade{}, fmt.Errorf("%q is not a shade of this job; %s", id, form.Suggest(id, "shades", ids))
}

// trial reads two readings, each as cloth=scale.
func trial(at []string, units measure.System) (*[2]hang.Reading, error) {
	if len(at) != 2 {
		return nil, fmt.Errorf("--at is given %s; give it twice, with readings at two lengths of cloth off the tube", ticket.TimesText(len(at)))
	}
	var readings [2]hang.Reading
	var errs []error
	for i, text := range at {
		below, scale, ok := strings.Cut(text, "=")
		if !ok {
			errs = append(errs, fmt.Errorf("--at %q has no reading; write cloth=scale, for example 10in=350g", text))
			continue
		}
		var err error
		if readings[i].Below, err = measure.Parse(below, units); err != nil {
			errs = append(errs, fmt.Errorf("--at %q: %w", text, err))
		}
		if readings[i].Scale, err = measure.ParseMass(scale); err != nil {
			errs = append(errs, fmt.Errorf("--at %q: %w", text, err))
		}
	}
	return &readings, errors.Join(errs...)
}
