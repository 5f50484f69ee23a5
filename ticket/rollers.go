package ticket

import (
	"fmt"
	"slices"

	"shadewright/ticket/finding"
	"shadewright/ticket/message"
)

// shareRollers stops the shades that need more of a roller than there are. A donor roller
// is a thing: two shades cannot hang on it.
func shareRollers(tickets []*Ticket) {
	needs := map[string][]*Ticket{}
	for _, t := range tickets {
		if t.Shade.NoRoller != nil {
			continue // it has none
		}
		needs[t.Shade.Roller.Name] = append(needs[t.Shade.Roller.Name], t)
	}
	for name, users := range needs {
		count := users[0].Shade.Roller.Count
		if count == 0 || len(users) <= count {
			continue
		}
		var units []message.Message
		for _, t := range users {
			units = append(units, t.Called())
		}
		f := finding.Finding{
			Level: finding.Stop, Field: "roller", Value: fmt.Sprint(len(users)), Limit: fmt.Sprint(count), Source: "the roller's count",
			Text:   message.Of("ticket.roller-shared", name, TimesText(count), message.Join("; ", units...)),
			Remedy: message.Of("ticket.fix-roller-shared", len(users)),
		}
		for _, t := range users {
			t.Findings = append(slices.Clip(t.Findings), f)
			finding.Sort(t.Findings)
		}
	}
}
