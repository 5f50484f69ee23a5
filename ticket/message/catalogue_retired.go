package message

// retiredTexts holds the texts that the program has stopped using. Records may hold
// them, so a row moves here from its table instead of being removed.
var retiredTexts = texts{
	"card.mark":                {"Mark, from the raw edge", "Marcar, desde el borde crudo"},
	"card.spring-unknown":      {"Spring, rate not known", "Resorte, constante desconocida"},
	"card.scale":               {"hanging scale on the slat, pulled down slowly", "dinamómetro en el listón, bajar despacio"},
	"card.down":                {"%s down", "bajada %s"},
	"mark.of":                  {"%s %d of %d", "%s %d de %d"},
	"ticket.not-worked-out":    {"not worked out: %s", "sin calcular: %s"},
	"ticket.give-missing":      {"give %s", "indicar %s"},
	"ticket.missing-clearance": {"the clearance of the roll", "la holgura alrededor de la cortina enrollada"},
	"ticket.give-axle":         {"a bracket or opening.axle", "un soporte u opening.axle"},
	"ticket.missing-weight":    {"weight, spring and sag", "peso, resorte y flecha"},
	"ticket.give-goods-mass":   {"the mass of the goods", "el gramaje de la tela"},
	"ticket.give-slat-mass":    {"the slat's mass or material", "el peso o el material del listón"},
	"ticket.missing-turns":     {"the turns of the spring", "las vueltas del resorte"},
	"ticket.give-spring":       {"its rate, or the readings of a trial", "su constante, o las lecturas de una prueba"},
	"ticket.missing-sag":       {"the sag of the tube", "la flecha del tubo"},
	"ticket.give-tube":         {"its wall and material", "su espesor y su material"},
	"ticket.thickness-unknown": {"the thickness of %s is unknown: the pocket and the thread are worked out without it, and the roll is not worked out", "no se conoce el grosor de %s: la jareta y el hilo se calculan sin él, y el diámetro enrollado no se calcula"},
	"ticket.measure-thickness": {"measure ten layers, divide by ten, and give thickness", "medir diez capas, dividir entre diez e indicar thickness"},
	"ticket.fix-hem-depth":     {"make the hem at most as deep as the pocket", "hacer el dobladillo como mucho tan profundo como la jareta"},
	"ticket.fix-stitch-row":    {"sew closer to the folded edge, or make the hem deeper", "coser más cerca del borde doblado, o hacer más profundo el dobladillo"},
	"ticket.fix-pocket-depth":  {"check the finished length and the pocket", "revisar el largo acabado y la jareta"},
	"ticket.fix-tube-length":   {"use another roller, or change the finished width", "usar otro rodillo, o cambiar el ancho acabado"},
}
