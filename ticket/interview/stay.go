package interview

// Stay keeps the answer that [Interview.Goto] or [Interview.Back] asked again.
func (v *Interview) Stay() { v.cursor = "" }
