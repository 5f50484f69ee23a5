package form

import (
	"encoding/json"
	"slices"
	"strconv"
)

// Schema returns a JSON Schema (draft 2020-12) for a file with the given keys.
func Schema(title, description string, keys []Key) ([]byte, error) {
	s := Group{Keys: keys}.schema()
	s["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	s["title"], s["description"] = title, description
	out, err := json.MarshalIndent(s, "", "  ")
	if err != nil {
		return nil, err
	}
	return append(out, '\n'), nil
}

func (g Group) schema() map[string]any {
	props := make(map[string]any, len(g.Keys))
	required := []string{}
	var either []any
	for _, k := range g.Keys {
		props[k.Name] = k.schema()
		switch {
		case k.Or != "":
			either = append(either, map[string]any{"required": []string{k.Name}})
		case k.Required:
			required = append(required, k.Name)
		}
	}
	slices.Sort(required)
	s := map[string]any{"type": "object", "properties": props, "required": required, "additionalProperties": false}
	if either != nil {
		s["oneOf"] = either
	}
	return s
}

func (k Key) schema() map[string]any {
	s := k.Kind.schema()
	s["description"] = k.Doc
	if k.Default != "" {
		s["description"] = k.Doc + " Default: " + k.Default + "."
	}
	if _, one := k.Kind.(Scalar); one {
		s["examples"] = []string{k.Example}
	}
	return s
}

// A length may be a YAML number (27) or a text (27-1/2). An editor cannot check the
// range, because it does not know the unit.
func (l Length) schema() map[string]any {
	zero := map[string]any{"type": "number", "minimum": 0}
	if l.Least > 0 {
		zero = map[string]any{"type": "number", "exclusiveMinimum": 0}
	}
	text := map[string]any{"type": "string", "pattern": `^\s*[+]?\s*([0-9.,¼½¾⅛⅜⅝⅞⁰¹²³⁴⁵⁶⁷⁸⁹])`}
	return map[string]any{"anyOf": []any{zero, text}}
}

func (t Text) schema() map[string]any {
	s := map[string]any{"type": []string{"string", "number", "boolean"}, "minLength": 1, "maxLength": t.Most}
	if t.Pattern != "" {
		s["pattern"] = t.Pattern
	}
	return s
}

// YAML reads true and false as booleans, so an editor passes them on as such.
func (w Word[V]) schema() map[string]any {
	var all []any
	for _, word := range w.Words {
		all = append(all, word)
		if b, err := strconv.ParseBool(word); err == nil {
			all = append(all, b)
		}
	}
	return map[string]any{"enum": all}
}

func (w Whole) schema() map[string]any {
	number := map[string]any{"type": "integer", "minimum": w.Least, "maximum": w.Most}
	if w.Only != nil {
		number = map[string]any{"enum": w.Only}
	}
	if w.Any != "" {
		return map[string]any{"anyOf": []any{number, map[string]any{"enum": []string{w.Any}}}}
	}
	if !w.Percent {
		return number
	}
	return map[string]any{"anyOf": []any{number, map[string]any{"type": "string", "pattern": `^\s*[0-9]+\s*%$`}}}
}

func (Date) schema() map[string]any {
	return map[string]any{"type": "string", "format": "date", "pattern": `^[0-9]{4}-[0-9]{2}-[0-9]{2}$`}
}

func (UUID) schema() map[string]any {
	return map[string]any{"type": "string", "format": "uuid",
		"pattern": `^[0-9A-Fa-f]{8}-[0-9A-Fa-f]{4}-[0-9A-Fa-f]{4}-[0-9A-Fa-f]{4}-[0-9A-Fa-f]{12}$`}
}

func (e Either) schema() map[string]any {
	return map[string]any{"anyOf": []any{e.Text.schema(), e.Group.schema()}}
}

func (m Named[V]) schema() map[string]any {
	return map[string]any{"type": "object", "additionalProperties": m.Group.schema()}
}

func (l ListOf[V]) schema() map[string]any {
	s := map[string]any{"type": "array", "minItems": l.Least, "items": l.Group.schema()}
	if l.Most > 0 {
		s["maxItems"] = l.Most
	}
	if l.None != "" {
		return map[string]any{"anyOf": []any{map[string]any{"enum": []string{l.None}}, s}}
	}
	return s
}
