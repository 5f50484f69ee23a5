// Package form reads what a person has filled in: a job file or a settings
// file. It is strict. A [Key] describes each line that may be written, once:
// its name, how its value is written, its range, a sentence and an example. The
// same description reads the file, words the errors, suggests the key that was
// meant and makes the JSON Schema that editors check by.
//
// Lengths are [measure.Length] and other quantities types of package measure; a
// bare length is in the [Reader]'s unit system. The package judges form and range of a single
// value; what two values must have in common is judged by its callers. YAML is
// only a way of writing: references, tags, merges and several documents in one
// file are refused.
package form
