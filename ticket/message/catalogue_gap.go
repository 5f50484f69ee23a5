package message

// gapTexts holds what is said about measures that a job does not give.
var gapTexts = texts{
	// What is not known, and what hangs on it. Both are texts from below.
	"gap.unchecked":  {"not known: %s; not checked without it: %s", "no se conoce: %s; sin ese dato no se comprobó: %s"},
	"gap.works":      {"not known: %s; with %[3]s to %[4]s, the likely range, this comes out right: %[2]s", "no se conoce: %s; de %[3]s a %[4]s, el intervalo probable, resulta bien: %[2]s"},
	"gap.fails":      {"not known: %s; with %[3]s to %[4]s, the likely range, this does not always come out right: %[2]s", "no se conoce: %s; de %[3]s a %[4]s, el intervalo probable, no siempre resulta bien: %[2]s"},
	"gap.even-with":  {"even with %s: %s", "incluso con %s: %s"}, // values from below, then a finding
	"gap.if-with":    {"with %s: %s", "con %s: %s"},
	"gap.or-measure": {"measure what is not known; if this stays, %s", "medir lo que no se conoce; si esto sigue igual, %s"},

	// The place where the shade hangs.
	"gap.opening":             {"the opening", "el hueco"},
	"gap.opening-rests":       {"whether the finished size fits it, and what stands in the way", "si la medida acabada cabe en él y qué estorba"},
	"gap.opening-remedy":      {"measure the opening; or write as_before: true, if a shade of this size hung there on this roller", "medir el hueco; o escribir as_before: true, si una cortina de esta medida ya colgaba allí en este rodillo"},
	"gap.depth":               {"the depth of the recess", "el fondo del hueco"},
	"gap.depth-rests":         {"whether the roll fits in it", "si la cortina enrollada cabe en él"},
	"gap.depth-remedy":        {"measure from the front edge to the glass, or to what stands in front of it, and give opening.depth", "medir desde el borde delantero hasta el vidrio, o hasta lo que haya delante, e indicar opening.depth"},
	"gap.diagonals":           {"the diagonals of the opening", "las diagonales del hueco"},
	"gap.diagonals-rests":     {"whether the opening is square", "si el hueco está a escuadra"},
	"gap.diagonals-remedy":    {"measure both diagonals, and give opening.diagonals", "medir las dos diagonales e indicar opening.diagonals"},
	"gap.obstructions":        {"what stands out from the glass or the wall", "qué sobresale del vidrio o de la pared"},
	"gap.obstructions-rests":  {"whether roll and cloth clear it", "si la cortina lo libra"},
	"gap.obstructions-remedy": {"look for a crank, a handle, a lock or a frame, and give opening.obstructions, or none", "buscar manivela, manija, cierre o marco, e indicar opening.obstructions, o none"},
	"gap.bracket":             {"the bracket", "el soporte"},
	"gap.bracket-rests":       {"its place, its holes and its fit; there is no mounting sheet", "su lugar, sus agujeros y su ajuste; no hay hoja de montaje"},
	"gap.bracket-remedy":      {"measure a bracket, describe it under brackets, and name it on the shade", "medir un soporte, describirlo en brackets y nombrarlo en la cortina"},
	"gap.behind":              {"what the brackets are screwed into", "la pared o el marco tras los soportes"},
	"gap.behind-rests":        {"which fastener holds them", "qué tornillo los sujeta"},
	"gap.behind-remedy":       {"knock, or look in a hole, and give behind", "golpear, o mirar en un agujero, e indicar behind"},
	"gap.pins":                {"how far the pins of %s stick out", "cuánto salen las espigas de %s"}, // a roller
	"gap.pins-rests":          {"whether the roller fits between its brackets", "si el rodillo entra entre sus soportes"},
	"gap.pins-remedy":         {"measure each pin from the end of the tube, and give rollers.pins", "medir cada espiga desde el extremo del tubo e indicar rollers.pins"},

	// Cloth, tube and slat.
	"gap.thickness":             {"the thickness of %s", "el grosor de %s"}, // goods
	"gap.thickness-rests":       {"the pocket, the roll and what it must clear", "la jareta, la cortina enrollada y sus holguras"},
	"gap.thickness-remedy":      {"measure ten layers, divide by ten, and give goods.thickness", "medir diez capas, dividir entre diez e indicar goods.thickness"},
	"gap.with-thickness":        {"cloth %s thick", "tela de %s de grosor"},
	"gap.tube":                  {"the diameter of the tube of %s", "el diámetro del tubo de %s"},
	"gap.tube-rests":            {"the wraps, the roll and what it must clear", "las vueltas de reserva, la cortina enrollada y sus holguras"},
	"gap.tube-remedy":           {"measure across the bare tube with a caliper, and give rollers.tube", "medir el diámetro del tubo desnudo con un calibre e indicar rollers.tube"},
	"gap.with-tube":             {"a tube of %s", "un tubo de %s"},
	"gap.slat-width":            {"the width of slat %s", "el ancho del listón %s"},
	"gap.slat-thickness":        {"the thickness of slat %s", "el grosor del listón %s"},
	"gap.slat-rests":            {"the pocket", "la jareta"},
	"gap.slat-width-remedy":     {"measure the slat, and give slats.width", "medir el listón e indicar slats.width"},
	"gap.slat-thickness-remedy": {"measure the slat, and give slats.thickness", "medir el listón e indicar slats.thickness"},
	"gap.with-slat-width":       {"a slat %s wide", "un listón de %s de ancho"},
	"gap.with-slat-thickness":   {"a slat %s thick", "un listón de %s de grosor"},

	// Masses, spring and wall.
	"gap.mass":             {"the mass of %s", "el gramaje de %s"},
	"gap.mass-rests":       {"the weight, the spring and the sag", "el peso, el resorte y la flecha"},
	"gap.mass-remedy":      {"weigh a swatch of 10 × 10 cm (5 g is 500 g/m²), or read the label, and give goods.mass", "pesar una muestra de 10 × 10 cm (5 g son 500 g/m²), o leer la etiqueta, e indicar goods.mass"},
	"gap.with-mass":        {"cloth of %s", "tela de %s"},
	"gap.slat-mass":        {"the mass of slat %s", "el peso del listón %s"},
	"gap.mass-sag":         {"the weight and the sag", "el peso y la flecha"},
	"gap.slat-mass-remedy": {"give slats.material, or slats.mass", "indicar slats.material o slats.mass"},
	"gap.with-slat-of":     {"a slat of %s", "un listón de %s"},
	"gap.spring":           {"the spring in %s", "el resorte de %s"},
	"gap.spring-rests":     {"whether it lifts the shade, and how far to wind it", "si levanta la cortina y cuánto tensarlo"},
	"gap.spring-remedy":    {"give rollers.spring.rate; or write spring: trial, and the finished shade decides by the trial on its ticket", "indicar rollers.spring.rate; o escribir spring: trial, y lo decide la cortina acabada con la prueba de su ficha"},
	"gap.wall":             {"the wall and the material of the tube of %s", "el espesor y el material del tubo de %s"},
	"gap.wall-rests":       {"the sag of the tube", "la flecha del tubo"},
	"gap.wall-remedy":      {"look at the end of the tube, and give rollers.wall and rollers.material", "mirar el extremo del tubo e indicar rollers.wall y rollers.material"},
	"gap.with-wall":        {"a tube of %s with a wall of %s", "un tubo de %s con un espesor de %s"}, // material, thickness

	// Materials of tubes and slats.
	"material.steel":      {"steel", "acero"},
	"material.aluminium":  {"aluminium", "aluminio"},
	"material.wood":       {"wood", "madera"},
	"material.pvc":        {"pvc", "pvc"},
	"material.fibreglass": {"fibreglass", "fibra de vidrio"},

	// The pins of a roller.
	"hang.pins-too-long":     {"the pins stick out %s together, and the brackets leave them %s", "las espigas salen %s en total, y los soportes les dejan %s"},
	"hang.pins-too-short":    {"the pins stick out only %s together, and need %s to stay in their brackets", "las espigas salen solo %s en total, y necesitan %s para no salirse de los soportes"},
	"hang.set-tube-for-pins": {"make the tube %s long, and the cloth no wider than the tube", "dejar el tubo en %s, y la tela no más ancha que el tubo"},

	// A roller that more shades need than there are: its name, "once" or "3 times", the units.
	"ticket.roller-shared":     {"roller %s exists %s, and all of these need it: %s", "el rodillo %s existe %s, y lo necesitan: %s"},
	"ticket.fix-roller-shared": {"give the others another roller; or write count: %d on this one, if there are so many, or count: any", "dar otro rodillo a las demás; o escribir count: %d en este si hay tantos, o count: any"},

	// A shade that left its roller open: for each roller why it does not do.
	"ticket.no-roller":         {"no roller does for it: %s", "no le sirve ningún rodillo: %s"},
	"ticket.fix-no-roller":     {"get another roller, or change the shade", "conseguir otro rodillo, o cambiar la cortina"},
	"ticket.roller-fails":      {"%s: %s", "%s: %s"}, // a roller, and what is wrong with it
	"ticket.roller-given-away": {"%s works, but another shade needs it more", "%s sirve, pero otra cortina lo necesita más"},
	"ticket.no-roller-left":    {"there is none left", "no queda ninguno"},

	// What is bought on top of what a plan needs.
	"ticket.with-waste": {"%d %% for waste on top", "más un %d %% de merma"},
}
