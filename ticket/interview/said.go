package interview

import (
	"fmt"
	"strings"

	"shadewright/ticket"
	"shadewright/ticket/finding"
	"shadewright/ticket/form"
)

// whatChanged says what to cut for each shade that an answer completed or changed. A
// part that several shades share changes them all, and the last is said.
func (v *Interview) whatChanged(before *walk) []string {
	last := 0
	for n := range v.now.ids {
		if n > last && (before.ids[n] == "" || !sameShade(v.now, before, n)) {
			last = n
		}
	}
	if last == 0 {
		return nil
	}
	id := v.now.ids[last]
	said, err := v.whatToCut(id)
	if err != nil {
		return []string{err.Error()} // problems of the file, which say what to write
	}
	return said
}

func sameShade(a, b *walk, n int) bool {
	text := func(w *walk) string {
		for _, s := range w.shades {
			if textAt(s, "id") == w.ids[n] {
				top := keysNode()
				setAt(top, "shade", s)
				return string(form.Format(top, nil))
			}
		}
		return ""
	}
	return text(a) == text(b)
}

// whatToCut returns what to cut for a shade, and its findings.
func (v *Interview) whatToCut(id string) ([]string, error) {
	f, err := v.File()
	if err != nil {
		return nil, err
	}
	all, err := ticket.Make(&f.Job, ticket.Options{Limits: v.opt.Practice.Limits, Rules: v.opt.Practice.Rules})
	if err != nil {
		return nil, err
	}
	for _, t := range all {
		if t.Shade.ID == id {
			return v.cutLines(t), nil
		}
	}
	return nil, nil
}

func (v *Interview) cutLines(t *ticket.Ticket) []string {
	say := t.Job.Style.Format
	out := []string{fmt.Sprintf("%s is complete. Cut the panel %s wide and %s long, the tube %s, the slat %s.",
		t.Shade.ID, say(t.Cut.Width), say(t.Cut.Length), say(t.Cut.Tube), say(t.Cut.Slat))}
	var missing []string
	for _, n := range t.Findings {
		if n.Level == finding.Unchecked {
			missing = append(missing, n.Missing.String())
			continue // each was explained when its question was passed over
		}
		out = append(out, fmt.Sprintf("%s: %s; %s", n.Level, n.Text, n.Remedy))
	}
	if len(missing) > 0 {
		out = append(out, "still unchecked: "+strings.Join(missing, ", "))
	}
	if len(t.Findings) > 0 && t.Findings[0].Level == finding.Stop {
		out = append(out, "This shade cannot be made. List the answers to change one, or continue and change it later.")
	}
	return out
}
