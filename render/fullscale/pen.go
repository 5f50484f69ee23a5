package fullscale

import (
	"shadewright/render/page"
	"shadewright/ticket/measure"
)

// Lines are told apart by their dashes and by the words on them, never by
// colour. Besides these there are the solid ones of package page.

// Dashed is a pen of long dashes: where cloth turns, what is not there yet.
func Dashed() page.Pen { return dashed(350, 8*mm, 3*mm) }

// Broken is a pen of short thick dashes: the row of stitches, falling cloth.
func Broken() page.Pen { return dashed(500, 2*mm, 2*mm) }

// Centred is a pen of dashes and dots: a middle, an axis.
func Centred() page.Pen { return dashed(250, 8*mm, 2*mm, 1*mm, 2*mm) }

// Joined is a pen of dots: where two strips or pieces meet.
func Joined() page.Pen { return dashed(250, 1*mm, 1*mm) }

func dashed(micrometres measure.Length, dash ...measure.Length) page.Pen {
	return page.Pen{Width: micrometres * measure.Micrometre, Dash: dash}
}

// Small is the type of remarks.
func Small() page.Face { return page.Face{Size: 8 * page.Pt} }

// Plain is the type of most words.
func Plain() page.Face { return page.Face{Size: 10 * page.Pt} }

// Strong is the type of words that are looked for.
func Strong() page.Face { return page.Face{Size: 10 * page.Pt, Weight: page.Semibold} }
