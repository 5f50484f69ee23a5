package jobfile

import (
	"testing"
	"shadewright/ticket"
	"shadewright/ticket/route"
)

func TestTry(t *testing.T) {
	for _, n := range []string{"bunkhouse", "narrowboat"} {
		f, err := ReadPath("../../testdata/jobs/"+n+".yaml", Options{})
		if err != nil {
			t.Fatal(err)
		}
		ts, err := ticket.Make(&f.Job, ticket.Options{Route: route.Route{}})
		if err != nil {
			t.Fatal(err)
		}
		for _, k := range ts {
			for _, x := range k.Findings {
				t.Logf("%s %d %+v", k.Shade.ID, k.Unit, x)
			}
		}
	}
}
