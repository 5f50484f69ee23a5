package web

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"math/rand/v2"
	"net/http"
	"net/url"
	"runtime"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/google/uuid"

	"shadewright/render/internal/readback"
	"shadewright/ticket/code"
	"shadewright/ticket/mark"
	"shadewright/ticket/route"
)

// many returns n more tickets of an invented job.
func many(t testing.TB, n int) []*mark.Ticket {
	t.Helper()
	job := uuid.MustParse("0d7f8a52-4f3e-4b8e-9a56-31c8f0a9d7aa")
	steps := route.Usual()
	summary := sample(t)[0].Summary
	list := make([]*mark.Ticket, n)
	for i := range list {
		id := code.Identity(job, "cabin", i+1, 0)
		list[i] = &mark.Ticket{
			ID: id, Code: code.Derive(id), Revision: "BK24", Job: job, JobName: "Heron Landing hotel", Shade: "cabin",
			Unit: i + 1, Of: n, Route: steps, Summary: summary,
		}
	}
	return list
}

// token returns the form token of a joined phone.
func (p *phone) token() string {
	_, f := p.get("/").form(p.t, "")
	return f.Get("token")
}

// A sending is one mark that a phone sends.
type sending struct {
	code code.Code
	step string
	id   string
}

// send sends a mark as the page's script does, and returns the reply.
func (p *phone) send(ctx context.Context, token string, m sending) (reply, error) {
	f := url.Values{"token": {token}, "kind": {"done"}, "step": {m.step}, "id": {m.id}}
	r, err := http.NewRequestWithContext(ctx, "POST", p.base+"/T/"+string(m.code), strings.NewReader(f.Encode()))
	if err != nil {
		return reply{}, err
	}
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	r.Header.Set("Accept", "application/json")
	a, err := p.http.Do(r)
	if err != nil {
		return reply{}, err
	}
	defer a.Body.Close()
	body, err := io.ReadAll(a.Body)
	if err != nil {
		return reply{}, err
	}
	var said reply
	return said, json.Unmarshal(body, &said)
}

// 64 phones send 20,000 marks at once, some of them twice, some on connections
// that drop before the answer. All marks arrive, each once, in one order.
func TestManyPhones(t *testing.T) {
	const phones = 64
	marks := 20_000
	if testing.Short() || readback.UnderRace {
		marks = 2_000
	}
	s := openShop(t, nil)
	steps := route.Usual()
	tickets := many(t, marks/len(steps)+1)
	if _, err := s.log.Register(t.Context(), tickets); err != nil {
		t.Fatal(err)
	}
	all := make([]sending, marks)
	for i := range all {
		all[i] = sending{tickets[i/len(steps)].Code, steps[i%len(steps)].Key, uuid.NewString()}
	}
	rand.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
	first := s.joined()
	token, cookies := first.token(), first.http.Jar
	var sent, dropped, again atomic.Int64
	begin := time.Now()
	var wg sync.WaitGroup
	for n := range phones {
		wg.Go(func() {
			p := &phone{t, first.base, &http.Client{Jar: cookies, Transport: &http.Transport{}}}
			defer p.http.CloseIdleConnections()
			random := rand.New(rand.NewPCG(uint64(n), 1))
			for i := n; i < marks; i += phones {
				if random.IntN(20) == 0 { // the phone goes away before the answer
					ctx, cancel := context.WithTimeout(t.Context(), time.Duration(random.IntN(3000))*time.Microsecond)
					if _, err := p.send(ctx, token, all[i]); err != nil {
						dropped.Add(1)
					}
					cancel()
				}
				for twice := random.IntN(20) == 0; ; twice = false {
					a, err := p.send(t.Context(), token, all[i])
					if err != nil || (a.Outcome != "taken" && a.Outcome != "skipping" && a.Outcome != "again") {
						t.Errorf("%+v: %+v, %v", all[i], a, err)
						return
					}
					sent.Add(1)
					if a.Outcome == "again" {
						again.Add(1)
					}
					if !twice {
						break
					}
				}
			}
		})
	}
	wg.Wait()
	took := time.Since(begin)
	t.Logf("%d marks in %s, %.0f a second; %d sent, %d connections dropped, %d were already recorded", marks, took.Round(time.Millisecond), float64(marks)/took.Seconds(), sent.Load(), dropped.Load(), again.Load())
	if dropped.Load() == 0 || again.Load() == 0 {
		t.Error("no connection dropped and no mark was sent twice: the test proves nothing")
	}
	records, err := s.log.Records(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	seen := map[[2]string]bool{}
	for i, r := range records {
		if r.Seq != int64(i)+1 {
			t.Fatalf("record %d has the number %d", i+1, r.Seq)
		}
		if r.Mark == nil {
			continue
		}
		key := [2]string{string(r.Mark.Code), r.Mark.Step}
		if seen[key] {
			t.Errorf("%v is recorded twice", key)
		}
		seen[key] = true
	}
	if len(seen) != marks {
		t.Errorf("%d marks are recorded; want %d", len(seen), marks)
	}
}

// BenchmarkMark measures how long one phone waits for its mark while others
// also send.
func BenchmarkMark(b *testing.B) {
	for _, phones := range []int{1, 16, 64} {
		b.Run(fmt.Sprint(phones), func(b *testing.B) {
			s := openShop(b, nil)
			steps := route.Usual()
			tickets := many(b, 4000)
			if _, err := s.log.Register(b.Context(), tickets); err != nil {
				b.Fatal(err)
			}
			first := s.joined()
			token := first.token()
			var at atomic.Int64
			var mu sync.Mutex
			var waits []time.Duration
			b.SetParallelism(max(phones/runtime.GOMAXPROCS(0), 1))
			b.ReportAllocs()
			b.ResetTimer()
			b.RunParallel(func(pb *testing.PB) {
				p := &phone{b, first.base, &http.Client{Jar: first.http.Jar, Transport: &http.Transport{}}}
				defer p.http.CloseIdleConnections()
				var mine []time.Duration
				for pb.Next() {
					i := int(at.Add(1)) % (len(tickets) * len(steps))
					begin := time.Now()
					if _, err := p.send(b.Context(), token, sending{tickets[i/len(steps)].Code, steps[i%len(steps)].Key, uuid.NewString()}); err != nil {
						b.Error(err)
						return
					}
					mine = append(mine, time.Since(begin))
				}
				mu.Lock()
				waits = append(waits, mine...)
				mu.Unlock()
			})
			slices.Sort(waits)
			b.ReportMetric(float64(waits[len(waits)/2].Microseconds()), "µs-median")
			b.ReportMetric(float64(waits[len(waits)*99/100].Microseconds()), "µs-99th")
			b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "marks/s")
		})
	}
}

// BenchmarkBoard measures a board of 10,000 tickets: the time to its first
// byte, to its last byte, and until an update reaches an open board.
func BenchmarkBoard(b *testing.B) {
	s := openShop(b, nil)
	tickets := many(b, 10_000)
	if _, err := s.log.Register(b.Context(), tickets); err != nil {
		b.Fatal(err)
	}
	p := s.joined()
	b.Run("load", func(b *testing.B) {
		var first time.Duration
		b.ReportAllocs()
		for b.Loop() {
			begin := time.Now()
			a, err := p.http.Get(p.base + "/board")
			if err != nil {
				b.Fatal(err)
			}
			if _, err := io.ReadFull(a.Body, make([]byte, 1)); err != nil {
				b.Fatal(err)
			}
			first += time.Since(begin)
			if _, err := io.Copy(io.Discard, a.Body); err != nil {
				b.Fatal(err)
			}
			if err := a.Body.Close(); err != nil {
				b.Fatal(err)
			}
		}
		b.ReportMetric(float64(first.Microseconds())/float64(b.N), "µs-first-byte")
	})
	b.Run("change", func(b *testing.B) {
		board, err := s.log.Board(b.Context())
		if err != nil {
			b.Fatal(err)
		}
		changes := watch(b.Context(), b, p, board.Seq)
		token := p.token()
		i := 0
		b.ReportAllocs()
		for b.Loop() {
			if _, err := p.send(b.Context(), token, sending{tickets[i].Code, "cut", uuid.NewString()}); err != nil {
				b.Fatal(err)
			}
			i++
			<-changes
		}
	})
}

// watch opens a board that updates itself, and signals each update.
func watch(ctx context.Context, t testing.TB, p *phone, after int64) <-chan struct{} {
	t.Helper()
	r, err := http.NewRequestWithContext(ctx, "GET", fmt.Sprintf("%s/board/changes?after=%d", p.base, after), nil)
	if err != nil {
		t.Fatal(err)
	}
	a, err := (&http.Client{Jar: p.http.Jar, Transport: &http.Transport{}}).Do(r)
	if err != nil || a.StatusCode != http.StatusOK {
		t.Fatalf("no changes: %v", err)
	}
	out := make(chan struct{}, 1)
	go func() {
		defer a.Body.Close()
		buf := make([]byte, 64<<10)
		for {
			n, err := a.Body.Read(buf)
			if err != nil {
				return
			}
			if bytes.Contains(buf[:n], []byte("event: board")) {
				select {
				case out <- struct{}{}:
				default:
				}
			}
		}
	}()
	return out
}

// BenchmarkIdlePhones measures the memory of 200 open boards. It includes the
// phones, which run in the same process.
func BenchmarkIdlePhones(b *testing.B) {
	const phones = 200
	s := openShop(b, nil)
	p := s.joined()
	board, err := s.log.Board(b.Context())
	if err != nil {
		b.Fatal(err)
	}
	var before, after runtime.MemStats
	for b.Loop() {
		runtime.GC()
		runtime.ReadMemStats(&before)
		ctx, cancel := context.WithCancel(b.Context())
		for range phones {
			watch(ctx, b, p, board.Seq)
		}
		runtime.GC()
		runtime.ReadMemStats(&after)
		used := int64(after.HeapInuse+after.StackInuse) - int64(before.HeapInuse+before.StackInuse)
		b.ReportMetric(float64(used)/phones/1024, "KiB/phone")
		b.ReportMetric(float64(after.HeapInuse+after.StackInuse)/(1<<20), "MiB-in-all")
		cancel()
		for s.handler.streams.count() > 0 {
			runtime.Gosched() // its handlers are ending
		}
	}
}

func (st *streams) count() int {
	st.mu.Lock()
	defer st.mu.Unlock()
	return st.open
}
