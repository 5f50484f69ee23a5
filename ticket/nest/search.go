package nest

import (
	"context"
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

func newLane(p *problem, seed uint64) *lane {
	l := &lane{p: p}
	for i := range l.workers {
		w := newWorker(p.items, p.bins, 2*seed+uint64(i))
		w.low, w.unit = p.low, p.unit
		w.first()
		l.workers[i] = w
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

// run lets both workers do the given work at once.
func (l *lane) run(work int64, stop *atomic.Bool) {
	var wg sync.WaitGroup
	for _, w := range l.workers {
		w.stop = stop
		wg.Go(func() { w.run(work) })
	}
	wg.Wait()
}

// rounds is into how many parts the work is divided, between which the workers
// are compared.
const rounds = 20

// search plans a valid order.
func search(ctx context.Context, o Order, e Effort) Plan {
	var stop atomic.Bool
	defer context.AfterFunc(ctx, func() { stop.Store(true) })()
	var lanes []*lane
	low := int64(-1)
	for _, c := range o.choices() {
		p := o.problem(c)
		if low < 0 || p.low-p.trim < low {
			low = p.low - p.trim
		}
		lanes = append(lanes, newLane(p, e.Seed))
	}
	best := lanes[0].best()
	for r := 0; r < rounds && !stop.Load() && e.Work > 0; r++ {
		for _, l := range lanes {
			l.run(e.Work/rounds/int64(len(lanes)), &stop)
			if b := l.best(); b.bestH < best.bestH {
				best = b
			}
		}
		if e.Progress != nil {
			e.Progress(Progress{Used: measure.Length(best.bestH), Bound: measure.Length(low), Done: float64(r+1) / rounds})
		}
	}
	plan := Plan{Bound: measure.Length(max(low, 0)), Interrupted: ctx.Err() != nil}
	best.best.cut(o, &plan)
	plan.Proven = plan.Used == plan.Bound
	return plan
}
