package message

// paperTexts holds the texts of the roll's end on the cut plan, and of the template's
// parts.
var paperTexts = texts{
	"plan.end-and-sections":  {"End %s + sections %s = %s.", "Extremo %s + tramos %s = %s."}, // of the roll of goods
	"plan.square-to-selvage": {"square to the selvage", "a escuadra con el orillo"},
	"plan.square-first":      {"Cut %d squares the end of the roll: measure from where the end is shortest, and cut square to the selvage.", "El corte %d escuadra el extremo del rollo: medir desde donde el extremo queda más corto y cortar a escuadra con el orillo."},

	"template.units":        {"%s (%d units)", "%s (%d unidades)"},
	"template.gauge-alone":  {"The gauge alone would do for %s: print --template gauge saves %s.", "Para %s bastaría el calibre: print --template gauge ahorra %s."},
	"template.band-named":   {"band %s", "la franja %s"},
	"template.bands-named":  {"bands %s", "las franjas %s"},
	"template.count-sheet":  {"%d sheet", "%d hoja"},
	"template.count-sheets": {"%d sheets", "%d hojas"},
}
