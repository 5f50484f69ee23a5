package nest

import (
	"context"
	"math"
	"sync"
	"sync/atomic"

	"shadewright/ticket/measure"
)

// A choiceSearch searches one choice of which matches are turned. Its two workers
// share nothing while they run, so the result does not depend on the machine.
type choiceSearch struct {
	p       *problem
	workers [2]*worker
}

func newChoiceSearch(p *problem, seed uint64, stop *atomic.Bool) *choiceSearch {
	c := &choiceSearch{p: p}
	for i := range c.workers {
		w := newWorker(p, 2*seed+uint64(i))
		w.stop = stop
		if c.workers[i] = w; i == 0 {
			w.first()
		} else {
			w.adopt(c.workers[0].best)
		}
	}
	return c
}

// best returns the worker with the shorter layout, or the first if both are equal.
func (c *choiceSearch) best() *worker {
	if c.workers[1].bestH < c.workers[0].bestH {
		return c.workers[1]
	}
	return c.workers[0]
}

// run lets both workers do the given work at the same time. It is the stretch
// between the shares from and to of the whole work.
func (c *choiceSearch) run(work int64, from, to float64) {
	var wg sync.WaitGroup
	for _, w := range c.workers {
		wg.Go(func() { w.turn(work, from, to) })
	}
	wg.Wait()
}

// share gives the better layout to the worker that has the longer one.
func (c *choiceSearch) share() {
	b := c.best()
	for _, w := range c.workers {
		if w.bestH > b.bestH {
			w.adopt(b.best)
		}
	}
}

// turn spends the work on the whole layout and, if that is long, on windows of it.
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
			break // there is only one section
		}
	}
	w.run(work-(w.f.work-start), from, to)
}

// A planSearch searches several choices for one plan.
type planSearch struct {
	choices []*choiceSearch
	all     bool  // choices has every possible choice
	floor   int64 // a bound for the choices that are not searched
	best    *worker
	e       Effort
	done    int64 // work done
	rounds  int
	stop    atomic.Bool
}

// How the work is divided.
const (
	leastRounds = 20 // the workers are compared after each round
	perRound    = workPerSecond / 2
	shareEvery  = 4       // in rounds
	fewItems    = 14      // for up to so many items, the exact search comes first
	warmUp      = 500_000 // work before the exact search of few items
	exactAfter  = 2       // for many items, the exact search comes after the work divided by this
	exactPart   = 5       // and may take the work divided by this
	windowFrom  = 35      // from so many items on, windows are searched too
	windowMost  = 300     // from so many items on, most work goes into windows
	windowWork  = 150_000
	perStep     = 2  // steps of an exact search that take as long as one of a worker
	savePart    = 10 // saving stock may take extra work: the work divided by this
)

// search plans a valid order.
func search(ctx context.Context, o Order, e Effort) Plan {
	s := &planSearch{e: e}
	defer context.AfterFunc(ctx, func() { s.stop.Store(true) })()
	var tried []choice
	if tried, s.all = o.choices(); !s.all {
		p := o.problem(choice{})
		s.floor = p.low - p.trim
	}
	for _, c := range tried {
		s.choices = append(s.choices, newChoiceSearch(o.problem(c), e.Seed, &s.stop))
	}
	s.compare()
	var first Plan
	s.best.best.writePlan(o, &first)
	s.run()
	s.saveStock()
	var plan Plan
	s.best.best.writePlan(o, &plan)
	// With a repeat, layouts are compared by whole repeats, and equal ones may use
	// more or less of the last repeat. A search must not end with more of the roll
	// than it began with.
	if first.Used < plan.Used {
		plan = first
	}
	plan.Bound, plan.Interrupted = s.bound(), ctx.Err() != nil && !s.settled()
	plan.Proven = plan.Used == plan.Bound
	return plan
}

// compare finds the best layout of all choices.
func (s *planSearch) compare() {
	for _, c := range s.choices {
		if b := c.best(); s.best == nil || b.bestH < s.best.bestH {
			s.best = b
		}
	}
}

// bound returns a length of roll that no plan goes below.
func (s *planSearch) bound() measure.Length {
	low := int64(math.MaxInt64)
	if !s.all {
		low = s.floor
	}
	for _, c := range s.choices {
		low = min(low, c.p.low-c.p.trim)
	}
	return measure.Length(max(low, 0))
}

// settled reports whether no layout can be lower than the best.
func (s *planSearch) settled() bool {
	for _, c := range s.choices {
		if c.p.low < s.best.bestH {
			return false
		}
	}
	return true
}

// over reports whether to end the search.
func (s *planSearch) over() bool { return s.stop.Load() || s.done >= s.e.Work || s.settled() }

func (s *planSearch) run() {
	few := len(s.choices[0].p.items) <= fewItems
	if few && !s.over() {
		s.round(min(warmUp, s.e.Work))
		s.exact(s.e.Work - s.done)
	}
	work := min(s.e.Work/leastRounds+1, perRound)
	tried := few
	for !s.over() {
		if !tried && s.done > s.e.Work/exactAfter {
			s.exact(s.e.Work / exactPart)
			tried = true
			continue
		}
		s.round(min(work, s.e.Work-s.done))
	}
}

// round lets the search of every choice do its share of the work.
func (s *planSearch) round(work int64) {
	from := float64(s.done) / float64(s.e.Work)
	s.done += work
	s.rounds++
	to := float64(s.done) / float64(s.e.Work)
	for _, c := range s.choices {
		if c.p.low < s.best.bestH {
			c.run(work/int64(len(s.choices)), from, to)
			s.compare()
			if s.rounds%shareEvery == 0 {
				c.share()
			}
		}
	}
	s.report()
}

// report reports progress, unless the search was cut short.
func (s *planSearch) report() {
	if s.e.Progress != nil && !s.stop.Load() {
		s.e.Progress(Progress{
			Used:  measure.Length(s.best.best.used(0)),
			Bound: s.bound(),
			Done:  float64(s.done) / float64(s.e.Work),
		})
	}
}

// exact runs an exact search of every choice, as far as the work allows.
func (s *planSearch) exact(work int64) {
	for _, c := range s.choices {
		if s.stop.Load() {
			return
		}
		budget := perStep * work / int64(len(s.choices))
		x := newExact(c.p, s.best.bestH, budget)
		if x == nil {
			continue
		}
		g, ok := x.find(&s.stop)
		s.done += (budget - x.work) / perStep
		if !ok {
			continue
		}
		c.p.low = s.best.bestH
		if g.height < s.best.bestH {
			c.p.low = g.height
			c.workers[0].adopt(x.tree(g))
			s.compare()
		}
	}
	s.report()
}

// saveStock tries to do without each piece of stock that the best layout uses.
func (s *planSearch) saveStock() {
	work := s.e.Work / savePart
	height := s.best.bestH
	for _, c := range s.choices {
		if used := s.best.p.uses(s.best.best); used > 0 {
			c.saveStock(height, s.best.best.used(0), used, perStep*work/int64(len(s.choices)), &s.stop)
			s.leanest(height)
		}
	}
	w := s.best
	for b := len(w.p.bins) - 1; b > 0; b-- {
		if w.best.nodes[b].down != none {
			w.dropStock(b, work/int64(w.p.uses(w.best)))
		}
	}
}

// saveStock looks for a layout of the given height on fewer pieces of stock than
// used, and on no more of the roll. With a repeat, layouts of one height may use
// more or less of the last repeat.
func (c *choiceSearch) saveStock(height, roll int64, used int, work int64, stop *atomic.Bool) {
	x := newExact(c.p, height+c.p.unit, work)
	if x == nil {
		return
	}
	if g, ok := x.find(stop); ok && g.height <= height {
		if t := x.tree(g); c.p.uses(t) < used && t.used(0) <= roll {
			c.workers[0].adopt(t)
		}
	}
}

// leanest makes the layout of this height that uses least stock the best.
func (s *planSearch) leanest(height int64) {
	for _, c := range s.choices {
		if w := c.workers[0]; w.bestH <= height && w.best.used(0) <= s.best.best.used(0) && w.p.uses(w.best) < s.best.p.uses(s.best.best) {
			s.best = w
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
