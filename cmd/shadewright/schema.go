package main

import (
	"github.com/spf13/cobra"

	"shadewright/render/sheet"
	"shadewright/ticket/jobfile"
)

func newSchema(s environment) *cobra.Command {
	return &cobra.Command{
		Use:   "schema",
		Short: "Write the JSON Schema of a job file, for editors that check as you type",
		Long: `Schema writes the JSON Schema (draft 2020-12) of the job file, from the same table that
reads a job. An editor with a YAML language server completes and checks a job whose
first line names the schema:

  # yaml-language-server: $schema=job.schema.json`,
		Example: `  shadewright schema > job.schema.json`,
		Args:    noWords,
		RunE: func(*cobra.Command, []string) error {
			text, err := jobfile.Schema(jobfile.Options{Papers: sheet.Names()})
			if err != nil {
				return err
			}
			_, err = s.out.Write(text)
			return err
		},
	}
}
