package mark

import "shadewright/ticket/message"

// UsualHolds returns reasons for a ticket to wait, for a shop that has no list of
// its own: common practice, no source. A mark keeps the id of the reason, whatever
// the language it was chosen in.
func UsualHolds() []message.ID {
	return []message.ID{"reason.no-cloth", "reason.wrong-size", "reason.flaw", "reason.ask-client"}
}

// UsualSpoilt returns reasons for a panel to be cut again, likewise.
func UsualSpoilt() []message.ID {
	return []message.ID{"reason.cut-wrong", "reason.sewn-wrong", "reason.stained"}
}
