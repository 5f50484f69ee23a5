package language

import "strings"

// Base returns the tag of the language without its country: "es" for "es-MX".
func (l Language) Base() string {
	base, _, _ := strings.Cut(l.Tag(), "-")
	return base
}

// Plain returns the readers' name for the language, without a country.
func (l Language) Plain() string {
	for i := range locales {
		if locales[i].tag == l.Base() {
			return locales[i].name
		}
	}
	return l.Name()
}

// Choices returns each language once, as a choice for one reader in a shop that
// uses l. It has l itself, and the other languages in l's country where that
// locale exists.
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
