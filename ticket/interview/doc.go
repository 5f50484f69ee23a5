// Package interview conducts the interview that makes or changes a job. It decides
// which question comes next and what an answer means, and says what to cut as soon as
// a shade is complete. It draws no prompt and reads no key.
//
// The questions are data: lists of items (items_job.go, items_part.go,
// items_shade.go), each with its place in the job file. A walk goes through them from
// the start and derives everything else from the answers, which are kept as they were
// typed under the key of their question, such as shades[2].opening.widths. So any
// answer can be changed at any time: the walk asks again only what no longer fits.
// Where an existing job is changed, a value of its file counts as the answer.
//
// Package jobfile defines which answers are allowed.
package interview
