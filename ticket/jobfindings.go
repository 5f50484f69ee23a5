package ticket

import (
	"cmp"
	"slices"

	"shadewright/ticket/finding"
)

// A JobFinding is a finding of one shade, or of several for which it says the same.
type JobFinding struct {
	finding.Finding
	Shades []*Shade // in the job's order
	Units  int      // of these shades
}

// JobFindings returns the findings of a job's tickets, each said once: worst first, then
// in the job's order.
func JobFindings(tickets []*Ticket) []JobFinding {
	var all []JobFinding
	place := map[finding.Report]int{}
	for _, t := range tickets {
		for i, says := range finding.Reports(t.Findings) {
			if _, known := place[says]; !known {
				place[says] = len(all)
				all = append(all, JobFinding{Finding: t.Findings[i]})
			}
			g := &all[place[says]]
			g.Units++
			if n := len(g.Shades); n == 0 || g.Shades[n-1].ID != t.Shade.ID {
				g.Shades = append(g.Shades, t.Shade)
			}
		}
	}
	slices.SortStableFunc(all, func(a, b JobFinding) int { return cmp.Compare(b.Level, a.Level) })
	return all
}

// UncheckedOf returns what could not be checked for a job, each said once.
func UncheckedOf(tickets []*Ticket) []JobFinding {
	return slices.DeleteFunc(JobFindings(tickets), func(g JobFinding) bool { return g.Level != finding.Unchecked })
}

// A ReportUnchecked is something that could not be checked, for programs.
type ReportUnchecked struct {
	finding.Report
	Shades []string `json:"shades"` // ids
	Units  int      `json:"units"`
}

// reportUnchecked returns what could not be checked for a job, for programs. It never
// returns nil.
func reportUnchecked(tickets []*Ticket) []ReportUnchecked {
	all := []ReportUnchecked{}
	for _, g := range UncheckedOf(tickets) {
		r := ReportUnchecked{Report: finding.Reports([]finding.Finding{g.Finding})[0], Units: g.Units}
		for _, s := range g.Shades {
			r.Shades = append(r.Shades, s.ID)
		}
		all = append(all, r)
	}
	return all
}
