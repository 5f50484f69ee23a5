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

// A Record is where marks are kept, how they are judged, and what the bench
// sheet offers.
type Record struct {
	// At is the path of the store's file or the address of a PostgreSQL
	// database, which may hold a password; empty for the usual file.
	At        string
	Route     route.Route
	Order     mark.Order     // what is done about a step out of its turn
	Tolerance measure.Length // a panel off by no more passes
	Prefix    string         // what the scanner puts before each code; may be empty
	Suffix    string         // and after it
	People    []string
	Places    []string
	Holds     []string // reasons for a ticket to wait
	Spoilt    []string // reasons for a panel to be cut again
}

// A Server is how phones and the wall reach the record.
type Server struct {
	Listen    string // host:port while the server is not open to the network
	PIN       string // empty: one is made and kept in the data folder
	Cert, Key string // files of the shop's own certificate; both or neither
	Days      int    // how long a phone stays in
}

// Policy returns how marks are judged.
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
	const wish = "what benches ask for; common practice, no source"
	judging := mark.UsualPolicy()
	return []setting{
		{key("record.at", form.Text{Most: 400, Also: storeAddress}, "Where marks are kept: a file, or a PostgreSQL database as postgres://user@host/name.", "/srv/shop/marks.db",
			func(s *Settings) *string { return &s.Record.At }), none, "shadewright/marks.db in the user's data folder"},
		{key("record.out_of_order", orders, "Whether a step out of its turn is noted or refused.", string(mark.Note),
			func(s *Settings) *mark.Order { return &s.Record.Order }), string(judging.OutOfOrder), practice},
		{key("record.tolerance", form.Length{Most: 25 * mm}, "A panel off its width by no more than this passes; square.small and square.large hold for its diagonals.", "1/16 in",
			func(s *Settings) *measure.Length { return &s.Record.Tolerance }), judging.Tolerance.Exact(measure.Inches), practice},
		{key("route", steps{form.Text{Most: longestRoute}}, "The steps of the work in order: usual, the keys of usual steps, or a list of the shop's own.", "strip, cut, square, sew, hang",
			func(s *Settings) *route.Route { return &s.Record.Route }), usual, practice},
		{key("scanner.prefix", form.Text{Most: 20}, "What the shop's scanner puts before each code.", "Q",
			func(s *Settings) *string { return &s.Record.Prefix }), none, "as scanners come"},
		{key("scanner.suffix", form.Text{Most: 20}, "What the shop's scanner puts after each code, besides the end of the line.", "#",
			func(s *Settings) *string { return &s.Record.Suffix }), none, "as scanners come"},
		{key("bench.people", listed(), "Who works here: a code each on the bench sheet.", "ann, bo",
			func(s *Settings) *[]string { return &s.Record.People }), none, "nobody is known yet"},
		{key("bench.places", listed(), "The benches: a code each on the bench sheet.", "cutting table, machine 2",
			func(s *Settings) *[]string { return &s.Record.Places }), none, "no bench is known yet"},
		{key("bench.holds", listed(), "Reasons for a ticket to wait, on the bench sheet and the phone.", "no cloth, ask the client",
			func(s *Settings) *[]string { return &s.Record.Holds }), enumerated(mark.UsualHolds()), wish},
		{key("bench.spoilt", listed(), "Reasons for a panel to be cut again, on the bench sheet and the phone.", "cut wrong, stained",
			func(s *Settings) *[]string { return &s.Record.Spoilt }), enumerated(mark.UsualSpoilt()), wish},
	}
}

// enumerated is a list of reasons as a setting is written.
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
		{key("serve.listen", form.Text{Most: 100, Also: listen}, "Where the server answers, as host:port; serve --open answers at this port of every network.", "127.0.0.1:8080",
			func(s *Settings) *string { return &s.Server.Listen }), "127.0.0.1:8080", "this machine only, until it is opened"},
		{key("serve.pin", form.Text{Most: 32, Also: pin}, "What a phone is let in with. none: one is made and kept in the data folder.", "385201",
			func(s *Settings) *string { return &s.Server.PIN }), none, "one that is made cannot be guessed from the shop"},
		{key("serve.cert", form.Text{Most: file}, "The file of the shop's own certificate, for TLS.", "/srv/shop/cert.pem",
			func(s *Settings) *string { return &s.Server.Cert }), none, "few shops have one"},
		{key("serve.key", form.Text{Most: file}, "The file of the certificate's key, for TLS.", "/srv/shop/key.pem",
			func(s *Settings) *string { return &s.Server.Key }), none, "few shops have one"},
		{key("serve.days", form.Whole{Least: 1, Most: 400}, "How many days a phone stays in before it joins again.", "30",
			func(s *Settings) *int { return &s.Server.Days }), "30", practice},
	}
}

// shown is a value as the table of settings shows it: without secrets, and a
// route by its keys.
func shown(key, text string) string {
	switch {
	case key == "serve.pin" && text != none:
		return "(kept to itself)"
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

// quotable is a value as a message may repeat it.
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
		return &form.Fault{Problem: "is an address of " + scheme + ", which keeps no marks", Fix: "write the path of a file, or postgres://user@host/name"}
	}
	return nil
}

func listen(text string) *form.Fault {
	host, port, err := net.SplitHostPort(text)
	n, numErr := strconv.ParseUint(port, 10, 16)
	if err != nil || numErr != nil || host == "" || n == 0 && port != "0" {
		return &form.Fault{Problem: "is no address to listen at", Fix: "write host:port, for example 127.0.0.1:8080"}
	}
	return nil
}

// leastPIN is what a PIN must have for slowed tries to keep a guesser out: of a
// million, ten a minute take about a month to go through.
const leastPIN = 6

// pin judges a PIN without repeating it.
func pin(text string) *form.Fault {
	if text == none {
		return nil
	}
	const fix = "use six to 32 digits and letters, not one of them over and over"
	odd := strings.ContainsFunc(text, func(r rune) bool {
		return (r < '0' || r > '9') && (r < 'a' || r > 'z') && (r < 'A' || r > 'Z')
	})
	if len(text) < leastPIN || odd || strings.Trim(text, text[:1]) == "" {
		return &form.Fault{Problem: "is too easy, or has a mark that a phone hides", Fix: fix}
	}
	return nil
}

// orders are the words for what is done about a step out of its turn.
var orders = form.Word[mark.Order]{
	Words: []string{string(mark.Note), string(mark.Refuse)},
	Parse: func(s string) (mark.Order, bool) { return mark.Order(s), true },
}

// A list is words with commas between, or a list of them, and fills a *[]string.
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

// listed is the kind of a list of words, each of which fits the bench sheet.
func listed() list {
	return list{form.Text{Most: 2000, Also: func(text string) *form.Fault {
		if text == none {
			return nil
		}
		words := split(text)
		for i, w := range words {
			if w == "" || slices.Index(words, w) != i {
				return &form.Fault{Problem: fmt.Sprintf("has nothing or the same twice at place %d", i+1), Fix: "part the words with one comma, each word once"}
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
				Fault: form.Fault{Problem: "is not one word or phrase", Fix: "write one after each dash, without commas"}})
			return "", false
		}
		words = append(words, item.Text)
	}
	return strings.Join(words, ", "), true
}
