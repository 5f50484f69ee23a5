package interview

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"

	"github.com/google/uuid"
)

type answer struct {
	Key  string `json:"key"`
	Text string `json:"text"`
}

// saved is an interview on disk.
type saved struct {
	Note    string    `json:"note"`
	ID      uuid.UUID `json:"id"`
	Answers []answer  `json:"answers"`
}

// Save returns the data from which [Resume] continues: the answers in use, in the
// order of their questions, then those that no question uses at present.
func (v *Interview) Save() ([]byte, error) {
	s := saved{Note: "The answers to shadewright new so far; run it again to continue.", ID: v.opt.ID}
	used := map[string]bool{}
	for _, a := range v.now.seen {
		if text, ok := v.answers[a.Key]; ok {
			used[a.Key] = true
			s.Answers = append(s.Answers, answer{a.Key, text})
		}
	}
	for _, key := range slices.Sorted(maps.Keys(v.answers)) {
		if !used[key] {
			s.Answers = append(s.Answers, answer{key, v.answers[key]})
		}
	}
	data, err := json.MarshalIndent(s, "", "  ")
	return append(data, '\n'), err
}

// Resume continues a saved interview for a new job. Answers that no longer fit their
// questions are asked again.
func Resume(data []byte, opt Options) (*Interview, error) {
	var s saved
	if err := json.Unmarshal(data, &s); err != nil {
		return nil, fmt.Errorf("is not a saved interview: %w", err)
	}
	opt.ID = s.ID
	v := New(opt)
	for _, a := range s.Answers {
		v.answers[a.Key] = a.Text
	}
	v.now = v.walk()
	return v, nil
}
