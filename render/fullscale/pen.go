package fullscale

import (
	"shadewright/render/page"
	"shadewright/ticket/measure"
)

// Lines differ by their dashes and by the words on them, never by colour.
// Package page has the solid pens.

// Dashed is a pen of long dashes, for fold lines and for parts not in place yet.
func Dashed() page.Pen { return dashed(350, 8*mm, 3*mm) }

// Broken is a pen of short thick dashes, for the row of stitches and for falling
// cloth.
func Broken() page.Pen { return dashed(500, 2*mm, 2*mm) }

// Centred is a pen of dashes and dots, for middles and axes.
func Centred() page.Pen { return dashed(250, 8*mm, 2*mm, 1*mm, 2*mm) }

// Joined is a pen of dots, for the joint of two strips or pieces.
func Joined() page.Pen { return dashed(250, 1*mm, 1*mm) }

func dashed(micrometres measure.Length, dash ...measure.Length) page.Pen {
	return page.Pen{Width: micrometres * measure.Micrometre, Dash: dash}
}

// Small is the face for remarks.
func Small() page.Face { return page.Face{Size: 8 * page.Pt} }

// Plain is the face for most text.
func Plain() page.Face { return page.Face{Size: 10 * page.Pt} }

// Strong is the face for text that a reader searches for.
func Strong() page.Face { return page.Face{Size: 10 * page.Pt, Weight: page.Semibold} }
