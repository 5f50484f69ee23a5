package main

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	randv2 "math/rand/v2"
	"net/http"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/uuid"

	"shadewright/ticket/code"
	"shadewright/ticket/mark"
	"shadewright/ticket/mark/record"
	"shadewright/ticket/route"
)

var serverKills = flag.Int("server-kills", 20, "how often a server is killed while phones send marks")

// Kill the server again and again while phones send marks. Afterwards every mark that it
// answered is there, none appears twice, and the record opens without repair.
func TestServerIsKilled(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("the server is started by a link to this program")
	}
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	program := filepath.Join(t.TempDir(), "shadewright") // TestMain runs the command of this name
	if err := os.Symlink(self, program); err != nil {
		t.Fatal(err)
	}
	data := t.TempDir()
	at := filepath.Join(data, "shadewright", "marks.db")
	tickets := cabins(*serverKills * 40)
	registerAt(t, at, tickets)
	f := &flood{t: t, program: program, data: data, tickets: tickets, acked: map[[2]string]bool{}}
	for range *serverKills {
		f.round()
	}
	rec, err := record.Open(t.Context(), at, record.Options{Policy: mark.UsualPolicy()})
	if err != nil {
		t.Fatal(err)
	}
	defer rec.Close()
	records, err := rec.Records(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	seen := map[[2]string]bool{}
	for _, r := range records {
		if r.Mark == nil {
			continue
		}
		key := [2]string{string(r.Mark.Code), r.Mark.Step}
		if seen[key] {
			t.Errorf("%v appears twice", key)
		}
		seen[key] = true
	}
	for key := range f.acked {
		if !seen[key] {
			t.Errorf("%v was answered and is lost", key)
		}
	}
	t.Logf("%d kills, %d marks answered, %d on disk", *serverKills, len(f.acked), len(seen))
	if len(f.acked) < *serverKills {
		t.Errorf("only %d marks were answered, too few for this test", len(f.acked))
	}
}

// cabins returns registered tickets of an invented job.
func cabins(n int) []*mark.Ticket {
	job := uuid.MustParse("0d7f8a52-4f3e-4b8e-9a56-31c8f0a9d7aa")
	steps := route.Usual()
	list := make([]*mark.Ticket, n)
	for i := range list {
		id := code.Identity(job, "cabin", i+1, 0)
		list[i] = &mark.Ticket{ID: id, Code: code.Derive(id), Revision: "BK24", Job: job, JobName: "Heron Landing hotel", Shade: "cabin", Unit: i + 1, Of: n, Route: steps}
	}
	return list
}

func registerAt(t *testing.T, at string, tickets []*mark.Ticket) {
	t.Helper()
	rec, err := record.Open(t.Context(), at, record.Options{Policy: mark.UsualPolicy()})
	if err != nil {
		t.Fatal(err)
	}
	_, err = rec.Register(t.Context(), tickets)
	if err := errors.Join(err, rec.Close()); err != nil {
		t.Fatal(err)
	}
}

// A flood is the phones that send marks while servers are killed.
type flood struct {
	t             *testing.T
	program, data string
	tickets       []*mark.Ticket
	next          int // the ticket to send next

	mu    sync.Mutex
	acked map[[2]string]bool
	left  int           // answers of this round until its server is killed
	now   chan struct{} // closed when none is left
}

// answered keeps a mark that the server answered.
func (f *flood) answered(key [2]string) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.acked[key] = true
	if f.left--; f.left == 0 {
		close(f.now)
	}
}

// round starts a server, sends marks, and kills the server in the middle.
func (f *flood) round() {
	f.t.Helper()
	cmd := exec.Command(f.program, "serve", "--set", "serve.listen=127.0.0.1:0")
	cmd.Env = []string{"HOME=" + f.data, "XDG_DATA_HOME=" + f.data, "XDG_CONFIG_HOME=" + f.data, "SHADEWRIGHT_SERVE_PIN=" + servePIN}
	cmd.Dir = f.data
	out, err := cmd.StdoutPipe()
	if err != nil {
		f.t.Fatal(err)
	}
	var errs bytes.Buffer
	cmd.Stderr = &errs
	if err := cmd.Start(); err != nil {
		f.t.Fatal(err)
	}
	lines := bufio.NewScanner(out)
	if !lines.Scan() {
		f.t.Fatalf("the server does not begin: %v %s", cmd.Wait(), errs.String())
	}
	base := strings.Fields(lines.Text())[0]
	go func() {
		for lines.Scan() { // read on, so that the server can go on writing
		}
	}()
	c := client(f.t)
	token := letIn(f.t, c, base)
	f.left, f.now = 1+randv2.IntN(60), make(chan struct{})
	var wg sync.WaitGroup
	for range 8 {
		mine := f.tickets[f.next : f.next+5]
		f.next += 5
		wg.Go(func() { f.send(c, base, token, mine) })
	}
	// After so many answers, marks from the other phones are at every stage.
	select {
	case <-f.now:
	case <-time.After(time.Minute):
		f.t.Error("the server answers too little")
	}
	if err := cmd.Process.Kill(); err != nil {
		f.t.Fatal(err)
	}
	wg.Wait()
	_ = cmd.Wait() // the error says that it was killed
	c.CloseIdleConnections()
}

// send marks step after step until the server is gone, and keeps the marks that it
// answered.
func (f *flood) send(c *http.Client, base, token string, tickets []*mark.Ticket) {
	for _, tk := range tickets {
		for _, step := range tk.Route {
			form := url.Values{"token": {token}, "deed": {"done"}, "step": {step.Key}, "id": {uuid.NewString()}}
			r, err := http.NewRequest("POST", base+"/T/"+string(tk.Code), strings.NewReader(form.Encode()))
			if err != nil {
				f.t.Error(err)
				return
			}
			r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
			r.Header.Set("Accept", "application/json")
			a, err := c.Do(r)
			if err != nil {
				return
			}
			var said struct{ Outcome, Message string }
			err = json.NewDecoder(a.Body).Decode(&said)
			if err := errors.Join(err, a.Body.Close()); err != nil {
				return
			}
			if said.Outcome != "taken" {
				f.t.Errorf("%s %s: %+v", tk.Code, step.Key, said)
				return
			}
			f.answered([2]string{string(tk.Code), step.Key})
		}
	}
}
