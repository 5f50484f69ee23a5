package ticket_test

import (
	"errors"
	"fmt"
	"go/ast"
	"go/constant"
	"go/parser"
	"go/token"
	"go/types"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// parts are the parts of a shade for which DEVELOPERS.md counts check values, with
// the test files that hold the values.
var parts = []struct{ name, files string }{
	{"thread, needle, stitch, cloth and heat", "goods/*_test.go"},
	{"measuring an opening, deductions and limits", "hang/{rules,opening}_test.go"},
	{"the roll", "hang/winding_test.go"},
	{"sag of the tube, and what tubes are made of", "hang/beam_test.go"},
	{"squareness", "square/*_test.go"},
	{"lengths and masses", "measure/*_test.go"},
	{"cautions", "caution_test.go"},
}

// named returns the words by which tests name the sources in testdata/sources.md.
func named(t *testing.T) []string {
	t.Helper()
	text, err := os.ReadFile("../testdata/sources.md")
	if err != nil {
		t.Fatal(err)
	}
	var keys []string
	for _, m := range regexp.MustCompile("(?m)^\\| `([^`]+)` \\|").FindAllStringSubmatch(string(text), -1) {
		keys = append(keys, m[1])
	}
	return keys
}

// sourcesIn returns the src of every table row in the test files of a folder that
// match a pattern.
func sourcesIn(t *testing.T, folder, pattern string) []string {
	t.Helper()
	files := token.NewFileSet()
	all, err := filepath.Glob(filepath.Join(folder, "*_test.go"))
	if err != nil {
		t.Fatal(err)
	}
	packages := map[string][]*ast.File{}
	for _, name := range all {
		f, err := parser.ParseFile(files, name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		packages[f.Name.Name] = append(packages[f.Name.Name], f)
	}
	var rows []string
	for name, list := range packages {
		info := &types.Info{Types: map[ast.Expr]types.TypeAndValue{}}
		// Every src is a constant of the tests, so their imports are not needed.
		config := types.Config{Importer: nothing{}, Error: func(error) {}}
		_, _ = config.Check(name, files, list, info) // its errors only name the missing imports
		for _, f := range list {
			if ok, err := filepath.Match(pattern, filepath.Base(files.Position(f.Pos()).Filename)); err != nil || !ok {
				continue
			}
			ast.Inspect(f, func(n ast.Node) bool {
				if table, ok := n.(*ast.CompositeLit); ok {
					rows = append(rows, sourcesOf(table, info)...)
				}
				return true
			})
		}
	}
	return rows
}

// nothing is an importer that finds no package.
type nothing struct{}

func (nothing) Import(path string) (*types.Package, error) { return nil, errors.New("not read") }

// sourcesOf returns the src of each row, if the literal is a table with a src.
func sourcesOf(table *ast.CompositeLit, info *types.Info) []string {
	at := column(info.Types[table].Type)
	if at < 0 {
		return nil
	}
	var rows []string
	for _, e := range table.Elts {
		row, ok := e.(*ast.CompositeLit)
		if !ok {
			continue
		}
		for i, cell := range row.Elts {
			if pair, keyed := cell.(*ast.KeyValueExpr); keyed {
				if key, ok := pair.Key.(*ast.Ident); !ok || key.Name != "src" {
					continue
				}
				cell = pair.Value
			} else if i != at {
				continue
			}
			if v := info.Types[cell].Value; v != nil {
				rows = append(rows, constant.StringVal(v))
			}
		}
	}
	return rows
}

// column returns the index of the field src in the rows of a table, or -1.
func column(t types.Type) int {
	if t == nil {
		return -1
	}
	var row types.Type
	switch table := t.Underlying().(type) {
	case *types.Slice:
		row = table.Elem()
	case *types.Array:
		row = table.Elem()
	default:
		return -1
	}
	fields, ok := row.Underlying().(*types.Struct)
	if !ok {
		return -1
	}
	for i := range fields.NumFields() {
		if fields.Field(i).Name() == "src" {
			return i
		}
	}
	return -1
}

// DEVELOPERS.md says how many check values each part of a shade has from a named
// source, and from how many sources. Rows worked out by hand, or of common practice,
// do not count.
func TestCheckValuesAreCounted(t *testing.T) {
	keys := named(t)
	used := map[string]bool{}
	values := 0
	var table strings.Builder
	for _, p := range parts {
		folder, pattern := filepath.Split(p.files)
		here := map[string]bool{}
		n := 0
		for _, pattern := range alternatives(pattern) {
			for _, src := range sourcesIn(t, folder, pattern) {
				counts := false
				for _, key := range keys {
					if strings.Contains(src, key) {
						counts, here[key], used[key] = true, true, true
					}
				}
				if counts {
					n++
				}
			}
		}
		values += n
		fmt.Fprintf(&table, "| %s | %d | %d |\n", p.name, n, len(here))
	}
	fmt.Fprintf(&table, "| all | %d | %d |\n", values, len(used))
	guide, err := os.ReadFile("../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(guide), table.String()) {
		t.Errorf("the table of check values in DEVELOPERS.md is to be\n%s", &table)
	}
	if values < 100 || len(used) < 30 {
		t.Errorf("%d check values from %d named sources; want at least 100 from 30", values, len(used))
	}
	for _, key := range keys {
		if !used[key] {
			t.Errorf("no check value names the source %q any more; take it out of testdata/sources.md", key)
		}
	}
	if !slices.IsSorted(keys) || len(keys) != len(slices.Collect(maps.Keys(index(keys)))) {
		t.Error("the sources in testdata/sources.md are not in order, or one is there twice")
	}
}

func index(keys []string) map[string]bool {
	all := map[string]bool{}
	for _, k := range keys {
		all[k] = true
	}
	return all
}

// alternatives writes out a pattern's braces.
func alternatives(pattern string) []string {
	before, rest, ok := strings.Cut(pattern, "{")
	if !ok {
		return []string{pattern}
	}
	inside, after, _ := strings.Cut(rest, "}")
	var all []string
	for _, word := range strings.Split(inside, ",") {
		all = append(all, before+word+after)
	}
	return all
}
