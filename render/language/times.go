package language

import (
	"fmt"
	"strings"
	"time"

	"shadewright/ticket/message"
)

// Time returns a time in the form that the language's readers use.
func (l Language) Time(t message.Time) string {
	if l.when != nil {
		return l.when(t)
	}
	return l.orEnglish().times.tell(t)
}

// A calendar writes dates and times in the forms that Unicode CLDR has for a
// country. The table testdata/cldr.tsv has the CLDR data, and a test compares
// every form with it. Every form has the month in words, so that nobody
// confuses day and month.
type calendar struct {
	months *[12]string
	short  *[12]string
	days   *[7]string

	// Patterns in CLDR's letters: d, MMM, MMMM, y, E; HH, H and h; mm; a. See
	// [calendar.write].
	dayMonth, date, stampDate, clock string
	morning, afternoon               string
}

func (c calendar) tell(t message.Time) string {
	switch t.Detail {
	case message.Clock:
		return c.write(c.clock, t.Time)
	case message.Date:
		return c.write(c.date, t.Time)
	case message.Stamp:
		return c.write(c.stampDate, t.Time) + ", " + c.write(c.clock, t.Time)
	}
	return c.write(c.dayMonth, t.Time)
}

// write fills in a pattern. Quoted letters, and characters that are not
// letters, stay as they are.
func (c calendar) write(pattern string, t time.Time) string {
	var b strings.Builder
	for i := 0; i < len(pattern); {
		if pattern[i] == '\'' {
			n := strings.IndexByte(pattern[i+1:], '\'')
			b.WriteString(pattern[i+1 : i+1+n])
			i += n + 2
			continue
		}
		n := i + 1
		for n < len(pattern) && pattern[n] == pattern[i] {
			n++
		}
		b.WriteString(c.field(pattern[i:n], t))
		i = n
	}
	return b.String()
}

// field returns the value for a run of one letter, or the run itself if it is
// not a field.
func (c calendar) field(run string, t time.Time) string {
	switch run {
	case "d":
		return fmt.Sprint(t.Day())
	case "MMM":
		return c.short[t.Month()-1]
	case "MMMM":
		return c.months[t.Month()-1]
	case "y":
		return fmt.Sprint(t.Year())
	case "E":
		return c.days[t.Weekday()]
	case "H":
		return fmt.Sprint(t.Hour())
	case "HH":
		return t.Format("15")
	case "h":
		return t.Format("3")
	case "mm":
		return t.Format("04")
	case "a":
		if t.Hour() < 12 {
			return c.morning
		}
		return c.afternoon
	}
	return run
}

// A no-break space keeps AM or PM with its hour. For some of these languages
// CLDR has a narrow no-break space, which some screen fonts cannot show.
const nbsp = "\u00a0"

// The calendars of CLDR 48. In CLDR, English without a country is that of the
// United States, and Spanish without a country that of Spain.
var (
	usEnglish = calendar{
		months: &englishMonths, short: &englishShort, days: &englishDays,
		dayMonth: "MMMM d", date: "MMMM d, y", stampDate: "E, MMM d",
		clock: "h:mm" + nbsp + "a", morning: "AM", afternoon: "PM",
	}
	ukEnglish = calendar{
		months: &englishMonths, short: &britishShort, days: &englishDays,
		dayMonth: "d MMMM", date: "d MMMM y", stampDate: "E d MMM", clock: "HH:mm",
	}
	spainSpanish = calendar{
		months: &spanishMonths, short: &spanishShort, days: &spanishDays,
		dayMonth: "d 'de' MMMM", date: "d 'de' MMMM 'de' y", stampDate: "E, d MMM", clock: "H:mm",
	}
	mexicoSpanish = calendar{
		months: &spanishMonths, short: &mexicanShort, days: &spanishDays,
		dayMonth: "d 'de' MMMM", date: "d 'de' MMMM 'de' y", stampDate: "E d 'de' MMM",
		clock: "h:mm" + nbsp + "a", morning: "a.m.", afternoon: "p.m.",
	}
	usSpanish = calendar{
		months: &spanishMonths, short: &spanishShort, days: &spanishDays,
		dayMonth: "d 'de' MMMM", date: "d 'de' MMMM 'de' y", stampDate: "E, d 'de' MMM",
		clock: "h:mm" + nbsp + "a", morning: "a.m.", afternoon: "p.m.",
	}
)

var (
	englishMonths = [12]string{"January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"}
	englishShort  = [12]string{"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"}
	britishShort  = [12]string{"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sept", "Oct", "Nov", "Dec"}
	englishDays   = [7]string{"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"}

	spanishMonths = [12]string{"enero", "febrero", "marzo", "abril", "mayo", "junio", "julio", "agosto", "septiembre", "octubre", "noviembre", "diciembre"}
	spanishShort  = [12]string{"ene", "feb", "mar", "abr", "may", "jun", "jul", "ago", "sept", "oct", "nov", "dic"}
	mexicanShort  = [12]string{"ene", "feb", "mar", "abr", "may", "jun", "jul", "ago", "sep", "oct", "nov", "dic"}
	spanishDays   = [7]string{"dom", "lun", "mar", "mié", "jue", "vie", "sáb"}
)
