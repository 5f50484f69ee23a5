// Package config reads the shop's settings: allowances, sewing, limits, paper,
// margins, rounding, tags, codes and the printer's correction. One table lists
// every setting with its built-in value and the reason for it (table.go).
//
// A setting can come from five places. The first of these that has a value
// wins: a flag, an environment variable that begins with SHADEWRIGHT_,
// shop.yaml beside the job, shop.yaml in the user's own folder, the built-in
// value. [Load] reads and judges all of them and returns plain values. Lengths
// always carry their unit. Load never writes a file.
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
	// FileName is the name of a settings file.
	FileName = "shop.yaml"
	// EnvPrefix begins the name of every environment variable that is a
	// setting: SHADEWRIGHT_ALLOW_WRAP sets allow.wrap.
	EnvPrefix = "SHADEWRIGHT_"
)

// Options says where settings come from. Every field may be empty.
type Options struct {
	JobDir  string            // folder of the job; its shop.yaml is read if it exists
	UserDir string            // the program's folder among the user's settings; its shop.yaml is read if it exists
	File    string            // settings file to read instead of the one beside the job; it must exist
	Environ []string          // the environment as NAME=value, see [os.Environ]
	Flags   map[string]string // values of --set by key
	Papers  []string          // names of paper to accept; nil accepts any
	// Languages that paper and phone pages can have; nil means English only.
	Languages []Language
}

// A Language of paper and phone pages.
type Language struct {
	Tag   string // as in BCP 47
	Comma bool   // the decimal mark is a comma
}

// Settings holds the values that every part of the program works with.
type Settings struct {
	Language string
	Paper    form.PaperChoice
	Template string // parts to print: both, bands or gauge
	// TemplatePaper is the paper of full-scale sheets; empty means Paper.
	TemplatePaper form.PaperChoice
	Margins       Margins        // of every sheet
	Overlap       measure.Length // of neighbouring sheets of a template
	Rounding      Rounding
	Address       string // HTTP://HOST:PORT in capitals; empty for bare codes
	Bars          bool   // print a Code 128 as well
	Labels        Labels
	Printer       Printer
	// TemplatePrinter prints the template; its name is empty if it was not
	// measured.
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

// Margins are the strips at the edges of a sheet that stay empty.
type Margins struct{ Left, Right, Top, Bottom measure.Length }

// A Rounding says how finely lengths are printed.
type Rounding struct {
	Denominator int            // of an inch: 8, 16, 32 or 64
	Metric      measure.Length // step of metric lengths
	Comma       bool           // the decimal mark is a comma
}

// Labels says how tags lie on their sheet.
type Labels struct {
	Single        bool           // one tag of Width × Height at a time; else a grid on Settings.Paper
	Width, Height measure.Length // of a single tag
	Rows, Columns int            // of the grid
	Margins       Margins        // around the grid
	GapX, GapY    measure.Length // between columns and between rows
}

// A Printer is the correction that one printer needs.
type Printer struct {
	Name string         // empty if no printer was measured
	X, Y measure.Factor // [measure.One] if the printer is true
}

// BuiltIn is the source of a value that nobody set.
const BuiltIn = "built-in"

// A Row is one setting with its current value.
type Row struct {
	Key, Value string // as written in a file; an empty value is not set
	From       string // BuiltIn, shop.yaml:12, environment SHADEWRIGHT_X, flag --set x
	Doc        string // what the setting does
	Reason     string // where the built-in value comes from
}

// problem returns a fault with the place of the setting.
func (r Row) problem(f form.Fault) form.Problem {
	field := r.Key
	if strings.HasSuffix(r.From, " "+field) || strings.HasSuffix(r.From, " "+envName(field)) {
		field = "" // the source already names it
	}
	return form.Problem{File: r.From, Field: field, Fault: f}
}

// Table returns every setting with its value and its source.
func (s Settings) Table() []Row { return slices.Clone(s.rows) }

// row returns the setting of a key.
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

// Units returns the unit of a new job; undeclared if each job chooses.
func (s Settings) Units() measure.System { return s.units }

// Style returns how to print lengths in a unit system.
func (s Settings) Style(u measure.System) measure.Style {
	return measure.Style{System: u, Denominator: s.Rounding.Denominator, Metric: s.Rounding.Metric, Comma: s.Rounding.Comma}
}

// Practice returns the values for everything that a job leaves out.
func (s Settings) Practice() ticket.Practice {
	return ticket.Practice{Units: s.Units(), Style: s.Style, Allow: s.Allow, Sewing: s.Sewing, Limits: s.Limits, Rules: s.Rules}
}

// Load returns the settings. Its error is a [form.Problems] with every problem,
// or a system error if a file cannot be read.
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

// byLanguage makes the decimal mark follow the language.
const byLanguage = "language"

// comma reports whether a language's decimal mark is a comma.
func (o Options) comma(tag string) bool {
	return slices.ContainsFunc(o.Languages, func(l Language) bool { return l.Tag == tag && l.Comma })
}

// tags lists the accepted languages.
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

// gather reads the layers, from the weakest to the strongest.
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

// stack puts the layers on top of each other. A later layer hides the earlier
// ones.
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

// settle turns the winning texts into values.
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
	if s.Cutting.Overhang = s.row("cutting.table").From == BuiltIn; !s.Cutting.Overhang {
		s.Limits.Table = s.Cutting.Table
	}
	for _, text := range []*string{&s.Record.At, &s.Record.Prefix, &s.Record.Suffix, &s.Server.PIN, &s.Server.Cert, &s.Server.Key} {
		*text = off(*text)
	}
	if bad := append(s.certificate(), s.rule()...); len(bad) > 0 {
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

// An entry is a value as given, with its place.
type entry struct {
	file, field string // for messages
	line        int
	text        string
}

// from returns the place for the table of settings.
func (e entry) from() string {
	if e.line > 0 {
		return e.file + ":" + strconv.Itoa(e.line)
	}
	return e.file
}

// A layer holds what one source sets, by key.
type layer map[string]entry

// nested returns the layer as groups within groups, the form that viper merges.
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

// judge returns the problems of a layer's values, in the order of the table. It
// also judges values that another layer hides.
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

// fileLayer reads a settings file. Without must, the file may be missing or
// empty.
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
