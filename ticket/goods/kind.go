// Package goods holds what cloth, thread, needle and heat may meet, as tables
// with their sources.
package goods

// A Kind is a sort of cloth. The zero Kind is none.
type Kind uint8

// The kinds a shop re-covers shades with.
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
