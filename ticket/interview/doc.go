// Package interview conducts the interview that makes a new job. It decides which
// question comes next and what an answer means, and says what to cut as soon as a
// shade is complete. It draws no prompt and reads no key.
//
// An interview stores the answers as they were typed, and derives everything else
// from them. So going back is removing the last answer, and resuming on another day
// is giving the same answers again. Package jobfile defines which answers are
// allowed.
package interview
