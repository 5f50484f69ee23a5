// Package measure holds the quantities of the workroom: exact lengths, areas,
// masses, money and spring rates. It reads them as people write them, and writes
// them as a tape measure shows them.
//
// Floating point appears only where mathematics needs it (roots, π), and the result
// is rounded back at once. Only [Parse] turns text into a [Length]. A bare number
// is in the unit system that the job declares, and an error if it declares none.
package measure
