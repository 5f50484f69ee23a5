// Package hang answers one question about a shade before its cloth is cut: will it
// hang? From the measurements at the window to the brackets on the wall, it works
// out
//
//   - the finished size from an opening ([Rules.Fit]),
//   - the roll: diameter up, turns, wraps left, radius at every height ([Winding]),
//   - what the roll, the cloth and the slat must clear ([Place]),
//   - the hanging weight, the torque that lifts it and the turns of the spring ([Load],
//     [Lift], [Measure]),
//   - the sag of the tube ([Beam]),
//   - where the brackets go ([Site.Drill]) and what holds them ([Fasteners]).
//
// [Shade.Work] does all of this except the opening and the brackets.
//
// # Units
//
// Lengths are [measure.Length]. The mathematics inside uses float64 in millimetres,
// grams, newtons and turns of the tube, and is rounded back to lengths and masses
// once. Torque is in newton millimetres, and a spring's rate in newton millimetres
// per turn.
//
// # Who checks
//
// Input for which nothing can be worked out (no thickness, a wall thicker than the
// radius) is refused with an [*finding.InputError] for each fault, all at once. A
// shade that can be worked out but not made well gets a [finding.Finding].
// Functions that return no error trust that the Check method of their receiver has
// run. No length above [finding.Reach] is accepted, so nothing overflows.
package hang
