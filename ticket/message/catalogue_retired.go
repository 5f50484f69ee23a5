package message

// retiredTexts holds the texts that the program has stopped using. Records may hold
// them, so a row moves here from its table instead of being removed.
var retiredTexts = texts{
	"mark.of": {"%s %d of %d", "%s %d de %d"},
}
