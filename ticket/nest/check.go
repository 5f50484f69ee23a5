package nest

import (
	"errors"
	"fmt"
	"math"

	"shadewright/ticket/measure"
)

// An OrderError says what is wrong with an order and how to put it right.
type OrderError struct {
	Index   int    // index of the piece or the stock; -1 if the error concerns neither
	Where   string // `piece "A"`, `on hand "offcut 3"`, "roll" or "pieces"
	Problem string
	Fix     string
}

func (e *OrderError) Error() string { return e.Where + ": " + e.Problem + "; " + e.Fix }

// A checker collects the errors of an order.
type checker struct {
	o    Order
	errs []error
	more int // errors beyond mostErrors, which are only counted
}

// mostErrors keeps the report of a hopeless order readable.
const mostErrors = 50

func (c *checker) fail(index int, where, problem, fix string) {
	if len(c.errs) == mostErrors {
		c.more++
		return
	}
	c.errs = append(c.errs, &OrderError{index, where, problem, fix})
}

// joined returns all errors as one, or nil if there are none.
func (c *checker) joined() error {
	if c.more > 0 {
		c.errs = append(c.errs, fmt.Errorf("%d more problems are not listed", c.more))
	}
	return errors.Join(c.errs...)
}

func (c *checker) words(l measure.Length) string { return l.Exact(c.o.Units) }

// check reports everything that is wrong with the order.
func (o Order) check() error {
	c := &checker{o: o}
	if c.roll(); len(c.errs) > 0 {
		return c.joined()
	}
	c.count()
	for i, p := range o.Pieces {
		c.piece(i, p)
	}
	if len(c.errs) == 0 {
		c.matches()
	}
	if len(o.OnHand) > MostOnHand {
		c.fail(-1, "on hand", fmt.Sprintf("%d pieces of stock are too many; the most is %d", len(o.OnHand), MostOnHand), "list only the largest")
	}
	for i, s := range o.OnHand[:min(len(o.OnHand), MostOnHand)] {
		where := fmt.Sprintf("on hand %q", s.Label)
		c.size(i, where, "width", s.Width)
		c.size(i, where, "length", s.Length)
	}
	return c.joined()
}

// size reports a length that is not positive or exceeds [measure.Longest], and
// returns false for one.
func (c *checker) size(index int, where, name string, l measure.Length) bool {
	switch {
	case l <= 0:
		c.fail(index, where, fmt.Sprintf("%s %q must be greater than zero", name, c.words(l)), "give the "+name)
	case l > measure.Longest:
		c.fail(index, where, fmt.Sprintf("%s %q is longer than any cloth", name, c.words(l)), "check the number and its unit")
	default:
		return true
	}
	return false
}

func (c *checker) roll() {
	r := c.o.Roll
	c.size(-1, "roll", "width", r.Width)
	for _, v := range []struct {
		name string
		l    measure.Length
	}{{"length", r.Length}, {"table length", r.Table}, {"allowance", r.Allowance}, {"repeat", r.Repeat}} {
		if v.l < 0 {
			c.fail(-1, "roll", fmt.Sprintf("%s %q is negative", v.name, c.words(v.l)), "give the "+v.name+", or zero for none")
		} else if v.l > measure.Longest {
			c.fail(-1, "roll", fmt.Sprintf("%s %q is longer than any cloth", v.name, c.words(v.l)), "check the number and its unit")
		}
	}
	if longest := c.o.longest(); r.Repeat > 0 && longest > 0 && r.Repeat > longest {
		c.fail(-1, "roll", fmt.Sprintf("repeat %q is longer than the %s there is to lay a piece on", c.words(r.Repeat), c.words(longest)), "check the repeat and its unit")
	}
}

// longest returns the greatest length of a piece with its allowance; zero means no
// limit.
func (o Order) longest() measure.Length {
	r := o.Roll
	if r.Table == 0 || r.Length != 0 && r.Length < r.Table {
		return r.Length
	}
	return r.Table
}

// count refuses an order without pieces and one with too many.
func (c *checker) count() {
	n := 0
	matches := map[string]bool{}
	for _, p := range c.o.Pieces {
		if p.Quantity > 0 {
			n += min(p.Quantity, math.MaxInt32) // cannot overflow: the loop stops just below
		}
		if n > math.MaxInt32 {
			break
		}
		if p.Match != "" {
			matches[p.Match] = true
		}
	}
	switch {
	case len(c.o.Pieces) == 0:
		c.fail(-1, "pieces", "there are none", "give at least one piece with its width, length and quantity")
	case n > MostPieces:
		c.fail(-1, "pieces", fmt.Sprintf("the quantities come to more than %d pieces", MostPieces), "check the quantities, or cut in several lots")
	}
	if len(matches) > MostMatch {
		c.fail(-1, "pieces", fmt.Sprintf("there are more than %d different matches", MostMatch), "give one match to each set of shades that hang side by side")
	}
}

func (c *checker) piece(i int, p Piece) {
	where := fmt.Sprintf("piece %q", p.Label)
	if p.Quantity <= 0 {
		c.fail(i, where, fmt.Sprintf("quantity %d must be greater than zero", p.Quantity), "give the number of pieces")
	}
	okW := c.size(i, where, "width", p.Width)
	if !c.size(i, where, "length", p.Length) || !okW {
		return
	}
	if p.Turn && c.o.Roll.Repeat > 0 {
		c.fail(i, where, "turning the piece would turn its pattern", "on goods with a repeat, do not allow a turn")
		return
	}
	c.fits(i, where, p)
}

// matches refuses a match whose pieces cannot all lie the same way.
func (c *checker) matches() {
	for _, m := range c.o.matches() {
		if !c.o.matchFits(m, false) && !c.o.matchFits(m, true) {
			c.fail(-1, fmt.Sprintf("match %q", m), "some of its pieces fit only turned and some only as they are",
				"use wider goods, or do not match them")
		}
	}
}

// fits refuses a piece that the roll cannot hold, and names a size that would do.
func (c *checker) fits(i int, where string, p Piece) {
	if c.o.fitsWay(p, false) || p.Turn && c.o.fitsWay(p, true) {
		return
	}
	r := c.o.Roll
	w, l := p.Width+2*r.Allowance, p.Length+2*r.Allowance
	size := fmt.Sprintf("%s × %s", c.words(p.Width), c.words(p.Length))
	if r.Allowance > 0 {
		size += fmt.Sprintf(" with %s around it", c.words(r.Allowance))
	}
	room := c.words(r.Width) + " of usable width"
	longest := c.o.longest()
	if longest > 0 {
		room += " and " + c.words(longest) + " of length"
	}
	ways, need := "does not fit", w
	if p.Turn {
		ways, need = "fits neither way", min(w, l)
	}
	problem := fmt.Sprintf("%s %s on %s", size, ways, room)
	switch {
	case !p.Turn && c.o.fitsWay(p, true) && r.Repeat == 0:
		c.fail(i, where, problem, "it would fit turned a quarter: allow it to turn, or use goods with "+c.words(w)+" of usable width")
	case longest == 0 || need == w && l <= longest || need == l && w <= longest:
		c.fail(i, where, problem, "use goods with at least "+c.words(need)+" of usable width, or make the piece at most "+c.words(r.Width-2*r.Allowance)+" wide")
	default:
		c.fail(i, where, problem, fmt.Sprintf("it needs at least %s of usable width and %s of length", c.words(need), c.words(w+l-need)))
	}
}

// fitsWay reports whether a piece fits the roll, turned or as given.
func (o Order) fitsWay(p Piece, turned bool) bool {
	w, l := p.Width+2*o.Roll.Allowance, p.Length+2*o.Roll.Allowance
	if turned {
		w, l = l, w
	}
	longest := o.longest()
	return w <= o.Roll.Width && (longest == 0 || l <= longest)
}
