package config

import (
	"strings"

	"shadewright/ticket/buying"
	"shadewright/ticket/form"
	"shadewright/ticket/measure"
	"shadewright/ticket/route"
)

// Cutting holds the settings for cutting cloth.
type Cutting struct {
	Table      measure.Length // longest section that fits on it; zero for no limit
	Overhang   bool           // the table's length is a guess: a longer panel may hang over its end
	SquareEnd  measure.Length // cut off the roll's end to square it
	Seconds    int            // search time for a shorter plan, for each goods
	KeepWidth  measure.Length // smaller side of an offcut worth keeping
	KeepLength measure.Length
	Record     string // file of the shop's offcuts; empty if there is none
}

func cuttingRows() []setting {
	side := form.Length{Least: 10 * mm, Most: 5000 * mm}
	return []setting{
		{key("cutting.table", form.Length{Most: 50_000 * mm}, "Length of the cutting table. The first cuts divide the roll into sections no longer than this, and a longer panel is a stop; 0 means no limit.", "10 ft",
			func(s *Settings) *measure.Length { return &s.Cutting.Table }), "96 in", practice + "; until you set it, a longer panel may hang over its end"},
		{key("cutting.square_end", form.Length{Most: 1000 * mm}, "Length to cut off the end of a roll before the first panel, so that it is square; 0 means that the end is square already.", "1 in",
			func(s *Settings) *measure.Length { return &s.Cutting.SquareEnd }), "2 in", practice},
		{key("cutting.seconds", form.Whole{Most: 3600, Fix: "in seconds"}, "Seconds to search for a shorter plan, for each goods.", "10",
			func(s *Settings) *int { return &s.Cutting.Seconds }), "1", "enough to prove the plan of a small job"},
		{key("cutting.keep_width", side, "Smaller side of an offcut worth keeping.", "12 in",
			func(s *Settings) *measure.Length { return &s.Cutting.KeepWidth }), "12 in", practice},
		{key("cutting.keep_length", side, "Larger side of an offcut worth keeping.", "18 in",
			func(s *Settings) *measure.Length { return &s.Cutting.KeepLength }), "18 in", practice},
		{key("cutting.record", form.Text{Most: 250}, "File of the shop's offcuts, relative to the job's folder. Plans offer its offcuts, and shadewright cut updates it.", "../offcuts.json",
			func(s *Settings) *string { return &s.Cutting.Record }), none, "without this file, plans offer no offcuts"},
	}
}

func buyingRows() []setting {
	roll := form.Length{Least: measure.Metre, Most: 1000 * measure.Metre}
	each := form.Whole{Most: 20}
	pick := func(f func(*buying.Shop) *measure.Length) func(*Settings) *measure.Length {
		return func(s *Settings) *measure.Length { return f(&s.Buying) }
	}
	return []setting{
		{key("buying.currency", form.Text{Most: 8}, "Currency of all prices.", "EUR",
			func(s *Settings) *string { return &s.Buying.Currency }), none, "all prices are in one currency, named or not"},
		{key("buying.sold_by", form.Length{Least: 5 * mm, Most: 10_000 * mm}, "Step in which goods are sold.", "4-1/2 in",
			pick(func(b *buying.Shop) *measure.Length { return &b.SoldBy })), "", "an eighth of a yard, or 10 cm if the job's unit is mm: " + practice},
		{key("buying.waste", form.Whole{Most: 100, Percent: true, Fix: "in percent"}, "Cloth to buy for waste, in percent.", "5",
			func(s *Settings) *int { return &s.Buying.Waste }), "5", practice},
		{key("buying.tape_roll", roll, "Length of tape on one roll.", "50 m",
			pick(func(b *buying.Shop) *measure.Length { return &b.TapeRoll })), "50 m", practice},
		{key("buying.spool", roll, "Length of thread on one spool.", "1000 m",
			pick(func(b *buying.Shop) *measure.Length { return &b.Spool })), "1000 m", practice},
		{key("buying.slat_length", form.Length{Least: 100 * mm, Most: 10_000 * mm}, "Length in which slats are sold.", "96 in",
			pick(func(b *buying.Shop) *measure.Length { return &b.SlatLength })), "96 in", practice},
		{key("buying.saw_cut", form.Length{Most: 10 * mm}, "Width of a saw cut through a slat.", "1/8 in",
			pick(func(b *buying.Shop) *measure.Length { return &b.SawCut })), "1/8 in", practice},
		{key("buying.brackets", each, "Pairs of brackets to buy for each shade.", "1",
			func(s *Settings) *int { return &s.Buying.Brackets }), "0", "the donor's brackets are used again"},
		{key("buying.end_parts", each, "Sets of end parts to buy for each shade.", "1",
			func(s *Settings) *int { return &s.Buying.EndParts }), "0", "the donor's end parts are used again"},
		{key("buying.needle_seam", roll, "Length of seam that one needle sews.", "50 m",
			pick(func(b *buying.Shop) *measure.Length { return &b.NeedleSeam })), "50 m", practice},
		{key("buying.blade_cut", roll, "Length of cut that one blade makes.", "100 m",
			pick(func(b *buying.Shop) *measure.Length { return &b.BladeCut })), "100 m", practice},
	}
}

func priceRows() []setting {
	const unset = "without a price, none is printed"
	rows := []struct {
		name, doc, example string
		pick               func(*buying.Prices) *measure.Money
	}{
		{"tape", "Price of a roll of tape.", "14.50", func(p *buying.Prices) *measure.Money { return &p.Tape }},
		{"thread", "Price of a spool of thread.", "22.00", func(p *buying.Prices) *measure.Money { return &p.Thread }},
		{"brackets", "Price of a pair of brackets.", "3.80", func(p *buying.Prices) *measure.Money { return &p.Brackets }},
		{"end_parts", "Price of a set of end parts.", "2.10", func(p *buying.Prices) *measure.Money { return &p.EndParts }},
		{"needle", "Price of a needle.", "0.60", func(p *buying.Prices) *measure.Money { return &p.Needles }},
		{"blade", "Price of a blade.", "2.75", func(p *buying.Prices) *measure.Money { return &p.Blades }},
	}
	var out []setting
	for _, r := range rows {
		out = append(out, setting{key("price."+r.name, form.Money{}, r.doc, r.example, func(s *Settings) *measure.Money { return r.pick(&s.Buying.Prices) }), "", unset})
	}
	return out
}

// labourRows has a setting for each step of the usual route.
func labourRows() []setting {
	rows := []setting{{key("labour.rate", form.Money{}, "Cost of an hour of work.", "42.00",
		func(s *Settings) *measure.Money { return &s.Buying.Rate }), "", "without a rate, labour is not counted"}}
	for _, step := range route.Usual() {
		rows = append(rows, setting{key("labour."+strings.ReplaceAll(step.Key, "-", "_"), minutes{form.Whole{Most: 600, Fix: "in minutes"}, step.Key},
			"Minutes for each shade: "+step.Name.String()+".", "10",
			func(s *Settings) *map[string]int { return &s.Buying.Minutes }), "", "without minutes, the step is not counted"})
	}
	return rows
}

// minutes is the kind of one step's time. It sets one entry of a
// *map[string]int.
type minutes struct {
	form.Whole
	step string
}

// Set implements [form.Scalar].
func (k minutes) Set(text string, units measure.System, into any) *form.Fault {
	var n int
	if f := k.Whole.Set(text, units, &n); f != nil {
		return f
	}
	all := into.(*map[string]int)
	if *all == nil {
		*all = map[string]int{}
	}
	(*all)[k.step] = n
	return nil
}
