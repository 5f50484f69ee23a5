package language

import "strings"

// Base returns the tag of the language without its country: "es" of "es-MX".
func (l Language) Base() string {
	base, _, _ := strings.Cut(l.Tag(), "-")
	return base
}

// Plain returns what its readers call the language, whatever the country.
func (l Language) Plain() string {
	for i := range locales {
		if locales[i].tag == l.Base() {
			return locales[i].name
		}
	}
	return l.Name()
}

// Choices returns each language once, for one reader among others who have l:
// l itself, and the others as l's country writes them if that is known.
func (l Language) Choices() []Language {
	var list []Language
	at := map[string]int{}
	_, country, _ := strings.Cut(l.Tag(), "-")
	for _, other := range All() {
		base := other.Base()
		i, known := at[base]
		switch {
		case !known:
			at[base] = len(list)
			if base == l.Base() {
				other = l
			}
			list = append(list, other)
		case base != l.Base() && country != "" && strings.HasSuffix(other.Tag(), "-"+country):
			list[i] = other
		}
	}
	return list
}
