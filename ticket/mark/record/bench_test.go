package record

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/google/uuid"

	"shadewright/ticket/mark"
	"shadewright/ticket/route"
)

// BenchmarkDurable compares three speeds on one disk in one run: what the driver
// alone commits with full sync, one writer, and 64 writers at once. Aims: one
// writer reaches at least 0.8 of the bare driver, and 64 reach at least 10 times
// the bare driver.
func BenchmarkDurable(b *testing.B) {
	b.Run("bare", benchBare)
	b.Run("writers=1", func(b *testing.B) { benchWriters(b, newFile(b), 1) })
	b.Run("writers=64", func(b *testing.B) { benchWriters(b, newFile(b), 64) })
	b.Run("postgres/writers=1", func(b *testing.B) { benchWriters(b, newSchema(b), 1) })
	b.Run("postgres/writers=64", func(b *testing.B) { benchWriters(b, newSchema(b), 64) })
}

// BenchmarkOfBare alternates between a commit of the bare driver and a mark of one
// writer, so that other use of the disk slows both alike. of-bare is the speed of
// the record divided by that of the bare driver.
func BenchmarkOfBare(b *testing.B) {
	bare := newBare(b)
	l := open(b, newFile(b))
	t := aTicket("bunk", 1, 0)
	register(b, l, t)
	var alone, ours time.Duration
	kinds := []mark.Kind{mark.Done, mark.Undone}
	for i := 0; b.Loop(); i++ {
		start := time.Now()
		bare(b)
		middle := time.Now()
		send(b, l, of(t, kinds[i%2], "cut"), mark.Taken)
		alone, ours = alone+middle.Sub(start), ours+time.Since(middle)
	}
	b.ReportMetric(alone.Seconds()/ours.Seconds(), "of-bare")
}

func benchBare(b *testing.B) {
	bare := newBare(b)
	b.ReportAllocs()
	for b.Loop() {
		bare(b)
	}
}

// newBare returns a function that inserts the same row as a mark, committed alone,
// through the driver alone with the same settings.
func newBare(b *testing.B) func(*testing.B) {
	b.Helper()
	db, err := sql.Open("sqlite", sqliteAddress(filepath.Join(b.TempDir(), "bare.db"), "rwc", Options{Patience: time.Second}))
	if err != nil {
		b.Fatal(err)
	}
	db.SetMaxOpenConns(1)
	ctx := context.Background()
	conn, err := db.Conn(ctx)
	if err != nil {
		b.Fatal(err)
	}
	if err := run(ctx, conn, "PRAGMA journal_mode = WAL"); err != nil {
		b.Fatal(err)
	}
	if err := migrate(ctx, conn, migrations, 0, "INTEGER"); err != nil {
		b.Fatal(err)
	}
	insert, err := conn.PrepareContext(ctx, insertMark)
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() {
		if err := errors.Join(insert.Close(), conn.Close(), db.Close()); err != nil {
			b.Error(err)
		}
	})
	t, n := aTicket("bunk", 1, 0), int64(0)
	return func(b *testing.B) {
		n++
		m := of(t, mark.Done, "cut")
		if _, err := insert.ExecContext(ctx, markRow(n, &m)...); err != nil {
			b.Fatal(err)
		}
	}
}

// benchWriters sends alternating done and undone marks, each writer to its own
// ticket, so that every one is recorded.
func benchWriters(b *testing.B, at string, writers int) {
	l := open(b, at)
	tickets := make([]*mark.Ticket, writers)
	for i := range tickets {
		tickets[i] = aTicket(fmt.Sprintf("bunk-%d", i), 1, 0)
	}
	register(b, l, tickets...)
	var left atomic.Int64
	var slowest atomic.Int64
	left.Store(int64(b.N))
	b.ReportAllocs()
	b.ResetTimer()
	var wg sync.WaitGroup
	for _, t := range tickets {
		wg.Go(func() {
			kind := mark.Done
			for left.Add(-1) >= 0 {
				start := time.Now()
				a, err := l.Mark(context.Background(), of(t, kind, "cut"))
				if err != nil || !a.Recorded() {
					b.Errorf("%v %v", a, err)
					return
				}
				if d := int64(time.Since(start)); d > slowest.Load() {
					slowest.Store(d)
				}
				if kind = mark.Undone; a.Entry.Kind == mark.Undone {
					kind = mark.Done
				}
			}
		})
	}
	wg.Wait()
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "marks/s")
	b.ReportMetric(float64(b.N)/float64(l.commits.Load()), "marks/commit")
	b.ReportMetric(time.Duration(slowest.Load()).Seconds()*1000, "slowest-ms")
}

// manyTickets returns a shop's tickets: 17 steps, 6 units to a shade, 100 to a job.
func manyTickets(n int) []*mark.Ticket {
	usual := route.Usual()
	tickets := make([]*mark.Ticket, n)
	for i := range tickets {
		j := uuid.NewSHA1(job, fmt.Append(nil, i/100))
		tickets[i] = ticketOf(j, fmt.Sprintf("Job %d", i/100), fmt.Sprintf("shade-%d", i%100/6), i%6+1, usual)
	}
	return tickets
}

// BenchmarkBoard reads the board of 10,000 tickets with half of their steps done.
func BenchmarkBoard(b *testing.B) {
	at := newFile(b)
	l := open(b, at)
	tickets := manyTickets(10_000)
	register(b, l, tickets...)
	var records []mark.Line
	seq := int64(len(tickets))
	for _, t := range tickets {
		for _, s := range t.Route[:8] {
			m := of(t, mark.Done, s.Key)
			m.Revision = t.Revision
			seq++
			records = append(records, mark.Line{Seq: seq, Mark: &m})
		}
	}
	if _, err := l.Import(context.Background(), records); err != nil {
		b.Fatal(err)
	}
	ctx := context.Background()
	b.Run("open", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			l, err := Open(ctx, at, Options{Policy: mark.UsualPolicy()})
			if err != nil {
				b.Fatal(err)
			}
			shut(b, l)
		}
	})
	b.Run("read", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, err := l.Board(ctx); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("json", func(b *testing.B) {
		board, err := l.Board(ctx)
		if err != nil {
			b.Fatal(err)
		}
		b.ReportAllocs()
		for b.Loop() {
			if err := board.WriteJSON(io.Discard, noon); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("update", func(b *testing.B) {
		b.ReportAllocs()
		kind := mark.Held
		for b.Loop() {
			before := l.seq()
			send(b, l, of(tickets[0], kind, ""), mark.Taken)
			c, err := l.Changes(ctx, before)
			if err != nil || c.All || len(c.Latest) != 1 {
				b.Fatalf("%+v %v", c, err)
			}
			if kind == mark.Held {
				kind = mark.Released
			} else {
				kind = mark.Held
			}
		}
	})
}
