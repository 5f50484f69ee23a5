package jobfile

import (
	"fmt"

	"shadewright/ticket"
	"shadewright/ticket/form"
	"shadewright/ticket/goods"
	"shadewright/ticket/measure"
)

const mostOnHand = 10_000 // of one kind of small part

// layingKeys describes how to lay goods on the roll, how the goods are sold, and
// the pieces on hand. Each Into returns a pointer into a *goodsDraft.
func layingKeys() []form.Key {
	into := form.At[goodsDraft, measure.Length]
	return []form.Key{
		{Name: "match", Kind: wordOf(ticket.NoMatch, ticket.MatchAll, ticket.MatchRoom), Doc: "Whether panels all turn alike, so that they match side by side: true for all panels of these goods, room for the panels of one room.", Example: "true", Default: "false; each panel turns if that saves cloth",
			Into: form.At(func(g *goodsDraft) *ticket.Match { return &g.Match })},
		{Name: "repeat", Kind: form.Length{Most: 3000 * mm}, Doc: "Length of the pattern along the roll; every panel then starts at the same place in the pattern, and none turns.", Example: "25 in", Default: "plain goods",
			Into: into(func(g *goodsDraft) *measure.Length { return &g.Repeat })},
		{Name: "allowance", Kind: form.Length{Most: 100 * mm}, Doc: "Cloth left on each side of a panel until you square it.", Example: "1/4 in", Default: "none",
			Into: into(func(g *goodsDraft) *measure.Length { return &g.Allowance })},
		{Name: "sold_by", Kind: form.Length{Least: 5 * mm, Most: longest}, Doc: "Step in which the length of the goods is sold: an eighth of a yard is 4-1/2 in.", Example: "4-1/2 in", Default: "the shop's buying.sold_by",
			Into: into(func(g *goodsDraft) *measure.Length { return &g.supply.SoldBy })},
		{Name: "price", Kind: form.Money{}, Doc: "Price of the goods for the length price_per.", Example: "18.50", Default: "none, and no price is printed",
			Into: form.At(func(g *goodsDraft) *measure.Money { return &g.supply.Price })},
		{Name: "price_per", Kind: form.Length{Least: 5 * mm, Most: longest}, Doc: "The length of roll that the price is for.", Example: "1 yd", Default: "a yard, or a metre if the job's units are mm",
			Into: into(func(g *goodsDraft) *measure.Length { return &g.supply.PricePer })},
		{Name: "on_hand", Kind: form.ListOf[ticket.Piece]{
			Label: "label", Least: 1, Group: form.Group{Keys: pieceKeys()}, New: func() ticket.Piece { return ticket.Piece{} },
		}, Doc: "Pieces of the goods on hand, used first where that saves buying.", Example: "[{label: shelf-3, width: 40 in, length: 60 in}]", Default: "none",
			Into: form.At(func(g *goodsDraft) *[]ticket.Piece { return &g.supply.OnHand })},
	}
}

func pieceKeys() []form.Key {
	into := form.At[ticket.Piece, measure.Length]
	side := form.Length{Least: 10 * mm, Most: 200 * measure.Metre}
	return []form.Key{
		{Name: "label", Kind: form.Text{Most: 24}, Required: true, Doc: "The label written on the piece.", Example: "shelf-3",
			Into: form.At(func(p *ticket.Piece) *string { return &p.Label })},
		{Name: "width", Kind: side, Required: true, Doc: "Usable width, across the roll that the piece came from.", Example: "40 in",
			Into: into(func(p *ticket.Piece) *measure.Length { return &p.Width })},
		{Name: "length", Kind: side, Required: true, Doc: "Usable length, along that roll.", Example: "60 in",
			Into: into(func(p *ticket.Piece) *measure.Length { return &p.Length })},
	}
}

func count(name, doc, example, none string, into func(any) any) form.Key {
	return form.Key{Name: name, Kind: form.Whole{Most: mostOnHand}, Doc: doc, Example: example, Default: none, Into: into}
}

func rollerSupplyKeys() []form.Key {
	return []form.Key{
		{Name: "count", Kind: form.Whole{Least: 1, Most: mostOnHand, Any: "any"}, Doc: "How many such rollers there are; any, for as many as are needed.", Example: "2", Default: "1, because a donor exists once; any, if the roller has a price",
			Into: form.At(func(d *rollerDraft) *int { return &d.Count })},
		{Name: "price", Kind: form.Money{}, Doc: "Price of the roller, if it is bought.", Example: "11.90", Default: "none; the roller is a donor",
			Into: form.At(func(d *rollerDraft) *measure.Money { return &d.supply.Price })},
		count("on_hand", "How many such rollers are on hand, if they are bought.", "1", "none", form.At(func(d *rollerDraft) *int { return &d.supply.OnHand })),
	}
}

func slatSupplyKeys() []form.Key {
	return []form.Key{
		{Name: "stock", Kind: form.Length{Least: narrowest, Most: longest}, Doc: "Length in which the slat is sold.", Example: "96 in", Default: "the shop's buying.slat_length",
			Into: form.At(func(s *slatDraft) *measure.Length { return &s.supply.Stock })},
		{Name: "price", Kind: form.Money{}, Doc: "Price of one such length.", Example: "4.20", Default: "none, and no price is printed",
			Into: form.At(func(s *slatDraft) *measure.Money { return &s.supply.Price })},
		count("on_hand", "How many such lengths are on hand.", "2", "none", form.At(func(s *slatDraft) *int { return &s.supply.OnHand })),
	}
}

func onHandKeys() []form.Key {
	into := form.At[ticket.OnHand, int]
	return []form.Key{
		{Name: "tape", Kind: form.Length{Most: 10_000 * measure.Metre}, Doc: "Length of tape.", Example: "12 m", Default: "none",
			Into: form.At(func(h *ticket.OnHand) *measure.Length { return &h.Tape })},
		{Name: "thread", Kind: form.ListOf[ticket.ThreadOnHand]{
			Label: "size", Least: 1, New: func() ticket.ThreadOnHand { return ticket.ThreadOnHand{} },
			Group: form.Group{Keys: []form.Key{
				{Name: "size", Kind: form.Whole{Least: 46, Most: 138, Only: goods.ThreadSizes(), Fix: "the commercial size of the thread"}, Required: true, Doc: "Commercial size of the thread.", Example: "69",
					Into: form.At(func(t *ticket.ThreadOnHand) *int { return &t.Size })},
				{Name: "length", Kind: form.Length{Most: 100_000 * measure.Metre}, Required: true, Doc: "Length of this thread.", Example: "300 m",
					Into: form.At(func(t *ticket.ThreadOnHand) *measure.Length { return &t.Length })},
			}},
		}, Doc: "Thread, by its size.", Example: "[{size: 69, length: 300 m}]", Default: "none",
			Into: form.At(func(h *ticket.OnHand) *[]ticket.ThreadOnHand { return &h.Thread })},
		count("brackets", "Pairs of brackets.", "2", "none", into(func(h *ticket.OnHand) *int { return &h.Brackets })),
		count("end_parts", "Sets of end parts.", "2", "none", into(func(h *ticket.OnHand) *int { return &h.EndParts })),
		count("needles", "Needles of the job's size.", "5", "none", into(func(h *ticket.OnHand) *int { return &h.Needles })),
		count("blades", "Blades for the cutter.", "1", "none", into(func(h *ticket.OnHand) *int { return &h.Blades })),
	}
}

// checkPieces refuses two pieces on hand with the same label, because the cut plan
// names pieces by their labels.
func checkPieces(r *form.Reader, rec form.FileGroup, g *goodsDraft) {
	first := map[string]int{}
	for i, p := range g.supply.OnHand {
		if j, twice := first[p.Label]; twice && p.Label != "" {
			r.Add(rec.Line("on_hand"), rec.Field+".on_hand", p.Label, form.Fault{
				Problem: fmt.Sprintf("is the label of pieces %d and %d", j+1, i+1), Fix: "give each piece its own label"})
			continue
		}
		first[p.Label] = i
	}
}

// checkThread refuses two entries for one size of thread.
func checkThread(r *form.Reader, rec form.FileGroup, into any) {
	seen := map[int]bool{}
	for _, t := range into.(*ticket.OnHand).Thread {
		if seen[t.Size] {
			r.Add(rec.Line("thread"), rec.Field+".thread", fmt.Sprint(t.Size), form.Fault{Problem: "appears twice", Fix: "add up the lengths in one line"})
		}
		seen[t.Size] = true
	}
}

// supply collects the draft's stock and prices.
func (d *draft) supply() ticket.Supply {
	s := ticket.Supply{
		Goods: map[string]ticket.GoodsSupply{}, Slats: map[string]ticket.SlatSupply{}, Rollers: map[string]ticket.RollerSupply{},
		OnHand: d.onHand,
	}
	for name, g := range d.goods {
		s.Goods[name] = g.supply
	}
	for name, l := range d.slats {
		s.Slats[name] = l.supply
	}
	for name, r := range d.rollers {
		s.Rollers[name] = r.supply
	}
	return s
}
