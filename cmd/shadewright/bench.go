package main

import (
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"shadewright/config"
	"shadewright/render/card"
	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/ticket/jobfile"
	"shadewright/ticket/mark/scan"
)

func newBench(s surround) *cobra.Command {
	var opt struct {
		settingFlags
		out   string
		force bool
	}
	c := &cobra.Command{
		Use:   "bench",
		Short: "Write the bench sheet: codes for steps, people, undo and hold",
		Long: `Bench writes bench.pdf, the sheet that lies beside a scanner. Scan a step once and
every ticket after it marks that step; scan undo, hold or a spoilt panel and it
holds for the next ticket. People, places and reasons are the shop's settings
bench.people, bench.places, bench.holds and bench.spoilt.`,
		Example: "  shadewright bench --set bench.people='ann, bo'",
		Args:    noWords,
		RunE: func(c *cobra.Command, _ []string) error {
			settings, err := opt.load(s, ".")
			if err != nil {
				return err
			}
			doc, err := benchSheet(settings)
			if err != nil {
				return err
			}
			if err := (folder{dir: opt.out, force: opt.force}).write(c.Context(), []document{doc}); err != nil {
				return err
			}
			_, err = fmt.Fprintf(s.out, "%s\t%s\n", filepath.Join(opt.out, doc.name), doc.says)
			return err
		},
	}
	opt.add(c)
	c.Flags().StringVarP(&opt.out, "out", "o", "bench", "`folder` to write to")
	c.Flags().BoolVar(&opt.force, "force", false, "replace a file that an earlier run did not write, or that was changed since")
	return c
}

func benchSheet(c config.Settings) (document, error) {
	paper, err := paperOf(jobfile.Paper(c.Paper))
	if err != nil {
		return document{}, usageError{err}
	}
	drawn, err := card.Bench(benchGroups(c), card.Options{
		Paper: paper, Margins: sheet.Margins(c.Margins), Code128: c.Bars,
		Info: page.Info{Title: "Bench sheet", Creator: "Shadewright"}, Language: languageOf(c),
	})
	if err != nil {
		return document{}, usageError{err}
	}
	return finish("bench.pdf", drawn, "bench sheet, "+count(drawn.Pages(), "page"))
}

// benchGroups returns the codes of the bench sheet.
func benchGroups(c config.Settings) []card.BenchGroup {
	var groups []card.BenchGroup
	add := func(name string, codes ...card.BenchCode) {
		groups = append(groups, card.BenchGroup{Name: name, Codes: codes})
	}
	code := func(says string, word scan.Word, value string) card.BenchCode {
		return card.BenchCode{Says: says, Content: scan.Control{Word: word, Value: strings.ToLower(value)}.String()}
	}
	each := func(values []string, before string, word scan.Word) (codes []card.BenchCode) {
		for _, v := range values {
			codes = append(codes, code(before+v, word, v))
		}
		return codes
	}
	steps := []card.BenchCode{code("Whatever comes next", scan.Next, "")}
	for _, s := range c.Record.Route {
		steps = append(steps, code(s.Name, scan.Step, s.Key))
	}
	add("Every ticket from now on marks", steps...)
	next := []card.BenchCode{code("Undo", scan.Undo, ""), code("Go on after a hold", scan.Release, "")}
	next = append(next, each(c.Record.Holds, "Hold: ", scan.Hold)...)
	next = append(next, each(c.Record.Spoilt, "Panel spoilt: ", scan.Remade)...)
	add("Only the next ticket", next...)
	add("Who works here", each(c.Record.People, "", scan.By)...)
	add("Which bench this is", each(c.Record.Places, "", scan.At)...)
	add("At the end of the day", code("Forget step, person and place", scan.Clear, ""))
	return groups
}
