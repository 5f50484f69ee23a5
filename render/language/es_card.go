package language

import "shadewright/ticket/message"

// spanishCard is what card says.
var spanishCard = map[message.English]string{
	// Which ticket it is.
	"Tickets, %s":      "Fichas, %s",
	"Tags, %s":         "Etiquetas, %s",
	"rev %s":           "rev. %s",
	"again %d, rev %s": "rehecho %d, rev. %s",
	"job":              "trabajo",
	"client":           "cliente",
	"due":              "entrega",
	"Note":             "Nota",

	// What is cut.
	"Cut|the panel: a heading":                 "Corte",
	"width × length":                           "ancho × largo",
	"Square|the panel: a heading":              "Escuadra",
	"%s, both":                                 "%s, ambas", // las diagonales
	"equal within %s":                          "diferencia máx. %s",
	"Finished %s; wrap %s, hem %s, pocket %s.": "Medida acabada %s; reserva en el tubo %s, dobladillo %s, jareta %s.",
	"Finished %s; wrap %s, hem %s, pocket %s, side hems %s.": "Medida acabada %s; reserva en el tubo %s, dobladillo %s, jareta %s, dobladillos laterales %s.",
	"Rounded to the rule from %s × %s.":                      "Redondeado a la regla; exacto %s × %s.",

	// What forbids it, and what is to be known.
	"STOP": "ALTO",
	"Printed because someone insisted. Do not cut before this is settled.": "Impreso porque alguien insistió. No cortar hasta resolverlo.",
	"Know before cutting": "Saber antes de cortar",
	"Take care":           "Cuidado",
	"… and %d more: the check command lists them all.": "… y %d más: la orden check lo muestra todo.",

	// The drawings.
	"Mark, from the raw edge": "Marcar, desde el borde crudo",
	"pocket mark: fold here":  "marca de jareta: aquí el doblez",
	"hem mark: raw edge here": "marca de dobladillo: aquí el borde crudo",
	"Fold and sew":            "Doblar y coser",
	"pocket":                  "jareta",
	"row below fold":          "bajo el doblez",
	"hem":                     "dobladillo",
	"slat":                    "listón",
	"Roll: standard":          "Caída: normal",
	"Roll: reverse":           "Caída: inversa",
	"Cloth falls at the back of the tube, next to the glass.": "La tela cae por detrás del tubo, junto al vidrio.",
	"Cloth falls at the front of the tube, on the room side.": "La tela cae por delante del tubo, del lado de la habitación.",
	"Mark the donor tube’s direction before stripping it.":    "Marcar el sentido del tubo antes de quitar la tela.",
	"room|the side of the shade":                              "habitación",
	"up|the way the tube turns":                               "sube",

	// Trims, seam, tape and edges.
	"%s roller, Ø\u00a0%s":                                       "rodillo %s, Ø\u00a0%s",
	"reaches %s to\u00a0%s":                                      "alcanza de %s a\u00a0%s",
	"cut from a tube of %s":                                      "sale de un tubo de %s",
	"%s back from each side":                                     "%s hacia dentro en cada lado",
	"Sew|a heading":                                              "Coser",
	"%s, thread %d, needle %d":                                   "%s, hilo %d, aguja %d",
	"%s stitches per inch, tex %d":                               "%s puntadas por pulgada, tex %d",
	"%s stitches per inch, tex %d, Nm %d":                        "%s puntadas por pulgada, tex %d, Nm %d",
	"type %s through %d plies, row %s":                           "tipo %s, %d capas, costura de %s",
	"type %s through %d plies, row %s, back-tack %s at each end": "tipo %s, %d capas, costura de %s, remate de %s en cada extremo",
	"%s of thread, bobbin included":                              "%s de hilo, bobina incluida",
	"needle: %s":                                                 "aguja: %s",
	"%d runs of %s: hem, pocket, tube":                           "%d tiras de %s: dobladillo, jareta, tubo",
	"%s of edge":                                                 "%s de borde",

	// How it hangs.
	"Opening, inside mount":                    "Hueco, montaje dentro",
	"Opening, outside mount":                   "Hueco, montaje fuera",
	"Opening, ceiling mount":                   "Hueco, montaje al techo",
	"tip to tip %s":                            "de punta a punta %s",
	"measured %s wide, %s high":                "medido: ancho %s, alto %s",
	"measured %s wide, %s high, diagonals %s":  "medido: ancho %s, alto %s, diagonales %s",
	"taken off %s":                             "restado: %s",
	"added %s":                                 "sumado: %s",
	"%s to the tips":                           "%s hasta las puntas",
	"%s to the barrel":                         "%s hasta el tubo",
	"%s to the cloth":                          "%s hasta la tela",
	"%s of height":                             "%s de alto",
	"%s left|side":                             "%s a la izquierda",
	"%s right|side":                            "%s a la derecha",
	"%s above":                                 "%s arriba",
	"%s below":                                 "%s abajo",
	"Rolled up":                                "Enrollada",
	"%s, %s turns, %s wraps left":              "%s; %s vueltas, quedan %s",
	"clears %s by %s":                          "holgura con %s: %s",
	"runs into %s by %s":                       "choca con %s; espacio que falta: %s",
	"pin %s from the glass":                    "espiga a %s del vidrio",
	"pin %s from the wall":                     "espiga a %s de la pared",
	"the tube sags %s in the middle; limit %s": "flecha del tubo %s; límite %s",
	"Spring":                                   "Resorte",
	"no turns do":                              "sin vueltas posibles",
	"%s N·mm per turn":                         "%s N·mm por vuelta",
	"%s N·mm per turn, %s to %s do":            "%s N·mm por vuelta; sirven de %s a %s",
	"%s\u00a0g hang with the shade down":       "con la cortina bajada cuelgan %s\u00a0g",
	"from slack, once: pull %s down, lift out with the flat pin held, roll up by hand, hang again":     "partiendo del resorte flojo, una vez: bajar la tela %s, descolgar sin soltar la espiga plana, enrollar a mano, colgar de nuevo",
	"from slack, %d times: pull %s down, lift out with the flat pin held, roll up by hand, hang again": "partiendo del resorte flojo, %d veces: bajar la tela %s, descolgar sin soltar la espiga plana, enrollar a mano, colgar de nuevo",
	"Spring, rate not known":                        "Resorte, constante desconocida",
	"hanging scale on the slat, pulled slowly down": "dinamómetro en el listón, bajar despacio",
	"%s down": "bajada %s",
	"the spring command makes turns of both readings": "la orden spring calcula las vueltas con las dos lecturas",

	// The order of work.
	"Work, with initials": "Pasos, con iniciales",

	// Tags.
	"Panel|a tag": "Paño",
	"Tube|a tag":  "Tubo",
	"Slat|a tag":  "Listón",
	"Hardware":    "Herrajes",

	// The bench sheet.
	"Bench sheet":                    "Hoja de mesa",
	"Every ticket from now on marks": "Desde ahora, cada ficha registra",
	"Whatever comes next":            "El paso que siga",
	"Only the next ticket":           "Solo la ficha siguiente",
	"Undo":                           "Deshacer",
	"Go on after a hold":             "Seguir tras la espera",
	"Hold: %s":                       "En espera: %s",
	"Panel spoilt: %s":               "Paño estropeado: %s",
	"Who works here":                 "Quién trabaja aquí",
	"Which bench this is":            "Qué mesa es esta",
	"At the end of the day":          "Al final del día",
	"Forget step, person and place":  "Olvidar paso, persona y lugar",
}
