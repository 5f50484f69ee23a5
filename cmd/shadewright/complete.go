package main

import (
	"strings"

	"github.com/spf13/cobra"

	"shadewright/config"
	"shadewright/ticket/form"
)

// complete gives every command its shell completions: job files for a JOB and the ids of
// its shades for a SHADE, settings for --set, units, and formats of previews.
func complete(root *cobra.Command) {
	for _, c := range root.Commands() {
		if c.ValidArgsFunction == nil {
			c.ValidArgsFunction = completeWords(strings.Fields(c.Use)[1:])
		}
		for flag, values := range map[string]func(string) []string{
			"set": settingWords, "units": unitValues, "preview": previewValues, "template": templateValues,
		} {
			if f := c.Flags().Lookup(flag); f == nil || f.Value.Type() == "bool" { // calibrate --template has no value
				continue
			}
			err := c.RegisterFlagCompletionFunc(flag, func(_ *cobra.Command, _ []string, typed string) ([]string, cobra.ShellCompDirective) {
				directive := cobra.ShellCompDirectiveNoFileComp
				if flag == "set" {
					directive |= cobra.ShellCompDirectiveNoSpace
				}
				return values(typed), directive
			})
			if err != nil {
				panic(err) // cannot happen: the flag exists and has no completion yet
			}
		}
	}
}

// completeWords completes the arguments of a command by their names in its usage line.
func completeWords(names []string) cobra.CompletionFunc {
	return func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
		if len(args) >= len(names) {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		switch names[len(args)] {
		case "JOB":
			return []string{"yaml", "yml"}, cobra.ShellCompDirectiveFilterFileExt
		case "LIST":
			return []string{"csv", "tsv", "txt", "xlsx"}, cobra.ShellCompDirectiveFilterFileExt
		case "SHADE":
			return shadeIDs(args[0]), cobra.ShellCompDirectiveNoFileComp
		}
		return nil, cobra.ShellCompDirectiveDefault
	}
}

// shadeIDs returns the ids of the shades in a job file, which may still have faults.
func shadeIDs(path string) []string {
	data, err := form.Load(path)
	if err != nil {
		return nil // a completion cannot show an error
	}
	top, _ := form.Parse(path, data)
	if top == nil {
		return nil
	}
	shades := top.At("shades")
	if shades == nil {
		return nil
	}
	var ids []string
	for _, s := range shades.Items {
		if id := s.At("id"); id != nil {
			ids = append(ids, id.Text)
		}
	}
	return ids
}

func settingWords(string) []string {
	s, err := config.Load(config.Options{})
	if err != nil {
		return nil // cannot happen: the built-in settings are valid
	}
	var out []string
	for _, r := range s.Table() {
		out = append(out, r.Key+"=\t"+r.Doc)
	}
	return out
}

func unitValues(string) []string { return []string{"in\tinches", "mm\tmillimetres"} }

func templateValues(string) []string {
	return []string{"both\tthe bands and a gauge", "bands\tin strips to tape together", "gauge\tthe one-sheet ruler alone"}
}

func previewValues(string) []string {
	return []string{"png\tpixels, in shades of grey", "svg\tdrawings, sharp at any size"}
}
