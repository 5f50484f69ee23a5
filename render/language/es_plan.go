package language

import "shadewright/ticket/phrase"

// spanishPlan is what plan says.
var spanishPlan = map[phrase.English]string{}
