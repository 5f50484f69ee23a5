package main

import (
	"io/fs"
	"testing"
)

// A settings file that nobody named is named when it may not be read.
func TestUnreadNamesTheFile(t *testing.T) {
	err := unread("", &fs.PathError{Op: "open", Path: "jobs/shop.yaml", Err: fs.ErrPermission})
	if want := "jobs/shop.yaml: may not be read by this user; change what its owner allows, or copy it"; err.Error() != want {
		t.Errorf("unread says %q; want %q", err, want)
	}
}
