// Package intake turns a size list, a spreadsheet of measured shades, into a job
// file. It finds the row of headings, recognises the columns by their headings, and
// reads row after row by the rules of package jobfile. It takes a row as a whole or not
// at all.
//
// Lengths stay text until package jobfile reads them. Each has the unit of its
// cell, of its heading, or of the job.
package intake
