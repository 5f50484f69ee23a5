package language

import "shadewright/ticket/message"

// spanishCommon is what several parts of the program say.
var spanishCommon = map[message.English]string{
	"%s and %s": "%s y %s",

	// Which sheet, page or unit.
	"%d of %d":       "%d de %d",
	"sheet %d of %d": "hoja %d de %d",
	"%s, continued":  "%s, continuación",
	"Cut plan: %s":   "Plan de corte: %s",

	// The lines of a panel.
	"raw edge":    "borde crudo",
	"hem fold":    "doblez de dobladillo",
	"hem mark":    "marca de dobladillo",
	"pocket fold": "doblez de jareta",
	"pocket mark": "marca de jareta",
	"stitch row":  "línea de costura",

	// What is cut to length, what holds and finishes it.
	"Trim tube": "Cortar tubo a",
	"Trim slat": "Cortar listón a",
	"Tape":      "Cinta",
	"Sides":     "Lados",

	// How it hangs.
	"glass":    "vidrio",
	"%s turns": "%s vueltas",
}
