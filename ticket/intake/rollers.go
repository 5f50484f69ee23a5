package intake

import (
	"fmt"
	"maps"
	"slices"

	"shadewright/ticket/jobfile"
)

// countRollers counts the rollers that the rows name. A list names a kind of roller, and
// not one roller, so each kind gets as many as the rows use. The notes say so, because a
// shop may have fewer.
func countRollers(f *jobfile.File) (notes []string) {
	used := map[string]int{}
	for _, s := range f.Job.Shades {
		used[s.Roller.Name] += s.Quantity
	}
	for _, name := range slices.Sorted(maps.Keys(used)) {
		r := f.Parts.Rollers[name]
		if r.Count == 0 || used[name] <= r.Count {
			continue
		}
		r.Count = used[name]
		f.Parts.Rollers[name] = r
		for i := range f.Job.Shades {
			if s := &f.Job.Shades[i]; s.Roller.Name == name {
				s.Roller.Count = r.Count
			}
		}
		notes = append(notes, fmt.Sprintf("the rows use roller %s %d times, so the job says that there are %d; correct its count if there are fewer", name, r.Count, r.Count))
	}
	return notes
}
