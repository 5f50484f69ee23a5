// Package template draws the marking template at full scale: the band across
// the bottom of a panel, with the lines to fold and sew along. It cuts the band
// into strips that fit the paper; the shop tapes them together again. The gauge
// has the same lines on one sheet.
//
// Every dimension of the band comes from a ticket; this package decides only
// where each part of the band lies on the paper. It places a strip from the
// panel's origin, the bottom left corner, never from the previous strip, so
// errors cannot add up along a wide panel.
package template
