package terminal

import (
	"fmt"
	"io"
	"strings"

	"shadewright/ticket"
	"shadewright/ticket/measure"
)

// Rollers lists the roller of each shade, what is sawn off it, and the rollers that are
// left. It returns the first error of w.
func Rollers(w io.Writer, shades []ticket.Shade, a ticket.Assignment, style measure.Style) error {
	l := &lines{w: w, style: style}
	rows := [][]string{{"shade", "units", "roller", "chosen", "sawn off"}}
	for i := range shades {
		s := &shades[i]
		row := []string{s.ID, fmt.Sprint(s.Quantity), s.Roller.Name, "by the job", "-"}
		if one := a.Of(s); one != nil {
			row[3] = "by Shadewright"
			if !one.OK {
				row[2] = "none"
			} else if one.Sawn > 0 {
				row[4] = style.Format(one.Sawn)
			}
		}
		rows = append(rows, row)
	}
	l.table(rows)
	for _, one := range a.Shades {
		if !one.OK {
			l.print("%s: no roller works: %s\n", one.Shade.Called(), one.Why)
		}
	}
	if len(a.Left) > 0 {
		var names []string
		for _, r := range a.Left {
			names = append(names, r.Name)
		}
		l.print("left over: %s\n", strings.Join(names, ", "))
	}
	return l.err
}
