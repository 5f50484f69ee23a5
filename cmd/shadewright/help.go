package main

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"strings"

	"github.com/spf13/cobra"

	"shadewright/ticket/form"
)

// guides holds the Markdown files that help prints as they are.
//
//go:embed help/*.md
var guides embed.FS

// topics returns the name and the title of each guide, in alphabetical order.
func topics() ([][2]string, error) {
	files, err := fs.Glob(guides, "help/*.md")
	if err != nil {
		return nil, err
	}
	var out [][2]string
	for _, f := range files {
		data, err := guides.ReadFile(f)
		if err != nil {
			return nil, err
		}
		title, _, _ := strings.Cut(string(data), "\n")
		out = append(out, [2]string{strings.TrimSuffix(strings.TrimPrefix(f, "help/"), ".md"), strings.TrimPrefix(title, "# ")})
	}
	return out, nil
}

// newHelp makes the command that explains a command or prints a guide.
func newHelp(s environment, root *cobra.Command) *cobra.Command {
	return &cobra.Command{
		Use:   "help [COMMAND | TOPIC]",
		Short: "Explain a command, or print a guide such as measuring",
		Example: `  shadewright help
  shadewright help measuring
  shadewright help print`,
		ValidArgsFunction: func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
			return helpWords(root), cobra.ShellCompDirectiveNoFileComp
		},
		RunE: func(_ *cobra.Command, args []string) error { return runHelp(s, root, args) },
	}
}

func helpWords(root *cobra.Command) []string {
	var words []string
	for _, c := range root.Commands() {
		if !c.Hidden {
			words = append(words, c.Name())
		}
	}
	list, err := topics()
	if err != nil {
		return words // a completion cannot show an error
	}
	for _, t := range list {
		words = append(words, t[0])
	}
	return words
}

func runHelp(s environment, root *cobra.Command, args []string) error {
	if len(args) == 0 {
		if err := root.Help(); err != nil {
			return err
		}
		return listTopics(s)
	}
	if data, err := guides.ReadFile("help/" + args[0] + ".md"); err == nil {
		_, err = s.out.Write(data)
		return err
	} else if !errors.Is(err, fs.ErrNotExist) && !errors.Is(err, fs.ErrInvalid) {
		return err
	}
	if c, _, err := root.Find(args); err == nil && c != root {
		return c.Help()
	}
	fix := "see shadewright help"
	if near := form.Nearest(args[0], helpWords(root)); near != "" {
		fix = "did you mean " + near + "?"
	}
	return usageError{fmt.Errorf("there is no command or topic %q; %s", args[0], fix)}
}

func listTopics(s environment) error {
	list, err := topics()
	if err != nil {
		return err
	}
	rows := [][]string{{"\nTopics:"}}
	for _, t := range list {
		rows = append(rows, []string{"  " + t[0], t[1]})
	}
	return writeTable(s.out, rows)
}
