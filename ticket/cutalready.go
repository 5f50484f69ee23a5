package ticket

import (
	"encoding/json"
	"strconv"

	"shadewright/ticket/message"
)

// Place returns the place on the cut plan that a paper showed. The rest of the place is
// not printed, so it stays open. A paper without one gives the zero place.
func (p Printed) Place(goods string) PlanPlace {
	at := PlanPlace{}
	for _, v := range p.Values {
		switch v.Key {
		case "plan.piece":
			var s message.Stored
			if json.Unmarshal([]byte(v.Text), &s) == nil {
				at.On = s.String()
			}
		case "plan.section":
			at.Section, _ = strconv.Atoi(v.Text) // [Ticket.Printed] wrote it
		case "plan.cuts":
			n, _ := strconv.Atoi(v.Text)
			at.Cuts = append(at.Cuts, n)
		default:
			continue
		}
		at.Goods = goods
	}
	return at
}
