// Package form reads a file that a person has filled in: a job file or a settings
// file. It is strict. A [Key] describes each line that a file may have: its name,
// how to write its value, its range, a sentence and an example. This one
// description reads the file, words the errors, suggests the key that was meant,
// and makes the JSON Schema that editors check against.
//
// Lengths are [measure.Length], and other quantities have types of package measure.
// A bare length is in the [Reader]'s unit system. This package checks the form and
// range of single values; its callers check values against each other. A file may
// not use the rest of YAML: references, tags, merges and several documents are
// errors.
package form
