package nest_test

import (
	"cmp"
	"encoding/csv"
	"fmt"
	"math/big"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"shadewright/ticket/measure"
	"shadewright/ticket/nest"
)

// An instance is a published strip-packing problem and its known results.
type instance struct {
	set, name string
	pieces    int
	width     measure.Length
	sizes     []measure.Size
	best      string    // without turns and without straight cuts only
	optimum   [2]string // of guillotine layouts: without turns, with turns; as the index file has them
}

// packingFolder returns the folder of instances: those of the repository, or the
// larger set that SHADEWRIGHT_PACKING names.
func packingFolder() string {
	return cmp.Or(os.Getenv("SHADEWRIGHT_PACKING"), filepath.Join("..", "..", "testdata", "packing"))
}

// published reads all instances.
func published(t testing.TB) []instance {
	t.Helper()
	dir := packingFolder()
	f, err := os.Open(filepath.Join(dir, "index.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close() // only read, so nothing is lost
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var all []instance
	for _, r := range rows[1:] {
		in := instance{set: r[0], name: r[1], best: r[4], optimum: [2]string{r[6], r[7]}}
		if in.pieces, err = strconv.Atoi(r[2]); err != nil {
			t.Fatal(err)
		}
		if err := in.read(filepath.Join(dir, in.set, in.name+".txt")); err != nil {
			t.Fatal(err)
		}
		all = append(all, in)
	}
	return all
}

// read takes one unit of the file as a millimetre. Sizes of mwv_nice are rounded to
// a tenth, as the set's description says.
func (in *instance) read(path string) error {
	text, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	lines := strings.Split(strings.TrimSpace(string(text)), "\n")
	if in.width, err = in.length(strings.Split(lines[0], ",")[0]); err != nil {
		return err
	}
	for _, l := range lines[1:] {
		w, h, _ := strings.Cut(strings.TrimSpace(l), " ")
		var s measure.Size
		if s.Width, err = in.length(w); err != nil {
			return err
		}
		if s.Length, err = in.length(h); err != nil {
			return err
		}
		in.sizes = append(in.sizes, s)
	}
	if len(in.sizes) != in.pieces {
		return fmt.Errorf("%s: %d pieces; want %d", path, len(in.sizes), in.pieces)
	}
	return nil
}

func (in *instance) length(text string) (measure.Length, error) {
	v, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
	if err != nil {
		return 0, err
	}
	l := measure.FromMillimetres(v)
	if in.set == "mwv_nice" {
		l = l.Round(mm/10, measure.Nearest)
	}
	return l, nil
}

func (in *instance) order(turn bool) nest.Order {
	o := nest.Order{Roll: nest.Roll{Width: in.width}}
	for i, s := range in.sizes {
		o.Pieces = append(o.Pieces, nest.Piece{Label: fmt.Sprint(i + 1), Width: s.Width, Length: s.Length, Quantity: 1, Turn: turn})
	}
	return o
}

// area returns the least length that can hold the pieces' area.
func (in *instance) area() measure.Length {
	sum := new(big.Int)
	for _, s := range in.sizes {
		sum.Add(sum, new(big.Int).Mul(big.NewInt(int64(s.Width)), big.NewInt(int64(s.Length))))
	}
	w := big.NewInt(int64(in.width))
	sum.Add(sum, new(big.Int).Sub(w, big.NewInt(1)))
	return measure.Length(sum.Div(sum, w).Int64())
}

// proven returns the guillotine optimum, if it is known.
func (in *instance) proven(turn bool) (measure.Length, bool) {
	way := 0
	if turn {
		way = 1
	}
	v, err := strconv.Atoi(in.optimum[way])
	return measure.Length(v) * mm, err == nil
}

// Instances of up to exactPieces pieces reach the proven optimum; those of up to
// provenPieces also prove it. Work counts steps, so no clock decides. A proven
// optimum gets up to 64 million steps, little more than one second of a real plan's
// work; a larger instance gets two million, a twenty-fifth of that.
const (
	provenPieces = 14
	exactPieces  = 30
	optimumWork  = 64_000_000
	largerWork   = 2_000_000
)

// gaps limits by how many percent a plan of a larger instance may exceed the
// optimum, or the area of its pieces where no optimum is known.
var gaps = map[string]float64{"hopper_c": 7, "kroger": 8, "mwv_nice": 9, "jakobs": 5, "ngcut": 5, "own_mm": 16}

func TestPublished(t *testing.T) {
	all := published(t)
	if len(all) < 50 {
		t.Errorf("%d instances; some are missing", len(all))
	}
	for _, in := range all {
		for _, turn := range []bool{false, true} {
			t.Run(fmt.Sprintf("%s/turn=%t", in.name, turn), func(t *testing.T) {
				o := in.order(turn)
				want, known := in.proven(turn)
				if underRace {
					holdBriefly(t, o, want, known)
					return
				}
				if known && in.pieces <= exactPieces {
					holdOptimum(t, o, want, in.pieces <= provenPieces)
					return
				}
				p, err := nest.Make(t.Context(), o, nest.Effort{Work: largerWork})
				if err != nil {
					t.Fatal(err)
				}
				mustHold(t, o, p)
				if known && (p.Bound > want || p.Used < want) {
					t.Errorf("used %v, bound %v; the proven optimum is %v", p.Used, p.Bound, want)
				}
				if !known {
					want = in.area()
				}
				if gap := 100 * (float64(p.Used)/float64(want) - 1); gap > gaps[in.set] {
					t.Errorf("used %v, %.1f %% more than %v; want at most %g %%", p.Used, gap, want, gaps[in.set])
				}
			})
		}
	}
}

// holdOptimum fails the test unless the plan is exactly as long as the optimum that
// others proved. Most instances need a sixtieth of the work.
func holdOptimum(t *testing.T, o nest.Order, want measure.Length, proven bool) {
	t.Helper()
	for work := int64(1_000_000); ; work *= 4 {
		p, err := nest.Make(t.Context(), o, nest.Effort{Work: work})
		if err != nil {
			t.Fatal(err)
		}
		mustHold(t, o, p)
		if p.Used < want || p.Bound > want {
			t.Fatalf("used %v, bound %v; the proven optimum is %v", p.Used, p.Bound, want)
		}
		if p.Used == want && (p.Proven || !proven) {
			return
		}
		if work >= optimumWork {
			t.Fatalf("used %v, proven %t, after %d steps; want %v", p.Used, p.Proven, work, want)
		}
	}
}

// holdBriefly checks what the race detector leaves time for: a plan that holds,
// after a search too short to find an optimum.
func holdBriefly(t *testing.T, o nest.Order, want measure.Length, known bool) {
	t.Helper()
	p, err := nest.Make(t.Context(), o, nest.Effort{Work: 50_000})
	if err != nil {
		t.Fatal(err)
	}
	mustHold(t, o, p)
	if known && (p.Bound > want || p.Used < want) {
		t.Errorf("used %v, bound %v; the proven optimum is %v", p.Used, p.Bound, want)
	}
}

// The instances are what the papers describe: where a paper cut up a rectangle, the
// pieces have the area of that rectangle.
func TestPublishedAreas(t *testing.T) {
	for _, in := range published(t) {
		switch in.set {
		case "hopper_c", "jakobs":
			if best, err := strconv.Atoi(in.best); err != nil || in.area() != measure.Length(best)*mm {
				t.Errorf("%s: the pieces fill %v; the paper's rectangle is %s mm long", in.name, in.area(), in.best)
			}
		case "mwv_nice":
			// 25 pieces, each side rounded by up to 0.05 of up to 100.
			if d := in.area() - 100*mm; d.Abs() > 2*mm/10 {
				t.Errorf("%s: the pieces fill %v; the paper's square is 100 mm long", in.name, in.area())
			}
		}
	}
}

// Each set in the repository names its paper.
func TestPublishedPapers(t *testing.T) {
	readme, err := os.ReadFile(filepath.Join("..", "..", "testdata", "packing", "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	for _, in := range published(t) {
		if !strings.Contains(string(readme), "| `"+in.set+"` | ") {
			t.Fatalf("the README names no paper for the set %s", in.set)
		}
	}
}
