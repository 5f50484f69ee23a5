package language

import "shadewright/ticket/phrase"

// spanishMounting is what mounting says.
var spanishMounting = map[phrase.English]string{}
