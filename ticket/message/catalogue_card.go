package message

// cardTexts holds the texts of tickets, tags and the bench sheet.
var cardTexts = texts{

	// Which ticket it is.
	"card.tickets":   {"Tickets, %s", "Fichas, %s"},
	"card.tags":      {"Tags, %s", "Etiquetas, %s"},
	"card.unit-of":   {"unit %d of %d", "unidad %d de %d"},
	"card.rev":       {"rev %s", "rev. %s"},
	"card.again-rev": {"again %d, rev %s", "rehecho %d, rev. %s"},
	"card.job":       {"job", "trabajo"},
	"card.client":    {"client", "cliente"},
	"card.due":       {"due", "entrega"},
	"card.note":      {"Note", "Nota"},

	// What is cut.
	"card.cut":                     {"Cut", "Corte"}, // the panel: a heading
	"card.width-length":            {"width × length", "ancho × largo"},
	"card.square":                  {"Square", "Escuadra"},    // the panel: a heading
	"card.both":                    {"%s, both", "%s, ambas"}, // las diagonales
	"card.equal-within":            {"equal within %s", "diferencia máx. %s"},
	"card.finished":                {"Finished %s; wrap %s, hem %s, pocket %s.", "Medida acabada %s; reserva en el tubo %s, dobladillo %s, jareta %s."},
	"card.finished-with-side-hems": {"Finished %s; wrap %s, hem %s, pocket %s, side hems %s.", "Medida acabada %s; reserva en el tubo %s, dobladillo %s, jareta %s, dobladillos laterales %s."},
	"card.rounded":                 {"Rounded to the rule; exactly %s × %s.", "Redondeado a la regla; exacto %s × %s."},

	// Stops, cautions and notes.
	"card.stop":           {"STOP", "ALTO"},
	"card.insisted":       {"Printed in spite of a stop. Do not cut until this is settled.", "Impreso a pesar de un alto. No cortar hasta resolverlo."},
	"card.unchecked":      {"UNCHECKED", "SIN COMPROBAR"},
	"card.measure-first":  {"Measure before you cut: %s.", "Medir antes de cortar: %s."},
	"card.not-known":      {"not known", "no se conoce"},
	"card.before-you-cut": {"Before you cut", "Antes de cortar"},
	"card.take-care":      {"Take care", "Cuidado"},
	"card.more-findings":  {"… and %d more: the check command lists them all.", "… y %d más: la orden check lo muestra todo."},

	// The drawings.
	"card.mark-face":      {"Mark from the raw edge, %s", "Marcar desde el borde crudo, %s"},
	"card.pocket-mark":    {"pocket mark: folded edge here", "marca de jareta: aquí el borde"},
	"card.hem-mark":       {"hem mark: raw edge here", "marca de dobladillo: aquí el borde crudo"},
	"card.fold-and-sew":   {"Fold and sew", "Doblar y coser"},
	"card.pocket":         {"pocket", "jareta"},
	"card.row-below-fold": {"row below fold", "bajo el doblez"},
	"card.hem":            {"hem", "dobladillo"},
	"card.slat":           {"slat", "listón"},
	"card.roll-standard":  {"Roll: standard", "Caída: normal"},
	"card.roll-reverse":   {"Roll: reverse", "Caída: inversa"},
	"card.falls-at-back":  {"Cloth falls at the back of the tube, next to the glass.", "La tela cae por detrás del tubo, junto al vidrio."},
	"card.falls-at-front": {"Cloth falls at the front of the tube, on the room side.", "La tela cae por delante del tubo, del lado de la habitación."},
	"card.mark-donor":     {"Mark the donor tube’s direction before you strip it.", "Marcar el sentido del tubo antes de quitar la tela."},
	"card.room-side":      {"room", "habitación"}, // the side of the shade
	"card.turns-up":       {"up", "sube"},         // the way the tube turns

	// Trims, seam, tape and edges.
	"card.roller":                        {"%s, Ø %s", "%s, Ø\u00a0%s"},
	"card.reaches-to":                    {"reaches %s to %s", "alcanza de %s a\u00a0%s"},
	"card.cut-from-tube":                 {"cut from a tube of %s", "sale de un tubo de %s"},
	"card.back-from-each-side":           {"%s back from each side", "%s hacia dentro en cada lado"},
	"card.sew":                           {"Sew", "Coser"}, // a heading
	"card.thread-needle":                 {"%s, thread %d, needle %d", "%s, hilo %d, aguja %d"},
	"card.stitches-per-inch":             {"%s stitches per inch, tex %d", "%s puntadas por pulgada, tex %d"},
	"card.stitches-per-inch-with-needle": {"%s stitches per inch, tex %d, Nm %d", "%s puntadas por pulgada, tex %d, Nm %d"},
	"card.stitch-row":                    {"type %s through %d plies, row %s", "tipo %s, %d capas, costura de %s"},
	"card.stitch-row-with-backtack":      {"type %s through %d plies, row %s, back-tack %s at each end", "tipo %s, %d capas, costura de %s, remate de %s en cada extremo"},
	"card.thread-length":                 {"%s of thread, bobbin included", "%s de hilo, bobina incluida"},
	"card.needle":                        {"needle: %s", "aguja: %s"},
	"card.tape-runs":                     {"%d runs of %s: hem, pocket, tube", "%d tiras de %s: dobladillo, jareta, tubo"},
	"card.of-edge":                       {"%s of edge", "%s de borde"},

	// How it hangs.
	"card.opening-inside-mount":    {"Opening, inside mount", "Hueco, montaje dentro"},
	"card.opening-outside-mount":   {"Opening, outside mount", "Hueco, montaje fuera"},
	"card.opening-ceiling-mount":   {"Opening, ceiling mount", "Hueco, montaje al techo"},
	"card.tip-to-tip":              {"tip to tip %s", "de punta a punta %s"},
	"card.measured":                {"measured %s wide, %s high", "medido: ancho %s, alto %s"},
	"card.measured-with-diagonals": {"measured %s wide, %s high, diagonals %s", "medido: ancho %s, alto %s, diagonales %s"},
	"card.taken-off":               {"taken off %s", "restado: %s"},
	"card.added":                   {"added %s", "sumado: %s"},
	"card.to-the-tips":             {"%s to the tips", "%s hasta las puntas"},
	"card.to-the-barrel":           {"%s to the barrel", "%s hasta el tubo"},
	"card.to-the-cloth":            {"%s to the cloth", "%s hasta la tela"},
	"card.of-height":               {"%s of height", "%s de alto"},
	"card.left-side":               {"%s left", "%s a la izquierda"}, // side
	"card.right-side":              {"%s right", "%s a la derecha"},  // side
	"card.above":                   {"%s above", "%s arriba"},
	"card.below":                   {"%s below", "%s abajo"},
	"card.rolled-up":               {"Rolled up", "Enrollada"},
	"card.roll":                    {"%s, %s turns, %s wraps left", "%s; %s vueltas, quedan %s"},
	"card.clears-by":               {"clears %s by %s", "holgura con %s: %s"},
	"card.runs-into-by":            {"runs into %s by %s", "choca con %s; espacio que falta: %s"},
	"card.pin-from-glass":          {"pin %s from the glass", "espiga a %s del vidrio"},
	"card.pin-from-wall":           {"pin %s from the wall", "espiga a %s de la pared"},
	"card.sag":                     {"the tube sags %s in the middle; limit %s", "flecha del tubo %s; límite %s"},
	"card.spring":                  {"Spring", "Resorte"},
	"card.no-turns-work":           {"no number of turns works", "no hay vueltas que sirvan"},
	"card.rate":                    {"%s N·mm per turn", "%s N·mm por vuelta"},
	"card.rate-with-range":         {"%s N·mm per turn, %s to %s work", "%s N·mm por vuelta; sirven de %s a %s"},
	"card.weight":                  {"%s g hang with the shade down", "con la cortina bajada cuelgan %s\u00a0g"},
	"card.pull-once":               {"from slack, once: pull %s down, lift out holding the flat pin, roll up by hand, hang again", "partiendo del resorte flojo, una vez: bajar la tela %s, descolgar sin soltar la espiga plana, enrollar a mano, colgar de nuevo"},
	"card.pull-times":              {"from slack, %d times: pull %s down, lift out holding the flat pin, roll up by hand, hang again", "partiendo del resorte flojo, %d veces: bajar la tela %s, descolgar sin soltar la espiga plana, enrollar a mano, colgar de nuevo"},
	"card.spring-command":          {"the spring command works out the turns from both readings", "la orden spring calcula las vueltas con las dos lecturas"},

	// The order of work.
	"card.work-with-initials": {"Work, with initials", "Pasos, con iniciales"},

	// Tags.
	"card.panel-tag": {"Panel", "Paño"},  // a tag
	"card.tube-tag":  {"Tube", "Tubo"},   // a tag
	"card.slat-tag":  {"Slat", "Listón"}, // a tag
	"card.hardware":  {"Hardware", "Herrajes"},

	// The bench sheet.
	"card.bench-sheet":        {"Bench sheet", "Hoja de mesa"},
	"card.bench-every-ticket": {"From now on, every ticket marks", "Desde ahora, cada ficha registra"},
	"card.bench-next-step":    {"Its next step", "El paso que siga"},
	"card.bench-next-ticket":  {"The next ticket only", "Solo la ficha siguiente"},
	"card.undo":               {"Undo", "Deshacer"},
	"card.release":            {"Go on after a hold", "Seguir tras la espera"},
	"card.hold":               {"Hold: %s", "En espera: %s"},
	"card.panel-spoilt":       {"Panel spoilt: %s", "Paño estropeado: %s"},
	"card.who-works-here":     {"Who works here", "Quién trabaja aquí"},
	"card.this-bench":         {"This bench", "Esta mesa"},
	"card.end-day":            {"At the end of the day", "Al final del día"},
	"card.forget":             {"Forget step, person and place", "Olvidar paso, persona y lugar"},
}
