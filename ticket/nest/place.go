package nest

import "math"

// A frame is a node still to be searched, and the size it may grow to.
type frame struct {
	n      int32
	aw, ah int64
}

// A finder looks for the best place for one item in a tree. One finder serves a
// whole search, to reuse its memory.
type finder struct {
	todo []frame
	work int64  // places and nodes tried
	rng  uint64 // state of noise
	skip uint64 // a place is skipped if noise&1023 is less

	t     *tree
	im    *item
	bn    *bin
	best  float64
	found bool
	at    place
}

// noise returns the next pseudo-random number by Vigna's xorshift64*: fast, and the
// same on every machine.
func (f *finder) noise() uint64 {
	x := f.rng
	x ^= x >> 12
	x ^= x << 25
	x ^= x >> 27
	f.rng = x
	return x * 0x2545F4914F6CDD1D >> 20
}

// slack covers the rounding of areas in floating point.
const slack = 1 + 1e-9

// find looks for the place in t that leaves the most useful cloth around the item:
// anywhere, or only in the given parts of the layout.
func (f *finder) find(t *tree, it int32, parts []int32) bool {
	f.t, f.im = t, &t.items[it]
	f.best, f.found = math.Inf(1), false
	for _, n := range parts {
		if fr, b, ok := t.room(n); ok {
			f.bn = &t.bins[b]
			f.search(fr)
		}
	}
	if parts == nil {
		for b := range t.bins {
			f.bn = &t.bins[b]
			f.search(frame{int32(b), f.bn.w, f.bn.h})
		}
	}
	return f.found
}

// search tries every place for the item in a node and in all nodes below it.
func (f *finder) search(fr frame) {
	f.todo = f.todo[:0]
	f.push(fr.n, fr.aw, fr.ah)
	for len(f.todo) > 0 {
		fr := f.todo[len(f.todo)-1]
		f.todo = f.todo[:len(f.todo)-1]
		v := &f.t.nodes[fr.n]
		switch {
		case v.kind == leaf:
			f.wrapLeaf(fr, v)
		case v.kind == row:
			f.intoRow(fr, v)
		case int(fr.n) < len(f.t.bins):
			f.intoBin(fr, v)
		default:
			f.intoStack(fr, v)
		}
	}
}

// push puts node n, which may grow to aw × ah, on the list of nodes to search,
// unless it has no room for the item.
func (f *finder) push(n int32, aw, ah int64) {
	f.work++
	im := f.im
	if aw < im.narrow || ah < im.flat || float64(aw)*float64(ah)*slack < f.t.nodes[n].area+im.area {
		return
	}
	f.todo = append(f.todo, frame{n, aw, ah})
}

// wrapLeaf tries a new row or stack of the leaf and the item.
func (f *finder) wrapLeaf(fr frame, v *node) {
	inStack := f.t.nodes[v.up].kind == stack
	for s := range f.im.shapes {
		sh := &f.im.shapes[s]
		if inStack {
			if sh.h <= fr.ah && v.w+sh.w <= fr.aw {
				f.offer(box{v.h, v.w}, box{fr.ah, fr.aw}, box{sh.h, sh.w}, place{fr.n, int8(s), 0, 0})
			}
		} else if sh.w <= fr.aw && v.h+sh.h <= min(fr.ah, f.bn.limit) {
			f.offer(box{v.w, v.h}, box{fr.aw, fr.ah}, box{sh.w, sh.h}, place{fr.n, int8(s), 0, 0})
		}
	}
}

// intoRow tries the item as another child of a row.
func (f *finder) intoRow(fr frame, v *node) {
	spare := fr.aw - v.w
	for s := range f.im.shapes {
		sh := &f.im.shapes[s]
		if sh.w <= spare && sh.h <= fr.ah {
			f.offer(box{v.h, v.w}, box{fr.ah, fr.aw}, box{sh.h, sh.w}, place{fr.n, int8(s), 0, 0})
		}
	}
	for s := range f.im.shapes {
		f.afterSome(fr, v, s, spare)
	}
	for c := v.down; c != none; {
		u := &f.t.nodes[c]
		f.push(c, u.w+spare, fr.ah)
		c = u.next
	}
}

// afterSome tries laying the item after some of a row's children: the first ones
// that are low enough, as many as are as wide as the item, or one less.
func (f *finder) afterSome(fr frame, v *node, s int, spare int64) {
	sh := &f.im.shapes[s]
	ah := min(fr.ah, f.bn.limit)
	p := place{fr.n, int8(s), 0, ah - sh.h}
	if p.room <= 0 || sh.w > fr.aw {
		return
	}
	var w, h int64
	high := false
	for c := v.down; c != none; {
		u := &f.t.nodes[c]
		c = u.next
		if u.h > p.room {
			high = true
			continue
		}
		if p.some >= 2 && w < sh.w && w+u.w >= sh.w && sh.w-w <= spare {
			f.offer(box{w, h}, box{w + spare, ah}, box{sh.w, sh.h}, p)
		}
		before := w
		w, h = w+u.w, max(h, u.h)
		p.some++
		if p.some >= 2 && before < sh.w && w >= sh.w && (high || c != none) {
			f.offer(box{w, h}, box{w + spare, ah}, box{sh.w, sh.h}, p)
		}
	}
	if p.some >= 2 && w < sh.w && sh.w-w <= spare && high {
		f.offer(box{w, h}, box{w + spare, ah}, box{sh.w, sh.h}, p)
	}
}

// A stackRoom is how far a stack may grow.
type stackRoom struct {
	spare, tall int64
	all         bool // the item may lie beside all children
}

// besideSome is afterSome for a stack: it tries the item beside some of the
// children.
func (f *finder) besideSome(fr frame, v *node, s int, room stackRoom) {
	tall := room.tall
	sh := &f.im.shapes[s]
	p := place{fr.n, int8(s), 0, fr.aw - sh.w}
	if p.room <= 0 || sh.h > min(fr.ah, tall) {
		return
	}
	var w, h int64
	spare := min(room.spare, tall)
	broad := room.all
	for c := v.down; c != none; {
		u := &f.t.nodes[c]
		c = u.next
		if u.w > p.room {
			broad = true
			continue
		}
		if h+u.h > f.bn.limit {
			broad = true
			break
		}
		if p.some >= 2 && h < sh.h && h+u.h >= sh.h && sh.h-h <= spare {
			f.offer(box{h, w}, box{min(h+spare, tall), fr.aw}, box{sh.h, sh.w}, p)
		}
		before := h
		w, h = max(w, u.w), h+u.h
		p.some++
		if p.some >= 2 && before < sh.h && h >= sh.h && (broad || c != none) {
			f.offer(box{h, w}, box{min(h+spare, tall), fr.aw}, box{sh.h, sh.w}, p)
		}
	}
	if p.some >= 2 && h < sh.h && sh.h-h <= spare && broad {
		f.offer(box{h, w}, box{min(h+spare, tall), fr.aw}, box{sh.h, sh.w}, p)
	}
}

// intoStack tries the item as another child of a stack.
func (f *finder) intoStack(fr frame, v *node) {
	ah := min(fr.ah, f.bn.limit)
	spare := ah - v.h
	for s := range f.im.shapes {
		sh := &f.im.shapes[s]
		if sh.h <= spare && sh.w <= fr.aw {
			f.offer(box{v.w, v.h}, box{fr.aw, ah}, box{sh.w, sh.h}, place{fr.n, int8(s), 0, 0})
		}
	}
	for s := range f.im.shapes {
		f.besideSome(fr, v, s, stackRoom{spare, ah, false})
	}
	for c := v.down; c != none; {
		u := &f.t.nodes[c]
		f.push(c, fr.aw, u.h+spare)
		c = u.next
	}
}

// intoBin tries the item in the stack of all sections of a bin.
func (f *finder) intoBin(fr frame, v *node) {
	spare := fr.ah - v.h
	for s := range f.im.shapes {
		sh := &f.im.shapes[s]
		if sh.h <= spare && sh.w <= fr.aw && sh.h <= f.bn.tall {
			f.offer(box{v.w, v.h}, box{fr.aw, fr.ah}, box{sh.w, sh.h}, place{fr.n, int8(s), 0, 0})
		}
		f.besideSome(fr, v, s, stackRoom{spare, f.bn.tall, true})
	}
	for c := v.down; c != none; c = f.t.nodes[c].next {
		f.push(c, fr.aw, min(f.bn.tall, f.t.nodes[c].h+spare))
	}
}

// A box is a width and a height.
type box struct{ w, h int64 }

// offer rates laying an item on top of an outline within the given room. (For a
// row, the caller swaps the axes.) The rate is the useful free cloth that is lost.
// A free rectangle is worth the square of its area, so large ones are spared and
// slivers count for almost nothing.
func (f *finder) offer(outline, room, item box, p place) {
	f.work++
	r := f.noise()
	if r&1023 < f.skip {
		return
	}
	w, h, aw, ah, pw, ph := outline.w, outline.h, room.w, room.h, item.w, item.h
	ow, oh := max(w, pw), h+ph
	var gap int64 // beside the narrower of item and outline
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

// worth returns the value of a free rectangle.
func worth(w, h int64) float64 {
	a := float64(w) * float64(h)
	return float64(a * a)
}
