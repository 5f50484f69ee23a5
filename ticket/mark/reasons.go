package mark

import "shadewright/ticket/message"

// UsualHolds returns reasons for a ticket to wait that a shop may begin with:
// common practice, no source. A mark keeps the reason in English, whatever
// language it was chosen in.
func UsualHolds() []message.English {
	return []message.English{"no cloth", "wrong size", "flaw in the cloth", "ask the client"}
}

// UsualSpoilt returns reasons for a panel to be cut again, likewise.
func UsualSpoilt() []message.English {
	return []message.English{"cut wrong", "sewn wrong", "stained"}
}
