package language

import (
	"strings"
	"testing"

	xlanguage "golang.org/x/text/language"
	xmessage "golang.org/x/text/message"
	"golang.org/x/text/number"

	"shadewright/ticket/message"
)

// The decimal marks are those of Unicode CLDR, as in golang.org/x/text.
func TestDecimalMark(t *testing.T) {
	for _, name := range Names() {
		l, err := Named(name)
		if err != nil {
			t.Fatal(err)
		}
		tag, err := xlanguage.Parse(name) // BCP 47
		if err != nil {
			t.Fatal(err)
		}
		theirs := xmessage.NewPrinter(tag).Sprint(number.Decimal(1.5))
		if got, want := l.Comma(), theirs == "1,5"; got != want {
			t.Errorf("%s: comma %v; CLDR writes %q", name, got, theirs)
		}
	}
}

func TestNamed(t *testing.T) {
	if l, err := Named("ES-mx"); err != nil || l.Tag() != "es-MX" {
		t.Errorf("Named(ES-mx) = %s, %v; upper and lower case are the same in a tag (RFC 5646, 2.1.1)", l.Tag(), err)
	}
	_, err := Named("tlh")
	if want := `unknown language "tlh"; use en, en-GB, en-US, es, es-MX, es-US`; err == nil || err.Error() != want {
		t.Errorf("Named(tlh): %v; want %s", err, want)
	}
}

func TestSay(t *testing.T) {
	es, err := Named("es")
	if err != nil {
		t.Fatal(err)
	}
	list := message.List(message.Verbatim("a"), message.Verbatim("b"))
	if got := es.Put(list); got != "a y b" {
		t.Errorf("es: %q; want %q", got, "a y b")
	}
	if got := (Language{}).Put(list); got != "a and b" {
		t.Errorf("the zero language: %q; want English", got)
	}
	if got := es.Put(message.ReasonTerm.Term("Berth 4|x").Message()); got != "Berth 4|x" {
		t.Errorf("a shop's own word became %q", got)
	}
	loud := With(func(e message.ID) string { return strings.ReplaceAll(e.English(), "and", "AND") }, message.Time.String)
	if got := loud.Put(list); got != "a AND b" {
		t.Errorf("With: %q; want %q", got, "a AND b")
	}
}
