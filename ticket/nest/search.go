package nest

import (
	"context"
	"math"
	"sync"
	"sync/atomic"

	"shadewright/ticket/measure"
)

// A lane is the search for one choice of what is turned: two workers that share
// nothing while they run, so that the outcome does not depend on the machine.
type lane struct {
	p       *problem
	workers [2]*worker
}

func newLane(p *problem, seed uint64, stop *atomic.Bool) *lane {
	l := &lane{p: p}
	for i := range l.workers {
		w := newWorker(p, 2*seed+uint64(i))
		w.stop = stop
		if l.workers[i] = w; i == 0 {
			w.first()
		} else {
			w.adopt(l.workers[0].best)
		}
	}
	return l
}

// best returns the worker with the shorter layout, the first if they are alike.
func (l *lane) best() *worker {
	if l.workers[1].bestH < l.workers[0].bestH {
		return l.workers[1]
	}
	return l.workers[0]
}

// run lets both workers do the given work at once, from and to which share of
// the whole.
func (l *lane) run(work int64, from, to float64) {
	var wg sync.WaitGroup
	for _, w := range l.workers {
		wg.Go(func() { w.turn(work, from, to) })
	}
	wg.Wait()
}

// lend gives the best layout to the worker that has a longer one.
func (l *lane) lend() {
	b := l.best()
	for _, w := range l.workers {
		if w.bestH > b.bestH {
			w.adopt(b.best)
		}
	}
}

// turn spends the work on the whole layout and, if that is long, on windows of
// it.
func (w *worker) turn(work int64, from, to float64) {
	if len(w.p.items) < windowFrom {
		w.run(work, from, to)
		return
	}
	share := work / 2
	if len(w.p.items) >= windowMost {
		share = work * 4 / 5
	}
	start := w.f.work
	for w.f.work-start < share && !w.stop.Load() && w.bestH > w.p.low {
		before := w.f.work
		w.window(windowWork)
		if w.f.work == before {
			break // there is but one section
		}
	}
	w.run(work-(w.f.work-start), from, to)
}

// A hunt is one search for a plan.
type hunt struct {
	lanes  []*lane
	all    bool  // every choice has its lane
	floor  int64 // a bound for the choices that have none
	best   *worker
	e      Effort
	done   int64 // work
	rounds int
	stop   atomic.Bool
}

// How the work is divided.
const (
	leastRounds = 20 // after each the workers are compared
	perRound    = workPerSecond / 2
	lendEvery   = 4       // rounds
	fewItems    = 14      // up to so many, exact search comes first
	warmUp      = 500_000 // work before an exact search of few items
	exactAfter  = 2       // an exact search of many comes after this part of the work
	exactPart   = 5       // and may take this part of it
	windowFrom  = 35      // so many items are searched in windows too
	windowMost  = 300     // so many mostly in windows
	windowWork  = 150_000
	perStep     = 2  // steps of an exact search that take as long as one of a worker
	tidyPart    = 10 // such a part of the work, more, goes into doing without stock
)

// search plans a valid order.
func search(ctx context.Context, o Order, e Effort) Plan {
	h := &hunt{e: e}
	defer context.AfterFunc(ctx, func() { h.stop.Store(true) })()
	var tried []choice
	if tried, h.all = o.choices(); !h.all {
		p := o.problem(choice{})
		h.floor = p.low - p.trim
	}
	for _, c := range tried {
		h.lanes = append(h.lanes, newLane(o.problem(c), e.Seed, &h.stop))
	}
	h.compare()
	var first Plan
	h.best.best.cut(o, &first)
	h.run()
	h.tidy()
	var plan Plan
	h.best.best.cut(o, &plan)
	// With a repeat, layouts are compared by whole repeats, and one of as many may
	// end in more of the last: no search ends with more of the roll than it began.
	if first.Used < plan.Used {
		plan = first
	}
	plan.Bound, plan.Interrupted = h.bound(), ctx.Err() != nil && !h.settled()
	plan.Proven = plan.Used == plan.Bound
	return plan
}

// compare takes note of the best layout.
func (h *hunt) compare() {
	for _, l := range h.lanes {
		if b := l.best(); h.best == nil || b.bestH < h.best.bestH {
			h.best = b
		}
	}
}

// bound returns the length of roll that no plan goes below.
func (h *hunt) bound() measure.Length {
	low := int64(math.MaxInt64)
	if !h.all {
		low = h.floor
	}
	for _, l := range h.lanes {
		low = min(low, l.p.low-l.p.trim)
	}
	return measure.Length(max(low, 0))
}

// settled reports whether no layout can be lower than the best.
func (h *hunt) settled() bool {
	for _, l := range h.lanes {
		if l.p.low < h.best.bestH {
			return false
		}
	}
	return true
}

// over reports whether to end the search.
func (h *hunt) over() bool { return h.stop.Load() || h.done >= h.e.Work || h.settled() }

func (h *hunt) run() {
	few := len(h.lanes[0].p.items) <= fewItems
	if few && !h.over() {
		h.round(min(warmUp, h.e.Work))
		h.exact(h.e.Work - h.done)
	}
	work := min(h.e.Work/leastRounds+1, perRound)
	tried := few
	for !h.over() {
		if !tried && h.done > h.e.Work/exactAfter {
			h.exact(h.e.Work / exactPart)
			tried = true
			continue
		}
		h.round(min(work, h.e.Work-h.done))
	}
}

// round lets every lane do its part of the work.
func (h *hunt) round(work int64) {
	from := float64(h.done) / float64(h.e.Work)
	h.done += work
	h.rounds++
	to := float64(h.done) / float64(h.e.Work)
	for _, l := range h.lanes {
		if l.p.low < h.best.bestH {
			l.run(work/int64(len(h.lanes)), from, to)
			h.compare()
			if h.rounds%lendEvery == 0 {
				l.lend()
			}
		}
	}
	h.tell()
}

// tell reports progress, unless the search was cut short.
func (h *hunt) tell() {
	if h.e.Progress != nil && !h.stop.Load() {
		h.e.Progress(Progress{
			Used:  measure.Length(h.best.best.used(0)),
			Bound: h.bound(),
			Done:  float64(h.done) / float64(h.e.Work),
		})
	}
}

// exact searches every lane to the end, if the work suffices.
func (h *hunt) exact(work int64) {
	for _, l := range h.lanes {
		if h.stop.Load() {
			return
		}
		budget := perStep * work / int64(len(h.lanes))
		x := newExact(l.p, h.best.bestH, budget)
		if x == nil {
			continue
		}
		g, ok := x.find(&h.stop)
		h.done += (budget - x.work) / perStep
		if !ok {
			continue
		}
		l.p.low = h.best.bestH
		if g.height < h.best.bestH {
			l.p.low = g.height
			l.workers[0].adopt(x.tree(g))
			h.compare()
		}
	}
	h.tell()
}

// tidy tries to do without each piece of stock that is used.
func (h *hunt) tidy() {
	work := h.e.Work / tidyPart
	height := h.best.bestH
	for _, l := range h.lanes {
		if used := h.best.p.uses(h.best.best); used > 0 {
			l.tidy(height, h.best.best.used(0), used, perStep*work/int64(len(h.lanes)), &h.stop)
			h.leanest(height)
		}
	}
	w := h.best
	for b := len(w.p.bins) - 1; b > 0; b-- {
		if w.best.nodes[b].down != none {
			w.spare(b, work/int64(w.p.uses(w.best)))
		}
	}
}

// tidy looks for a layout of the height that uses less than so much stock, and
// no more of the roll: with a repeat, layouts of one height may end in more or
// less of it.
func (l *lane) tidy(height, roll int64, used int, work int64, stop *atomic.Bool) {
	x := newExact(l.p, height+l.p.unit, work)
	if x == nil {
		return
	}
	if g, ok := x.find(stop); ok && g.height <= height {
		if t := x.tree(g); l.p.uses(t) < used && t.used(0) <= roll {
			l.workers[0].adopt(t)
		}
	}
}

// leanest takes the layout of the height that uses least stock for the best.
func (h *hunt) leanest(height int64) {
	for _, l := range h.lanes {
		if w := l.workers[0]; w.bestH <= height && w.best.used(0) <= h.best.best.used(0) && w.p.uses(w.best) < h.best.p.uses(h.best.best) {
			h.best = w
		}
	}
}

// uses returns how many pieces of stock a layout uses.
func (p *problem) uses(t *tree) int {
	n := 0
	for b := 1; b < len(p.bins); b++ {
		if t.nodes[b].down != none {
			n++
		}
	}
	return n
}
