package terminal

import (
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"shadewright/ticket/code"
	"shadewright/ticket/mark"
	"shadewright/ticket/message"
	"shadewright/ticket/route"
)

// The expected text is worked out by hand from the marks: cut at 8:00, sewn at
// 8:45 by ann (45 min), then held; due a day ago.
func TestBoard(t *testing.T) {
	job := uuid.MustParse("5f0c8f0e-2b0f-4a55-9f0b-6f1f7a2d9c31")
	tk := func(shade string) *mark.Ticket {
		id := code.Identity(job, shade, 1, 0)
		return &mark.Ticket{ID: id, Code: code.Derive(id), Revision: "BK24", Job: job, JobName: "Heron Landing", Due: time.Date(2027, 3, 1, 0, 0, 0, 0, time.UTC),
			Shade: shade, Unit: 1, Of: 1, Route: route.Route{{Key: "cut", Name: message.StepTerm.Term("Cut")}, {Key: "sew", Name: message.StepTerm.Term("Sew")}, {Key: "hang", Name: message.StepTerm.Term("Hang")}}}
	}
	door := mark.NewState(tk("door"), 1)
	at := time.Date(2027, 3, 2, 8, 0, 0, 0, time.UTC)
	for i, m := range []mark.Mark{
		{Kind: mark.Done, Step: "cut", Time: at},
		{Kind: mark.Done, Step: "sew", Time: at.Add(45 * time.Minute), Who: "ann"},
		{Kind: mark.Held, Reason: message.ReasonTerm.Term("no cloth"), Who: "bo", Time: at.Add(time.Hour)},
	} {
		door = door.With(mark.Entry{Seq: int64(i + 3), Mark: m})
	}
	board := mark.NewBoard(5, []*mark.State{door, mark.NewState(tk("porch"), 2)})
	var b strings.Builder
	if err := Board(&b, board, at.Add(2*time.Hour), false); err != nil {
		t.Fatal(err)
	}
	codes := map[string]string{"door": code.Derive(code.Identity(job, "door", 1, 0)).Grouped(), "porch": code.Derive(code.Identity(job, "porch", 1, 0)).Grouped()}
	want := "Heron Landing: 2 tickets, 0 finished, 1 held, 2 late; due 2027-03-01\n" +
		"shade  code          status   done  next step  time so far  remark\n" +
		"door   " + codes["door"] + "  held     2/3   Hang       45 min       late; no cloth, by bo\n" +
		"porch  " + codes["porch"] + "  waiting  0/3   Cut        -            late\n"
	if b.String() != want {
		t.Errorf("board is\n%swant\n%s", b.String(), want)
	}
}

func TestTook(t *testing.T) {
	tests := []struct {
		d    time.Duration
		want string
	}{ // by hand
		{0, "-"}, {-time.Second, "-"}, {300 * time.Millisecond, "1 s"}, {59 * time.Second, "59 s"}, {61 * time.Second, "1 min"},
		{135 * time.Minute, "2 h 15 min"}, {49*time.Hour + 30*time.Minute, "2 d 1 h"},
	}
	for _, tt := range tests {
		if got := Took(tt.d); got != tt.want {
			t.Errorf("Took(%s) = %q; want %q", tt.d, got, tt.want)
		}
	}
}
