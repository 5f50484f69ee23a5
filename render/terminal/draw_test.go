package terminal

import (
	"strings"
	"testing"
)

// The panel's lines are drawn from the top down. The lengths follow by hand
// from the sample's sizes: 37 + 9 + 5/8 + 1-3/8 = 48; 5/8 + 2 × 1-3/8 = 3-3/8, less
// 1/8 for the stitch row 3-1/4; 5/8 + 1-3/8 = 2; 2 × 5/8 = 1-1/4.
func TestDraw(t *testing.T) {
	job, tickets := sample(t)
	var b strings.Builder
	if err := Draw(&b, job, tickets); err != nil {
		t.Fatal(err)
	}
	got := b.String()
	var words []string
	for line := range strings.SplitSeq(got, "\n") {
		if i := strings.LastIndexAny(line, "|+"); i >= 0 && i+1 < len(line) {
			words = append(words, strings.TrimSpace(line[i+1:]))
		}
	}
	want := "48 in  top edge, at the tube; 3-3/8 in  pocket mark; 3-1/4 in  stitch row; 2 in  pocket fold; 1-1/4 in  hem mark; 5/8 in  hem fold; 0 in  raw edge"
	if strings.Join(words, "; ") != want {
		t.Errorf("the lines are %q; want %q\n%s", strings.Join(words, "; "), want, got)
	}
	for line := range strings.SplitSeq(b.String(), "\n") {
		if len(line) > 100 || strings.TrimRight(line, " ") != line {
			t.Errorf("line %q", line)
		}
	}
	if n := strings.Count(got, "the panel laid flat"); n != 1 {
		t.Errorf("%d panels of two alike; want one", n)
	}
	tickets[0].Shade.Allow.SideHem = 10_000_000 // 10 mm = 0.394 in, 3/8 in to the nearest 1/16
	b.Reset()
	if err := Draw(&b, job, tickets[:1]); err != nil || !strings.Contains(b.String(), "| :    ") || !strings.Contains(b.String(), "  fold side hems of 3/8 in at the dotted lines\n") {
		t.Errorf("side hems are not drawn: %v\n%s", err, b.String())
	}
	if err := Draw(full{}, job, tickets); err == nil {
		t.Error("Draw does not report a full disk")
	}
}
