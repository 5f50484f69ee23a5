package config

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"shadewright/ticket/form"
)

// A flattener turns nested groups into keys with dots.
type flattener struct {
	rows     []setting
	file     string
	problems form.Problems
	out      layer
}

func (f *flattener) walk(n *form.Node, group string) {
	for _, e := range n.Entries {
		name := e.Key
		if group != "" {
			name = group + "." + name
		}
		row := find(f.rows, name)
		switch {
		case name == printers:
			f.walkPrinters(e)
		case e.Value.Shape == form.Keys && f.isGroup(name):
			f.walk(e.Value, name)
		case row == nil && f.isGroup(name):
			f.add(e, name, e.Value.Text, form.Fault{Problem: e.Value.Shape.String() + ", not a group of settings", Fix: "write its settings under it, indented"})
		case row == nil:
			f.add(e, "", "", unknown("key", name, names(f.rows)))
		case e.Value.Shape == form.List && isLister(row):
			if text, ok := row.Kind.(lister).fromList(f, e, name); ok {
				f.out[name] = entry{file: f.file, field: name, line: e.Line, text: text}
			}
		case e.Value.Shape != form.Plain:
			f.add(e, name, "", form.Fault{Problem: e.Value.Shape.String(), Fix: "write for example " + e.Key + ": " + row.Example})
		case f.out[name].line > 0: // once as allow.wrap and once as wrap under allow
			f.add(e, name, e.Value.Text, form.Fault{Problem: fmt.Sprintf("appears twice, first on line %d", f.out[name].line), Fix: "keep one of them"})
		default:
			f.out[name] = entry{file: f.file, field: name, line: e.Line, text: e.Value.Text}
		}
	}
}

func (f *flattener) add(e form.Entry, field, value string, fault form.Fault) {
	f.problems = append(f.problems, form.Problem{File: f.file, Line: e.Line, Field: field, Value: value, Fault: fault})
}

func isLister(row *setting) bool {
	_, ok := row.Kind.(lister)
	return ok
}

// isGroup reports whether the table has settings under name.
func (f *flattener) isGroup(name string) bool {
	return slices.ContainsFunc(f.rows, func(s setting) bool { return strings.HasPrefix(s.Name, name+".") })
}

// unknown returns the fault of an unknown name. There are too many names to
// list them all.
func unknown(what, name string, known []string) form.Fault {
	fix := "shadewright check --settings lists every setting"
	if near := form.Nearest(name, known); near != "" {
		fix = "did you mean " + near + "?"
	}
	return form.Fault{Problem: "unknown " + what + " " + form.Quote(name), Fix: fix}
}

// envName returns the environment variable of a setting.
func envName(key string) string {
	return EnvPrefix + strings.ToUpper(strings.ReplaceAll(key, ".", "_"))
}

// envLayer reads the settings in the environment. It refuses a variable that
// has the prefix but names no setting, because that is a typing error.
func envLayer(rows []setting, environ []string) (layer, form.Problems) {
	byName := make(map[string]string, len(rows))
	for _, r := range rows {
		byName[envName(r.Name)] = r.Name
	}
	out := layer{}
	var bad form.Problems
	for _, v := range environ {
		name, text, _ := strings.Cut(v, "=")
		if !strings.HasPrefix(name, EnvPrefix) {
			continue
		}
		key, ok := byName[name]
		if !ok {
			bad = append(bad, form.Problem{File: "environment", Fault: unknown("variable", name, slices.Sorted(maps.Keys(byName)))})
			continue
		}
		out[key] = entry{file: "environment " + name, text: text}
	}
	return out, bad
}

// flagLayer reads the settings given by --set.
func flagLayer(rows []setting, flags map[string]string) (layer, form.Problems) {
	out := layer{}
	var bad form.Problems
	for _, key := range slices.Sorted(maps.Keys(flags)) {
		if find(rows, key) == nil {
			bad = append(bad, form.Problem{File: "flag --set", Fault: unknown("key", key, names(rows))})
			continue
		}
		out[key] = entry{file: "flag --set " + key, text: flags[key]}
	}
	return out, bad
}
