package language

import "shadewright/ticket/phrase"

// spanishHang is what hang says.
var spanishHang = map[phrase.English]string{}
