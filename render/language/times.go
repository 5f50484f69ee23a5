package language

import (
	"fmt"
	"time"

	"shadewright/ticket/message"
)

// times tells times.
type times interface {
	tell(t message.Time) string
}

// Time returns a time as the language's readers write it.
func (l Language) Time(t message.Time) string {
	if l.when != nil {
		return l.when(t)
	}
	return l.its().times.tell(t)
}

// layouts are the forms of a time, by [message.Form], for package time.
type layouts [4]string

func (l layouts) tell(t message.Time) string { return t.Format(l[t.Form]) }

// Orders and clocks are those of Unicode CLDR (en, en-GB, en-US, es, es-MX,
// es-US; from memory), with months in words so that no day is taken for a month.
// English without a country keeps to the day first and 24 hours.
var (
	dayFirst   = layouts{"2 January", "2 January 2006", "15:04", "Mon 2 Jan, 15:04"}
	monthFirst = layouts{"January 2", "January 2, 2006", "3:04 PM", "Mon Jan 2, 3:04 PM"}

	spanishTimes  = inSpanish{clock: "15:04"}
	spanishTwelve = inSpanish{clock: "3:04", half: true}
)

// inSpanish tells times in Spanish: months and days have no capital, and "de"
// before month and year.
type inSpanish struct {
	clock string
	half  bool // a. m. or p. m. follows
}

func (s inSpanish) tell(t message.Time) string {
	day := fmt.Sprintf("%d de %s", t.Day(), spanishMonths[t.Month()-1])
	switch t.Form {
	case message.Clock:
		return s.hour(t.Time)
	case message.Date:
		return fmt.Sprintf("%s de %d", day, t.Year())
	case message.Stamp:
		return fmt.Sprintf("%s %d %.3s, %s", spanishDays[t.Weekday()], t.Day(), spanishMonths[t.Month()-1], s.hour(t.Time))
	}
	return day
}

func (s inSpanish) hour(t time.Time) string {
	words := t.Format(s.clock)
	if !s.half {
		return words
	}
	// The spaces do not break: Ortografía de la lengua española, 2010.
	if t.Hour() < 12 {
		return words + "\u00a0a.\u00a0m."
	}
	return words + "\u00a0p.\u00a0m."
}

var (
	spanishMonths = [12]string{"enero", "febrero", "marzo", "abril", "mayo", "junio", "julio", "agosto", "septiembre", "octubre", "noviembre", "diciembre"}
	spanishDays   = [7]string{"dom", "lun", "mar", "mié", "jue", "vie", "sáb"}
)
