// Package intake turns a sheet of measured shades into a job file. It finds the
// row of headings, knows the columns by what they mean, and reads row after row
// by the rules of package jobfile. A row is taken whole or not at all.
//
// Lengths stay text until the job file is read: in the unit of their heading, of
// the cell itself, or of the job.
package intake
