package message

// commonTexts holds the texts that several parts of the program share.
var commonTexts = texts{

	"common.and": {"%s and %s", "%s y %s"},

	// Which sheet, page or unit.
	"common.of":        {"%d of %d", "%d de %d"},
	"common.sheet-of":  {"sheet %d of %d", "hoja %d de %d"},
	"common.continued": {"%s, continued", "%s, sigue"},
	"common.cut-plan":  {"Cut plan: %s", "Plan de corte: %s"},

	// The lines of a panel.
	"common.raw-edge":    {"raw edge", "borde crudo"},
	"common.hem-fold":    {"hem fold", "doblez de dobladillo"},
	"common.hem-mark":    {"hem mark", "marca de dobladillo"},
	"common.pocket-fold": {"pocket fold", "doblez de jareta"},
	"common.pocket-mark": {"pocket mark", "marca de jareta"},
	"common.stitch-row":  {"stitch row", "línea de costura"},

	// Tube, slat, tape and edges.
	"common.trim-slat": {"Trim slat", "Cortar listón a"},
	"common.tape":      {"Tape", "Cinta"},
	"common.sides":     {"Sides", "Lados"},

	// How it hangs.
	"common.glass": {"glass", "vidrio"},
	"common.turns": {"%s turns", "%s vueltas"},
}
