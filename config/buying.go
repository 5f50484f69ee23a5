package config

import (
	"strings"

	"shadewright/ticket/buying"
	"shadewright/ticket/form"
	"shadewright/ticket/measure"
	"shadewright/ticket/route"
)

// Cutting is how the shop cuts cloth.
type Cutting struct {
	Table      measure.Length // longest section it takes; zero: no limit
	Seconds    int            // how long to look for a shorter plan, for each goods
	KeepWidth  measure.Length // smallest offcut worth keeping
	KeepLength measure.Length
	Record     string // file of the shop's offcuts; empty: none is kept
}

func cuttingRows() []setting {
	side := form.Length{Least: 10 * mm, Most: 5000 * mm}
	return []setting{
		{key("cutting.table", form.Length{Most: 50_000 * mm}, "Length of the cutting table: the first cuts part the roll into sections no longer than it. 0 sets no limit.", "96 in",
			func(s *Settings) *measure.Length { return &s.Cutting.Table }), "0 in", "cloth may hang over the end of a table"},
		{key("cutting.seconds", form.Whole{Most: 3600, Fix: "in seconds"}, "How long to look for a shorter plan, for each goods.", "10",
			func(s *Settings) *int { return &s.Cutting.Seconds }), "1", "small jobs are proven in less"},
		{key("cutting.keep_width", side, "The smaller side of an offcut that is worth keeping.", "12 in",
			func(s *Settings) *measure.Length { return &s.Cutting.KeepWidth }), "12 in", practice},
		{key("cutting.keep_length", side, "The larger side of an offcut that is worth keeping.", "18 in",
			func(s *Settings) *measure.Length { return &s.Cutting.KeepLength }), "18 in", practice},
		{key("cutting.record", form.Text{Most: 250}, "File of the shop's offcuts, from the job's folder on: plans offer what is in it, and shadewright cut keeps it.", "../offcuts.json",
			func(s *Settings) *string { return &s.Cutting.Record }), none, "no offcuts are offered until the shop keeps a record"},
	}
}

func buyingRows() []setting {
	roll := form.Length{Least: measure.Metre, Most: 1000 * measure.Metre}
	each := form.Whole{Most: 20}
	pick := func(f func(*buying.Shop) *measure.Length) func(*Settings) *measure.Length {
		return func(s *Settings) *measure.Length { return f(&s.Buying) }
	}
	return []setting{
		{key("buying.currency", form.Text{Most: 8}, "The currency that prices are in.", "EUR",
			func(s *Settings) *string { return &s.Buying.Currency }), none, "prices are in one currency, whichever it is"},
		{key("buying.sold_by", form.Length{Least: 5 * mm, Most: 10_000 * mm}, "Step of the length in which goods are sold.", "4-1/2 in",
			pick(func(b *buying.Shop) *measure.Length { return &b.SoldBy })), "", "an eighth of a yard, or 10 cm where the job's units are mm: " + practice},
		{key("buying.waste", form.Whole{Most: 100, Percent: true, Fix: "in percent"}, "Cloth bought for waste, in percent.", "5",
			func(s *Settings) *int { return &s.Buying.Waste }), "5", practice},
		{key("buying.tape_roll", roll, "Tape on one roll.", "50 m",
			pick(func(b *buying.Shop) *measure.Length { return &b.TapeRoll })), "50 m", practice},
		{key("buying.spool", roll, "Thread on one spool.", "1000 m",
			pick(func(b *buying.Shop) *measure.Length { return &b.Spool })), "1000 m", practice},
		{key("buying.slat_length", form.Length{Least: 100 * mm, Most: 10_000 * mm}, "The length in which slats are sold.", "96 in",
			pick(func(b *buying.Shop) *measure.Length { return &b.SlatLength })), "96 in", practice},
		{key("buying.saw_cut", form.Length{Most: 10 * mm}, "What a cut through a slat takes away.", "1/8 in",
			pick(func(b *buying.Shop) *measure.Length { return &b.SawCut })), "1/8 in", practice},
		{key("buying.brackets", each, "Pairs of brackets to buy for a shade.", "1",
			func(s *Settings) *int { return &s.Buying.Brackets }), "0", "the donor's own are used again"},
		{key("buying.end_parts", each, "Sets of end parts to buy for a shade.", "1",
			func(s *Settings) *int { return &s.Buying.EndParts }), "0", "the donor's own are used again"},
		{key("buying.needle_seam", roll, "Length of seam that one needle sews.", "50 m",
			pick(func(b *buying.Shop) *measure.Length { return &b.NeedleSeam })), "50 m", practice},
		{key("buying.blade_cut", roll, "Length of cut that one blade makes.", "100 m",
			pick(func(b *buying.Shop) *measure.Length { return &b.BladeCut })), "100 m", practice},
	}
}

func priceRows() []setting {
	const unset = "no price is printed"
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
	rows := []setting{{key("labour.rate", form.Money{}, "What an hour of work costs.", "42.00",
		func(s *Settings) *measure.Money { return &s.Buying.Rate }), "", "labour is not counted"}}
	for _, step := range route.Usual() {
		rows = append(rows, setting{key("labour."+strings.ReplaceAll(step.Key, "-", "_"), minutes{form.Whole{Most: 600, Fix: "in minutes"}, step.Key},
			"Minutes that a shade takes: "+step.Name+".", "10",
			func(s *Settings) *map[string]int { return &s.Buying.Minutes }), "", "not counted"})
	}
	return rows
}

// minutes is the time of one step, and fills its place in a *map[string]int.
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
