package finding

import (
	"errors"
	"fmt"
	"strconv"

	"shadewright/ticket/measure"
)

// Reach is the greatest length that the arithmetic of a shade accepts. Below it,
// nothing overflows.
const Reach = 100 * measure.Metre

// An InputError names a value with which nothing can be worked out, and says how to
// put it right. Field is the key of the job file within the shade.
type InputError struct {
	Field, Value, Problem, Fix string
}

func (e *InputError) Error() string {
	return fmt.Sprintf("%s %q %s; %s", e.Field, e.Value, e.Problem, e.Fix)
}

// InputErrors returns the input errors in a joined error.
func InputErrors(err error) []*InputError {
	if many, ok := err.(interface{ Unwrap() []error }); ok {
		var all []*InputError
		for _, e := range many.Unwrap() {
			all = append(all, InputErrors(e)...)
		}
		return all
	}
	var one *InputError
	if errors.As(err, &one) {
		return []*InputError{one}
	}
	return nil
}

// A Checker collects everything that is wrong with an input.
type Checker struct {
	Style measure.Style
	errs  []error
}

// Err returns all errors, joined, or nil.
func (c *Checker) Err() error { return errors.Join(c.errs...) }

// Fail adds an [InputError].
func (c *Checker) Fail(field, value, problem, fix string) {
	c.errs = append(c.errs, &InputError{Field: field, Value: value, Problem: problem, Fix: fix})
}

// FailLength adds an [InputError] about a length.
func (c *Checker) FailLength(field string, l measure.Length, problem, fix string) {
	c.Fail(field, c.Style.Format(l), problem, fix)
}

// Positive refuses a length that is zero, negative or beyond [Reach].
func (c *Checker) Positive(field string, l measure.Length, fix string) bool {
	switch {
	case l == 0:
		c.FailLength(field, l, "is zero or missing", fix)
	case l < 0:
		c.FailLength(field, l, "is negative", fix)
	default:
		return c.InReach(field, l)
	}
	return false
}

// NotNegative refuses a length that is negative or beyond [Reach].
func (c *Checker) NotNegative(field string, l measure.Length) bool {
	if l < 0 {
		c.FailLength(field, l, "is negative", "give zero or more")
		return false
	}
	return c.InReach(field, l)
}

// InReach refuses a length beyond [Reach].
func (c *Checker) InReach(field string, l measure.Length) bool {
	if l.Abs() > Reach {
		c.FailLength(field, l, "is longer than any shade", "check the number and its unit")
		return false
	}
	return true
}

// Number refuses a float that is not finite, below least or above most.
func (c *Checker) Number(field string, v, least, most float64, fix string) bool {
	if v >= least && v <= most {
		return true
	}
	c.Fail(field, strconv.FormatFloat(v, 'g', 6, 64), "is out of range", fix)
	return false
}
