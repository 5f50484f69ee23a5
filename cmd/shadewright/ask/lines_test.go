package ask

import (
	"testing"

	"shadewright/ticket/interview"
)

// A line shows what an empty answer means: the earlier answer, else the default, else that
// the question is passed over.
func TestQuestionLine(t *testing.T) {
	for _, tt := range []struct {
		q    interview.Question
		want string
	}{
		{interview.Question{Ask: "How deep"}, "How deep?"},
		{interview.Question{Ask: "How deep", Optional: true}, "How deep? (Enter passes over)"},
		{interview.Question{Ask: "How deep", Optional: true, Was: interview.Pass}, "How deep? [passed over]"},
		{interview.Question{Ask: "How deep", Optional: true, Was: "4", Default: "5"}, "How deep? [4]"},
		{interview.Question{Ask: "Which", Choices: []string{"wall", "jamb"}, Default: "jamb"}, "Which? wall | jamb [jamb]"},
		{interview.Question{Ask: "Which", Choices: []string{"0  go on", "1  job: Hut"}, Rows: true, Default: "0  go on"}, "0  go on\n1  job: Hut\nWhich? [0  go on]"},
	} {
		if got := questionLine(tt.q); got != tt.want {
			t.Errorf("questionLine(%+v) = %q; want %q", tt.q, got, tt.want)
		}
	}
}

// A field that was emptied passes the question over, and a question mark behind an old
// answer asks for help.
func TestGiven(t *testing.T) {
	for _, tt := range []struct {
		q          interview.Question
		text, want string
	}{
		{interview.Question{Optional: true, Was: "4"}, " ", interview.Pass},
		{interview.Question{Optional: true, Was: "4"}, "5", "5"},
		{interview.Question{Was: "4"}, "", ""}, // the old answer stays: the question must have one
		{interview.Question{Optional: true}, "", ""},
		{interview.Question{Was: "4"}, "4?", Help},
		{interview.Question{}, "why?", "why?"},
	} {
		if got := given(tt.q, tt.text); got != tt.want {
			t.Errorf("given(%+v, %q) = %q; want %q", tt.q, tt.text, got, tt.want)
		}
	}
}
