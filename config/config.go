// Package config is how the shop works: allowances, sewing, limits, paper,
// margins, rounding, tags, codes and the printer's correction. One table lists
// every setting with its built-in value and the reason for it (table.go).
//
// A setting comes from, first to last: a flag, an environment variable that
// begins with SHADEWRIGHT_, shop.yaml beside the job, shop.yaml in the user's
// own folder, the built-in value. [Load] reads and judges all of them; what it
// returns are plain values. Lengths always carry their unit. No file is ever
// made.
package config

import (
	"errors"
	"io/fs"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/viper"

	"shadewright/ticket"
	"shadewright/ticket/buying"
	"shadewright/ticket/form"
	"shadewright/ticket/measure"
)

const (
	// FileName is what a settings file is called.
	FileName = "shop.yaml"
	// EnvPrefix begins the name of each environment variable that is a setting:
	// SHADEWRIGHT_ALLOW_WRAP is allow.wrap.
	EnvPrefix = "SHADEWRIGHT_"
)

// Options says where settings come from. Each may be left empty.
type Options struct {
	JobDir  string            // the folder of the job: its shop.yaml is read if there is one
	UserDir string            // the program's folder among the user's settings: the same
	File    string            // a settings file that was asked for: read instead of the one beside the job
	Environ []string          // the environment as NAME=value, see [os.Environ]
	Flags   map[string]string // key to value, as given by --set
	Papers  []string          // the names of paper that are known; nil: any
	// Languages are those that paper and phone can be in; nil means English only.
	Languages []Language
}

// A Language is one that paper and phone can be in.
type Language struct {
	Tag   string // of BCP 47
	Comma bool   // its decimal mark is a comma
}

// Settings is how the shop works.
type Settings struct {
	Language string
	Paper    form.Sheet
	// TemplatePaper is what the marking template is printed on; empty for Paper.
	TemplatePaper form.Sheet
	Margins       Margins        // of every sheet
	Overlap       measure.Length // of neighbouring sheets of a template
	Rounding      Rounding
	Address       string // HTTP://HOST:PORT in capitals; empty for bare codes
	Bars          bool   // a Code 128 is printed as well
	Labels        Labels
	Printer       Printer
	// TemplatePrinter prints the marking template; without a name none was measured.
	TemplatePrinter Printer
	Allow           ticket.Allow
	Sewing          ticket.Sewing
	Limits          ticket.Limits
	Cutting         Cutting
	Buying          buying.Shop
	Record          Record
	Server          Server

	units measure.System
	rules [2]ticket.Rules // for inches and for millimetres
	rows  []Row
}

// Margins is what is left free at the edges of a sheet.
type Margins struct{ Left, Right, Top, Bottom measure.Length }

// A Rounding is the finest length that is printed.
type Rounding struct {
	Denominator int            // of an inch: 8, 16, 32 or 64
	Metric      measure.Length // step in millimetres
	Comma       bool           // the decimal mark is a comma
}

// Labels is how tags lie on their sheet.
type Labels struct {
	Single        bool           // one at a time, Width × Height; else a grid on Settings.Paper
	Width, Height measure.Length // of a single tag
	Rows, Columns int            // of the grid
	Margins       Margins        // around the grid
	GapX, GapY    measure.Length // between columns and between rows
}

// A Printer is the correction that one printer needs.
type Printer struct {
	Name string         // empty if none was measured
	X, Y measure.Factor // [measure.One] if it is true
}

// BuiltIn is where a value comes from that nobody set.
const BuiltIn = "built-in"

// A Row is one setting as it holds.
type Row struct {
	Key, Value string // as it would be written; an empty value is not set
	From       string // BuiltIn, shop.yaml:12, environment SHADEWRIGHT_X, flag --set x
	Doc        string // what it means
	Reason     string // where the built-in value comes from
}

// Table returns every setting, its value and where it comes from.
func (s Settings) Table() []Row { return slices.Clone(s.rows) }

// row returns the setting of a key as it holds.
func (s Settings) row(key string) Row {
	for _, r := range s.rows {
		if r.Key == key {
			return r
		}
	}
	return Row{Key: key, From: BuiltIn}
}

// ByFlag reports whether a setting was given on the command line.
func (s Settings) ByFlag(key string) bool {
	return slices.ContainsFunc(s.rows, func(r Row) bool { return r.Key == key && strings.HasPrefix(r.From, "flag ") })
}

// Units returns what a new job is measured in; undeclared if each job says.
func (s Settings) Units() measure.System { return s.units }

// Style returns how lengths are printed in a unit system.
func (s Settings) Style(u measure.System) measure.Style {
	return measure.Style{System: u, Denominator: s.Rounding.Denominator, Metric: s.Rounding.Metric, Comma: s.Rounding.Comma}
}

// Practice returns what holds where a job says nothing.
func (s Settings) Practice() ticket.Practice {
	return ticket.Practice{Units: s.Units(), Style: s.Style, Allow: s.Allow, Sewing: s.Sewing, Limits: s.Limits, Rules: s.Rules}
}

// Load returns the settings. The error is a [form.Problems] with everything
// that is wrong, or the system's if a file cannot be read.
func Load(opt Options) (Settings, error) {
	rows := table(opt)
	layers, problems, err := gather(rows, opt)
	if err != nil {
		return Settings{}, err
	}
	for _, l := range layers {
		problems = append(problems, judge(rows, l)...)
	}
	if len(problems) > 0 {
		return Settings{}, problems
	}
	v, err := stack(rows, layers)
	if err != nil {
		return Settings{}, err
	}
	s, err := settle(rows, layers, v)
	if s.row("rounding.comma").Value == byLanguage {
		s.Rounding.Comma = opt.comma(s.Language)
	}
	return s, err
}

// byLanguage leaves the decimal mark to the language.
const byLanguage = "language"

// comma reports whether a language's decimal mark is a comma.
func (o Options) comma(tag string) bool {
	return slices.ContainsFunc(o.Languages, func(l Language) bool { return l.Tag == tag && l.Comma })
}

// tags lists the languages that are known.
func (o Options) tags() []string {
	if o.Languages == nil {
		return []string{"en"}
	}
	var tags []string
	for _, l := range o.Languages {
		tags = append(tags, l.Tag)
	}
	return tags
}

// gather reads the layers, the one that matters least first.
func gather(rows []setting, opt Options) ([]layer, form.Problems, error) {
	shop, must := opt.File, true
	if shop == "" && opt.JobDir != "" {
		shop, must = filepath.Join(opt.JobDir, FileName), false
	}
	var layers []layer
	var problems form.Problems
	add := func(l layer, bad form.Problems) {
		layers = append(layers, l)
		problems = append(problems, bad...)
	}
	if opt.UserDir != "" {
		l, bad, err := fileLayer(rows, filepath.Join(opt.UserDir, FileName), false)
		if err != nil {
			return nil, nil, err
		}
		add(l, bad)
	}
	if shop != "" {
		l, bad, err := fileLayer(rows, shop, must)
		if err != nil {
			return nil, nil, err
		}
		add(l, bad)
	}
	add(envLayer(rows, opt.Environ))
	add(flagLayer(rows, opt.Flags))
	return layers, append(problems, adoptPrinters(layers)...), nil
}

// stack lays the layers over each other. A layer further down hides what is
// above it.
func stack(rows []setting, layers []layer) (*viper.Viper, error) {
	v := viper.New()
	for _, r := range rows {
		v.SetDefault(r.Name, r.builtIn)
	}
	for _, l := range layers {
		if err := v.MergeConfigMap(l.nested()); err != nil {
			return nil, err
		}
	}
	return v, nil
}

// settle turns the texts that won into values.
func settle(rows []setting, layers []layer, v *viper.Viper) (Settings, error) {
	var s Settings
	for _, r := range rows {
		text, from := v.GetString(r.Name), BuiltIn
		for _, l := range layers {
			if e, ok := l[r.Name]; ok {
				from = e.from()
			}
		}
		s.rows = append(s.rows, Row{Key: r.Name, Value: shown(r.Name, text), From: from, Doc: r.Doc, Reason: r.reason})
		if text == "" {
			continue
		}
		if f := r.Kind.(form.Scalar).Set(text, measure.Undeclared, r.Into(&s)); f != nil {
			return Settings{}, form.Problems{{File: from, Field: r.Name, Value: text, Fault: *f}}
		}
	}
	s.Address = strings.TrimSuffix(strings.ToUpper(off(s.Address)), "/")
	s.Printer.Name = off(s.Printer.Name)
	s.TemplatePrinter.Name = off(s.TemplatePrinter.Name)
	s.Buying.Currency = off(s.Buying.Currency)
	s.Cutting.Record = off(s.Cutting.Record)
	s.Limits.Table = s.Cutting.Table
	for _, text := range []*string{&s.Record.At, &s.Record.Prefix, &s.Record.Suffix, &s.Server.PIN, &s.Server.Cert, &s.Server.Key} {
		*text = off(*text)
	}
	if (s.Server.Cert == "") != (s.Server.Key == "") {
		return Settings{}, form.Problems{{File: "settings", Field: "serve.cert", Fault: form.Fault{Problem: "and serve.key belong together", Fix: "set both, or neither"}}}
	}
	if bad := s.rule(); bad != nil {
		return Settings{}, bad
	}
	return s, nil
}

func off(text string) string {
	if text == none {
		return ""
	}
	return text
}

// An entry is a value as it was given, and where.
type entry struct {
	file, field string // for messages
	line        int
	text        string
}

// from names the place in the table of settings.
func (e entry) from() string {
	if e.line > 0 {
		return e.file + ":" + strconv.Itoa(e.line)
	}
	return e.file
}

// A layer is what one source sets, by key.
type layer map[string]entry

// nested returns the layer as groups in groups, which is what viper merges.
func (l layer) nested() map[string]any {
	out := map[string]any{}
	for name, e := range l {
		at := out
		group, rest, more := strings.Cut(name, ".")
		for more {
			next, ok := at[group].(map[string]any)
			if !ok {
				next = map[string]any{}
				at[group] = next
			}
			at = next
			group, rest, more = strings.Cut(rest, ".")
		}
		at[group] = e.text
	}
	return out
}

// judge returns what is wrong with the values of a layer, in the order of the
// table. Values that another layer hides are judged as well.
func judge(rows []setting, l layer) form.Problems {
	var out form.Problems
	for _, r := range rows {
		e, ok := l[r.Name]
		if !ok {
			continue
		}
		if strings.TrimSpace(e.text) == "" {
			out = append(out, form.Problem{File: e.file, Line: e.line, Field: e.field, Fault: form.Fault{Problem: "is empty", Fix: "give it a value, or leave it out"}})
			continue
		}
		var unused Settings
		if f := r.Kind.(form.Scalar).Set(e.text, measure.Undeclared, r.Into(&unused)); f != nil {
			out = append(out, form.Problem{File: e.file, Line: e.line, Field: e.field, Value: quotable(r.Name, e.text), Fault: *f})
		}
	}
	return out
}

// fileLayer reads a settings file. A file that need not be there may be missing
// or empty.
func fileLayer(rows []setting, path string, must bool) (layer, form.Problems, error) {
	data, err := form.Load(path)
	var bad form.Problems
	switch {
	case !must && errors.Is(err, fs.ErrNotExist):
		return nil, nil, nil
	case errors.As(err, &bad):
		return nil, bad, nil
	case err != nil:
		return nil, nil, err
	}
	top, bad := form.Parse(path, data)
	if top == nil {
		return nil, bad, nil
	}
	f := &flattener{rows: rows, file: path, problems: bad, out: layer{}}
	f.walk(top, "")
	return f.out, f.problems, nil
}
