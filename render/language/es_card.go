package language

import "shadewright/ticket/phrase"

// spanishCard is what card says.
var spanishCard = map[phrase.English]string{}
