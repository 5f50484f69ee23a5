package nest

// windowItems is about how many items a window has: few enough to search well,
// enough to exchange.
const windowItems = 30

// window searches some sections of the best layout as if they were a separate
// order. In a long layout this is much quicker than searching all of it.
func (w *worker) window(work int64) {
	sections, items := w.pick()
	if len(sections) < 2 || len(items) == len(w.p.items) {
		return
	}
	p := &problem{bins: w.p.bins[:1:1], unit: w.p.unit}
	for _, it := range items {
		p.items = append(p.items, w.p.items[it])
	}
	p.low = lowest(p)
	sub := newWorker(p, w.rng.Uint64())
	sub.stop = w.stop
	for _, n := range sections {
		graft(sub.t, 0, w.best, n, func(it int32) int32 { return w.place[it] })
	}
	sub.t.settle(0)
	sub.adopt(sub.t)
	before := sub.bestH
	sub.run(work, 0, 1)
	w.f.work += sub.f.work
	if sub.bestH >= before {
		return
	}
	for _, n := range sections {
		w.pool, _ = w.best.remove(n, w.pool)
	}
	for n := sub.best.nodes[0].down; n != none; n = sub.best.nodes[n].next {
		graft(w.best, 0, sub.best, n, func(it int32) int32 { return items[it] })
	}
	w.best.settle(0)
	w.adopt(w.best)
}

// pick chooses sections of the roll at random and lists their items. It stores the
// index of each item in w.place.
func (w *worker) pick() (sections, items []int32) {
	t := w.best
	for n := t.nodes[0].down; n != none; n = t.nodes[n].next {
		sections = append(sections, n)
	}
	w.rng.Shuffle(len(sections), func(i, j int) { sections[i], sections[j] = sections[j], sections[i] })
	for i, n := range sections {
		items = t.listed(n, items)
		if len(items) >= windowItems {
			sections = sections[:i+1]
			break
		}
	}
	if w.place == nil {
		w.place = make([]int32, len(w.p.items))
	}
	for i, it := range items {
		w.place[it] = int32(i)
	}
	return sections, items
}

// listed appends the items below n to list.
func (t *tree) listed(n int32, list []int32) []int32 {
	v := &t.nodes[n]
	if v.kind == leaf {
		return append(list, v.item)
	}
	for c := v.down; c != none; c = t.nodes[c].next {
		list = t.listed(c, list)
	}
	return list
}

// graft copies the subtree n of src below the node p of dst, and numbers its items
// as item says. The caller must settle p.
func graft(dst *tree, p int32, src *tree, n int32, item func(int32) int32) {
	v := src.nodes[n]
	if v.kind == leaf {
		dst.link(p, dst.newLeaf(item(v.item), v.shape))
		return
	}
	g := dst.newSplit(v.kind)
	for c := v.down; c != none; c = src.nodes[c].next {
		graft(dst, g, src, c, item)
	}
	dst.measure(g)
	dst.link(p, g)
}
