package main

import (
	"fmt"
	"runtime"
	"runtime/debug"

	"github.com/spf13/cobra"
)

func newVersion(s environment) *cobra.Command {
	return &cobra.Command{
		Use:     "version",
		Short:   "Show which build of the program this is",
		Example: `  shadewright version`,
		Args:    noWords,
		RunE: func(*cobra.Command, []string) error {
			_, err := fmt.Fprintln(s.out, versionLine(debug.ReadBuildInfo()))
			return err
		},
	}
}

// versionLine returns the module's version, the commit if the build knows it, the Go
// version and the platform.
func versionLine(info *debug.BuildInfo, ok bool) string {
	version, commit := "unknown", ""
	if ok {
		if v := info.Main.Version; v != "" {
			version = v
		}
		changed := ""
		for _, s := range info.Settings {
			switch s.Key {
			case "vcs.revision":
				commit = ", commit " + s.Value
			case "vcs.modified":
				if s.Value == "true" {
					changed = " with changes"
				}
			}
		}
		if commit != "" {
			commit += changed
		}
	}
	return fmt.Sprintf("shadewright %s%s, %s, %s/%s", version, commit, runtime.Version(), runtime.GOOS, runtime.GOARCH)
}
