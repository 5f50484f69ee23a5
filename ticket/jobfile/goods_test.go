package jobfile

import (
	"reflect"
	"strings"
	"testing"

	"shadewright/ticket"
	"shadewright/ticket/measure"
)

// The values of laying and buying in a job, converted by hand.
func TestSupply(t *testing.T) {
	text := strings.NewReplacer(
		"lay: any}", "lay: any, match: true, repeat: 25, allowance: 1/4, sold_by: 10 cm, price: 18.50, price_per: 1 yd, on_hand: [{label: shelf-3, width: 40, length: 60}]}",
		"longest: 36}", "longest: 36, price: 11.90, on_hand: 1}",
		"thickness: 3/32}", "thickness: 3/32, stock: 72, price: 4.2, on_hand: 2}",
		"    quantity: 2", "    room: bunk room\n    quantity: 2",
		"paper: letter", "paper: letter\non_hand: {tape: 12 m, thread: [{size: 92, length: 300 m}], brackets: 2, end_parts: 3, needles: 5, blades: 1}",
	).Replace(sound)
	f, err := Read("job.yaml", []byte(text), practiceOf)
	if err != nil {
		t.Fatal(err)
	}
	g := f.Job.Shades[0].Goods
	if g.Match != ticket.MatchAll || g.Repeat != 25*in || g.Allowance != in/4 || g.Turns() || f.Job.Shades[0].Room != "bunk room" {
		t.Errorf("goods %+v", g)
	}
	want := ticket.Supply{
		Goods: map[string]ticket.GoodsSupply{"mesh": {SoldBy: 100 * mm, Price: 185_000, PricePer: 36 * in,
			OnHand: []ticket.Piece{{Label: "shelf-3", Width: 40 * in, Length: 60 * in}}}},
		Slats:   map[string]ticket.SlatSupply{"flat": {Stock: 72 * in, Price: 42_000, OnHand: 2}},
		Rollers: map[string]ticket.RollerSupply{"donor": {Price: 119_000, OnHand: 1}},
		OnHand: ticket.OnHand{Tape: 12 * measure.Metre, Thread: []ticket.ThreadOnHand{{Size: 92, Length: 300 * measure.Metre}},
			Brackets: 2, EndParts: 3, Needles: 5, Blades: 1},
	}
	if !reflect.DeepEqual(f.Job.Supply, want) {
		t.Errorf("supply %+v\nwant %+v", f.Job.Supply, want)
	}
}

func TestBadSupply(t *testing.T) {
	for _, tt := range []struct{ old, new, want string }{
		{"lay: any", "lay: any, match: always", `7: goods.mesh.match: "always" is not one of the words allowed here; write false, true or room`},
		{"lay: any", "lay: any, price: -3", `7: goods.mesh.price: "-3" is negative; write for example 18.50, without the currency`},
		{"lay: any", "lay: any, price: $18", `7: goods.mesh.price: "$18" is not a price; write for example 18.50, without the currency`},
		{"lay: any", "lay: any, repeat: 5000 mm", `7: goods.mesh.repeat: "5000 mm" is more than 118-1/16 in; check the number and its unit`},
		{"lay: any", "lay: any, sold_by: 0", `7: goods.mesh.sold_by: "0" is zero; write a length above zero`},
		{"lay: any", "lay: any, on_hand: [{label: a, width: 40, length: 60}, {label: a, width: 30, length: 20}]", `7: goods.mesh.on_hand: "a" is the label of pieces 1 and 2; give each piece its own label`},
		{"lay: any", "lay: any, on_hand: [{label: a, width: -1, length: 60}]", `7: goods.mesh.on_hand.a.width: "-1" is negative; write a length above zero`},
		{"lay: any", "lay: any, on_hand: []", `7: goods.mesh.on_hand: is empty; write for example on_hand: [{label: shelf-3, width: 40 in, length: 60 in}]`},
		{"paper: letter", "on_hand: {thread: [{size: 92, length: 1 m}, {size: 92, length: 2 m}]}", `4: on_hand.thread: "92" appears twice; add up the lengths in one line`},
		{"paper: letter", "on_hand: {needles: -1}", `4: on_hand.needles: "-1" is out of range; write a number from 0 to 10000`},
	} {
		refuses(t, strings.Replace(sound, tt.old, tt.new, 1), tt.new, tt.want)
	}
	// To an editor, true is a boolean and not a text.
	schema := compile(t)
	for _, v := range []any{true, false, "room"} {
		doc := map[string]any{"job": "a", "id": "5f0c8f0e-2b0f-4a55-9f0b-6f1f7a2d9c31", "units": "in",
			"goods":   map[string]any{"mesh": map[string]any{"kind": "coated-mesh", "width": "58", "match": v}},
			"rollers": map[string]any{}, "slats": map[string]any{}, "shades": []any{map[string]any{"id": "a", "goods": "mesh", "roller": "b", "slat": "c", "finished": map[string]any{"width": "20", "length": "20"}}}}
		if err := schema.Validate(doc); err != nil {
			t.Errorf("the schema refuses match: %v: %v", v, err)
		}
	}
}
