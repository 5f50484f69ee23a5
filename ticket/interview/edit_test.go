package interview

import (
	"os"
	"path/filepath"
	"testing"

	"shadewright/ticket/form"
)

// A job that exists has no open question, and the questions keep its parts.
func TestEditKeepsParts(t *testing.T) {
	for _, name := range []string{"bunkhouse", "leanto", "narrowboat"} {
		data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", name+".yaml"))
		if err != nil {
			t.Fatal(err)
		}
		file, bad := form.Parse(name, data)
		if bad != nil {
			t.Fatal(bad)
		}
		v := Edit(file, options)
		if q, more := v.Next(); more {
			t.Errorf("%s: asks %s?", name, q.Ask)
		}
		if _, err := v.File(); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		for _, shade := range file.At("shades").Items {
			id := shade.At("id").Text
			was, is := shade.Get("opening", "axle"), v.Top().Get("shades", id, "opening", "axle")
			if was != nil && (is == nil || !is.Same(was)) {
				t.Errorf("%s: the axle of %s becomes %+v", name, id, is)
			}
		}
		for _, group := range []string{"goods", "rollers", "slats", "brackets"} {
			was := file.At(group)
			if was == nil {
				continue
			}
			for _, part := range was.Entries {
				if is := v.Top().Get(group, part.Key); is == nil || !is.Same(part.Value) {
					t.Errorf("%s: %s %s becomes %+v", name, group, part.Key, is)
				}
			}
		}
	}
}
