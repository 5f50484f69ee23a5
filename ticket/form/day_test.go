package form

import (
	"strings"
	"testing"
	"time"
)

// The days of the week are from the perpetual calendar: 5 June 2027 is a Saturday.
func TestDay(t *testing.T) {
	today := time.Date(2027, time.June, 5, 15, 0, 0, 0, time.UTC)
	for _, tt := range []struct{ text, want string }{
		{"2027-06-05", "2027-06-05"},
		{"June 5", "2027-06-05"}, // today counts
		{"June 4", "2028-06-04"},
		{"jun 5th", "2027-06-05"},
		{"5 June 2027", "2027-06-05"},
		{"June 5, 2027", "2027-06-05"},
		{"5 de junio de 2027", "2027-06-05"},
		{"12 ene", "2028-01-12"},
		{"3 sept 2027", "2027-09-03"},
		{"2027 June 5", "2027-06-05"},
		{"6/25/2027", "2027-06-25"},
		{"25.6.2027", "2027-06-25"},
		{"25/6/27", "2027-06-25"},
		{"6/6/2027", "2027-06-06"},
		{"2027/6/5", "2027-06-05"},
		{"29 February", "2028-02-29"}, // the next leap year
	} {
		got, fault := Day(tt.text, today)
		if fault != nil || got.Format(time.DateOnly) != tt.want {
			t.Errorf("Day(%q) = %v, %v; want %s", tt.text, got, fault, tt.want)
		}
	}
}

func TestDayRefused(t *testing.T) {
	for _, tt := range []struct{ text, problem, fix string }{
		{"6/5/2027", "could be Saturday, 5 June 2027 or Thursday, 6 May 2027", "write 2027-06-05 or 2027-05-06"},
		{"1.3.2027", "could be Sunday, 3 January 2027 or Monday, 1 March 2027", "write 2027-01-03 or 2027-03-01"},
		{"soon", "is not a date", "June 5"},
		{"31 June", "is not in the calendar", "June 5"},
		{"2027-02-30", "is not in the calendar", "June 5"},
		{"13/13/2027", "is not in the calendar", "June 5"},
		{"5 June 1999", "is not between 2000 and 2199", "check the year"},
		{"", "is not a date", "June 5"},
		{"June", "is not a date", "June 5"},
	} {
		got, fault := Day(tt.text, time.Date(2027, time.January, 1, 0, 0, 0, 0, time.UTC))
		if fault == nil || fault.Problem != tt.problem || !strings.Contains(fault.Fix, tt.fix) {
			t.Errorf("Day(%q) = %v, %+v; want %q; %q", tt.text, got, fault, tt.problem, tt.fix)
		}
	}
}
