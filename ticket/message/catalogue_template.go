package message

// templateTexts holds the texts of the marking template.
var templateTexts = texts{

	// Every sheet that is true to scale.
	"template.print-actual-size":     {"Print at 100 %, actual size, not “fit to page”.", "Imprimir al 100 %, tamaño real. Sin “ajustar a la página”."},
	"template.each-way":              {"each way", "por lado"},
	"template.corrected-for-printer": {"corrected for printer '%s': %s × %s", "corregido para la impresora '%s': %s × %s"},
	"template.corrected":             {"corrected: %s × %s", "corregido: %s × %s"},

	// The marking template.
	"template.marking-template":     {"Marking template", "Plantilla de marcado"},
	"template.check-first":          {"Before you mark any cloth, measure the square, %s each way, and both check rulers. If one is off, do not use the sheet.", "Antes de marcar la tela, medir el cuadro de control, %s por lado, y las dos reglas de control. Si algo no coincide, no usar la hoja."},
	"template.tape-strips":          {"Trim a strip at its joint, lay it on the same joint of the previous strip so that lines and diamonds meet, and tape.", "Recortar cada tira por su unión, ponerla sobre la misma unión de la tira anterior de modo que coincidan líneas y rombos, y pegar con cinta."},
	"template.cut-bands-apart":      {"Cut the bands apart along the lines between them: first across the whole sheet, then within each row.", "Separar las franjas cortando por las líneas entre ellas: primero de lado a lado de la hoja, después entre las de una misma fila."},
	"template.cut-here":             {"cut here", "cortar aquí"},
	"template.band-strip":           {"Band %s, strip %d of %d for %s", "Franja %s, tira %d de %d, para %s"},
	"template.band-strip-of":        {"Band %s, strip %d of %d", "Franja %s, tira %d de %d"},
	"template.for-shades":           {"for %s", "para %s"}, // shades
	"template.band-for":             {"Band %s for %s", "Franja %s para %s"},
	"template.band-of":              {"Band %s of %s", "Franja %s de %s"},
	"template.gauge":                {"Gauge", "Calibre de papel"},
	"template.use-gauge":            {"for band %s: cut out along the outline, lay it on the raw edge, mark each line, slide on", "franja %s: recortar por el contorno, alinear con el borde crudo, marcar cada línea, deslizar"},
	"template.use-gauges":           {"for bands %s: cut out along the outline, lay it on the raw edge, mark each line, slide on", "franjas %s: recortar por el contorno, alinear con el borde crudo, marcar cada línea, deslizar"},
	"template.trim-here-joint":      {"trim here: joint %s%d", "recortar aquí: unión %s%d"},
	"template.lay-joint-strip-here": {"lay joint %s%d of strip %d here", "poner aquí la unión %s%d de la tira %d"},
	"template.left-side-cloth":      {"left side of the cloth", "borde izquierdo de la tela"},
	"template.right-side-cloth":     {"right side of the cloth", "borde derecho de la tela"},
	"template.side-hem-fold":        {"side hem fold", "doblez lateral"},
	"template.centre":               {"centre", "centro"},
	"template.slat-ends-here":       {"slat ends here", "aquí acaba el listón"},

	// Its lines, beside the cloth and on it.
	"template.hem-fold-short":    {"hem fold", "doblez dobladillo"}, // short
	"template.hem-mark-short":    {"hem mark", "marca dobladillo"},  // short
	"template.pocket-fold-short": {"pocket fold", "doblez jareta"},  // short
	"template.pocket-mark-short": {"pocket mark", "marca jareta"},   // short
	"template.stitch-row-short":  {"stitch row", "costura"},         // short
	"template.lay-raw-edge":      {"Good face down: lay the raw bottom edge along this line", "Cara buena hacia abajo: poner el borde inferior crudo en esta línea"},
	"template.line-hem-fold":     {"Hem fold: the cloth turns here", "Doblez del dobladillo: aquí se dobla la tela"},
	"template.line-hem-mark":     {"Fold the raw edge up to this line", "Doblar el borde crudo hasta esta línea"},
	"template.line-pocket-fold":  {"Pocket fold: the cloth turns here", "Doblez de la jareta: aquí se dobla la tela"},
	"template.line-stitch":       {"Sew along this row; back-tack both ends", "Coser por esta línea; rematar los dos extremos"},
	"template.line-pocket-mark":  {"Fold the hem’s edge up to this line", "Doblar el borde del dobladillo hasta esta línea"},
	"template.from-raw-edge":     {"%s from the raw edge", "a %s del borde crudo"},

	// The sheet that a printer is measured by.
	"template.printer-calibration": {"Printer calibration", "Calibración de la impresora"},
	"template.name-printer":        {"NAME", "NOMBRE"}, // of a printer
	"template.measure-rulers":      {"With a steel rule, measure each long ruler from its first heavy mark to its last: across it should be %s, down %s. Read as finely as the rule allows. Then type both readings with their units: %s --across … --down …", "Con una regla de acero, medir en cada regla larga desde la primera marca gruesa hasta la última: a lo ancho (across) deben ser %s; a lo alto (down), %s. Leer con toda la precisión que permita la regla. Después escribir las dos lecturas con su unidad: %s --across … --down …"},
	"template.mark-to-mark":        {"%s from mark to mark", "%s de marca a marca"},
	"template.square-sides":        {"%s each way; both diagonals %s. If they differ, the paper went through at an angle.", "%s por lado; las dos diagonales, %s. Si difieren, el papel pasó torcido."},
}
