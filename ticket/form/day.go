package form

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
)

// monthNames are the beginnings of months in English and Spanish; three letters tell
// them apart.
var monthNames = [][]string{
	{"january", "enero"}, {"february", "febrero"}, {"march", "marzo"}, {"april", "abril"}, {"may", "mayo"}, {"june", "junio"},
	{"july", "julio"}, {"august", "agosto"}, {"september", "setiembre", "septiembre"}, {"october", "octubre"}, {"november", "noviembre"}, {"december", "diciembre"},
}

var (
	dayWords = regexp.MustCompile(`[\pL]+|[0-9]+`)
	ordinals = []string{"st", "nd", "rd", "th", "º"}
)

const fixDay = "write for example June 5, 5 June 2027 or 2027-06-05"

// Day reads a date as people write it: June 5, 5 June 2027, 5 de junio, 6/25/2027 or
// 2027-06-05. A date without a year is the next such day from today. Day refuses a
// date that could be two, and says both.
func Day(text string, today time.Time) (time.Time, *Fault) {
	if t, err := time.Parse(time.DateOnly, strings.TrimSpace(text)); err == nil {
		return t, nil
	}
	var numbers []int
	month, firstIsYear := 0, false
	for i, w := range dayWords.FindAllString(strings.ToLower(text), -1) {
		n, err := strconv.Atoi(w)
		switch {
		case err == nil:
			firstIsYear = firstIsYear || len(numbers) == 0 && len(w) == 4
			numbers = append(numbers, n)
		case slices.Contains(ordinals, w) && i > 0, w == "de", w == "del", w == "of", w == "the", w == "el":
		case monthOf(w) > 0 && month == 0:
			month = monthOf(w)
		default:
			return time.Time{}, &Fault{"is not a date", fixDay}
		}
	}
	switch {
	case month > 0 && len(numbers) == 1:
		return nextDay(month, numbers[0], today)
	case month > 0 && len(numbers) == 2 && firstIsYear:
		return calendarDay(numbers[0], month, numbers[1])
	case month > 0 && len(numbers) == 2:
		return calendarDay(numbers[1], month, numbers[0])
	case month == 0 && len(numbers) == 3 && firstIsYear:
		return calendarDay(numbers[0], numbers[1], numbers[2])
	case month == 0 && len(numbers) == 3:
		return eitherOrder(numbers[0], numbers[1], numbers[2])
	}
	return time.Time{}, &Fault{"is not a date", fixDay}
}

func monthOf(w string) int {
	for i, names := range monthNames {
		for _, n := range names {
			if len(w) >= 3 && strings.HasPrefix(n, w) {
				return i + 1
			}
		}
	}
	return 0
}

// nextDay returns the next such day, today included.
func nextDay(month, day int, today time.Time) (time.Time, *Fault) {
	start := time.Date(today.Year(), today.Month(), today.Day(), 0, 0, 0, 0, time.UTC)
	for year := today.Year(); year < today.Year()+9; year++ { // 29 February may be eight years off
		if t, f := calendarDay(year, month, day); f == nil && !t.Before(start) {
			return t, nil
		}
	}
	return time.Time{}, &Fault{"is not in the calendar", fixDay}
}

func calendarDay(year, month, day int) (time.Time, *Fault) {
	if year < 100 {
		year += 2000
	}
	t := time.Date(year, time.Month(month), day, 0, 0, 0, 0, time.UTC)
	switch {
	case t.Year() != year || int(t.Month()) != month || t.Day() != day:
		return time.Time{}, &Fault{"is not in the calendar", fixDay}
	case year < 2000 || year > 2199:
		return time.Time{}, &Fault{"is not between 2000 and 2199", "check the year"}
	}
	return t, nil
}

// eitherOrder reads day and month in either order, if only one order is a date.
func eitherOrder(a, b, year int) (time.Time, *Fault) {
	monthFirst, bad := calendarDay(year, a, b)
	dayFirst, alsoBad := calendarDay(year, b, a)
	switch {
	case bad == nil && alsoBad == nil && a != b:
		return time.Time{}, &Fault{fmt.Sprintf("could be %s or %s", LongDay(monthFirst), LongDay(dayFirst)),
			fmt.Sprintf("write %s or %s", monthFirst.Format(time.DateOnly), dayFirst.Format(time.DateOnly))}
	case bad == nil:
		return monthFirst, nil
	case alsoBad == nil:
		return dayFirst, nil
	}
	return time.Time{}, bad
}

// LongDay writes a date so that nobody can mistake it: Saturday, 5 June 2027.
func LongDay(t time.Time) string { return t.Format("Monday, 2 January 2006") }
