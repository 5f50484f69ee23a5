package ticket

import (
	"slices"
	"strings"

	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
	"shadewright/ticket/pairing"
)

// An Assignment says which roller each shade got that left the choice to the program.
type Assignment struct {
	Shades []Assigned
	Left   []Roller // the rollers that no shade uses, each as often as it is left
}

// An Assigned is one shade that left the choice open.
type Assigned struct {
	Shade *Shade
	OK    bool            // it got a roller
	Sawn  measure.Length  // off the tube of its roller; zero if that is set to length
	Why   message.Message // why it got none; zero if it got one
}

// AssignRollers gives each shade of a job that left the choice open one of the rollers, so
// that it works: its tube has the length, it clears what it must, its spring lifts it, and
// it does not sag too far. As many shades as possible get one; then as few as possible get
// one with a caution; then the least is sawn off. Package pairing proves that no choice is
// better. Rollers that other shades name are taken.
//
// A shade that gets none keeps no roller, and its ticket has a stop that says why.
func AssignRollers(job *Job, rollers []Roller, opt Options) (Assignment, error) {
	var a Assignment
	var open []*Shade
	taken := map[string]int{}
	for i := range job.Shades {
		if s := &job.Shades[i]; s.AnyRoller {
			open = append(open, s)
		} else {
			taken[s.Roller.Name] += s.Quantity
		}
	}
	single := singles(rollers, taken, len(open))
	if len(open) == 0 {
		a.Left = single
		return a, nil
	}
	cost := make([][]int64, len(open))
	why := make([][]message.Message, len(open)) // of each roller that does not work
	for i, s := range open {
		cost[i], why[i] = make([]int64, len(single)), make([]message.Message, len(single))
		for j, r := range single {
			if j > 0 && r.Name == single[j-1].Name {
				cost[i][j], why[i][j] = cost[i][j-1], why[i][j-1]
				continue
			}
			var err error
			if cost[i][j], why[i][j], err = tryRoller(job, s, r, opt); err != nil {
				return a, err
			}
		}
	}
	best := pairing.Least(cost)
	used := make([]bool, len(single))
	for i, s := range open {
		one := Assigned{Shade: s}
		if j := best.Of[i]; j >= 0 {
			used[j] = true
			s.Roller, s.NoRoller = single[j], nil
			one.OK, one.Sawn = true, measure.Length(cost[i][j]%dearer)
		} else {
			one.Why = whyNone(single, cost[i], why[i])
			s.Roller, s.NoRoller = Roller{}, &one.Why
		}
		a.Shades = append(a.Shades, one)
	}
	for j, r := range single {
		if !used[j] {
			a.Left = append(a.Left, r)
		}
	}
	return a, nil
}

// singles lists each roller as often as it is free, at most as often as shades need one.
func singles(rollers []Roller, taken map[string]int, need int) (list []Roller) {
	for _, r := range rollers {
		free := r.Count - taken[r.Name]
		if r.Count == 0 {
			free = need
		}
		for range max(0, free) {
			list = append(list, r)
		}
	}
	return list
}

// dearer is what a caution about the roller costs, in nanometres: more than all that can be
// sawn off the rollers of a hundred shades.
const dearer = int64(2000) * int64(measure.Metre)

// tryRoller returns what it costs to hang a shade on a roller, or why it does not work.
func tryRoller(job *Job, s *Shade, r Roller, opt Options) (cost int64, why message.Message, err error) {
	one, shade := *job, *s
	shade.Roller, shade.AnyRoller, shade.Quantity = r, false, 1
	shade.Roller.Count = 0
	one.Shades = []Shade{shade}
	opt.Remake = nil
	tickets, err := Make(&one, opt)
	if err != nil {
		return 0, message.Message{}, err
	}
	t := tickets[0]
	if r.Shortest == 0 {
		cost = int64(max(0, r.Longest-t.Cut.Tube))
	}
	for _, f := range t.Findings {
		switch {
		case f.Level == finding.Stop && dependsOnRoller(f.Field):
			return pairing.Never, f.Text, nil
		case f.Level == finding.Caution && dependsOnRoller(f.Field):
			return cost + dearer, message.Message{}, nil
		}
	}
	return cost, message.Message{}, nil
}

// dependsOnRoller reports whether another roller could mend a finding. A pocket too small
// for its slat is as bad on every roller.
func dependsOnRoller(field string) bool {
	return field == "roller" || strings.HasPrefix(field, "roller.") || strings.HasPrefix(field, "opening.") ||
		field == "bracket.projection" || field == "allow.wrap"
}

// whyNone says for each roller, once, why a shade did not get it.
func whyNone(single []Roller, cost []int64, why []message.Message) message.Message {
	var list []message.Message
	var names []string
	for j, r := range single {
		if slices.Contains(names, r.Name) {
			continue
		}
		names = append(names, r.Name)
		if cost[j] == pairing.Never {
			list = append(list, message.Of("ticket.roller-fails", r.Name, why[j]))
		} else {
			list = append(list, message.Of("ticket.roller-given-away", r.Name))
		}
	}
	if list == nil {
		return message.Of("ticket.no-roller-left")
	}
	return message.Join("; ", list...)
}

// Of returns what became of a shade that left its roller open, or nil.
func (a Assignment) Of(s *Shade) *Assigned {
	for i := range a.Shades {
		if a.Shades[i].Shade.ID == s.ID {
			return &a.Shades[i]
		}
	}
	return nil
}

// A RollersReport is an assignment for programs.
type RollersReport struct {
	Shades []RollerOf `json:"shades"`
	Left   []string   `json:"left_over"` // names of rollers
}

// A RollerOf is the roller of one shade.
type RollerOf struct {
	ID     string  `json:"id"`
	Roller string  `json:"roller,omitempty"` // left out if none works
	Chosen bool    `json:"chosen"`           // by the program
	Sawn   float64 `json:"sawn_mm"`          // off a roller that the program chose
	Why    string  `json:"why,omitempty"`    // why none works
}

// ReportRollers returns the rollers of a job's shades for programs.
func ReportRollers(shades []Shade, a Assignment) RollersReport {
	r := RollersReport{Left: []string{}}
	for i := range shades {
		one := RollerOf{ID: shades[i].ID, Roller: shades[i].Roller.Name}
		if c := a.Of(&shades[i]); c != nil {
			one.Chosen, one.Sawn, one.Why = true, c.Sawn.Millimetres(), c.Why.String()
		}
		r.Shades = append(r.Shades, one)
	}
	for _, l := range a.Left {
		r.Left = append(r.Left, l.Name)
	}
	return r
}
