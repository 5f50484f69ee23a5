package message

// planTexts holds the texts of the cut plan and the buying list.
var planTexts = texts{

	// Headings.
	"plan.cut-plan":      {"Cut plan", "Plan de corte"},
	"plan.to-buy":        {"To buy", "Lista de compra"},
	"plan.offcut-labels": {"Offcut labels", "Etiquetas de retales"},

	// How the goods are cut, and how good the plan is.
	"plan.cut-off-roll":            {"Cut %s off the roll, %s wide", "Cortar %s del rollo, de %s de ancho"},
	"plan.cut-off-roll-and-piece":  {"Cut %[2]s off the roll, %[3]s wide, and %[1]d piece on hand", "Cortar %[2]s del rollo, de %[3]s de ancho, y %[1]d pieza disponible"},
	"plan.cut-off-roll-and-pieces": {"Cut %[2]s off the roll, %[3]s wide, and %[1]d pieces on hand", "Cortar %[2]s del rollo, de %[3]s de ancho, y %[1]d piezas disponibles"},
	"plan.piece-suffices":          {"Cut nothing off the roll: %d piece on hand suffices", "No cortar nada del rollo: basta %d pieza disponible"},
	"plan.pieces-suffice":          {"Cut nothing off the roll: %d pieces on hand suffice", "No cortar nada del rollo: bastan %d piezas disponibles"},
	"plan.yield":                   {"%s. Of the cloth cut, panels are %s %%, offcuts to keep %s %%, waste %s %%.", "%s. De la tela cortada, paños %s %%, retales que se guardan %s %%, desperdicio %s %%."},
	"plan.how-to-stand":            {"Stand at the cut end, cloth face up: the drawing has that end at the left and the roll’s left edge on top. Every part keeps these edges. Scale 1 : %d.", "Situarse en el extremo cortado, con el derecho de la tela hacia arriba: en el dibujo, ese extremo queda a la izquierda y el borde izquierdo del rollo, arriba. Cada parte conserva esos bordes. Escala 1 : %d."},

	// The drawing and its key.
	"plan.on-hand":        {"on hand: %s", "disponible: %s"},
	"plan.cut-end":        {"cut end", "extremo cortado"},
	"plan.legend-panel":   {"panel, sizes across × along", "paño, a lo ancho × a lo largo"},
	"plan.offcut-to-keep": {"offcut to keep", "retal que se guarda"},
	"plan.panels-top":     {"to the panel’s top", "parte superior del paño"},
	"plan.table-ends":     {"table ends: %s", "largo de la mesa: %s"},

	// The list of cuts.
	"plan.cut":                       {"cut", "corte"},
	"plan.take":                      {"take", "tomar"},
	"plan.cut-inches":                {"cut, in inches", "cortar, en pulgadas"},
	"plan.cut-millimetres":           {"cut, in millimetres", "cortar, en milímetros"},
	"plan.this-comes-off":            {"comes off", "sale"},
	"plan.this-is-left":              {"is left", "queda"},
	"plan.check":                     {"check", "control"},
	"plan.across-from-cut-end":       {"across, %s from cut end", "a lo ancho, a %s del extremo"},
	"plan.along-from-left-edge":      {"along, %s from left edge", "a lo largo, a %s del borde izq."},
	"plan.from-left-edge-from-there": {"%s from left edge, %s from there", "a %s del borde izq., a %s de ahí"},
	"plan.from-cut-end":              {"%s from cut end", "extremo: %s"},
	"plan.from-left-edge":            {"%s from left edge", "borde izq.: %s"},
	"plan.left-edge-then":            {"left edge %s, then %s", "izq.: %s, luego %s"},
	"plan.selvages-and-wide":         {"selvages, %s and %s wide", "orillos, de %s y %s"},
	"plan.check-in":                  {"Check: %s in %s.", "Control: %s en %s."},
	"plan.count-panel":               {"%d panel", "%d paño"},
	"plan.count-panels":              {"%d panels", "%d paños"},
	"plan.count-cut":                 {"%d cut", "%d corte"},
	"plan.count-cuts":                {"%d cuts", "%d cortes"},
	"plan.sections":                  {"Sections %s = %s.", "Tramos %s = %s."},
	"plan.keep":                      {"Keep %s.", "Guardar %s."},
	"plan.nothing-to-keep":           {"Nothing worth keeping is left.", "No queda nada que valga la pena guardar."},
	"plan.cut-with-allowance":        {"Each panel is cut with %s to spare all round: square it to the size in the drawing.", "Cada paño se corta con %s de más alrededor: escuadrarlo a la medida del dibujo."},

	// What to buy.
	"plan.item":             {"what", "artículo"}, // is bought
	"plan.the-job-takes":    {"needed", "necesario"},
	"plan.column-on-hand":   {"on hand", "disponible"},
	"plan.buy":              {"buy", "comprar"},
	"plan.price":            {"price", "precio"},
	"plan.price-in":         {"price, %s", "precio, %s"},
	"plan.amount":           {"amount", "importe"}, // of money
	"plan.materials":        {"Materials", "Materiales"},
	"plan.labour":           {"Labour", "Mano de obra"},
	"plan.total":            {"Total", "Total"},
	"plan.unpriced":         {"%d without a price: not in the sum.", "%d sin precio: fuera de la suma."},
	"plan.of-pieces-length": {"%d of %s", "%d de %s"}, // pieces of a length
	"plan.roll-of":          {"%d roll of %s", "%d rollo de %s"},
	"plan.rolls-of":         {"%d rolls of %s", "%d rollos de %s"},
	"plan.spool-of":         {"%d spool of %s", "%d carrete de %s"},
	"plan.spools-of":        {"%d spools of %s", "%d carretes de %s"},
	"plan.slats":            {"Slats from each stock length", "Listones, de cada barra comercial"},
	"plan.left":             {"%d. %s, %s: %s; left %s", "%d. %s, %s: %s; sobra %s"},

	// Labels of offcuts.
	"plan.offcut-size": {"across the roll × along it, %s", "a lo ancho del rollo × a lo largo, %s"},
}
