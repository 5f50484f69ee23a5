package nest

import (
	"sync/atomic"
	"testing"

	"shadewright/ticket/measure"
)

// searching returns a worker in the middle of a search for 60 pieces.
func searching(t testing.TB) *worker {
	o := Order{Roll: Roll{Width: 1370 * measure.Millimetre}}
	for i := range measure.Length(60) {
		o.Pieces = append(o.Pieces, Piece{Quantity: 1, Turn: i%2 == 0,
			Width: (200 + i*i*173%900) * measure.Millimetre, Length: (300 + i*i*311%1700) * measure.Millimetre})
	}
	if err := o.check(); err != nil {
		t.Fatal(err)
	}
	w := newWorker(o.problem(choice{}), 1)
	w.stop = new(atomic.Bool)
	w.first()
	w.run(1_000_000, 0, 1)
	return w
}

// A step of the search allocates no memory.
func TestStepAllocatesNothing(t *testing.T) {
	w := searching(t)
	if n := testing.AllocsPerRun(1000, func() { w.step(w.mean * hot) }); n != 0 {
		t.Errorf("a step allocates %v times", n)
	}
}

// Whatever the search does, its layout stays sound: outlines add up, every item is
// laid or in the pool, and none is lost.
func TestStepKeepsTheLayout(t *testing.T) {
	w := searching(t)
	for range 2000 {
		w.step(w.mean * hot)
		n := len(w.pool)
		laid := int32(0)
		var walk func(int32) (int64, int64, int32)
		walk = func(n int32) (width, height int64, leaves int32) {
			v := w.t.nodes[n]
			if v.kind == leaf {
				sh := w.t.items[v.item].shapes[v.shape]
				if w.t.where[v.item] != n {
					t.Fatalf("item %d is not at the node that the tree names", v.item)
				}
				return sh.w, sh.h, 1
			}
			for c := v.down; c != none; c = w.t.nodes[c].next {
				cw, ch, l := walk(c)
				if w.t.nodes[c].up != n || w.t.nodes[c].kind == v.kind {
					t.Fatalf("node %d of kind %d hangs below %d of kind %d", c, w.t.nodes[c].kind, n, v.kind)
				}
				leaves += l
				if v.kind == row {
					width, height = width+cw, max(height, ch)
				} else {
					width, height = max(width, cw), height+ch
				}
			}
			if width != v.w || height != v.h || leaves != v.leaves {
				t.Fatalf("node %d is %d × %d with %d items; its children need %d × %d and have %d", n, v.w, v.h, v.leaves, width, height, leaves)
			}
			return width, height, leaves
		}
		width, height, leaves := walk(0)
		laid += leaves
		if width > w.t.bins[0].w || height > w.t.bins[0].h || int(laid)+n != len(w.t.items) {
			t.Fatalf("%d × %d in %d × %d, %d laid and %d in the pool", width, height, w.t.bins[0].w, w.t.bins[0].h, laid, n)
		}
	}
}

func BenchmarkStep(b *testing.B) {
	w := searching(b)
	b.ReportAllocs()
	for b.Loop() {
		w.step(w.mean * hot)
	}
}
