package nest

import "math"

// A frame is a node yet to be looked at, and how large it may become.
type frame struct {
	n      int32
	aw, ah int64
}

// A finder looks for the best place for one item in a tree. It is kept to
// reuse its memory.
type finder struct {
	todo []frame
	work int64  // places and nodes looked at
	rng  uint64 // state of the noise
	skip uint64 // a place is passed over if noise&1023 is less

	bn    *bin
	best  float64
	found bool
	at    place
}

func (f *finder) noise() uint64 {
	// xorshift64* by Vigna: fast, and the same everywhere
	x := f.rng
	x ^= x >> 12
	x ^= x << 25
	x ^= x >> 27
	f.rng = x
	return x * 0x2545F4914F6CDD1D >> 20
}

// slack covers the rounding of areas in floating point.
const slack = 1 + 1e-9

// find looks for the place in t where the item leaves the most useful cloth.
func (f *finder) find(t *tree, it int32) bool {
	im := &t.items[it]
	f.best, f.found = math.Inf(1), false
	for b := range t.bins {
		f.bn = &t.bins[b]
		f.todo = append(f.todo[:0], frame{int32(b), f.bn.w, f.bn.h})
		for len(f.todo) > 0 {
			fr := f.todo[len(f.todo)-1]
			f.todo = f.todo[:len(f.todo)-1]
			f.work++
			v := &t.nodes[fr.n]
			if float64(fr.aw)*float64(fr.ah)*slack < v.area+im.area {
				continue
			}
			switch {
			case v.kind == leaf:
				f.wrapLeaf(t, im, fr, v)
			case v.kind == row:
				f.intoRow(t, im, fr, v)
			case int(fr.n) < len(t.bins):
				f.intoBin(t, im, fr, v)
			default:
				f.intoStack(t, im, fr, v)
			}
		}
	}
	return f.found
}

func (f *finder) wrapLeaf(t *tree, im *item, fr frame, v *node) {
	inStack := t.nodes[v.up].kind == stack
	for s := range im.shapes {
		sh := &im.shapes[s]
		if inStack {
			if sh.h <= fr.ah && v.w+sh.w <= fr.aw {
				f.offer(v.h, v.w, fr.ah, fr.aw, sh.h, sh.w, place{fr.n, int8(s), false})
			}
		} else if sh.w <= fr.aw && v.h+sh.h <= min(fr.ah, f.bn.limit) {
			f.offer(v.w, v.h, fr.aw, fr.ah, sh.w, sh.h, place{fr.n, int8(s), false})
		}
	}
}

func (f *finder) intoRow(t *tree, im *item, fr frame, v *node) {
	spare := fr.aw - v.w
	for s := range im.shapes {
		sh := &im.shapes[s]
		if sh.w <= spare && sh.h <= fr.ah {
			f.offer(v.h, v.w, fr.ah, fr.aw, sh.h, sh.w, place{fr.n, int8(s), false})
		}
	}
	for c := v.down; c != none; c = t.nodes[c].next {
		f.todo = append(f.todo, frame{c, t.nodes[c].w + spare, fr.ah})
	}
}

func (f *finder) intoStack(t *tree, im *item, fr frame, v *node) {
	ah := min(fr.ah, f.bn.limit)
	spare := ah - v.h
	for s := range im.shapes {
		sh := &im.shapes[s]
		if sh.h <= spare && sh.w <= fr.aw {
			f.offer(v.w, v.h, fr.aw, ah, sh.w, sh.h, place{fr.n, int8(s), false})
		}
	}
	for c := v.down; c != none; c = t.nodes[c].next {
		f.todo = append(f.todo, frame{c, fr.aw, t.nodes[c].h + spare})
	}
}

// intoBin looks at the stack of all sections of a bin.
func (f *finder) intoBin(t *tree, im *item, fr frame, v *node) {
	spare := fr.ah - v.h
	several := v.down != none && t.nodes[v.down].next != none
	for s := range im.shapes {
		sh := &im.shapes[s]
		if sh.h <= spare && sh.w <= fr.aw && sh.h <= f.bn.tall {
			f.offer(v.w, v.h, fr.aw, fr.ah, sh.w, sh.h, place{fr.n, int8(s), false})
		}
		if several && v.w+sh.w <= fr.aw && v.h <= f.bn.limit && sh.h <= min(f.bn.tall, fr.ah) {
			f.offer(v.h, v.w, fr.ah, fr.aw, sh.h, sh.w, place{fr.n, int8(s), true})
		}
	}
	for c := v.down; c != none; c = t.nodes[c].next {
		f.todo = append(f.todo, frame{c, fr.aw, min(f.bn.tall, t.nodes[c].h+spare)})
	}
}

// offer weighs stacking an item of pw × ph on an outline of w × h where aw × ah
// may be used. (For a row, the caller swaps the axes.) It asks how much useful
// free cloth is lost; a free rectangle is worth the square of its area, so
// large ones are spared and slivers count for nothing.
func (f *finder) offer(w, h, aw, ah, pw, ph int64, p place) {
	f.work++
	r := f.noise()
	if r&1023 < f.skip {
		return
	}
	ow, oh := max(w, pw), h+ph
	var gap int64 // beside the narrower of the two
	if pw < w {
		gap = ph
	} else {
		gap = h
	}
	loss := worth(w, ah-h) + worth(aw-w, ah) - worth(ow, ah-oh) - worth(aw-ow, ah) - worth(w+pw-2*min(w, pw), gap)
	if loss < f.best {
		f.best, f.found, f.at = loss, true, p
	}
}

// worth is what a free rectangle is worth.
func worth(w, h int64) float64 {
	a := float64(w) * float64(h)
	return float64(a * a)
}
