// Package ticket holds the rules of the workroom: what a job and a shade are, how
// an order becomes a panel, fold lines, trims, a seam and findings, and what is on
// the ticket that travels with each unit. It draws nothing and opens no file.
//
// Every distance is a [measure.Length], an exact count of nanometres. Package
// jobfile alone checks the form of an order. [Make] trusts that it did, works out
// every dimension, and reports in findings what cannot be made or is worth knowing.
package ticket
