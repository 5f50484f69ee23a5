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
		ID: "bunk", Quantity: 2, Finished: measure.Size{Width: 26*in + in*3/8, Length: 37 * in},
		Goods:  ticket.Goods{Name: "mesh", Kind: goods.CoatedMesh, Width: 36 * in},
		Roller: ticket.Roller{Name: "donor", Longest: 24 * in},
		Slat:   ticket.Slat{Name: "flat", Width: in, Thickness: in * 3 / 32},
		Allow:  ticket.Allow{Wrap: 9 * in, Hem: in * 5 / 8, Pocket: in * 11 / 8, StitchInset: in / 8, TubeOver: in / 8, SlatGap: in / 8},
		Sewing: ticket.Sewing{StitchLength: 5 * measure.Millimetre, Thread: 69},
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
	// By hand: length 37 + 9 + 5/8 + 1-3/8 = 48; diagonal √(26.375² + 48²) = 54.769,
	// 54-3/4 to the nearest 1/16; tube 26-3/8 + 1/8, slat 26-3/8 − 2 × 1/8, tape 3 ×
	// 26-3/8 = 79-1/8; lines 5/8, 2 × 5/8, 5/8 + 1-3/8, 2 + 1-3/8 − 1/8, 2 + 1-3/8.
	for _, want := range []string{
		"Heron Landing: 2 shades\n",
		"bunk   2      26-3/8       48      54-3/4    26-1/2  26-1/8  79-1/8",
		"5/8       1-1/4     2            3-1/4       3-3/8        bunk\n",
		"stop      bunk, roller: the tube has to be 26-1/2 in, and roller donor reaches only 24 in; use another roller, or make the finished width at most 23-7/8 in\n",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("Check did not write %q:\n%s", want, got)
		}
	}
	if s, c := strings.Index(got, "\nstop "), strings.Index(got, "\nunchecked "); s < 0 || c < 0 || s > c {
		t.Errorf("stops do not come before what is unchecked:\n%s", got)
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
