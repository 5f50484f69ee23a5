// Package ask asks the questions of an interview: in prompts drawn on a terminal, or line
// by line.
package ask

// Words that a user can type in place of an answer.
const (
	Back = "back"
	List = "list"
	Stop = "stop"
	Help = "?"
)

// command reports whether a text is one of those words.
func command(text string) bool { return text == Back || text == List || text == Stop || text == Help }
