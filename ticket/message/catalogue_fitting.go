package message

// fittingTexts holds the texts of the ticket for the bench where cloth, tube and spring
// come together.
var fittingTexts = texts{
	// Steps, and their dangers.
	"step.tube":             {"Set or saw the tube", "Ajustar o serrar el tubo"},
	"step.set-tube":         {"Set the tube", "Ajustar el tubo"},
	"step.saw-tube":         {"Saw the tube", "Serrar el tubo"},
	"step.pull":             {"Fit the pull", "Poner el tirador"},
	"ticket.set-tube":       {"Telescoping tube", "Tubo telescópico"},
	"ticket.care-set-tube":  {"Never saw it. Keep fingers off the joint: it pinches.", "No serrarlo. Dedos lejos de la unión: pellizca."},
	"ticket.sawn-tube":      {"Fixed tube", "Tubo fijo"},
	"ticket.care-sawn-tube": {"Never saw the spring’s end. Look in: the spring must stop short of the cut.", "No serrar nunca el extremo del resorte. Mirar dentro: el resorte debe acabar antes del corte."},

	// What records and settings of earlier versions call either.
	"step.trim-tube":   {"Trim the tube", "Cortar el tubo"},
	"common.trim-tube": {"Trim tube", "Cortar tubo a"},

	// Tube: headings, then what to do.
	"common.set-tube":  {"Set tube", "Ajustar tubo a"},
	"common.saw-tube":  {"Saw tube", "Serrar tubo a"},
	"common.tube-to":   {"Tube", "Tubo"},
	"card.set-slide":   {"Slide it, do not saw it: %s from end to end, pins not counted.", "Deslizarlo, no serrarlo: %s sin contar las espigas."},
	"card.set-hold":    {"Tape round the joint so that it cannot slip or turn. Measure again.", "Encintar la unión para fijarla. Medir otra vez."},
	"card.saw-which":   {"Draw plug and pin out of the plain end, not the spring’s end.", "Sacar tapón y espiga del extremo simple, no del extremo del resorte."},
	"card.saw-off":     {"Saw %s off that end, square: %s is left.", "Serrar %s de ese extremo, a escuadra: quedan %s."},
	"card.saw-to":      {"Saw that end square: %s is left.", "Serrar ese extremo a escuadra: quedan %s."},
	"card.saw-finish":  {"File the burr, push plug and pin back in, measure the pin.", "Limar la rebaba, meter tapón y espiga, medir la espiga."},
	"card.tube-either": {"If the tube slides, set it to %s. If it does not, draw the pin out of the plain end, saw that end, and put the pin back.", "Si el tubo desliza, ajustarlo a %s. Si no, sacar la espiga del extremo simple, serrar ese extremo y volver a poner la espiga."},

	// Which face is up.
	"common.good-face-down": {"good face down", "cara buena hacia abajo"},
	"card.against-tube":     {"good face against the tube", "cara buena contra el tubo"},
	"card.away-from-tube":   {"good face away from the tube", "cara buena hacia fuera"},

	// Cutting.
	"card.square-end-first": {"Square the roll’s end first.", "Antes, escuadrar la punta del rollo."},

	// Attaching the cloth.
	"card.attach":       {"Attach the cloth", "Fijar la tela"},
	"card.attach-line":  {"Rule a line along the tube. Bring the top edge to it: %s, %s free at each end.", "Trazar una línea a lo largo del tubo. Llevar a ella el borde de arriba: %s, %s libres en cada extremo."},
	"card.attach-flush": {"Rule a line along the tube. Bring the top edge to it: %s, flush with both ends.", "Trazar una línea a lo largo del tubo. Llevar a ella el borde de arriba: %s, a ras de los dos extremos."},
	"card.attach-tape":  {"Tape from the middle outwards. Roll up: if an edge wanders, lift the tape and lay again.", "Encintar del centro hacia fuera. Enrollar: si un borde se desvía, despegar y repetir."},

	// Pins, brackets and a pull.
	"card.pins-and-place":   {"Pins and brackets", "Espigas y soportes"},
	"card.pins-measured":    {"Out of the tube: flat pin %s, round pin %s.", "Fuera del tubo: espiga plana %s, redonda %s."},
	"card.pins-together":    {"Both pins together stick out %s to %s.", "Las dos espigas juntas salen de %s a %s."},
	"card.pins-mend":        {"If not, move the plain end’s pin, never the spring’s.", "Si no, mover la del extremo simple, nunca la del resorte."},
	"card.pins-unknown":     {"Before stripping, measure how far each pin sticks out; it is the same when you hang it.", "Antes de quitar la tela, medir cuánto sale cada espiga; al colgar debe salir lo mismo."},
	"card.place-sheet":      {"Brackets: see the mounting sheet.", "Soportes: ver la hoja de montaje."},
	"card.place-old":        {"Brackets: the old places. If they move: pins %s above the place of the bottom edge.", "Soportes: los lugares de antes. Si se mueven: espigas a %s sobre el lugar del borde inferior."},
	"card.place-apart":      {"The pins bear %s apart, level.", "Las espigas apoyan a %s entre sí, a nivel."},
	"card.place-between":    {"Brackets on the jambs, %s apart, level.", "Soportes en las jambas, a %s entre sí, a nivel."},
	"card.place-below":      {"Pins %s below the head.", "Espigas a %s bajo el dintel."},
	"card.place-roll-below": {"Pins as high as the roll clears the head.", "Espigas tan altas como permita la cortina enrollada."},
	"card.place-above":      {"Pins %s above the top of the opening, left tip %s left of it.", "Espigas a %s sobre el hueco, punta izquierda a %s a su izquierda."},
	"card.place-left":       {"Left tip %s left of the opening.", "Punta izquierda a %s a la izquierda del hueco."},
	"card.pull":             {"Pull: %s, in the middle of the slat.", "Tirador: %s, en el centro del listón."},

	// Trying a spring of unknown rate.
	"card.try-spring":    {"Try the spring", "Probar el resorte"},
	"card.begin-turns":   {"Begin: %s turns", "Empezar: %s vueltas"},
	"card.begin-pull":    {"Begin: pull %s", "Empezar: bajar %s"},
	"card.try-1":         {"From slack: pull %s down, lift out holding the flat pin, roll up by hand, hang again.", "Con el resorte flojo: bajar %s, descolgar sujetando la espiga plana, enrollar, colgar."},
	"card.try-2":         {"Hook a scale to the middle of the slat. Pull down slowly; read it moving:", "Dinamómetro al centro del listón. Bajar despacio; leer en marcha:"},
	"card.try-3":         {"Below the range, pull once more. Never go above it, or the slat flies up: let one pull off.", "Por debajo, bajar otra vez; por encima, quitar una: el listón saldría disparado."},
	"card.try-most":      {"Never more than %s turns: the spring binds.", "Nunca más de %s vueltas: el resorte se traba."},
	"card.try-range":     {"%s: %s–%s g", "%s: %s–%s g"},
	"card.try-blind-2":   {"Let it up from the bottom, hand on the slat. It hangs: pull once more. It throws: let one off.", "Soltarla desde abajo, con la mano en el listón. Se queda: bajar una vez más. Sale disparada: quitar una."},
	"card.try-blind-3":   {"Write the readings down, and give the cloth’s and the slat’s mass: then the limits are known.", "Apuntar las lecturas e indicar el peso de tela y listón: así se conocen los límites."},
	"change.tube-kind":   {"set or saw the tube", "ajustar o serrar el tubo"},
	"change.saw-off":     {"sawn off the tube", "parte serrada del tubo"},
	"change.free":        {"tube free beside the cloth", "tubo libre junto a la tela"},
	"change.faces":       {"which way the good face looks", "hacia dónde mira la cara buena"},
	"change.pins":        {"pins", "espigas"},
	"change.place-pins":  {"place of the pins", "lugar de las espigas"},
	"change.begin":       {"turns to begin with", "vueltas para empezar"},
	"change.scale-range": {"range of the scale", "intervalo del dinamómetro"},
	"change.pull-kind":   {"pull or handle", "tirador"},
}
