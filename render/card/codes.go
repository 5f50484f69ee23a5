package card

import (
	"fmt"
	"runtime"
	"sync"

	"shadewright/render/symbol"
	"shadewright/ticket"
)

// codes holds the symbols of one ticket.
type codes struct {
	qr  symbol.Symbol
	bar symbol.Symbol // without bars unless the options ask for them
}

// Codes holds the symbols of tickets, encoded once for all documents that show
// them, because encoding takes longer than drawing a page.
type Codes struct{ of []codes }

// Encode encodes the symbols of tickets on all cores. Put the result into the
// Options of every document for the same tickets.
func Encode(tickets []*ticket.Ticket, opt Options) (Codes, error) {
	all := Codes{make([]codes, len(tickets))}
	errs := make([]error, len(tickets))
	var wg sync.WaitGroup
	workers := runtime.GOMAXPROCS(0)
	for w := range workers {
		wg.Go(func() {
			for i := w; i < len(tickets); i += workers {
				all.of[i], errs[i] = codesOf(tickets[i], opt)
			}
		})
	}
	wg.Wait()
	for i, err := range errs {
		if err != nil {
			return Codes{}, fmt.Errorf("ticket %s: %w", tickets[i].Code, err)
		}
	}
	return all, nil
}

// codesFor returns the codes in the options, or encodes them.
func (o Options) codesFor(tickets []*ticket.Ticket) ([]codes, error) {
	if len(o.Codes.of) == len(tickets) {
		return o.Codes.of, nil
	}
	c, err := Encode(tickets, o)
	return c.of, err
}

func codesOf(t *ticket.Ticket, opt Options) (codes, error) {
	qr, err := symbol.QR(opt.Content(t), symbol.Medium)
	if err != nil || !opt.Code128 {
		return codes{qr: qr}, err
	}
	bar, err := symbol.Code128(t.Code.With(t.Revision))
	return codes{qr, bar}, err
}
