package language

import "shadewright/ticket/phrase"

// spanishCommon is what several parts of the program say.
var spanishCommon = map[phrase.English]string{
	"%s and %s":      "%s y %s",
	"sheet %d of %d": "hoja %d de %d",
}
