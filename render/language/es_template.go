package language

import "shadewright/ticket/message"

// spanishTemplate is what template, fullscale and calibration say.
var spanishTemplate = map[message.English]string{
	// Every sheet that is true to scale.
	"Print at 100 %, actual size. Not “fit to page”.": "Imprimir al 100 %, tamaño real. Sin “ajustar a la página”.",
	"each way":                            "por lado",
	"corrected for printer '%s': %s × %s": "corregido para la impresora '%s': %s × %s",
	"corrected: %s × %s":                  "corregido: %s × %s",

	// The marking template.
	"Marking template": "Plantilla de marcado",
	"Before any cloth is marked, measure the square, %s each way, and both check rulers. If one is off, do not use the sheet.": "Antes de marcar la tela, medir el cuadro de control, %s por lado, y las dos reglas de control. Si algo no coincide, no usar la hoja.",
	"Trim a strip at its joint, lay it on the same joint of the strip before so that lines and diamonds meet, and tape.":       "Recortar cada tira por su unión, ponerla sobre la misma unión de la tira anterior de modo que coincidan líneas y rombos, y pegar con cinta.",
	"Cut the bands apart at the lines between them: first right across the sheet, then between two on a row.":                  "Separar las franjas cortando por las líneas entre ellas: primero de lado a lado de la hoja, después entre las de una misma fila.",
	"cut here":                       "cortar aquí",
	"Band %s, strip %d of %d for %s": "Franja %s, tira %d de %d, para %s",
	"Band %s, strip %d of %d":        "Franja %s, tira %d de %d",
	"for %s|shades":                  "para %s",
	"Band %s for %s":                 "Franja %s para %s",
	"Band %s of %s":                  "Franja %s de %s",
	"Gauge":                          "Calibre de papel",
	"for band %s: cut out along the outline, lay it on the raw edge, mark each line, slide on":  "franja %s: recortar por el contorno, alinear con el borde crudo, marcar cada línea, deslizar",
	"for bands %s: cut out along the outline, lay it on the raw edge, mark each line, slide on": "franjas %s: recortar por el contorno, alinear con el borde crudo, marcar cada línea, deslizar",
	"trim here: joint %s%d":           "recortar aquí: unión %s%d",
	"lay joint %s%d of strip %d here": "poner aquí la unión %s%d de la tira %d",
	"left side of the cloth":          "borde izquierdo de la tela",
	"right side of the cloth":         "borde derecho de la tela",
	"side hem fold":                   "doblez lateral",
	"centre":                          "centro",
	"slat ends here":                  "aquí acaba el listón",

	// Its lines, beside the cloth and on it.
	"hem fold|short":    "doblez dobladillo",
	"hem mark|short":    "marca dobladillo",
	"pocket fold|short": "doblez jareta",
	"pocket mark|short": "marca jareta",
	"stitch row|short":  "costura",
	"Lay the raw bottom edge of the cloth along this line": "Poner el borde inferior crudo de la tela en esta línea",
	"Hem fold: the cloth turns here":                       "Doblez del dobladillo: aquí se dobla la tela",
	"Fold the raw edge up to this line":                    "Doblar el borde crudo hasta esta línea",
	"Pocket fold: the cloth turns here":                    "Doblez de la jareta: aquí se dobla la tela",
	"Sew along this row; back-tack both ends":              "Coser por esta línea; rematar los dos extremos",
	"Fold the hem’s edge up to this line":                  "Doblar el borde del dobladillo hasta esta línea",
	"%s from the raw edge":                                 "a %s del borde crudo",

	// The sheet that a printer is measured by.
	"Printer calibration": "Calibración de la impresora",
	"NAME|of a printer":   "NOMBRE",
	"With a steel rule, measure from the first heavy mark of each long ruler to its last: across it should be %s, down %s. Read it as fine as the rule shows. Then type both readings with their units: %s --across … --down …": "Con una regla de acero, medir en cada regla larga desde la primera marca gruesa hasta la última: a lo ancho (across) deben ser %s; a lo alto (down), %s. Leer con toda la precisión que permita la regla. Después escribir las dos lecturas con su unidad: %s --across … --down …",
	"%s from mark to mark": "%s de marca a marca",
	"%s each way; both diagonals alike, %s, or the paper went through askew": "%s por lado; las dos diagonales iguales, %s; si no, el papel pasó torcido",
}
