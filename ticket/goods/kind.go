// Package goods says how cloth, thread, needle and heat go together, as tables with
// their sources. A job names a [Kind]. [Kind.Cloth] says how to seal its edges,
// which fumes heat releases, and its usual thickness and mass.
//
// Rows marked "common practice, no source" are what workrooms do. Every other row
// names the source of its figure.
package goods

import (
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// A Kind is a kind of cloth. The zero Kind means none.
type Kind uint8

// The kinds of cloth that a shop re-covers shades with.
const (
	None            Kind = iota
	CoatedMesh           // woven from PVC-coated polyester yarn
	CoatedGlassMesh      // woven from PVC-coated glass yarn
	AcrylicCanvas        // solution-dyed acrylic
	PolyesterCanvas      // woven polyester
	CottonDuck           // numbered duck
	VinylFilm            // unsupported or laminated PVC sheet
	BlackoutLining       // woven base with an opaque coating
)

// A Seal is the way to keep a raw side edge from fraying.
type Seal uint8

const (
	ColdCut  Seal = iota // cut clean and cold; nothing more is needed
	Sealer               // cut cold, then a thin line of liquid edge sealer
	HotKnife             // melted by a hot knife during the cut or after it
	SideHem              // turned and stitched; sealer where there is no allowance for a hem
)

// String returns the words for JSON.
func (s Seal) String() string { return s.Message().String() }

// Message returns the words for a ticket.
func (s Seal) Message() message.Message {
	return message.Of([...]message.ID{"ticket.seal-cold", "ticket.seal-cold-and-sealer", "ticket.seal-hot-knife", "ticket.seal-hem-or-sealer"}[s])
}

// Heat reports whether this seal needs a hot tool.
func (s Seal) Heat() bool { return s == HotKnife }

// A Cloth is what is known about a kind of goods.
type Cloth struct {
	Word       string     // in a job file
	Name       message.ID // on a ticket
	Seal       Seal
	SealNote   message.ID // how to seal, in one sentence
	SealSource string     // the source of that advice
	Vinyl      bool       // it gives off hydrogen chloride when overheated
	NoHeat     message.ID // why heat must never seal it, in one sentence; empty where heat may
	Needle     message.ID // advice on the needle's point, and why
	Likely     Likely     // what its thickness and mass are likely to be
}

// Likely is the range in which the thickness and the mass of a kind of cloth lie. It is
// never taken for a measure: a shade is tried at both ends and in the middle, and what
// fails there is said.
type Likely struct {
	Thin, Thick  measure.Length
	Light, Heavy measure.ArealMass
	Source       string
}

const (
	practice = "common practice, no source"
	micro    = measure.Micrometre
	perArea  = measure.GramPerSquareMetre
	// fume says why a blade hot enough to seal polyester (about 260 °C) overheats
	// PVC: Energy & Fuels 17(4), 2003, 896–900 puts the onset near 150 °C.
	fume = "ticket.heat-vinyl"
)

var cloths = [...]Cloth{
	CoatedMesh: {
		Word: "coated-mesh", Name: "ticket.vinyl-coated-polyester-mesh",
		Seal: Sealer, Vinyl: true, NoHeat: fume,
		SealNote:   "ticket.edge-mesh",
		SealSource: "heat-set edges: mechosystems.com, shade cloth specification, 3.1.2; sealer: " + practice,
		Needle:     "ticket.needle-mesh",
		Likely:     Likely{300 * micro, 900 * micro, 280 * perArea, 650 * perArea, practice},
	},
	CoatedGlassMesh: {
		Word: "coated-glass-mesh", Name: "ticket.vinyl-coated-glass-mesh",
		Seal: Sealer, Vinyl: true, NoHeat: "ticket.heat-glass",
		SealNote:   "ticket.edge-glass",
		SealSource: "glass yarn melts at 846 °C: fiber-line.com, fiberglass data; sealer: " + practice,
		Needle:     "ticket.needle-glass",
		Likely:     Likely{400 * micro, 800 * micro, 350 * perArea, 600 * perArea, "teptext.com, PVC and glass screen: 0.70–0.75 mm and 540–560 g/m²; lighter ones: " + practice},
	},
	AcrylicCanvas: {
		Word: "acrylic-canvas", Name: "ticket.solution-dyed-acrylic-canvas",
		Seal:       HotKnife,
		SealNote:   "ticket.edge-acrylic",
		SealSource: "acrylic marine cloth is cut by a hot knife: metrodetroitupholstery.com; timtinker.com, hot-knife cutter",
		Needle:     "ticket.sharp-round-point",
		Likely:     Likely{400 * micro, 700 * micro, 270 * perArea, 330 * perArea, practice},
	},
	PolyesterCanvas: {
		Word: "polyester-canvas", Name: "ticket.polyester-canvas",
		Seal:       HotKnife,
		SealNote:   "ticket.edge-polyester",
		SealSource: "melting near 260 °C: Thomsen, Journal of the American Institute for Conservation 27(1)",
		Needle:     "ticket.sharp-round-point",
		Likely:     Likely{300 * micro, 700 * micro, 180 * perArea, 350 * perArea, practice},
	},
	CottonDuck: {
		Word: "cotton-duck", Name: "ticket.cotton-duck",
		Seal: SideHem, NoHeat: "ticket.heat-cotton",
		SealNote:   "ticket.edge-cotton",
		SealSource: "cotton burns to a grey ash without residue: A Manual of Home-Making, fabric burning test; hem or sealer: " + practice,
		Needle:     "ticket.sharp-round-point",
		Likely:     Likely{450 * micro, 1000 * micro, 240 * perArea, 520 * perArea, practice},
	},
	VinylFilm: {
		Word: "vinyl-film", Name: "ticket.vinyl-film",
		Seal: ColdCut, Vinyl: true, NoHeat: fume,
		SealNote:   "ticket.edge-film",
		SealSource: practice,
		Needle:     "ticket.needle-film",
		Likely:     Likely{350 * micro, 900 * micro, 400 * perArea, 1100 * perArea, practice},
	},
	BlackoutLining: {
		Word: "blackout-lining", Name: "ticket.blackout-lining",
		Seal: Sealer, Vinyl: true, NoHeat: "ticket.heat-coating",
		SealNote:   "ticket.edge-lining",
		SealSource: practice + "; treated as vinyl because the coating is often not named",
		Needle:     "ticket.needle-lining",
		Likely:     Likely{250 * micro, 600 * micro, 180 * perArea, 420 * perArea, practice},
	},
}

// Cloth returns what is known about k.
func (k Kind) Cloth() Cloth { return cloths[k] }

// String returns the word a job file uses.
func (k Kind) String() string { return cloths[k].Word }

// ParseKind returns the kind with this word in a job file.
func ParseKind(word string) (Kind, bool) {
	for k := range cloths {
		if k != 0 && cloths[k].Word == word {
			return Kind(k), true
		}
	}
	return None, false
}

// Kinds returns the words of all kinds, in the order of the table.
func Kinds() []string {
	words := make([]string, 0, len(cloths)-1)
	for _, c := range cloths[1:] {
		words = append(words, c.Word)
	}
	return words
}
