package language

import "shadewright/ticket/phrase"

// spanishTicket is what ticket says.
var spanishTicket = map[phrase.English]string{}
