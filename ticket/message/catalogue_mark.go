package message

// markTexts holds the texts of the packages mark, record and code.
var markTexts = texts{

	// The verdict.
	"mark.done":     {"DONE", "HECHO"},
	"mark.done-but": {"DONE, BUT", "HECHO, PERO"},
	"mark.not-yet":  {"NOT YET", "TODAVÍA NO"},
	"mark.not-so":   {"READING OFF", "LECTURA FUERA"},
	"mark.kept":     {"KEPT", "GUARDADO"},
	"mark.undone":   {"UNDONE", "DESHECHO"},
	"mark.held":     {"HELD", "EN ESPERA"},
	"mark.released": {"RELEASED", "LIBERADA"},
	"mark.remade":   {"REMADE", "PARA REHACER"},
	"mark.again":    {"AGAIN", "OTRA VEZ"},
	"mark.ready":    {"READY", "LISTA"},
	"mark.finished": {"FINISHED", "TERMINADA"},
	"mark.no":       {"NO", "NO"},

	// A ticket, and what comes next on it.
	"mark.cut-again":       {"%s, cut again %d", "%s, nuevo corte %d"},
	"mark.what-changed":    {"%s; what changed: %s", "%s; lo que cambió: %s"},
	"mark.next":            {"next: %s", "sigue: %s"},
	"mark.go-on":           {"go on", "siga"},
	"mark.every-step-done": {"every step is done", "todos los pasos están hechos"},

	// A step is done, or is not.
	"mark.nothing-left":        {"every step is done; nothing is left to mark", "todos los pasos están hechos; no queda nada por registrar"},
	"mark.no-such-step":        {"the route has no step %q; its steps are %s", "el recorrido no tiene el paso %q; sus pasos son %s"},
	"mark.done-before":         {"%s was already done%s; undo it if that was wrong", "«%s» ya estaba hecho%s; deshágalo si fue un error"},
	"mark.at-on":               {" at %s on %s", " (%[2]s, %[1]s)"},
	"mark.at-on-by":            {" at %s on %s by %s", " (%[2]s, %[1]s, %[3]s)"},
	"mark.too-early":           {"%s comes later; first do and mark: %s", "«%s» va después; haga y registre antes: %s"},
	"mark.out-of-order":        {"%s was marked before: %s", "«%s» se registró antes que: %s"},
	"mark.step-marked":         {"%s stays marked done", "«%s» queda registrado como hecho"},
	"mark.step-not-marked":     {"%s is not marked done", "«%s» no queda registrado como hecho"},
	"mark.step-not-done":       {"%s is not done", "«%s» no está hecho"},
	"mark.undo-and-mark-again": {"undo the step, put it right, and mark it again", "deshaga el paso, corríjalo y regístrelo otra vez"},
	"mark.sent-before":         {"already marked; nothing was marked twice", "ya se había registrado; nada se registró dos veces"},

	// A step is undone.
	"mark.nothing-to-undo":      {"no step is done yet; nothing to undo", "aún no hay ningún paso hecho; nada que deshacer"},
	"mark.step-nothing-to-undo": {"%s is not done; nothing to undo", "«%s» no está hecho; nada que deshacer"},
	"mark.remake-undone":        {"this panel counts again; its remake is cancelled", "este paño vuelve a contar; no se rehace"},

	// A ticket is held and released.
	"mark.held-until-released": {"%s; release it when work can go on", "%s; libérela cuando se pueda seguir"},
	"mark.held-first-release":  {"held: %s; release it first", "en espera: %s; libérela antes"},
	"mark.held-already":        {"already held: %s; release it before you hold it for another reason", "ya está en espera: %s; libérela antes de ponerla en espera por otra causa"},
	"mark.not-held":            {"it is not held; go on", "no está en espera; siga"},

	// A panel is cut again.
	"mark.remade-print-again": {"%s; print the job again for its new ticket %s and cut another panel", "%s; imprima otra vez el trabajo para su ficha nueva %s y corte otro paño"},
	"mark.panel-was-remade":   {"this panel was remade: %s", "este paño se mandó rehacer: %s"},
	"mark.use-new-ticket":     {"use its new ticket %s", "use su ficha nueva %s"},
	"mark.print-again":        {"print the job again for its new ticket %s", "imprima otra vez el trabajo para su ficha nueva %s"},
	"mark.new-ticket-printed": {"its new ticket %s is printed already; use that one", "su ficha nueva %s ya está impresa; use esa"},

	// A paper that does not count.
	"mark.unknown-code":     {"%s: no ticket has this code; print its job with this shop’s record, then scan again", "%s: ninguna ficha tiene este código; imprima su trabajo con el registro de este taller y escanee otra vez"},
	"mark.superseded":       {"this paper is revision %s, the newest is %s; throw it away and use the newest, or print it again", "este papel es la revisión %s y la última es %s; tírelo y use el más reciente, o imprímalo otra vez"},
	"mark.unknown-revision": {"revision %s was never printed; the newest is %s; read the paper again, or leave the revision out", "la revisión %s nunca se imprimió; la última es %s; lea otra vez el papel, u omita la revisión"},

	// Readings that a step asks for.
	"mark.reading-not-asked": {"%s does not ask for that reading", "«%s» no pide esa lectura"},
	"mark.asks-diagonals":    {"it asks for both diagonals", "pide las dos diagonales"},
	"mark.asks-width":        {"it asks for the width", "pide el ancho"},
	"mark.asks-turns":        {"it asks for the turns of the spring", "pide las vueltas del resorte"},
	"mark.asks-none":         {"it asks for none", "no pide ninguna"},
	"mark.one-diagonal":      {"only one diagonal is given; measure both", "solo hay una diagonal; mida las dos"},
	"mark.reading-negative":  {"a reading is below zero; measure again", "una lectura es menor que cero; mida otra vez"},
	"mark.reading-too-large": {"a reading is much too large; measure again", "una lectura es demasiado grande; mida otra vez"},
	"mark.not-turns":         {"%q is not a number of turns; write for example 12, 12.5 or 12-1/2, at most %s", "%q no es un número de vueltas; escriba por ejemplo 12; 12,5 o 12-1/2, como mucho %s"},

	// Answers to a reading.
	"mark.impossible-diagonals": {"a panel of this size cannot have such diagonals; measure both again", "un paño de este tamaño no puede tener esas diagonales; mida las dos otra vez"},
	"mark.square":               {"square", "a escuadra"},
	"mark.square-within":        {"square: the diagonals differ by %s; %s is allowed", "a escuadra: las diagonales difieren en %s y se admiten %s"},
	"mark.not-square-left":      {"not square: the top edge is %s out to the left; cut %s off at the top left corner and at the bottom right corner, tapering to nothing at the other corner of that end, and measure again", "fuera de escuadra: el borde superior está corrido %[1]s a la izquierda; recorte una cuña de cada extremo: %[2]s en la esquina superior izquierda y %[2]s en la inferior derecha, hasta cero en la otra esquina del mismo extremo; mida otra vez"},
	"mark.not-square-right":     {"not square: the top edge is %s out to the right; cut %s off at the top right corner and at the bottom left corner, tapering to nothing at the other corner of that end, and measure again", "fuera de escuadra: el borde superior está corrido %[1]s a la derecha; recorte una cuña de cada extremo: %[2]s en la esquina superior derecha y %[2]s en la inferior izquierda, hasta cero en la otra esquina del mismo extremo; mida otra vez"},
	"mark.width-is-right":       {"the width is right", "el ancho es correcto"},
	"mark.too-wide":             {"too wide by %s; trim it off one side and measure again", "exceso de ancho: %s; recórtelo de un lado y mida otra vez"},
	"mark.too-narrow":           {"too narrow by %s; hold the ticket, or cut the panel again", "ancho que falta: %s; ponga la ficha en espera, o corte otro paño"},
	"mark.turns-kept":           {"%s turns kept", "guardadas: %s vueltas"},
	"mark.turns-of-ticket":      {"the ticket says %s; %s to %s work", "la ficha dice %s; valen de %s a %s"},
	"mark.turns-too-few":        {"the ticket says %s and at least %s: it may not roll all the way up", "la ficha dice %s, con un mínimo de %s: puede que no se enrolle del todo"},
	"mark.turns-too-many":       {"the ticket says %s and at most %s: it may fly up or bind", "la ficha dice %s, con un máximo de %s: puede dispararse o trabarse"},

	// Reasons for a shop without a list of its own.
	"mark.hold-without-reason":   {"a hold needs a reason; say in a few words why", "falta el motivo de la espera; diga en pocas palabras por qué"},
	"mark.remake-without-reason": {"a spoilt panel needs a reason; say in a few words why", "falta el motivo del paño estropeado; diga en pocas palabras por qué"},
	"reason.no-cloth":            {"no cloth", "falta tela"},
	"reason.wrong-size":          {"wrong size", "medida equivocada"},
	"reason.flaw":                {"flaw in the cloth", "defecto en la tela"},
	"reason.ask-client":          {"ask the client", "preguntar al cliente"},
	"reason.cut-wrong":           {"cut wrong", "mal cortado"},
	"reason.sewn-wrong":          {"sewn wrong", "mal cosido"},
	"reason.stained":             {"stained", "manchado"},

	// Where a ticket stands.
	"mark.waiting":     {"waiting", "pendiente"},  // ticket
	"mark.begun":       {"begun", "empezada"},     // ticket
	"mark.is-held":     {"held", "en espera"},     // ticket
	"mark.is-finished": {"finished", "terminada"}, // ticket
	"mark.is-spoilt":   {"spoilt", "estropeada"},  // ticket

	// Faults of the record.
	"mark.record-unusable":    {"record %q cannot be used; nothing was marked, see the cause", "el registro %q no se puede usar; no se registró nada, vea la causa"},
	"mark.record-busy":        {"record %q is busy: another program is writing to it; nothing was marked, try again", "el registro %q está ocupado: otro programa escribe en él; no se registró nada, inténtelo otra vez"},
	"mark.record-disk-full":   {"record %q is on a full disk; nothing was marked, make room and try again", "el registro %q está en un disco lleno; no se registró nada, haga sitio e inténtelo otra vez"},
	"mark.record-read-only":   {"record %q cannot be written; nothing was marked, let this user write to the file and its folder", "no se puede escribir en el registro %q; no se registró nada, dé a este usuario permiso para escribir en el archivo y en su carpeta"},
	"mark.record-damaged":     {"record %q is damaged; it was left as it is: move it away and put back the newest copy, or import the newest export into a new record", "el registro %q está dañado; no se tocó: apártelo y reponga la copia más reciente, o importe la exportación más reciente en un registro nuevo"},
	"mark.record-foreign":     {"record %q belongs to another program; it was left as it is: name another file or database for the marks", "el registro %q es de otro programa; no se tocó: indique otro archivo u otra base de datos"},
	"mark.record-newer":       {"record %q was written by a newer version of this program; it was left as it is: use the newer version", "el registro %q lo escribió una versión más nueva de este programa; no se tocó: use la versión más nueva"},
	"mark.record-unreachable": {"record %q cannot be reached; whether it kept the last mark is unknown, send the mark again when the record answers", "no se llega al registro %q; no se sabe si lo último se guardó, envíelo otra vez cuando responda"},
	"mark.record-closed":      {"record %q is closed; nothing was marked", "el registro %q está cerrado; no se registró nada"},

	// Texts that are not codes.
	"mark.no-code":           {"no code was read; scan the ticket or type its 10 symbols", "no se leyó ningún código; escanee la ficha o teclee sus 10 signos"},
	"mark.code-wrong-symbol": {"code %q has %q at place %d; codes never use it, nor 0 1 I L O Q U; read the code again", "el código %q tiene %q en el lugar %d; los códigos nunca lo usan, ni 0 1 I L O Q U; lea otra vez el código"},
	"mark.code-wrong-length": {"code %q has %d symbols; a code has %d, and %d more with its revision", "el código %q tiene %d signos; un código tiene %d, y %d más con su revisión"},
	"mark.code-mistyped":     {"code %q is mistyped: one symbol is wrong, or two are swapped; type it again or scan it", "el código %q está mal tecleado: hay un signo equivocado o dos cambiados; tecléelo otra vez o escanéelo"},
	"mark.not-a-ticket":      {"%q is %s, not a ticket; scan the code on the ticket or tag", "%q es %s, no una ficha; escanee el código de la ficha o de la etiqueta"},
	"mark.kind-not-text":     {"too long, or not text", "demasiado largo o no es texto"},
	"mark.kind-other-code":   {"another kind of code", "otra clase de código"},
	"mark.kind-article":      {"a trade article number", "un número de artículo comercial"},
	"mark.kind-address":      {"another address", "otra dirección"},
}
