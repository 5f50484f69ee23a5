// Package measure holds the quantities of the workroom: lengths that are exact,
// areas and masses. It reads them in every way a hand writes them and puts them
// back into words a tape measure can follow.
//
// Floating point appears only where mathematics needs it (roots, π) and is
// rounded back at once. [Parse] alone turns text into a [Length]; a bare number
// has no meaning without the unit system the job declares.
package measure
