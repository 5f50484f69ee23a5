package main

import (
	"io/fs"
	"testing"
)

// The error names a settings file that the user may not read, even if nobody named it.
func TestUnreadNamesTheFile(t *testing.T) {
	err := unread("", &fs.PathError{Op: "open", Path: "jobs/shop.yaml", Err: fs.ErrPermission})
	if want := "jobs/shop.yaml: you do not have permission to read it; change its permissions, or copy it"; err.Error() != want {
		t.Errorf("unread says %q; want %q", err, want)
	}
}
