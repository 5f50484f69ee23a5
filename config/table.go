package config

import (
	"fmt"
	"slices"
	"strings"

	"shadewright/ticket"
	"shadewright/ticket/form"
	"shadewright/ticket/jobfile"
	"shadewright/ticket/measure"
)

// A setting is one row of the table: a key, its built-in value, and the reason
// for that value.
type setting struct {
	form.Key        // Into points into a *Settings; Kind is a form.Scalar
	builtIn  string // as written in a file; empty if there is none
	reason   string // where the built-in value comes from
}

const practice = "common practice, no source"

const none = "none" // the word that switches a setting off

const (
	in = measure.Inch
	mm = measure.Millimetre
)

// table returns every setting, for the accepted papers and languages. Lengths
// always carry their unit, because the user's file and the shop's file may use
// different ones.
func table(opt Options) []setting {
	rows := []setting{
		{key("units", unitWords, "Unit of a new job; job lets each job choose.", "in",
			func(s *Settings) *measure.System { return &s.units }), "job", "a job file names its own unit"},
		{key("language", form.Words(opt.tags()...), "Language of paper and phone pages, with a country where dates and decimals differ.", "en",
			func(s *Settings) *string { return &s.Language }), "en", practice},
		{key("paper", form.Paper{Names: opt.Papers}, "Paper in the printer, unless the job names another.", "a4",
			func(s *Settings) *form.PaperChoice { return &s.Paper }), "letter", practice},
		{key("template_paper", form.Paper{Names: opt.Papers, Rolls: true}, "Paper for full-scale sheets, if different. For the template alone it may be a copy shop's roll paper, named by its width.", "roll-36in",
			func(s *Settings) *form.PaperChoice { return &s.TemplatePaper }), "", "full-scale sheets use the same paper as all others"},
		{key("template", templateWords, "Parts of the template: both, bands alone, or the one-sheet gauge with only the bands that it cannot replace.", "gauge",
			func(s *Settings) *string { return &s.Template }), "both", "a band marks a whole panel at once, and a gauge fits beside it"},
	}
	rows = append(rows, pageRows()...)
	rows = append(rows, codeRows()...)
	rows = append(rows, labelRows()...)
	rows = append(rows, group("allow", jobfile.AllowKeys(), func(s *Settings) *ticket.Allow { return &s.Allow }, map[string]string{
		"wrap": "7 in", "hem": "1/2 in", "pocket": "1-1/4 in", "stitch_inset": "1/8 in", "side_hem": "0 in", "tube_over": "1/8 in", "slat_gap": "1/8 in",
	})...)
	rows = append(rows, group("sewing", jobfile.SewingKeys(), func(s *Settings) *ticket.Sewing { return &s.Sewing }, map[string]string{
		"stitch": "6 mm", "thread": "92", "needle": "", "backtack": "1/2 in", "waste": "10",
	})...)
	rows = append(rows, openingRows()...)
	return slices.Concat(rows, limitRows(), hangRows(), cuttingRows(), buyingRows(), priceRows(), labourRows(), recordRows(), serverRows())
}

var templateWords = form.Words("both", "bands", "gauge")

// Words for values that are not text.
var (
	unitWords = form.Word[measure.System]{Words: []string{"in", "mm", "job"}, Parse: func(s string) (measure.System, bool) {
		return map[string]measure.System{"in": measure.Inches, "mm": measure.Millimetres}[s], true // job: undeclared
	}}
	// Load replaces byLanguage once it knows the language.
	commaWords = form.Word[bool]{Words: []string{"yes", "no", byLanguage}, Parse: func(s string) (bool, bool) { return s == "yes", true }}
	sheetWords = form.Word[bool]{Words: []string{"grid", "single"}, Parse: func(s string) (bool, bool) { return s == "single", true }}
)

// key makes a key whose value is stored where pick points.
func key[V any](name string, kind form.Scalar, doc, example string, pick func(*Settings) *V) form.Key {
	return form.Key{Name: name, Kind: kind, Doc: doc, Example: example, Into: form.At(pick)}
}

// group makes rows for keys that a job file also has.
func group[T any](name string, keys []form.Key, pick func(*Settings) *T, builtIn map[string]string) []setting {
	rows := make([]setting, len(keys))
	for i, k := range keys {
		into := k.Into
		rows[i] = setting{k, builtIn[k.Name], practice}
		rows[i].Name = name + "." + k.Name
		rows[i].Into = func(s any) any { return into(pick(s.(*Settings))) }
	}
	return rows
}

func pageRows() []setting {
	margin := form.Length{Most: 50 * mm}
	// A rule of thumb calls 1/4 in safe for most printers; sample descriptions
	// of the Common UNIX Printing System need 1/2 in at the bottom (file
	// sample.drv: 36 pt).
	const reason = "safe on most printers: a rule of thumb, and the CUPS project's sample printer descriptions"
	step := form.Length{Least: mm / 10, Most: 5 * mm}
	factor := form.Factor(900_000, 1_100_000, "write a factor from 0.9 to 1.1; a page further off was scaled by the print dialog")
	return []setting{
		{key("margin.left", margin, "Strip at the left of a sheet that the printer cannot print.", "1/4 in",
			func(s *Settings) *measure.Length { return &s.Margins.Left }), "1/4 in", reason},
		{key("margin.right", margin, "Strip at the right of a sheet that the printer cannot print.", "1/4 in",
			func(s *Settings) *measure.Length { return &s.Margins.Right }), "1/4 in", reason},
		{key("margin.top", margin, "Strip at the top of a sheet that the printer cannot print.", "1/4 in",
			func(s *Settings) *measure.Length { return &s.Margins.Top }), "1/4 in", reason},
		{key("margin.bottom", margin, "Strip at the bottom of a sheet that the printer cannot print.", "1/2 in",
			func(s *Settings) *measure.Length { return &s.Margins.Bottom }), "1/2 in", reason},
		{key("overlap", form.Length{Least: 3 * mm, Most: 50 * mm}, "Overlap of neighbouring sheets of a template.", "10 mm",
			func(s *Settings) *measure.Length { return &s.Overlap }), "10 mm", practice},
		{key("rounding.denominator", form.Whole{Least: 8, Most: 64, Only: []int{8, 16, 32, 64}}, "Denominator of the finest printed fraction of an inch.", "16",
			func(s *Settings) *int { return &s.Rounding.Denominator }), "16", practice},
		{key("rounding.metric", step, "Finest printed step of a length in millimetres.", "0.5 mm",
			func(s *Settings) *measure.Length { return &s.Rounding.Metric }), "0.5 mm", practice},
		{key("rounding.comma", commaWords, "Whether decimals have a comma: yes, no, or language to follow the language on paper.", "no",
			func(s *Settings) *bool { return &s.Rounding.Comma }), byLanguage, "Unicode CLDR, the language's decimal mark"},
		{key("printer.name", form.Text{Most: 60}, "Printer that the correction was measured on.", "office",
			func(s *Settings) *string { return &s.Printer.Name }), none, "no printer has been measured yet"},
		{key("printer.x", factor, "Factor that stretches lengths across a sheet so that they print true.", "1.0031",
			func(s *Settings) *measure.Factor { return &s.Printer.X }), "1", "a printer that prints true"},
		{key("printer.y", factor, "Factor that stretches lengths down a sheet so that they print true.", "0.9984",
			func(s *Settings) *measure.Factor { return &s.Printer.Y }), "1", "a printer that prints true"},
		{key("template_printer.name", form.Text{Most: 60}, "Printer of the template, if different. Measure it first.", "plotter",
			func(s *Settings) *string { return &s.TemplatePrinter.Name }), none, "the template comes from the same printer; no plotter has been measured yet"},
		{key("template_printer.x", factor, "Factor that stretches lengths across its paper so that they print true.", "1.0004",
			func(s *Settings) *measure.Factor { return &s.TemplatePrinter.X }), "1", "a printer that prints true"},
		{key("template_printer.y", factor, "Factor that stretches lengths down its paper, in the direction of feed, so that they print true.", "1.0012",
			func(s *Settings) *measure.Factor { return &s.TemplatePrinter.Y }), "1", "a printer that prints true"},
	}
}

func codeRows() []setting {
	return []setting{
		{key("code.address", form.Text{Most: 60, Also: address}, "Address of the shop's own server, printed before each code; none prints the bare code.", "HTTP://192.168.1.20:8080",
			func(s *Settings) *string { return &s.Address }), none, "printing needs no server"},
		{key("code.bars", form.YesNo(), "Whether to print a Code 128 as well, for laser scanners.", "no",
			func(s *Settings) *bool { return &s.Bars }), "no", practice},
	}
}

func labelRows() []setting {
	side := form.Length{Least: 15 * mm, Most: 500 * mm}
	edge := form.Length{Most: 100 * mm}
	number := form.Whole{Least: 1, Most: 50}
	edges := []struct {
		name, doc, builtIn string
		pick               func(*Settings) *measure.Length
	}{
		{"left", "From the left edge of the sheet to the first column.", "1/4 in", func(s *Settings) *measure.Length { return &s.Labels.Margins.Left }},
		{"right", "From the last column to the right edge of the sheet.", "1/4 in", func(s *Settings) *measure.Length { return &s.Labels.Margins.Right }},
		{"top", "From the top edge of the sheet to the first row.", "1/2 in", func(s *Settings) *measure.Length { return &s.Labels.Margins.Top }},
		{"bottom", "From the last row to the bottom edge of the sheet.", "1/2 in", func(s *Settings) *measure.Length { return &s.Labels.Margins.Bottom }},
		{"gap_x", "Gap between columns.", "1/8 in", func(s *Settings) *measure.Length { return &s.Labels.GapX }},
		{"gap_y", "Gap between rows.", "0 in", func(s *Settings) *measure.Length { return &s.Labels.GapY }},
	}
	rows := []setting{
		{key("label.sheet", sheetWords, "Whether tags print in a grid on a sheet, or single on a roll.", "grid",
			func(s *Settings) *bool { return &s.Labels.Single }), "grid", practice},
		{key("label.rows", number, "Rows of tags on a sheet.", "5", func(s *Settings) *int { return &s.Labels.Rows }), "5", practice},
		{key("label.columns", number, "Columns of tags on a sheet.", "2", func(s *Settings) *int { return &s.Labels.Columns }), "2", practice},
		{key("label.width", side, "Width of a single tag.", "100 mm", func(s *Settings) *measure.Length { return &s.Labels.Width }), "4 in", practice},
		{key("label.height", side, "Height of a single tag.", "150 mm", func(s *Settings) *measure.Length { return &s.Labels.Height }), "6 in", practice},
	}
	for _, e := range edges {
		rows = append(rows, setting{key("label."+e.name, edge, e.doc, e.builtIn, e.pick), e.builtIn, practice})
	}
	return rows
}

func limitRows() []setting {
	return []setting{
		{key("limits.snug", form.Length{Most: 50 * mm}, "A pocket with less room to spare than this is called snug.", "1/16 in",
			func(s *Settings) *measure.Length { return &s.Limits.Snug }), "1/16 in", practice},
		{key("limits.longest_side", form.Length{Least: 10 * in, Most: 15_000 * mm}, "A shade wider or longer than this is treated as a mistake.", "16 ft",
			func(s *Settings) *measure.Length { return &s.Limits.LongestSide }), "16 ft", practice},
		{key("limits.trim_margin", form.Length{Most: 300 * mm}, "A telescoping tube this near the end of its range gets a note.", "1 in",
			func(s *Settings) *measure.Length { return &s.Limits.TrimMargin }), "1 in", practice},
	}
}

// addressMarks lists the characters that an address may have besides letters
// and digits: those of a host and port that QR's alphanumeric mode has (ISO/IEC
// 18004, table 5).
const addressMarks = "-.:"

// address checks the address of the shop's server. The address must be short
// and in capitals, so that the code's modules stay large enough to read.
func address(text string) *form.Fault {
	if text == none {
		return nil
	}
	const fix = "write for example HTTP://192.168.1.20:8080"
	scheme, host, ok := strings.Cut(strings.TrimSuffix(strings.ToUpper(text), "/"), "://")
	switch {
	case !ok || scheme != "HTTP" && scheme != "HTTPS":
		return &form.Fault{Problem: "is not the address of a server", Fix: fix}
	case strings.ContainsAny(host, "/?#"):
		return &form.Fault{Problem: "has a path after the server", Fix: fix}
	}
	odd := strings.IndexFunc(host, func(r rune) bool {
		return (r < '0' || r > '9') && (r < 'A' || r > 'Z') && !strings.ContainsRune(addressMarks, r)
	})
	if odd >= 0 {
		return &form.Fault{Problem: fmt.Sprintf("has %q, which does not fit the code", firstRune(host[odd:])), Fix: "use letters, digits, dots and dashes: " + fix}
	}
	name, port, hasPort := strings.Cut(host, ":")
	if name == "" || strings.Trim(name, ".-") != name {
		return &form.Fault{Problem: "has no server name", Fix: fix}
	}
	var n int
	if hasPort && (form.Whole{Least: 1, Most: 65535}).Set(port, measure.Undeclared, &n) != nil {
		return &form.Fault{Problem: "has an invalid port", Fix: "use a port from 1 to 65535"}
	}
	return nil
}

func firstRune(s string) string { return string([]rune(s)[:1]) }

// names returns the keys of the table.
func names(rows []setting) []string {
	out := make([]string, len(rows))
	for i, r := range rows {
		out[i] = r.Name
	}
	return out
}

func find(rows []setting, name string) *setting {
	i := slices.IndexFunc(rows, func(s setting) bool { return s.Name == name })
	if i < 0 {
		return nil
	}
	return &rows[i]
}
