package nest_test

import (
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

// An instance is a published strip-packing problem and what is known of it.
type instance struct {
	set, name string
	pieces    int
	width     measure.Length
	sizes     []measure.Size
	optimum   [2]string // of guillotine layouts, fixed and with turns; as in the index
}

// packingFolder returns the folder of published instances, which is not part of
// the project, or "".
func packingFolder() string {
	dir := os.Getenv("SHADEWRIGHT_PACKING")
	if _, err := os.Stat(filepath.Join(dir, "index.csv")); dir == "" || err != nil {
		return ""
	}
	return dir
}

// published reads all instances. It skips the test where there are none.
func published(t testing.TB) []instance {
	t.Helper()
	dir := packingFolder()
	if dir == "" {
		t.Skip("no published instances: name their folder in SHADEWRIGHT_PACKING")
	}
	f, err := os.Open(filepath.Join(dir, "index.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close() // only read
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var all []instance
	for _, r := range rows[1:] {
		in := instance{set: r[0], name: r[1], optimum: [2]string{r[6], r[7]}}
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

// read takes a unit of the file for a millimetre. Sizes of mwv_nice are rounded
// to a tenth, as the set's description says.
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

// area returns the least length that has the pieces' area.
func (in *instance) area() measure.Length {
	sum := new(big.Int)
	for _, s := range in.sizes {
		sum.Add(sum, new(big.Int).Mul(big.NewInt(int64(s.Width)), big.NewInt(int64(s.Length))))
	}
	w := big.NewInt(int64(in.width))
	sum.Add(sum, new(big.Int).Sub(w, big.NewInt(1)))
	return measure.Length(sum.Div(sum, w).Int64())
}

// Small instances are solved to the guillotine optimum of the index, which was
// proven elsewhere.
func TestPublishedSmall(t *testing.T) {
	for _, in := range published(t) {
		if in.pieces > 14 {
			continue
		}
		for way, turn := range []bool{false, true} {
			t.Run(fmt.Sprintf("%s/turn=%t", in.name, turn), func(t *testing.T) {
				want, err := strconv.Atoi(in.optimum[way])
				if err != nil {
					t.Fatalf("the index has no optimum: %v", err)
				}
				o := in.order(turn)
				p, err := nest.Make(t.Context(), o, nest.Seconds(1))
				if err != nil {
					t.Fatal(err)
				}
				mustHold(t, o, p)
				if p.Used != measure.Length(want)*mm || !p.Proven {
					t.Errorf("used %v, proven %t; want %d mm, proven", p.Used, p.Proven, want)
				}
			})
		}
	}
}
