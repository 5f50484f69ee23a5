package intake

import (
	"regexp"
	"strings"
	"unicode"

	"shadewright/ticket/form"
	"shadewright/ticket/measure"
)

// A meaning is a field of a job file, and the headings for it.
type meaning struct {
	path   string   // of the field in a job file
	length bool     // the field is a length
	words  []string // headings in plain form; the first is the one that we write
}

// meanings lists every known heading. The words are common practice, no source.
// Many workrooms write sheets in Spanish, German or French.
var meanings = []meaning{
	{"shades.id", false, []string{"shade", "id", "no", "nr", "number", "shade no", "shade id", "shade name", "window", "window no", "win", "win no", "item", "ref", "reference", "mark", "line", "name", "opening", "ventana", "persiana", "estor", "cortina", "fenster", "rollo", "nummer", "pos", "fenetre", "store", "repere", "numero"}},
	{"shades.place", false, []string{"place", "room", "location", "where", "position", "cabin", "window location", "lugar", "sala", "habitacion", "raum", "zimmer", "ort", "kabine", "lieu", "emplacement", "chambre", "salle"}},
	{"shades.quantity", false, []string{"quantity", "qty", "count", "pcs", "pieces", "how many", "no of", "no of shades", "nr of shades", "number of shades", "shades", "units", "amount", "alike", "how many alike", "cantidad", "anzahl", "menge", "stuck", "stk", "quantite", "qte", "nombre"}},
	{"shades.finished.width", true, []string{"width", "w", "wide", "across", "shade width", "ancho", "breite", "fertigbreite", "largeur", "largeur finie"}},
	{"shades.finished.length", true, []string{"length", "l", "long", "h", "height", "high", "drop", "fall", "shade length", "shade height", "largo", "alto", "caida", "lange", "hohe", "fertiglange", "fertighohe", "longueur", "hauteur", "hauteur finie"}},
	{"shades.opening.mount", false, []string{"mount", "mounting", "fixed to", "inside or outside", "montage", "befestigung", "pose"}},
	{"shades.opening.widths#1", true, []string{"opening width", "width of opening", "opening width top", "width top", "top width", "opening top", "recess width", "window width", "lichte breite", "nischenbreite", "breite oben", "largeur ouverture", "largeur du tableau", "largeur haut"}},
	{"shades.opening.widths#2", true, []string{"opening width middle", "width middle", "middle width", "opening middle", "breite mitte", "largeur milieu"}},
	{"shades.opening.widths#3", true, []string{"opening width bottom", "width bottom", "bottom width", "opening bottom", "breite unten", "largeur bas"}},
	{"shades.opening.heights#1", true, []string{"opening height", "height of opening", "opening height left", "height left", "left height", "opening left", "recess height", "window height", "opening drop", "lichte hohe", "nischenhohe", "hohe links", "hauteur ouverture", "hauteur du tableau", "hauteur gauche"}},
	{"shades.opening.heights#2", true, []string{"opening height middle", "height middle", "middle height", "hohe mitte", "hauteur milieu"}},
	{"shades.opening.heights#3", true, []string{"opening height right", "height right", "right height", "opening right", "hohe rechts", "hauteur droite"}},
	{"shades.opening.depth", true, []string{"recess depth", "depth", "opening depth", "depth of recess", "tiefe", "nischentiefe", "profondeur"}},
	{"shades.roll", false, []string{"roll", "roll direction", "roll side", "standard or reverse", "std rev", "reverse", "wickelrichtung", "enroulement"}},
	{"shades.goods", false, []string{"goods", "cloth", "fabric", "material", "textile", "tela", "stoff", "tuch", "gewebe", "toile", "tissu"}},
	{"goods.kind", false, []string{"kind of cloth", "kind", "cloth kind", "goods kind", "fabric kind", "cloth type", "fabric type", "type of cloth", "stoffart", "type de toile"}},
	{"goods.width", true, []string{"roll width", "goods width", "cloth width", "fabric width", "bolt width", "width of roll", "width of goods", "ancho de tela", "stoffbreite", "laize"}},
	{"goods.selvage", true, []string{"selvage", "selvedge", "webkante", "lisiere"}},
	{"goods.thickness", true, []string{"cloth thickness", "goods thickness", "fabric thickness", "stoffdicke", "epaisseur de toile"}},
	{"goods.mass", false, []string{"cloth mass", "mass", "cloth weight", "fabric weight", "goods weight", "weight", "stoffgewicht", "grammage"}},
	{"goods.lay", false, []string{"lay", "lay of cloth"}},
	{"shades.roller", false, []string{"roller", "roller name", "donor", "donor roller", "rodillo", "welle", "rouleau", "enrouleur"}},
	{"rollers.tube", true, []string{"tube diameter", "tube", "tube dia", "roller diameter", "roller dia", "barrel", "barrel diameter", "wellendurchmesser", "diametre du tube"}},
	{"rollers.shortest", true, []string{"tube shortest", "shortest", "roller shortest", "tube min", "roller min", "barrel shortest"}},
	{"rollers.longest", true, []string{"tube longest", "longest", "roller longest", "tube max", "roller max", "barrel longest"}},
	{"rollers.length", true, []string{"tube length", "roller length", "barrel length", "wellenlange", "longueur du tube"}},
	{"shades.slat", false, []string{"slat", "batten", "slat name", "bottom slat", "hem bar", "liston", "stab", "leiste", "latte", "barre"}},
	{"slats.width", true, []string{"slat width", "batten width", "stabbreite", "largeur de latte"}},
	{"slats.thickness", true, []string{"slat thickness", "batten thickness", "stabdicke", "epaisseur de latte"}},
	{"slats.diameter", true, []string{"rod diameter", "rod", "rod dia", "slat diameter"}},
	{"shades.note", false, []string{"note", "notes", "remark", "remarks", "comment", "comments", "nota", "notas", "bemerkung", "bemerkungen", "anmerkung", "notiz", "remarque", "remarques", "commentaire"}},
	{"allow.wrap", true, []string{"wrap"}},
	{"allow.hem", true, []string{"hem", "hem depth", "saum", "ourlet"}},
	{"allow.pocket", true, []string{"pocket", "pocket depth"}},
	{"allow.side_hem", true, []string{"side hem", "side hems"}},
}

func meaningOf(path string) meaning {
	for _, m := range meanings {
		if m.path == path {
			return m
		}
	}
	panic("intake: no column means " + path) // a bug in the caller
}

// units lists the words for a unit in a heading, longer ones first.
var units = []struct {
	words []string
	unit  string
}{
	{[]string{"inches", "inch", "ins", "in", `"`, "pulgadas", "zoll", "pouces", "pouce"}, "in"},
	{[]string{"millimetres", "millimeters", "mm", "milimetros", "millimeter"}, "mm"},
	{[]string{"centimetres", "centimeters", "cm", "centimetros", "zentimeter"}, "cm"},
	{[]string{"metres", "meters", "m", "metros", "meter"}, "m"},
	{[]string{"feet", "ft", "fuss", "pieds"}, "ft"},
}

func unitWord(word string) string {
	for _, u := range units {
		for _, w := range u.words {
			if w == word {
				return u.unit
			}
		}
	}
	return ""
}

var (
	bracketed = regexp.MustCompile(`[(\[{]([^)\]}]*)[)\]}]`)
	humps     = regexp.MustCompile(`(\p{Ll})(\p{Lu})`)
	noise     = map[string]bool{"finished": true, "the": true, "size": true}
)

// heading splits a heading into its plain words and the unit it names.
func heading(text string) (words, unit string) {
	text = strings.ToLower(humps.ReplaceAllString(strings.ReplaceAll(text, "_", " "), "$1 $2"))
	text = bracketed.ReplaceAllStringFunc(text, func(in string) string {
		inner := strings.Trim(in, "()[]{} .")
		if u := unitWord(inner); u != "" && unit == "" {
			unit = u
			return " "
		}
		if strings.IndexFunc(inner, func(r rune) bool { return !unicode.IsLetter(r) && r != ' ' }) >= 0 {
			return " " // a unit of another quantity, or a number
		}
		return " " + inner + " "
	})
	var kept []string
	for _, w := range strings.FieldsFunc(form.Bare(text), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '"' }) {
		if !noise[w] {
			kept = append(kept, w)
		}
	}
	if n := len(kept); n > 1 && unit == "" {
		if unit = unitWord(kept[n-1]); unit != "" {
			kept = kept[:n-1]
		}
	}
	if n := len(kept); n > 1 && kept[n-1] == "in" {
		kept = kept[:n-1] // as in: width in (mm)
	}
	return strings.Join(kept, " "), unit
}

// guess returns the meaning of plain words. near is true if the words are only
// similar to a known heading.
func guess(words string) (m meaning, near, ok bool) {
	if words == "" {
		return m, false, false
	}
	for _, m := range meanings {
		for _, w := range m.words {
			if w == words {
				return m, false, true
			}
		}
	}
	if len(words) < 5 {
		return m, false, false
	}
	for _, m := range meanings {
		for _, w := range m.words {
			if len(w) >= 5 && form.Nearest(words, []string{w}) != "" && len(words)-len(w) < 3 {
				return m, true, true
			}
		}
	}
	return m, false, false
}

// system returns the unit system of a unit in a heading.
func system(unit string) measure.System {
	switch unit {
	case "in", "ft":
		return measure.Inches
	case "":
		return measure.Undeclared
	}
	return measure.Millimetres
}
