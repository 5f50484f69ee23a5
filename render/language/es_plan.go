package language

import "shadewright/ticket/message"

// spanishPlan is what plan says.
var spanishPlan = map[message.English]string{
	// Headings.
	"Cut plan":      "Plan de corte",
	"To buy":        "Lista de compra",
	"Offcut labels": "Etiquetas de retales",

	// How the goods are cut, and how good the plan is.
	"Cut %s off the roll, %s wide":                                                "Cortar %s del rollo, de %s de ancho",
	"Cut %[2]s off the roll, %[3]s wide, and %[1]d piece on hand":                 "Cortar %[2]s del rollo, de %[3]s de ancho, y %[1]d pieza disponible",
	"Cut %[2]s off the roll, %[3]s wide, and %[1]d pieces on hand":                "Cortar %[2]s del rollo, de %[3]s de ancho, y %[1]d piezas disponibles",
	"Cut nothing off the roll: %d piece on hand suffices":                         "No cortar nada del rollo: basta %d pieza disponible",
	"Cut nothing off the roll: %d pieces on hand suffice":                         "No cortar nada del rollo: bastan %d piezas disponibles",
	"%s. Of the cloth cut, panels are %s %%, offcuts to keep %s %%, waste %s %%.": "%s. De la tela cortada, paños %s %%, retales que se guardan %s %%, desperdicio %s %%.",
	"Stand at the cut end, cloth face up: in the drawing that is at the left, and the roll’s left edge is on top. Every part keeps these edges. Scale 1 : %d.": "Situarse en el extremo cortado, con el derecho de la tela hacia arriba: en el dibujo, ese extremo queda a la izquierda y el borde izquierdo del rollo, arriba. Cada parte conserva esos bordes. Escala 1 : %d.",

	// The drawing and its key.
	"on hand: %s":                 "disponible: %s",
	"cut end":                     "extremo cortado",
	"panel, sizes across × along": "paño, a lo ancho × a lo largo",
	"offcut to keep":              "retal que se guarda",
	"to the panel’s top":          "parte superior del paño",
	"table ends: %s":              "largo de la mesa: %s",

	// The list of cuts.
	"cut":                                    "corte",
	"take":                                   "tomar",
	"cut it, in inches":                      "cortar, en pulgadas",
	"cut it, in millimetres":                 "cortar, en milímetros",
	"this comes off":                         "sale",
	"this is left":                           "queda",
	"check":                                  "control",
	"across, %s from cut end":                "a lo ancho, a %s del extremo",
	"along, %s from left edge":               "a lo largo, a %s del borde izq.",
	"%s from left edge, %s from there":       "a %s del borde izq., a %s de ahí",
	"%s from cut end":                        "extremo: %s",
	"%s from left edge":                      "borde izq.: %s",
	"left edge %s, then %s":                  "izq.: %s, luego %s",
	"selvages, %s and %s wide":               "orillos, de %s y %s",
	"Check: %s in %s.":                       "Control: %s en %s.",
	"%d panel":                               "%d paño",
	"%d panels":                              "%d paños",
	"%d cut":                                 "%d corte",
	"%d cuts":                                "%d cortes",
	"Sections %s = %s.":                      "Tramos %s = %s.",
	"Keep %s.":                               "Guardar %s.",
	"Nothing is left that is worth keeping.": "No queda nada que valga la pena guardar.",
	"Panels are cut free with %s around them: square them to the sizes in the drawing.": "Los paños se cortan con %s de más alrededor: escuadrarlos a las medidas del dibujo.",

	// What to buy.
	"what|is bought":  "artículo",
	"the job takes":   "necesario",
	"on hand":         "disponible",
	"buy":             "comprar",
	"price":           "precio",
	"price, %s":       "precio, %s",
	"amount|of money": "importe",
	"Materials":       "Materiales",
	"Labour":          "Mano de obra",
	"Total":           "Total",
	"%d to buy without a price: not in the sum.": "%d por comprar sin precio: fuera de la suma.",
	"%d of %s|pieces of a length":                "%d de %s",
	"%d roll of %s":                              "%d rollo de %s",
	"%d rolls of %s":                             "%d rollos de %s",
	"%d spool of %s":                             "%d carrete de %s",
	"%d spools of %s":                            "%d carretes de %s",
	"Slats, from each stock length":              "Listones, de cada barra comercial",
	"%d. %s, %s: %s; left %s":                    "%d. %s, %s: %s; sobra %s",

	// Labels of offcuts.
	"across the roll × along it, %s": "a lo ancho del rollo × a lo largo, %s",
}
