package message

// measuringTexts holds the texts of the measuring sheet, the paper to take to the
// window. They stand beside small boxes, so they are short.
var measuringTexts = texts{
	"measuring.title": {"Measuring sheet", "Hoja de medidas"},

	// The head of a sheet for an opening that the job does not know yet.
	"measuring.job":   {"job", "trabajo"},
	"measuring.shade": {"shade", "cortina"},
	"measuring.room":  {"room", "habitación"},
	"measuring.place": {"place", "lugar"},

	"measuring.inside":       {"inside the opening", "dentro del hueco"},
	"measuring.outside-wall": {"outside, on the wall", "fuera, en la pared"},
	"measuring.ceiling":      {"under a ceiling", "bajo el techo"},

	// The readings of every opening.
	"measuring.widths":          {"Widths", "Anchos"},
	"measuring.width-top":       {"top", "arriba"},
	"measuring.width-middle":    {"middle", "centro"},
	"measuring.width-bottom":    {"bottom", "abajo"},
	"measuring.heights":         {"Heights", "Altos"},
	"measuring.height-left":     {"left", "izquierda"},
	"measuring.height-middle":   {"middle", "centro"},
	"measuring.height-right":    {"right", "derecha"},
	"measuring.diagonals":       {"Corners, depth", "Esquinas, fondo"},
	"measuring.diagonal-first":  {"from top left", "desde arriba izda"},
	"measuring.diagonal-second": {"from top right", "desde arriba dcha"},
	"measuring.depth":           {"depth to glass", "fondo al vidrio"}, // of an inside mount
	"measuring.from-above":      {"The recess from above, inside mount only", "El hueco desde arriba, solo montaje dentro"},
	"measuring.room-side":       {"room", "habitación"},

	// Outside mounts.
	"measuring.outside":    {"Outside: how far the cloth covers the wall", "Fuera: cuánto cubre la tela la pared"},
	"measuring.over-left":  {"left", "izquierda"},
	"measuring.over-right": {"right", "derecha"},
	"measuring.over-above": {"above", "arriba"},
	"measuring.over-below": {"below", "abajo"},

	// What stands in the way.
	"measuring.stands-out":    {"What stands out: frame, crank, handle, lock", "Qué sobresale: marco, manivela, manija, cierre"},
	"measuring.nothing":       {"nothing", "nada"},
	"measuring.what":          {"what", "qué"},
	"measuring.how-far-out":   {"how far out", "cuánto sobresale"},
	"measuring.how-far-below": {"how far from top", "a qué distancia de arriba"},

	// Brackets, roller, cloth and slat.
	"measuring.fixing":         {"Bracket, and what is behind it", "Soporte y qué hay detrás"},
	"measuring.bracket":        {"bracket", "soporte"},
	"measuring.behind":         {"It is screwed into", "Se atornilla en"},
	"measuring.roller":         {"Donor roller", "Rodillo usado"},
	"measuring.telescoping":    {"telescoping", "telescópico"},
	"measuring.fixed":          {"fixed", "fijo"},
	"measuring.tube":           {"tube, across", "tubo, diámetro"},
	"measuring.shortest":       {"shortest", "más corto"},
	"measuring.longest":        {"longest", "más largo"},
	"measuring.pins":           {"pins stick out", "espigas salen"},
	"measuring.spring":         {"spring rate", "resorte"},
	"measuring.cloth":          {"Cloth and slat", "Tela y listón"},
	"measuring.ten-layers":     {"ten layers", "diez capas"},
	"measuring.roll-width":     {"roll width", "ancho del rollo"},
	"measuring.slat-width":     {"slat width", "listón, ancho"},
	"measuring.slat-thickness": {"slat thickness", "listón, grosor"},

	"measuring.notes": {"Notes: does the sill or the head slope? Does the wall lean? What lies behind the brackets?", "Notas: ¿está inclinado el alféizar o el dintel? ¿Se inclina la pared? ¿Qué hay detrás de los soportes?"},
}
