package record

import (
	"bufio"
	"context"
	"database/sql"
	"errors"
	"flag"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/uuid"

	"shadewright/ticket/mark"
)

var kills = flag.Int("kills", 200, "how often a writing program is killed")

// helperVariable makes the test binary a program that writes to the record at the
// address in the variable.
const helperVariable = "SHADEWRIGHT_TEST_WRITE"

func TestMain(m *testing.M) {
	if stage, at, ok := strings.Cut(os.Getenv(upgradeVariable), " "); ok {
		if err := upgradeAndStop(at, stage); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		os.Exit(0)
	}
	if at := os.Getenv(helperVariable); at != "" {
		if err := writeForever(at); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		os.Exit(0)
	}
	os.Exit(m.Run())
}

// writeForever sends marks from several goroutines. It prints the id of each mark
// that was acknowledged, and ends when standard input does.
func writeForever(at string) error {
	l, err := Open(background, at, Options{Policy: mark.UsualPolicy()})
	if err != nil {
		return err
	}
	var tickets []*mark.Ticket
	for i := range 4 {
		tickets = append(tickets, aTicket(fmt.Sprintf("bunk-%d", i), 1, 0))
	}
	if _, err := l.Register(background, tickets); err != nil {
		return err
	}
	ctx, stop := context.WithCancel(background)
	go func() {
		defer stop()
		// The end of input is the signal; an error counts as the end too.
		_, _ = io.Copy(io.Discard, os.Stdin)
	}()
	var wg sync.WaitGroup
	var out sync.Mutex
	for _, k := range tickets {
		wg.Go(func() {
			for i := 0; ctx.Err() == nil; i++ {
				m := of(k, []mark.Kind{mark.Held, mark.Released}[i%2], "")
				a, err := l.Mark(background, m)
				out.Lock()
				switch {
				case err != nil:
					fmt.Println("error", err)
				case a.Recorded():
					fmt.Println(m.ID)
				}
				out.Unlock()
			}
		})
	}
	wg.Wait()
	return l.Close()
}

// startWriter runs writeForever in another process, and returns when that process
// has acknowledged the given number of marks. acknowledged returns the ids that it
// printed, once it has ended.
func startWriter(t *testing.T, at string, marks int) (cmd *exec.Cmd, end io.Closer, acknowledged func() []string) {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd = exec.Command(self)
	cmd.Env = append(os.Environ(), helperVariable+"="+at)
	cmd.Stderr = os.Stderr
	in, err := cmd.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	lines := make(chan []string, 1)
	enough := make(chan struct{})
	go func() {
		var ids []string
		for s := bufio.NewScanner(out); s.Scan(); {
			if ids = append(ids, s.Text()); len(ids) == marks {
				close(enough)
			}
		}
		if len(ids) < marks {
			close(enough) // it ended, and the caller sees why
		}
		lines <- ids
	}()
	<-enough
	return cmd, in, func() []string { return <-lines }
}

// TestKilled kills a program in the middle of writing, again and again. Every mark
// that it acknowledged must be there once, and the file must open without a fault.
func TestKilled(t *testing.T) {
	rounds := *kills
	if testing.Short() {
		rounds = min(rounds, 20)
	}
	at, all := newFile(t), map[string]bool{}
	told := 0
	for round := range rounds {
		if round%20 == 0 { // otherwise each round would take longer than the one before
			at, all = newFile(t), map[string]bool{}
		}
		// By then, each of its four writers is at a different point of a mark.
		cmd, _, acknowledged := startWriter(t, at, 1+rand.IntN(16))
		if err := cmd.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		ids := acknowledged()
		// It was killed, which is the error.
		_ = cmd.Wait()
		for _, id := range ids {
			if _, err := uuid.Parse(id); err != nil && strings.HasPrefix(id, "error") {
				t.Fatalf("round %d: %s", round, id)
			} else if err == nil { // the last line may be cut short
				all[id] = true
				told++
			}
		}
		checkAll(t, at, all)
	}
	if told < rounds {
		t.Errorf("only %d marks were acknowledged in %d rounds; the rounds are too short to show anything", told, rounds)
	}
	t.Logf("%d rounds, %d marks acknowledged", rounds, told)
}

// checkAll opens a record, which checks the file and that no id appears twice, and
// expects every id.
func checkAll(t *testing.T, at string, ids map[string]bool) {
	t.Helper()
	l, err := Open(background, at, Options{Policy: mark.UsualPolicy()})
	if err != nil {
		t.Fatal(err)
	}
	defer shut(t, l)
	records, err := l.Records(background)
	if err != nil {
		t.Fatal(err)
	}
	there := map[string]int{}
	for _, r := range records {
		if r.Mark != nil {
			there[r.Mark.ID.String()]++
		}
	}
	for id := range ids {
		if there[id] != 1 {
			t.Errorf("mark %s was acknowledged and is there %d times", id, there[id])
		}
	}
}

// TestTwoPrograms lets two processes and this one write to one record.
func TestTwoPrograms(t *testing.T) {
	onEach(t, func(t *testing.T, at string) {
		shut(t, open(t, at))
		ids := map[string]bool{}
		cmd1, end1, told1 := startWriter(t, at, 1)
		cmd2, end2, told2 := startWriter(t, at, 1)
		l := open(t, at)
		a := aTicket("bunk-left", 1, 0)
		register(t, l, a)
		for i := range 50 {
			m := of(a, []mark.Kind{mark.Held, mark.Released}[i%2], "")
			send(t, l, m, mark.Taken)
			ids[m.ID.String()] = true
		}
		for _, err := range []error{end1.Close(), end2.Close(), cmd1.Wait(), cmd2.Wait()} {
			if err != nil {
				t.Error(err)
			}
		}
		for _, id := range append(told1(), told2()...) {
			if _, err := uuid.Parse(id); err != nil {
				t.Error(id)
			}
			ids[id] = true
		}
		if len(ids) < 52 {
			t.Errorf("the others wrote only %d marks", len(ids)-50)
		}
		checkAll(t, at, ids)
	})
}

// TestBusy holds the right to write in another connection for longer than the
// record's patience.
func TestBusy(t *testing.T) {
	onEach(t, func(t *testing.T, at string) {
		l := openWith(t, at, Options{Policy: mark.UsualPolicy(), Patience: 700 * time.Millisecond})
		a := aTicket("bunk-left", 1, 0)
		register(t, l, a)
		other := open(t, at)
		w := &writer{l: other}
		if err := w.begin(background); err != nil {
			t.Fatal(err)
		}
		m := of(a, mark.Done, "")
		if _, err := l.Mark(background, m); !errors.Is(err, &Error{Fault: Busy}) || !strings.Contains(err.Error(), "is busy: another program is writing to it; nothing was marked, try again") {
			t.Errorf("while another program writes: %v", err)
		}
		w.drop()
		send(t, l, m, mark.Taken)
	})
}

// TestFull keeps a file from growing, as a full disk does. Where a file system can
// be mounted, TestFullDisk tries a real one.
func TestFull(t *testing.T) {
	at := newFile(t)
	full := openWith(t, at, Options{Policy: mark.UsualPolicy(), pragma: "max_page_count(12)"})
	a := aTicket("bunk-left", 1, 0)
	register(t, full, a)
	var kept []mark.Mark
	var last mark.Mark
	for i := 0; ; i++ {
		last = of(a, []mark.Kind{mark.Held, mark.Released}[i%2], "")
		_, err := full.Mark(background, last)
		if err == nil {
			if kept = append(kept, last); len(kept) > 1000 {
				t.Fatal("it never got full")
			}
			continue
		}
		if !errors.Is(err, &Error{Fault: Full}) || !strings.Contains(err.Error(), "is on a full disk; nothing was marked, make room and try again") {
			t.Fatal(err)
		}
		break
	}
	if _, err := full.Board(background); err != nil {
		t.Errorf("reading the board of a full store: %v", err)
	}
	shut(t, full)
	l := open(t, at) // there is room again
	for _, m := range kept {
		send(t, l, m, mark.Again)
	}
	send(t, l, last, mark.Taken)
}

// restartVariable holds a command that restarts the PostgreSQL server.
const restartVariable = "SHADEWRIGHT_TEST_POSTGRES_RESTART"

// TestServerGoesAway ends every connection of the server while marks are sent, and
// restarts the server if there is a command for that. Each mark is sent until it is
// acknowledged, as a phone does, and each must be there once.
func TestServerGoesAway(t *testing.T) {
	at := newSchema(t)
	l := open(t, at)
	outside, err := sql.Open("pgx", os.Getenv(postgresVariable))
	if err != nil {
		t.Fatal(err)
	}
	defer func() {
		if err := outside.Close(); err != nil {
			t.Error(err)
		}
	}()
	var tickets []*mark.Ticket
	for i := range 8 {
		tickets = append(tickets, aTicket(fmt.Sprintf("bunk-%d", i), 1, 0))
	}
	register(t, l, tickets...)
	stop, marked := make(chan struct{}), make(chan struct{}, 1000)
	var mu sync.Mutex
	ids := map[string]bool{}
	var wg sync.WaitGroup
	for _, k := range tickets {
		wg.Go(func() {
			for i := 0; ; i++ {
				select {
				case <-stop:
					return
				default:
				}
				m := of(k, []mark.Kind{mark.Held, mark.Released}[i%2], "")
				for {
					a, err := l.Mark(background, m)
					if err == nil && !a.Good() {
						t.Errorf("%+v", a)
						return
					}
					if err == nil {
						break
					}
					if !errors.Is(err, &Error{Fault: Unreachable}) {
						t.Error(err)
						return
					}
				}
				mu.Lock()
				ids[m.ID.String()] = true
				mu.Unlock()
				select {
				case marked <- struct{}{}:
				default:
				}
			}
		})
	}
	// goOn returns when more marks have been acknowledged.
	goOn := func() {
		for len(marked) > 0 {
			<-marked
		}
		for range 4 * len(tickets) {
			select {
			case <-marked:
			case <-time.After(time.Minute):
				t.Error("no mark is acknowledged any more")
				return
			}
		}
	}
	for range 5 {
		goOn()
		if _, err := outside.Exec("SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE application_name = 'shadewright' AND pid <> pg_backend_pid()"); err != nil {
			t.Error(err)
		}
	}
	if command := os.Getenv(restartVariable); command != "" {
		if out, err := exec.Command("sh", "-c", command).CombinedOutput(); err != nil {
			t.Errorf("%v: %s", err, out)
		}
		goOn()
	} else {
		t.Logf("the server itself is not restarted; set %s to a command that does it", restartVariable)
	}
	close(stop)
	wg.Wait()
	checkAll(t, at, ids)
	t.Logf("%d marks", len(ids))
}

// TestSyncs checks that a commit waits for the disk. A power cut cannot be tested
// here, but a setting can.
func TestSyncs(t *testing.T) {
	onEach(t, func(t *testing.T, at string) {
		l := open(t, at)
		want := map[string]string{ // 2 is FULL (sqlite.org/pragma.html, synchronous)
			"PRAGMA synchronous": "2", "PRAGMA journal_mode": "wal",
		}
		if isPostgres(at) {
			want = map[string]string{"SHOW synchronous_commit": "on", "SHOW fsync": "on"}
		}
		for query, value := range want {
			var got string
			if err := l.db.QueryRow(query).Scan(&got); err != nil || got != value {
				t.Errorf("%s is %s, %v; want %s", query, got, err, value)
			}
		}
	})
}
