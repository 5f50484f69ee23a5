// Package template draws the marking template: the band across the bottom of a
// panel, at full scale, with the lines that the cloth is folded and sewn by. The
// band is cut into strips that fit the paper and are taped together again; the
// gauge has the same lines on one sheet.
//
// Every dimension of the band comes from a ticket. This package decides only
// where on the paper a place of the band lies. A strip is placed from the
// panel's origin, its bottom left corner, and never from the strip before it,
// so that nothing drifts along a wide panel.
package template
