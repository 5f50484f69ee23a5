package main

import (
	"os/exec"
	"strings"
	"testing"
)

// Imports point one way: cmd → config, render → ticket → measure. A package that
// reaches against the arrows fails here, by name.
func TestArrows(t *testing.T) {
	const self = "shadewright/"
	tests := []struct {
		root string
		not  []string // what nothing below root may import, by prefix
	}{
		{"ticket", []string{self + "render", self + "config", self + "fonts", self + "cmd",
			"github.com/signintech", "github.com/boombuler", "github.com/spf13", "net/http"}},
		{"ticket/measure", []string{self + "ticket/jobfile", self + "ticket/goods", "github.com/google/uuid"}},
		{"render", []string{self + "config", self + "cmd", "github.com/spf13"}},
		{"config", []string{self + "render", self + "cmd", self + "fonts", "github.com/signintech"}},
		{"fonts", []string{self + "ticket", self + "render", self + "config"}},
	}
	for _, tt := range tests {
		for dep, by := range deps(t, tt.root) {
			for _, bad := range tt.not {
				if dep == strings.TrimSuffix(bad, "/") || strings.HasPrefix(dep, bad+"/") {
					t.Errorf("%s: %s imports %s", tt.root, by, dep)
				}
			}
		}
	}
}

// deps returns everything that the packages below a folder import, directly or
// not, with one that does.
func deps(t *testing.T, root string) map[string]string {
	t.Helper()
	out, err := exec.Command("go", "list", "-f", `{{.ImportPath}} {{join .Deps " "}}`, "shadewright/"+root+"/...").Output()
	if err != nil {
		t.Fatalf("go list %s: %v", root, err)
	}
	all := map[string]string{}
	for line := range strings.Lines(string(out)) {
		words := strings.Fields(line)
		for _, dep := range words[1:] {
			all[dep] = words[0]
		}
	}
	if len(all) == 0 {
		t.Fatalf("go list %s names no package", root)
	}
	return all
}
