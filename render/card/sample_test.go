package card

import (
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"shadewright/render/sheet"
	"shadewright/ticket"
	"shadewright/ticket/finding"
	"shadewright/ticket/goods"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
	"shadewright/ticket/route"
)

const in = measure.Inch

// usual returns a shade of an invented bunkhouse, finished 27-1/2 × 40 in with
// the usual allowances: common practice, no source.
func usual() ticket.Shade {
	steel, _ := hang.MaterialNamed("steel")
	return ticket.Shade{
		ID: "bunk-left", Place: "lower bunk, lake side", Quantity: 2,
		Finished: measure.Size{Width: 27*in + in/2, Length: 40 * in}, AsBefore: true,
		Goods:  ticket.Goods{Name: "reed-mesh", Kind: goods.CoatedMesh, Width: 54 * in, Selvage: [2]measure.Length{in / 2, in / 2}, Thickness: 600 * measure.Micrometre},
		Roller: ticket.Roller{Name: "donor", Tube: in * 9 / 8, Shortest: 20 * in, Longest: 36 * in, Material: steel, Wall: 600 * measure.Micrometre, ByTrial: true},
		Slat:   ticket.Slat{Name: "flat", Width: in, Thickness: in * 3 / 32},
		Allow:  ticket.Allow{Wrap: 7 * in, Hem: in / 2, Pocket: in * 5 / 4, StitchInset: in / 8, TubeOver: in / 8, SlatGap: in / 8},
		Sewing: ticket.Sewing{StitchLength: 6 * mm, Thread: 92, BackTack: in / 2, Waste: 15},
	}
}

func jobOf(style measure.Style, shades ...ticket.Shade) *ticket.Job {
	return &ticket.Job{
		Name: "Heron Landing bunkhouse", ID: uuid.MustParse("5f0c8f0e-2b0f-4a55-9f0b-6f1f7a2d9c31"),
		Client: "Invented for the sample", Due: time.Date(2027, 3, 1, 0, 0, 0, 0, time.UTC),
		Style: style, Shades: shades,
	}
}

func inches() measure.Style      { return measure.Usual(measure.Inches) }
func millimetres() measure.Style { return measure.Usual(measure.Millimetres) }

func made(t testing.TB, job *ticket.Job) []*ticket.Ticket {
	t.Helper()
	all, err := ticket.Make(job, ticket.Options{
		Limits: ticket.Limits{Snug: in / 16, TrimMargin: in / 2},
		Route:  route.Usual(),
	})
	if err != nil {
		t.Fatal(err)
	}
	ticket.Seal(all, nil)
	return all
}

// with returns the usual shade after a change.
func with(id string, change func(*ticket.Shade)) ticket.Shade {
	s := usual()
	s.ID, s.Quantity = id, 1
	change(&s)
	return s
}

// measured gives a shade an opening, and everything that decides how it hangs.
func measured(s *ticket.Shade) {
	depth := 4 * in
	s.Finished, s.AsBefore = measure.Size{}, false
	s.Roller.Pins, s.Roller.ByTrial = &hang.Pins{Flat: in / 4, Round: in / 4}, false
	s.Opening = &ticket.Opening{
		Opening: hang.Opening{
			Mount:     hang.Inside,
			Widths:    []measure.Length{34*in + in*7/16, 34*in + in*3/8, 34*in + in*7/16},
			Heights:   []measure.Length{40 * in, 40 * in, 40*in + in/16},
			Diagonals: [2]measure.Length{52*in + in*13/16, 52*in + in*7/8},
			Depth:     &depth,
		},
		Obstructions: []hang.Obstruction{{Name: "crank of the casement", Proud: in}},
	}
	s.Goods.Mass = 440 * measure.GramPerSquareMetre
	s.Roller.Material, _ = hang.MaterialNamed("steel")
	s.Roller.Wall, s.Roller.Spring = 600*measure.Micrometre, 9*measure.NewtonMillimetre
	s.Roller.Longest = 48 * in
	s.Slat.Mass = 400 * measure.GramPerMetre
}

// hard returns shades that are difficult to lay out.
func hard() []ticket.Shade {
	return []ticket.Shade{
		usual(),
		with("reverse-rod", func(s *ticket.Shade) {
			s.Roll, s.Slat = ticket.Reverse, ticket.Slat{Name: "rod", Diameter: in * 5 / 16}
			s.Place, s.Note = "wheelhouse, port side", "client wants the old valance kept"
			s.Goods.Kind, s.Goods.Name, s.Allow.SideHem = goods.CottonDuck, "sand duck", in/2
		}),
		with("stopped", func(s *ticket.Shade) {
			s.Slat.Width, s.Finished.Width = in*5/4, 48*in
			s.Allow.Hem, s.Sewing.Needle = 2*in, 14
		}),
		with(strings.Repeat("long-name.", 20), func(s *ticket.Shade) {
			s.Place = strings.TrimSpace(strings.Repeat("upper bunk by the lake window ", 7))[:200]
			s.Note = strings.TrimSpace(strings.Repeat("Mind the crank handle, it stands proud of the frame. ", 10))[:500]
			s.Finished = measure.Size{Width: 107*in + in*15/16, Length: 148*in + in*13/16}
			s.Roller.Longest, s.Goods.Width = 120*in, 126*in
		}),
		with("odd", func(s *ticket.Shade) {
			s.Finished = measure.Size{Width: 701*mm + 333*measure.Micrometre, Length: 3 * in}
			s.Place = "кают-компания, Αίγινα, Łódź"
		}),
		with("recess", func(s *ticket.Shade) { measured(s) }),
		with("trial", func(s *ticket.Shade) {
			measured(s)
			s.Roll, s.Roller.Spring = ticket.Reverse, 0
			s.Opening.Mount, s.Opening.Axle = hang.Outside, 2*in
			s.Opening.Overlap = hang.Overlap{Left: in * 3 / 2, Right: in * 3 / 2, Above: 2 * in, Below: 2 * in}
			s.Note = "Read a hanging scale before winding the spring."
		}),
		with("wide-low", func(s *ticket.Shade) {
			s.Finished = measure.Size{Width: 96 * in, Length: 10 * in}
			s.Roller.Longest, s.Goods.Lay = 120*in, ticket.AnyWay
			s.Goods.Kind = goods.AcrylicCanvas
		}),
	}
}

// crowded fills up the findings of tickets to n.
func crowded(all []*ticket.Ticket, n int) {
	for _, k := range all {
		for i := len(k.Findings); i < n; i++ {
			k.Findings = append(k.Findings, finding.Finding{
				Level: finding.Level(i % 2), Field: "roller", Source: "made up",
				Text:   message.Of("the recess is %d mm deep and the rolled-up shade with its brackets needs 71 mm there", 50+i),
				Remedy: message.Of("use a thinner tube, or mount the shade outside the opening")})
		}
		finding.Sort(k.Findings)
	}
}

func paper(t testing.TB, name string) sheet.Paper {
	t.Helper()
	p, err := sheet.Named(name)
	if err != nil {
		t.Fatal(err)
	}
	return p
}
