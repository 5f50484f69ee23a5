package ticket

import (
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
	"shadewright/ticket/route"
)

// A Fitting is what the bench needs to bring the tube to its length, to put the cloth on
// it, and to hang it. A zero length is unknown, unless its comment says otherwise.
type Fitting struct {
	Tube   route.Tube
	SawOff measure.Length // of a fixed tube
	Free   measure.Length // tube left free at each end of the cloth; zero: they end flush
	Faces  Faces
	Pins   FitPins
	Place  FitPlace
}

// Faces says which way the good face of the cloth looks at two benches.
type Faces struct {
	MarkDown bool // when the lines are marked, it looks down on the table
	ToTube   bool // when the cloth is put on the tube, it lies against the tube
}

// FacesFor derives the faces of a shade whose good face looks into the room.
//
// Both folds turn the bottom up and over, so they end on the face that is up on the table.
// They belong on the back of the shade; so the back is up, whichever way the shade rolls.
// Cloth that falls from the back of the tube has the tube on its room side, so its good
// face lies against the tube. Cloth that falls from the front has the tube on its back.
func FacesFor(r Roll) Faces { return Faces{MarkDown: true, ToTube: r == Standard} }

// FitPins is how far the end pins stick out of the tube.
type FitPins struct {
	Flat, Round measure.Length // as measured on the donor
	Least, Most measure.Length // of both together, between which the roller holds and turns
}

// A FitPlace is where the pins belong, for a shade without a mounting sheet.
type FitPlace struct {
	Apart measure.Length // between the places where the tips of the pins bear
	Below measure.Length // from the head of a recess down to the pins
	Above measure.Length // from the top of the opening up to the pins, outside
	Left  measure.Length // from the left edge of the opening out to the left tip, outside and under a ceiling
	Deep  measure.Length // from the glass or the wall to the pins
	Over  measure.Length // from the place of the bottom edge up to the pins, if no opening was measured
}

// fitting works out what the bench needs. It trusts that figure and hang have run.
func (h *hanger) fitting() {
	t, r := h.t, h.t.Shade.Roller
	f := Fitting{Tube: tubeOf(r), Faces: FacesFor(t.Shade.Roll)}
	if f.Tube == route.FixedTube && r.Longest > t.Cut.Tube {
		f.SawOff = r.Longest - t.Cut.Tube
	}
	f.Free = max(0, (t.Cut.Tube-(t.Cut.Width-2*t.Shade.Allow.SideHem))/2)
	f.Pins = h.fitPins()
	if t.Drilling == nil {
		f.Place = h.fitPlace()
	}
	t.Fitting = f
}

// tubeOf returns the kind of a roller's tube.
func tubeOf(r Roller) route.Tube {
	switch {
	case r.Shortest > 0:
		return route.TelescopingTube
	case r.Longest > 0:
		return route.FixedTube
	}
	return route.AnyTube
}

// fitPins returns the pins as measured, and the room that the opening leaves for both. The
// limits are those of [hang.Pins.Judge].
func (h *hanger) fitPins() (p FitPins) {
	if m := h.t.Shade.Roller.Pins; m != nil {
		p.Flat, p.Round = m.Flat, m.Round
	}
	if fit := h.t.Fit; fit != nil {
		p.Least, p.Most = hang.PinRoom(fit.TipToTip-h.t.Cut.Tube, h.rules.Opening.Play)
	}
	return p
}

// fitPlace returns where the pins belong.
func (h *hanger) fitPlace() (p FitPlace) {
	t := h.t
	if t.Fit == nil {
		p.Over = t.Shade.Finished.Length
		if m := t.Shade.Roller.Pins; m != nil {
			p.Apart = t.Cut.Tube + m.Flat + m.Round + h.rules.Opening.Play
		}
		return p
	}
	o := t.Shade.Opening
	p.Deep = t.Axle
	p.Apart = t.Fit.TipToTip + h.rules.Opening.Play
	switch o.Mount {
	case hang.Inside:
		p.Apart = t.Fit.Opening.Width
		if t.Roll != nil || o.Head != nil {
			p.Below = h.head()
		}
	case hang.Outside:
		p.Above, p.Left = o.Overlap.Above, o.Overlap.Left+(p.Apart-t.Panel.Cloth)/2
	case hang.Ceiling:
		p.Left = o.Overlap.Left + (p.Apart-t.Panel.Cloth)/2
	}
	return p
}

// printFitting lists what the bench needs to fit tube, cloth and pins.
func (t *Ticket) printFitting(l *List) {
	f := t.Fitting
	l.Plain("tube.kind", f.Tube.String())
	l.Length("tube.off", f.SawOff)
	l.Length("attach.free", f.Free)
	l.Plain("face.mark", word(f.Faces.MarkDown, "down", "up"))
	l.Plain("face.tube", word(f.Faces.ToTube, "against", "away"))
	l.Length("pins.flat", f.Pins.Flat)
	l.Length("pins.round", f.Pins.Round)
	l.Length("pins.least", f.Pins.Least)
	l.Length("pins.most", f.Pins.Most)
	if t.Drilling != nil {
		l.Plain("place.sheet", "yes")
	}
	p := f.Place
	l.Length("place.apart", p.Apart)
	l.Length("place.below", micrometre(p.Below))
	l.Length("place.above", p.Above)
	l.Length("place.left", p.Left)
	l.Length("place.deep", micrometre(p.Deep))
	l.Length("place.over", p.Over)
	l.Text("pull", t.Shade.Pull)
	if b := t.Begin; b != nil && t.Wind == nil {
		l.Plain("begin.turns", hang.TurnsText(neutral, b.Turns))
		l.Length("begin.pull", micrometre(b.Pull))
		if b.Most > 0 {
			l.Plain("begin.most", hang.TurnsText(neutral, b.Most))
		}
		for _, s := range b.Scales {
			least, most := s.Grams()
			l.Count("begin.least_g", least)
			l.Count("begin.most_g", most)
		}
	} else if t.Wind == nil {
		l.Length("begin.pull", t.FirstPull())
	}
}

func word(is bool, yes, no string) string {
	if is {
		return yes
	}
	return no
}

// FirstPull returns how far to pull a shade down first if its weight is not known: a
// quarter of the drop. Common practice, no source.
func (t *Ticket) FirstPull() measure.Length {
	return hang.TrialHeights(t.Shade.Finished.Length, t.Job.Style)[0]
}
