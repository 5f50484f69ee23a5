// Package interview is the conversation by which a job is measured: which question
// comes next, what an answer means, what would be cut as soon as a shade is
// complete. It draws no prompt and reads no key.
//
// The answers are kept as they were typed. Everything else follows from them, so
// going back is taking the last one away, and going on another day is giving the
// same ones again. What may be answered is what package jobfile lets a file hold.
package interview
