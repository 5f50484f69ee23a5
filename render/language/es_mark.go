package language

import "shadewright/ticket/phrase"

// spanishMark is what mark says.
var spanishMark = map[phrase.English]string{}
