package config

import (
	"fmt"
	"net"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"shadewright/ticket/form"
	"shadewright/ticket/mark"
	"shadewright/ticket/mark/scan"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
	"shadewright/ticket/route"
)

// A Record holds the settings of the shop's record: where it is, how marks are
// judged, and what the bench sheet offers.
type Record struct {
	// At is the path of the record's file, or the address of a PostgreSQL
	// database, which may contain a password. Empty means the usual file.
	At        string
	Route     route.Route
	Order     mark.Order     // what to do about a step out of order
	Tolerance measure.Length // largest error of a panel that passes
	Prefix    string         // text that the scanner sends before each code; may be empty
	Suffix    string         // text that it sends after each code; may be empty
	People    []string
	Places    []string
	Holds     []string // reasons to hold a ticket
	Spoilt    []string // reasons a panel is spoilt
}

// A Server holds the settings of the server for phones and the wall screen.
type Server struct {
	Listen    string // host:port until the server is opened to the network
	PIN       string // if empty, the server creates one and keeps it in the data folder
	Cert, Key string // files of the shop's own certificate and its key; both or neither
	Days      int    // days until a phone must join again
}

// certificate returns the problem of a certificate without its key, or of a key
// without its certificate.
func (s *Settings) certificate() form.Problems {
	set, missing := "serve.cert", "serve.key"
	if s.Server.Cert == "" {
		set, missing = missing, set
	}
	if (s.Server.Cert == "") == (s.Server.Key == "") {
		return nil
	}
	return form.Problems{s.row(set).problem(form.Fault{Problem: "is set without " + missing, Fix: "set both, or neither"})}
}

// Policy returns the rules for judging marks.
func (s Settings) Policy() mark.Policy {
	system := s.Units()
	if system == measure.Undeclared {
		system = measure.Inches
	}
	return mark.Policy{
		OutOfOrder: s.Record.Order, Tolerance: s.Record.Tolerance, Style: s.Style(system),
		Square: s.Rules(system).Opening.Square,
	}
}

func recordRows() []setting {
	const wish = "reasons that benches need; common practice, no source"
	judging := mark.UsualPolicy()
	return []setting{
		{key("record.at", form.Text{Most: 400, Also: storeAddress}, "Where the record is: a file, or a PostgreSQL database as postgres://user@host/name.", "/srv/shop/marks.db",
			func(s *Settings) *string { return &s.Record.At }), none, "shadewright/marks.db in the user's data folder"},
		{key("record.out_of_order", orders, "What to do about a step out of order: note it or refuse it.", string(mark.Note),
			func(s *Settings) *mark.Order { return &s.Record.Order }), string(judging.OutOfOrder), practice},
		{key("record.tolerance", form.Length{Most: 25 * mm}, "Largest error in a panel's width that passes. Its diagonals follow square.small and square.large.", "1/16 in",
			func(s *Settings) *measure.Length { return &s.Record.Tolerance }), judging.Tolerance.Exact(measure.Inches), practice},
		{key("route", steps{form.Text{Most: longestRoute}}, "Steps of the work in order: usual, the keys of usual steps, or a list of the shop's own steps.", "strip, cut, square, sew, hang",
			func(s *Settings) *route.Route { return &s.Record.Route }), usual, practice},
		{key("scanner.prefix", form.Text{Most: 20}, "Text that the shop's scanner sends before each code.", "Q",
			func(s *Settings) *string { return &s.Record.Prefix }), none, "scanners send none unless set up to"},
		{key("scanner.suffix", form.Text{Most: 20}, "Text that the shop's scanner sends after each code, before the end of the line.", "#",
			func(s *Settings) *string { return &s.Record.Suffix }), none, "scanners send none unless set up to"},
		{key("bench.people", listed(), "People who work here. The bench sheet has a code for each.", "ann, bo",
			func(s *Settings) *[]string { return &s.Record.People }), none, "no people are named yet"},
		{key("bench.places", listed(), "Benches of the shop. The bench sheet has a code for each.", "cutting table, machine 2",
			func(s *Settings) *[]string { return &s.Record.Places }), none, "no benches are named yet"},
		{key("bench.holds", listed(), "Reasons to hold a ticket, on the bench sheet and the phone.", "no cloth, ask the client",
			func(s *Settings) *[]string { return &s.Record.Holds }), enumerated(mark.UsualHolds()), wish},
		{key("bench.spoilt", listed(), "Reasons a panel is spoilt, on the bench sheet and the phone.", "cut wrong, stained",
			func(s *Settings) *[]string { return &s.Record.Spoilt }), enumerated(mark.UsualSpoilt()), wish},
	}
}

// enumerated returns reasons in the form of a setting.
func enumerated(reasons []message.ID) string {
	list := make([]string, len(reasons))
	for i, r := range reasons {
		list[i] = r.English()
	}
	return strings.Join(list, ", ")
}

func serverRows() []setting {
	const file = 400
	return []setting{
		{key("serve.listen", form.Text{Most: 100, Also: listen}, "Address of the server, as host:port. With serve --open the server answers on this port in every network.", "127.0.0.1:8080",
			func(s *Settings) *string { return &s.Server.Listen }), "127.0.0.1:8080", "this machine only, until serve --open"},
		{key("serve.pin", form.Text{Most: 32, Also: pin}, "PIN that a phone joins with. With none the server creates one and keeps it in the data folder.", "385201",
			func(s *Settings) *string { return &s.Server.PIN }), none, "a random PIN cannot be guessed from facts about the shop"},
		{key("serve.cert", form.Text{Most: file}, "File of the shop's own TLS certificate.", "/srv/shop/cert.pem",
			func(s *Settings) *string { return &s.Server.Cert }), none, "few shops have one"},
		{key("serve.key", form.Text{Most: file}, "File of the TLS certificate's key.", "/srv/shop/key.pem",
			func(s *Settings) *string { return &s.Server.Key }), none, "few shops have one"},
		{key("serve.days", form.Whole{Least: 1, Most: 400}, "Days until a phone must join again.", "30",
			func(s *Settings) *int { return &s.Server.Days }), "30", practice},
	}
}

// shown returns a value for the table of settings, without secrets and with a
// route as its keys.
func shown(key, text string) string {
	switch {
	case key == "serve.pin" && text != none:
		return "(hidden)"
	case key == "record.at" && isPostgres(text):
		if u, err := url.Parse(text); err == nil {
			return u.Redacted()
		}
		return "postgres://…"
	case key == "route" && strings.HasPrefix(text, "["):
		var r route.Route
		if (steps{form.Text{Most: longestRoute}}).Set(text, measure.Undeclared, &r) == nil {
			return strings.Join(r.Keys(), ", ")
		}
	}
	return text
}

// quotable returns a value for an error message, without secrets.
func quotable(key, text string) string {
	if key == "serve.pin" {
		return ""
	}
	return shown(key, text)
}

func isPostgres(text string) bool {
	return strings.HasPrefix(text, "postgres://") || strings.HasPrefix(text, "postgresql://")
}

func storeAddress(text string) *form.Fault {
	scheme, _, found := strings.Cut(text, "://")
	if found && !isPostgres(text) {
		return &form.Fault{Problem: "is an address for " + scheme + ", which cannot hold the record", Fix: "write the path of a file, or postgres://user@host/name"}
	}
	return nil
}

func listen(text string) *form.Fault {
	host, port, err := net.SplitHostPort(text)
	n, numErr := strconv.ParseUint(port, 10, 16)
	if err != nil || numErr != nil || host == "" || n == 0 && port != "0" {
		return &form.Fault{Problem: "is not an address to listen on", Fix: "write host:port, for example 127.0.0.1:8080"}
	}
	return nil
}

// leastPIN is the length of a PIN that slowed attempts protect: at ten attempts
// a minute, a million PINs take about a month to try.
const leastPIN = 6

// pin checks a PIN without repeating it in the error.
func pin(text string) *form.Fault {
	if text == none {
		return nil
	}
	const fix = "use 6 to 32 digits and letters, not all of them the same"
	odd := strings.ContainsFunc(text, func(r rune) bool {
		return (r < '0' || r > '9') && (r < 'a' || r > 'z') && (r < 'A' || r > 'Z')
	})
	if len(text) < leastPIN || odd || strings.Trim(text, text[:1]) == "" {
		return &form.Fault{Problem: "is too easy to guess, or has a character other than a digit or a plain letter", Fix: fix}
	}
	return nil
}

// orders are the words for what to do about a step out of order.
var orders = form.Word[mark.Order]{
	Words: []string{string(mark.Note), string(mark.Refuse)},
	Parse: func(s string) (mark.Order, bool) { return mark.Order(s), true },
}

// A list is entries separated by commas, or a YAML list of them. It fills a
// *[]string.
type list struct{ form.Text }

// Set implements [form.Scalar].
func (k list) Set(text string, units measure.System, into any) *form.Fault {
	var words string
	if f := k.Text.Set(text, units, &words); f != nil {
		return f
	}
	if *into.(*[]string) = nil; words != none {
		*into.(*[]string) = split(words)
	}
	return nil
}

// listed is the kind of a list whose entries fit the bench sheet.
func listed() list {
	return list{form.Text{Most: 2000, Also: func(text string) *form.Fault {
		if text == none {
			return nil
		}
		words := split(text)
		for i, w := range words {
			if w == "" || slices.Index(words, w) != i {
				return &form.Fault{Problem: fmt.Sprintf("has an empty or repeated entry at place %d", i+1), Fix: "separate the entries with one comma, and write each entry once"}
			}
			if err := (scan.Control{Word: scan.By, Value: strings.ToLower(w)}).Check(); err != nil {
				return &form.Fault{Problem: "does not fit the bench sheet: " + err.Error(), Fix: "shorten it"}
			}
		}
		return nil
	}}}
}

func split(text string) []string {
	words := strings.Split(text, ",")
	for i, w := range words {
		words[i] = strings.TrimSpace(w)
	}
	return words
}

func (list) fromList(f *flattener, e form.Entry, name string) (string, bool) {
	var words []string
	for _, item := range e.Value.Items {
		if item.Shape != form.Plain || strings.Contains(item.Text, ",") {
			f.problems = append(f.problems, form.Problem{File: f.file, Line: item.Line, Field: name, Value: item.Text,
				Fault: form.Fault{Problem: "is not a single entry", Fix: "write one entry after each dash, without commas"}})
			return "", false
		}
		words = append(words, item.Text)
	}
	return strings.Join(words, ", "), true
}
