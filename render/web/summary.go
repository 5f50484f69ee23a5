package web

import (
	"shadewright/render/language"
	"shadewright/ticket/mark"
	"shadewright/ticket/message"
)

// shown is a summary in a phone's language.
type shown struct {
	Place, Note     string
	Cut, Other      string // width × length
	Diagonal        string
	Goods, Roll     string
	Facts, Findings []shownFact
}

// A shownFact is a name and the text under it.
type shownFact struct{ Name, Text string }

func shownIn(l language.Language, s mark.Summary) *shown {
	out := &shown{
		Place: s.Place, Note: s.Note, Cut: s.Cut.Own, Other: s.Cut.Other, Diagonal: s.Diagonal.Own,
		Goods: l.Put(s.Goods.Message), Roll: l.Put(s.Roll.Message),
	}
	for _, f := range s.Facts {
		value := f.Value.Own
		if f.Value.Other != "" {
			value += " (" + f.Value.Other + ")"
		}
		out.Facts = append(out.Facts, shownFact{l.Put(f.Name.Message), l.Put(message.Join(", ", message.Verbatim(value), f.More.Message))})
	}
	for _, f := range s.Findings {
		out.Findings = append(out.Findings, shownFact{l.Put(f.Level.Message), l.Put(message.Join("; ", f.Text.Message, f.Remedy.Message))})
	}
	return out
}
