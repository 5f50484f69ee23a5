package terminal

import (
	"strings"
	"testing"

	"shadewright/ticket"
	"shadewright/ticket/finding"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
	"shadewright/ticket/route"
	"shadewright/ticket/square"
)

// hung returns the sample and a shade measured by its opening.
func hung(t *testing.T, style measure.Style) (*ticket.Job, []*ticket.Ticket) {
	t.Helper()
	const in = measure.Inch
	job, _ := sample(t)
	job.Style = style
	s := job.Shades[0]
	depth := 4 * in
	s.ID, s.Quantity, s.Finished = "recess", 1, measure.Size{}
	s.Goods.Thickness, s.Goods.Mass = 600*measure.Micrometre, 440*measure.GramPerSquareMetre
	s.Roller = ticket.Roller{Name: "long", Tube: in * 9 / 8, Longest: 60 * in, Spring: 9 * measure.NewtonMillimetre}
	s.Slat.Width, s.Slat.Mass = in/2, 400*measure.GramPerMetre
	s.Opening = &ticket.Opening{Opening: hang.Opening{
		Mount: hang.Inside, Depth: &depth,
		Widths:  []measure.Length{34*in + in*7/16, 34*in + in*3/8, 34*in + in*7/16},
		Heights: []measure.Length{40 * in, 40 * in, 40 * in},
	}}
	job.Shades = append(job.Shades, s)
	all, err := ticket.Make(job, ticket.Options{Route: route.Usual()})
	if err != nil {
		t.Fatal(err)
	}
	return job, all
}

// Check leaves out a column without values, and a shade without any fact.
func TestHanging(t *testing.T) {
	job, all := hung(t, measure.Usual(measure.Inches))
	var b strings.Builder
	if err := Check(&b, job, all); err != nil {
		t.Fatal(err)
	}
	got := b.String()
	for _, want := range []string{
		// 34-3/8 less 1-1/8 in for the cloth and 1/8 in at the tips: measuring guides.
		"\nOpenings, in inches:\nshade   mount   opening      finished     tip to tip\nrecess  inside  34-3/8 × 40  33-1/4 × 40  34-1/4\n",
		"\nHanging, in inches:\nshade   roll ",
		" glass by 1/8 ", // the program proposes the axle distance that leaves the smallest allowed gap to the glass
		// 0.84455 m × 1.0668 m × 440 g/m² and 0.8382 m × 400 g/m, by hand: 731.7 g.
		" 732 g ",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("Check did not write %q:\n%s", want, got)
		}
	}
	_, table, _ := strings.Cut(got, "\nHanging")
	table, _, _ = strings.Cut(table, "\n\n")
	if strings.Contains(table, "sag") || strings.Contains(table, "bunk") {
		t.Errorf("the table lists a fact that no shade has:\n%s", table)
	}
}

func TestSquareComma(t *testing.T) {
	style := measure.Usual(measure.Millimetres)
	style.Comma = true
	// Width 914.4, length 1219.2, 6.35 mm apart: 5.2917 mm over the length: by hand,
	// 6.35·√(4·1524² − 6.35²) / (4·914.4·1219.2) × 1219.2.
	q := square.Quad{
		Size:      measure.Size{Width: 36 * measure.Inch, Length: 48 * measure.Inch},
		Diagonals: [2]measure.Length{1_527_175 * measure.Micrometre, 1_520_825 * measure.Micrometre},
	}
	r, found, err := q.Judge(3*measure.Millimetre, style)
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	if err := Square(&b, q, r, found, style); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"they differ by 6,35 mm: not square\n", "the top leans to the left by 5,29 mm over the length\n", "\ncaution  "} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("Square did not write %q:\n%s", want, b.String())
		}
	}
	if Square(full{}, q, r, []finding.Finding(nil), style) == nil {
		t.Error("Square does not report a failed write")
	}
}

func TestSpringListing(t *testing.T) {
	_, all := hung(t, measure.Usual(measure.Inches))
	k := all[len(all)-1]
	var b strings.Builder
	if err := Spring(&b, k); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"recess: 732 g hangs from the tube with the shade down\n", "spring: 9.00 N·mm per turn\n", "cloth down  needs N·mm  has N·mm\n0 in "} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("Spring did not write %q:\n%s", want, b.String())
		}
	}
	if Spring(full{}, k) == nil {
		t.Error("Spring does not report a failed write")
	}
}
