package buying

import (
	"encoding/json"
	"fmt"
	"strings"

	"shadewright/ticket/measure"
)

// A Report is a list for programs. Lengths are in millimetres, times in minutes.
// Keys may be added but are never renamed.
type Report struct {
	Currency  string       `json:"currency,omitempty"`
	Lines     []ReportLine `json:"lines"`
	Bars      []ReportBar  `json:"slat_lengths"`
	Labour    []ReportWork `json:"labour"`
	Materials json.Number  `json:"materials"`
	Work      json.Number  `json:"work"`
	Total     json.Number  `json:"total"`
	Unpriced  int          `json:"unpriced"`
}

// A ReportLine is one thing to buy. Things sold by length have needs_mm and
// step_mm, and things sold by number have needs.
type ReportLine struct {
	Kind     Kind        `json:"kind"`
	Name     string      `json:"name"`
	Needs    int         `json:"needs,omitempty"`
	NeedsMM  float64     `json:"needs_mm,omitempty"`
	OnHand   int         `json:"on_hand,omitempty"`
	OnHandMM float64     `json:"on_hand_mm,omitempty"`
	WasteMM  float64     `json:"waste_mm,omitempty"`
	StepMM   float64     `json:"step_mm,omitempty"`
	Buy      int         `json:"buy"`
	BuyMM    float64     `json:"buy_mm,omitempty"`
	Price    json.Number `json:"price,omitempty"`
	PerMM    float64     `json:"price_per_mm,omitempty"`
	Amount   json.Number `json:"amount,omitempty"`
	Note     string      `json:"note,omitempty"`
}

// A ReportBar is one stock length of slat.
type ReportBar struct {
	Slat   string        `json:"slat"`
	Stock  float64       `json:"stock_mm"`
	Pieces []ReportPiece `json:"pieces"`
	Left   float64       `json:"left_mm"`
}

// A ReportPiece is a slat to saw.
type ReportPiece struct {
	Shade  string  `json:"shade"`
	Unit   int     `json:"unit"`
	Length float64 `json:"length_mm"`
}

// A ReportWork is the time that one step takes.
type ReportWork struct {
	Step    string      `json:"step"`
	Minutes int         `json:"minutes"`
	Amount  json.Number `json:"amount"`
}

// Report returns the list for programs.
func (l List) Report() Report {
	r := Report{
		Currency: l.Currency, Lines: []ReportLine{}, Bars: []ReportBar{}, Labour: []ReportWork{},
		Materials: number(l.Materials), Work: number(l.Labour), Total: number(l.Total()), Unpriced: l.Unpriced,
	}
	for _, n := range l.Lines {
		line := ReportLine{
			Kind: n.Kind, Name: n.Name.String(), Needs: n.NeedsCount, NeedsMM: n.Needs.Millimetres(),
			OnHand: n.OnHandCount, OnHandMM: n.OnHand.Millimetres(), WasteMM: n.Waste.Millimetres(), StepMM: n.Step.Millimetres(),
			Buy: n.Buy, BuyMM: n.Length().Millimetres(), Note: n.Note.String(),
		}
		if n.Price > 0 {
			line.Price, line.Amount, line.PerMM = number(n.Price), number(n.Amount), n.Per.Millimetres()
		}
		r.Lines = append(r.Lines, line)
	}
	for _, b := range l.Bars {
		bar := ReportBar{Slat: b.Slat, Stock: b.Stock.Millimetres(), Left: b.Left.Millimetres()}
		for _, p := range b.Pieces {
			bar.Pieces = append(bar.Pieces, ReportPiece{p.Ticket.Shade.ID, p.Ticket.Unit, p.Length.Millimetres()})
		}
		r.Bars = append(r.Bars, bar)
	}
	for _, w := range l.Work {
		r.Labour = append(r.Labour, ReportWork{w.Step.Key, w.Minutes, number(w.Amount)})
	}
	return r
}

// number writes an amount exactly: 18.50, or 0.1234.
func number(m measure.Money) json.Number {
	s := fmt.Sprintf("%d.%04d", m/measure.Unit, m%measure.Unit)
	return json.Number(s[:len(s)-2] + strings.TrimRight(s[len(s)-2:], "0"))
}
