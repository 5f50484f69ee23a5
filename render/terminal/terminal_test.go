package terminal

import (
	"errors"
	"strings"
	"testing"

	"github.com/google/uuid"

	"shadewright/ticket"
	"shadewright/ticket/goods"
	"shadewright/ticket/measure"
	"shadewright/ticket/route"
)

func sample(t *testing.T) (*ticket.Job, []*ticket.Ticket) {
	t.Helper()
	const in = measure.Inch
	s := ticket.Shade{
		ID: "bunk", Quantity: 2, Finished: measure.Size{Width: 25 * in, Length: 35 * in},
		Goods:  ticket.Goods{Name: "mesh", Kind: goods.CoatedMesh, Width: 36 * in},
		Roller: ticket.Roller{Name: "donor", Longest: 24 * in},
		Slat:   ticket.Slat{Name: "flat", Width: in, Thickness: in * 3 / 32},
		Allow:  ticket.Allow{Wrap: 7 * in, Hem: in / 2, Pocket: in * 5 / 4, StitchInset: in / 8, TubeOver: in / 8, SlatGap: in / 8},
		Sewing: ticket.Sewing{StitchLength: 6 * measure.Millimetre, Thread: 92},
	}
	job := &ticket.Job{Name: "Heron Landing", ID: uuid.MustParse("5f0c8f0e-2b0f-4a55-9f0b-6f1f7a2d9c31"), Style: measure.Usual(measure.Inches), Shades: []ticket.Shade{s}}
	all, err := ticket.Make(job, ticket.Options{Route: route.Usual()})
	if err != nil {
		t.Fatal(err)
	}
	return job, all
}

func TestCheck(t *testing.T) {
	job, all := sample(t)
	var b strings.Builder
	if err := Check(&b, job, all); err != nil {
		t.Fatal(err)
	}
	got := b.String()
	// 25 × 43-3/4, diagonal 50-3/8, lines at 1/2, 1, 1-3/4, 2-7/8, 3 in: common
	// practice, no source. By hand: tape 3 × 25; tube 25-1/8; slat 24-3/4.
	for _, want := range []string{
		"Heron Landing: 2 shades\n",
		"bunk   2      25           43-3/4  50-3/8    25-1/8  24-3/4  75",
		"1/2       1         1-3/4        2-7/8       3            bunk\n",
		"stop     bunk, roller: the tube has to be 25-1/8 in, and roller donor reaches only 24 in; use another roller, or change the finished width\n",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("Check did not write %q:\n%s", want, got)
		}
	}
	if s, c := strings.Index(got, "\nstop "), strings.Index(got, "\ncaution "); s < 0 || c < 0 || s > c {
		t.Errorf("stops do not come before cautions:\n%s", got)
	}
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no space") }

func TestCheckFullDisk(t *testing.T) {
	job, all := sample(t)
	if err := Check(full{}, job, all); err == nil {
		t.Error("Check does not report a failed write")
	}
}
