package main

import (
	"os/exec"
	"slices"
	"strings"
	"testing"
)

const self = "shadewright/"

// Imports point one way: cmd → config, render → ticket → measure. This test names each
// package that imports the other way.
func TestArrows(t *testing.T) {
	tests := []struct {
		root string
		not  []string // prefixes that no package below root may import, directly or not
	}{
		{"ticket", []string{self + "render", self + "config", self + "fonts", self + "cmd",
			"github.com/signintech", "github.com/boombuler", "github.com/spf13", "charm.land", "net/http"}},
		{"render", []string{self + "config", self + "cmd", "github.com/spf13", "charm.land"}},
		{"config", []string{self + "render", self + "cmd", self + "fonts", "github.com/signintech"}},
		{"fonts", []string{self + "ticket", self + "render", self + "config"}},
		{"cmd", []string{self + "render/internal", "testing"}},
	}
	for _, tt := range tests {
		for dep, by := range deps(t, tt.root) {
			for _, bad := range tt.not {
				if under(dep, bad) {
					t.Errorf("%s: %s imports %s", tt.root, by, dep)
				}
			}
		}
	}
	for dep := range deps(t, "ticket/measure") {
		if strings.HasPrefix(dep, self) && dep != self+"ticket/measure" {
			t.Errorf("ticket/measure imports %s; it may import no package of ours", dep)
		}
	}
}

// Each library is used by one package, so that replacing it changes one package.
func TestLibraries(t *testing.T) {
	type use struct {
		library string
		by      []string // nil allows any package, because the library's type is part of the domain
	}
	users := []use{
		{"github.com/google/uuid", nil},
		{"charm.land", []string{"cmd/shadewright/ask"}},
		{"github.com/mattn/go-isatty", []string{"cmd/shadewright"}},
		{"github.com/spf13/cobra", []string{"cmd/shadewright"}},
		{"github.com/spf13/pflag", []string{"cmd/shadewright"}},
		{"github.com/spf13/viper", []string{"config"}},
		{"golang.org/x/image", []string{"fonts"}},
		{"github.com/signintech/gopdf", []string{"render/page"}},
		{"github.com/boombuler/barcode", []string{"render/symbol"}},
		{"github.com/klippa-app/go-pdfium", []string{"render/internal/readback"}},
		{"github.com/tetratelabs/wazero", []string{"render/internal/readback"}},
		{"github.com/makiuchi-d/gozxing", []string{"render/internal/readback"}},
		{"go.yaml.in/yaml/v3", []string{"ticket/form"}},
		{"golang.org/x/text/encoding", []string{"ticket/intake/grid"}},
		{"golang.org/x/text/unicode/norm", []string{"render/page", "ticket/form"}}, // one sets text, the other reads it
		{"github.com/jackc/pgx/v5", []string{"ticket/mark/record"}},
		{"modernc.org/sqlite", []string{"ticket/mark/record"}},
		{"github.com/xuri/excelize/v2", []string{"cmd/shadewright/workbook"}},
	}
	for pkg, imports := range packages(t, "Imports", self+"...") {
		for _, lib := range imports {
			if first, _, _ := strings.Cut(lib, "/"); !strings.Contains(first, ".") {
				continue // in the standard library, or ours
			}
			i := slices.IndexFunc(users, func(u use) bool { return under(lib, u.library) })
			switch {
			case i < 0:
				t.Errorf("%s imports %s, which is not listed here; give it a row, and its reason in README.md", pkg, lib)
			case users[i].by != nil && !slices.Contains(users[i].by, strings.TrimPrefix(pkg, self)):
				t.Errorf("%s imports %s, which only %s may import", pkg, lib, strings.Join(users[i].by, " and "))
			}
		}
	}
}

// under reports whether a package is the one at path, or below it.
func under(pkg, path string) bool { return pkg == path || strings.HasPrefix(pkg, path+"/") }

// deps returns everything that the packages below a folder import, directly or not. The
// value is one package that imports it.
func deps(t *testing.T, root string) map[string]string {
	t.Helper()
	all := map[string]string{}
	for pkg, list := range packages(t, "Deps", self+root+"/...") {
		for _, dep := range list {
			all[dep] = pkg
		}
	}
	return all
}

// packages returns a list of each package from the go command, for example its imports.
func packages(t *testing.T, what, pattern string) map[string][]string {
	t.Helper()
	out, err := exec.Command("go", "list", "-f", `{{.ImportPath}} {{join .`+what+` " "}}`, pattern).Output()
	if err != nil {
		t.Fatalf("go list %s: %v", pattern, err)
	}
	all := map[string][]string{}
	for line := range strings.Lines(string(out)) {
		words := strings.Fields(line)
		all[words[0]] = words[1:]
	}
	if len(all) == 0 {
		t.Fatalf("go list %s names no package", pattern)
	}
	return all
}
