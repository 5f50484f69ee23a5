package language

import "shadewright/ticket/phrase"

// spanishScreen is what screen says.
var spanishScreen = map[phrase.English]string{}
