// Package hang answers one question about a shade before its cloth is cut: will
// it hang? From the tape measure at the window to the brackets on the wall it
// works out
//
//   - the finished size from an opening ([Rules.Fit]),
//   - the roll: diameter up, turns, wraps left, radius at every height ([Winding]),
//   - what the roll, the cloth and the slat must clear ([Place]),
//   - what hangs, the torque that lifts it and the turns of the spring ([Load],
//     [Lift], [Measure]),
//   - the sag of the tube ([Beam]),
//   - where the brackets go ([Site.Drill]) and what holds them ([Fasteners]).
//
// [Shade.Work] does all of the middle ones at once.
//
// # Units
//
// Lengths are [measure.Length]. Inside, the mathematics runs in float64 in
// millimetres, grams, newtons and turns of the tube, and is rounded back to
// lengths and masses once. Torque is in newton millimetres, a spring's rate in
// newton millimetres per turn.
//
// # Who checks
//
// Input that leaves nothing to work out (no thickness, a wall thicker than the
// radius) is refused with an [*finding.InputError], all of them at once. A shade that
// can be worked out but not made well gets a [finding.Finding]. Functions that
// return no error trust that the Check method of their receiver has run. No
// length above [finding.Reach] is taken, so nothing overflows.
package hang
