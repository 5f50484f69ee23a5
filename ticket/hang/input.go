package hang

import (
	"errors"
	"fmt"
	"math"
	"strconv"

	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
)

// Reach is the longest length this package takes.
const Reach = 100 * measure.Metre

// gravity is standard gravity in m/s² (3rd CGPM, 1901; exact by definition).
const gravity = 9.80665

// An InputError says which value leaves nothing to work out, and how to mend
// it. Field is the key of the job file inside the shade.
type InputError struct {
	Field, Value, Problem, Fix string
}

func (e *InputError) Error() string {
	return fmt.Sprintf("%s %q %s; %s", e.Field, e.Value, e.Problem, e.Fix)
}

// InputErrors takes an error of this package apart.
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

// A checker gathers all that is wrong with an input.
type checker struct {
	style measure.Style
	errs  []error
}

func (c *checker) err() error { return errors.Join(c.errs...) }

func (c *checker) fail(field, value, problem, fix string) {
	c.errs = append(c.errs, &InputError{Field: field, Value: value, Problem: problem, Fix: fix})
}

func (c *checker) failLength(field string, l measure.Length, problem, fix string) {
	c.fail(field, c.style.Format(l), problem, fix)
}

// positive refuses a length that is zero, negative or beyond Reach.
func (c *checker) positive(field string, l measure.Length, fix string) bool {
	switch {
	case l == 0:
		c.failLength(field, l, "is zero or missing", fix)
	case l < 0:
		c.failLength(field, l, "is negative", fix)
	default:
		return c.reach(field, l)
	}
	return false
}

// notNegative refuses a length that is negative or beyond Reach.
func (c *checker) notNegative(field string, l measure.Length) bool {
	if l < 0 {
		c.failLength(field, l, "is negative", "give zero or more")
		return false
	}
	return c.reach(field, l)
}

func (c *checker) reach(field string, l measure.Length) bool {
	if l.Abs() > Reach {
		c.failLength(field, l, "is longer than any shade", "check the number and its unit")
		return false
	}
	return true
}

// number refuses a float that is not finite, below least or above most.
func (c *checker) number(field string, v, least, most float64, fix string) bool {
	if v >= least && v <= most {
		return true
	}
	c.fail(field, strconv.FormatFloat(v, 'g', 6, 64), "is out of range", fix)
	return false
}

// lengthOf rounds millimetres to a length. What lies beyond measure.Longest is
// held there: a sag of kilometres is as impossible as one of 1000 m. NaN is a
// bug of the caller and panics in measure.
func lengthOf(mm float64) measure.Length {
	limit := measure.Longest.Millimetres()
	return measure.FromMillimetres(math.Max(-limit, math.Min(limit, mm)))
}

// massOf rounds grams to a mass, held within a million tonnes.
func massOf(g float64) measure.Mass {
	const limit = 1e12
	return measure.Mass(math.Round(math.Max(-limit, math.Min(limit, g)) * float64(measure.Gram)))
}

// grams puts a mass into words: "410 g", "1.25 kg".
func grams(st measure.Style, m measure.Mass) string {
	if g := m.Grams(); g < 1000 {
		return st.Decimal(g, 0) + " g"
	}
	return st.Decimal(m.Grams()/1000, 2) + " kg"
}

// fine puts a small length into words that do not round it to nothing: in the
// style's step if it is at least that, else as a decimal.
func fine(st measure.Style, l measure.Length) string {
	if l.Abs() >= st.Step() || l == 0 {
		return st.Format(l)
	}
	if st.System == measure.Inches {
		return st.Decimal(l.Inches(), 3) + " in"
	}
	return st.Decimal(l.Millimetres(), 2) + " mm"
}

// A sheaf gathers findings.
type sheaf []finding.Finding

func (s *sheaf) add(f finding.Finding) { *s = append(*s, f) }
