package main

import (
	"runtime/debug"
	"strings"
	"testing"
)

func TestVersionLine(t *testing.T) {
	info := &debug.BuildInfo{Main: debug.Module{Version: "v1.2.3"}, Settings: []debug.BuildSetting{
		{Key: "vcs.revision", Value: "0123abc"}, {Key: "vcs.modified", Value: "true"}}}
	if got := versionLine(info, true); !strings.HasPrefix(got, "shadewright v1.2.3, commit 0123abc with changes, go1.") {
		t.Errorf("versionLine = %q", got)
	}
	if got := versionLine(nil, false); !strings.HasPrefix(got, "shadewright unknown, go1.") {
		t.Errorf("versionLine of nothing = %q", got)
	}
}
