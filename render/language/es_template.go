package language

import "shadewright/ticket/phrase"

// spanishTemplate is what template says.
var spanishTemplate = map[phrase.English]string{}
