package intake

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"

	"shadewright/ticket/intake/grid"
)

// only returns the text of a row that has the same text in all its filled cells.
func only(row grid.Row) string {
	for _, c := range row.Cells {
		if c.Text != "" {
			return strings.TrimRight(c.Text, " :")
		}
	}
	return ""
}

// heads reports whether a row is the heading of a section, such as "Cabin 3" alone
// above the windows of that cabin. Its text must stand where the rows below it leave
// the cell empty, or where they only count: otherwise the row is a shade whose size
// was forgotten.
func (r *reader) heads(row grid.Row, below []grid.Row) bool {
	text := only(row)
	if !title(row) || text == "" || strings.IndexFunc(text, unicode.IsLetter) < 0 {
		return false
	}
	column := 0
	for row.At(column).Text == "" {
		column++
	}
	shades := 0
	for _, b := range below {
		if title(b) {
			break // the next section, or the end
		}
		if total(b) || r.empty(b) {
			continue
		}
		if cell := strings.TrimSuffix(b.At(column).Text, "."); cell != "" {
			if _, err := strconv.Atoi(cell); err != nil {
				return false
			}
		}
		shades++
	}
	return shades > 0
}

// add counts the units of a row.
func (r *reader) add(row grid.Row) {
	n := 1
	if m, ok := r.head.column("shades.quantity"); ok {
		if q, fault := wordText(m.Path, m.Heading, row.At(m.Column)); fault == nil {
			if v, err := strconv.Atoi(q); err == nil {
				n = v
			}
		}
	}
	r.count += n
	r.sinceTotal += n
}

// difference compares the quantity in a total with the rows above it. It returns what
// to say if they differ, and "" if they agree or the row has no quantity.
func (r *reader) difference(row grid.Row) string {
	m, ok := r.head.column("shades.quantity")
	if !ok {
		return ""
	}
	said, err := strconv.Atoi(strings.TrimSuffix(row.At(m.Column).Text, ".0"))
	if err != nil {
		return ""
	}
	since := r.sinceTotal
	r.sinceTotal = 0
	if said == r.count || said == since {
		return ""
	}
	return fmt.Sprintf("; it says %d, and the rows above it have %d: look for a row that is missing or counted twice", said, r.count)
}
