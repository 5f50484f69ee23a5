package card

import (
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"shadewright/render/internal/readback"
	"shadewright/ticket"
	"shadewright/ticket/measure"
)

// aNumber is a number as the page prints it: 27-1/2, 3, 1/8, 1238.5, ≈ 44.5.
const aNumber = `(?:≈ )?(\d+(?:\.\d+|-\d+/\d+|/\d+)?)`

// onPage is what a bench reads on a ticket, by name.
var onPage = map[string]string{
	"width":         aNumber + ` × [^ ]+ (?:in|mm) width × length`,
	"length":        `× ` + aNumber + ` (?:in|mm) width × length`,
	"diagonal":      `Square A B ` + aNumber + ` (?:in|mm) `,
	"wrap":          `wrap ` + aNumber + ` (?:in|mm), hem`,
	"hem":           `, hem ` + aNumber + ` (?:in|mm), pocket`,
	"hem mark":      aNumber + ` (?:in|mm) (?:≈ [0-9.]+ mm |[0-9/-]+ in )?hem mark`,
	"pocket mark":   aNumber + ` (?:in|mm) (?:≈ [0-9.]+ mm |[0-9/-]+ in )?pocket mark`,
	"stitch row":    aNumber + ` (?:in|mm) (?:≈ [0-9.]+ mm |[0-9/-]+ in )?stitch row`,
	"row below":     `row below fold ` + aNumber + ` (?:in|mm)`,
	"slat":          `Trim slat ` + aNumber + ` (?:in|mm)`,
	"slat gap":      aNumber + ` (?:in|mm) back from each side`,
	"tube":          `(?:Set|Saw) tube ` + aNumber + ` (?:in|mm)`,
	"free":          aNumber + ` (?:in|mm) free at each end`,
	"donor":         `cut from a tube of ` + aNumber + ` (?:in|mm)`,
	"sawn off":      `2 Saw ` + aNumber + ` (?:in|mm) off that end`,
	"tip to tip":    `tip to tip ` + aNumber + ` (?:in|mm)`,
	"flat pin":      `flat pin ` + aNumber + ` (?:in|mm)`,
	"round pin":     `round pin ` + aNumber + ` (?:in|mm)`,
	"apart":         `Brackets on the jambs, ` + aNumber + ` (?:in|mm) apart`,
	"tube diameter": `donor, Ø ` + aNumber + ` (?:in|mm)`,
	"rolled":        `Rolled up Ø ` + aNumber + ` (?:in|mm)`,
	"pull":          `times?: pull ` + aNumber + ` (?:in|mm) down`,
	"pulls":         `from slack, (\d+) times: pull`,
	"turns":         `Spring ([0-9.]+) turns`,
	"rate":          `turns ([0-9.]+) N·mm per turn`,
	"grams":         `(\d+) g hang with the shade down`,
}

// counts are the names of [onPage] that are not lengths.
var counts = map[string]bool{"pulls": true, "turns": true, "rate": true, "grams": true}

// readPage reads what it can find on a ticket. Lengths are in millimetres.
func readPage(t *testing.T, s ticket.Shade, style measure.Style) map[string]float64 {
	t.Helper()
	doc, err := Tickets(made(t, jobOf(style, s))[:1], Options{Paper: paper(t, "letter"), Insist: true})
	text := pageText(readback.Open(t, printed(t, doc, err)).Marks(0).Texts)
	text = regexp.MustCompile(`\s+`).ReplaceAllString(strings.ReplaceAll(text, "\u00a0", " "), " ")
	unit := 1.0
	if style.System == measure.Inches {
		unit = 25.4 // exact: the international inch
	}
	n := map[string]float64{}
	for name, pattern := range onPage {
		m := regexp.MustCompile(pattern).FindStringSubmatch(text)
		if m == nil {
			continue
		}
		for part := range strings.SplitSeq(m[1], "-") {
			top, below, frac := strings.Cut(part, "/")
			v, err := strconv.ParseFloat(top, 64)
			if frac && err == nil {
				var d float64
				d, err = strconv.ParseFloat(below, 64)
				v /= d
			}
			if err != nil {
				t.Fatalf("%s: %q is no number", name, m[1])
			}
			n[name] += v
		}
		if !counts[name] {
			n[name] *= unit
		}
	}
	return n
}

// A bench follows a ticket with the numbers it read and its own geometry and statics.
// Finished is the size that was ordered. Step is the mark of the rule.
type bench struct {
	n              map[string]float64
	finished       measure.Size
	step           float64
	wrong          string  // the first thing that does not work out
	hemmed, fallen float64 // depth of the hem; length of cloth below the tube
}

// off says that something is wrong if two lengths differ by more than a number of marks.
func (b *bench) off(what string, got, want, marks float64) {
	if math.Abs(got-want) > marks*b.step+1e-9 && b.wrong == "" {
		b.wrong = fmt.Sprintf("%s is %.2f mm; want %.2f", what, got, want)
	}
}

func (b *bench) follow() string {
	b.wrong = ""
	b.cutAndSew()
	b.fit()
	if _, measured := b.n["apart"]; measured {
		b.mount()
	}
	if _, known := b.n["turns"]; known {
		b.wind()
	}
	return b.wrong
}

// cutAndSew squares the panel by its diagonals, folds the raw edge to the hem mark and that
// fold to the pocket mark, and sews. The cloth turns half way between an edge and the line
// that the edge is brought to.
func (b *bench) cutAndSew() {
	n := b.n
	b.off("the diagonal", math.Hypot(n["width"], n["length"]), n["diagonal"], 1.5)
	b.off("the cloth's width", n["width"], b.finished.Width.Millimetres(), 1)
	b.hemmed = n["hem mark"] / 2
	b.off("the hem", b.hemmed, n["hem"], 1)
	turn := (b.hemmed + n["pocket mark"]) / 2
	b.fallen = n["length"] - turn - n["wrap"]
	b.off("the cloth below the tube", b.fallen, b.finished.Length.Millimetres(), 1.5)
	b.off("the row below the fold", n["pocket mark"]-n["stitch row"], n["row below"], 1)
}

// fit sets or saws the tube, tapes the cloth on it, and slides in the slat.
func (b *bench) fit() {
	n := b.n
	if donor, fixed := n["donor"]; fixed {
		b.off("the tube after sawing", donor-n["sawn off"], n["tube"], 1)
	}
	b.off("the cloth and what is free beside it", n["width"]+2*n["free"], n["tube"], 1.5)
	b.off("the slat and what it stays back", n["slat"]+2*n["slat gap"], n["width"], 1.5)
}

// mount hangs the roller by its pins between the brackets.
func (b *bench) mount() {
	n := b.n
	long := n["tube"] + n["flat pin"] + n["round pin"]
	b.off("the roller from tip to tip", long, n["tip to tip"], 2)                    // of three rounded lengths
	if play := n["apart"] - long; b.wrong == "" && (play < -b.step || play > 6.35) { // 1/4 in: common practice, no source
		b.wrong = fmt.Sprintf("the roller has %.2f mm of play between its brackets", play)
	}
}

// wind pulls the shade down as often as the page says, and lets it up. A length of cloth ℓ
// on a tube of diameter D0 makes a roll of √(D0² + 4·t·ℓ/π), so the diameter rolled up gives
// the cloth's thickness; a pull unrolls turns, and lifting the roller out keeps them on the
// spring. With the shade down, the spring must hold the weight at the radius there, and not
// twice as much, or it flies.
func (b *bench) wind() {
	n := b.n
	d0, up := n["tube diameter"], n["rolled"]
	cloth := b.fallen + n["wrap"]
	t := (up*up - d0*d0) * math.Pi / 4 / cloth
	diameter := func(on float64) float64 { return math.Sqrt(d0*d0 + 4*t*on/math.Pi) }
	unrolled := func(pulled float64) float64 { return (diameter(cloth) - diameter(cloth-pulled)) / (2 * t) }
	wound := n["pulls"] * unrolled(n["pull"])
	if b.wrong == "" && math.Abs(wound-n["turns"]) > 0.08*n["turns"] { // pulls are whole marks of a rule
		b.wrong = fmt.Sprintf("the pulls wind %.2f turns; the page says %.2f", wound, n["turns"])
	}
	gives := n["rate"] * (n["turns"] + unrolled(b.fallen))
	needs := n["grams"] / 1000 * 9.80665 * diameter(n["wrap"]) / 2 // standard gravity: 3rd CGPM, 1901
	if ratio := gives / needs; b.wrong == "" && (ratio < 1.15 || ratio > 2) {
		b.wrong = fmt.Sprintf("the spring gives %.2f times the torque it needs", ratio)
	}
}

// mustBeRead lists what every ticket has; the rest hangs on the shade.
var mustBeRead = []string{"width", "length", "diagonal", "wrap", "hem", "hem mark", "pocket mark", "stitch row", "row below", "slat", "slat gap", "tube", "free"}

// someShades returns shades to follow: on a set and on a sawn tube, in a recess with a
// spring of known rate, and some at random.
func someShades() map[string]ticket.Shade {
	list := map[string]ticket.Shade{
		"usual":  usual(),
		"recess": with("recess", measured),
		"sawn":   with("sawn", func(s *ticket.Shade) { s.Roller.Shortest, s.Roller.Longest = 0, 48*in }),
	}
	r := rand.New(rand.NewPCG(1, 2))
	for i := range readback.Few([]int{1, 2, 3, 4, 5, 6}, 1) {
		eighths := func(least, most int) measure.Length { return measure.Length(8*least+r.IntN(8*(most-least))) * in / 8 }
		name := fmt.Sprint("random-", i)
		list[name] = with(name, func(s *ticket.Shade) {
			s.Finished = measure.Size{Width: eighths(20, 34), Length: eighths(24, 60)}
			s.Allow.Wrap, s.Allow.Hem, s.Allow.Pocket = eighths(6, 10), in*3/8, in*11/8
			s.Roller.Longest = 48 * in
			if i%2 == 0 {
				s.Roller.Shortest = 0
			}
		})
	}
	return list
}

// A bench that knows only the printed page ends at the finished size, within the marks of
// the rule, in both units. With any number wrong, it does not.
func TestTicketIsFollowed(t *testing.T) {
	for name, s := range someShades() {
		for _, style := range []measure.Style{inches(), millimetres()} {
			t.Run(name+" "+style.System.String(), func(t *testing.T) {
				b := &bench{n: readPage(t, s, style), finished: s.Finished, step: style.Step().Millimetres()}
				if s.Opening != nil { // by hand: the guides take 1-1/8 in or 29 mm off 34-3/8 in, and the heights are 40 and 40-1/16 in
					b.finished = measure.Size{Width: 33*in + in/4, Length: 40 * in}
					if style.System == measure.Millimetres {
						b.finished = measure.Size{Width: 844 * mm, Length: 1017 * mm}
					}
				}
				for _, must := range mustBeRead {
					if _, ok := b.n[must]; !ok {
						t.Fatalf("the page has no %s; it has %v", must, b.n)
					}
				}
				if wrong := b.follow(); wrong != "" {
					t.Fatalf("%s; read %v", wrong, b.n)
				}
				b.mislead(t)
			})
		}
	}
}

// mislead makes each number wrong in turn: a length by 1/4 in, a pull and a count by half.
func (b *bench) mislead(t *testing.T) {
	t.Helper()
	for name, right := range b.n {
		if name == "tube diameter" || name == "rolled" || name == "grams" {
			continue // a quarter inch of roll is within what the spring bears
		}
		b.n[name] = right + 6.35
		if counts[name] || name == "pull" {
			b.n[name] = right * 1.5
		}
		if b.follow() == "" {
			t.Errorf("with a %s of %.2f and not %.2f everything works out; the test sees nothing", name, b.n[name], right)
		}
		b.n[name] = right
	}
}
