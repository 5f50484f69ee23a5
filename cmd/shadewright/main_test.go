package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"shadewright/config"
)

// tests removes this machine's settings from the environment, and the variables of other
// packages' tests: the program refuses variables that it does not know.
type tests struct{ *testing.M }

func (m tests) Run() int {
	for _, v := range os.Environ() {
		if name, _, _ := strings.Cut(v, "="); strings.HasPrefix(name, config.EnvPrefix) {
			if err := os.Unsetenv(name); err != nil {
				panic(err)
			}
		}
	}
	return m.M.Run()
}

// TestMain lets the scripts run this program as shadewright.
func TestMain(m *testing.M) {
	testscript.Main(tests{m}, map[string]func(){"shadewright": main})
}

// Each script in testdata/script shows one behaviour as a person meets it. A script finds
// the sample jobs in $JOBS and writes only in its own folder.
func TestScripts(t *testing.T) {
	jobs, err := filepath.Abs("../../testdata/jobs")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir: "testdata/script",
		Setup: func(env *testscript.Env) error {
			env.Setenv("JOBS", jobs)
			home := filepath.Join(env.WorkDir, "home")
			env.Setenv("HOME", home)
			env.Setenv("TZ", "UTC") // no unit or paper is guessed from this machine's zone
			env.Setenv("XDG_CONFIG_HOME", filepath.Join(home, ".config"))
			env.Setenv("XDG_DATA_HOME", filepath.Join(home, ".local", "share"))
			return nil
		},
	})
}
