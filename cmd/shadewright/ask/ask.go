// Package ask puts the questions of an interview to a person: drawn in a terminal,
// or line by line.
package ask

// What may be typed instead of an answer.
const (
	Back = "back"
	Stop = "stop"
	Help = "?"
)

// command reports whether a text is one of these words.
func command(text string) bool { return text == Back || text == Stop || text == Help }
