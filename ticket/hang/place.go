package hang

import (
	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// A Roll says on which side of the tube the cloth falls.
type Roll uint8

const (
	Standard Roll = iota // from the back of the tube, next to the glass
	Reverse              // from the front, on the room side
)

// String returns the word a job file uses.
func (r Roll) String() string { return [...]string{"standard", "reverse"}[r] }

// Message returns "standard roll" or "reverse roll" for a person.
func (r Roll) Message() message.Message {
	return message.Of([...]message.ID{"hang.standard-roll", "hang.reverse-roll"}[r])
}

// A Place is where a roller hangs, seen from the side. Distances run into the room
// from the plane behind the roller: the glass inside a recess, the wall outside. A
// nil field means that the thing is not there. Inside a recess of known Depth,
// [Shade.Work] proposes the axle if Axle is zero.
type Place struct {
	Mount   Mount
	Roll    Roll
	Axle    measure.Length  // from the plane behind to the axle: an outside bracket's projection
	Proud   []Obstruction   // what stands out from the plane behind
	Valance *measure.Length // from the plane behind to the back of a valance
	Head    *measure.Length // from the axle up to the head or the ceiling
	Depth   *measure.Length // of the recess, from its front edge to the plane behind
	Slat    measure.Length  // thickness of the bottom: slat and the cloth around it
}

// An Obstruction stands out from the plane behind: a frame, a handle, a crank.
type Obstruction struct {
	Name  string
	Proud measure.Length  // how far it stands out
	Below *measure.Length // how far below the axle it lies; nil if unknown, and then the worst height counts
}

// A Clearance is the room between the moving shade and a fixed thing. Below zero,
// they touch.
type Clearance struct {
	To    string // "wall", "glass", "valance", "head", "front of the recess" or the obstruction's name
	Field string // key of the job file
	Gap   measure.Length
}

// Keys of the job file for clearances.
const (
	fieldAxle         = "opening.axle"
	fieldObstructions = "opening.obstructions"
	fieldValance      = "opening.valance"
	fieldHead         = "opening.head"
)

// What returns the fixed thing with its article, for a sentence: "the wall". A
// thing that the shop named keeps its name.
func (c Clearance) What() message.Message {
	switch {
	case c.Field == fieldObstructions:
		return message.Of("hang.obstruction", c.To)
	case c.Field == fieldValance:
		return message.Of("hang.the-valance")
	case c.Field == fieldHead:
		return message.Of("hang.the-head")
	case c.To == toGlass:
		return message.Of("hang.the-glass")
	}
	return message.Of("hang.the-wall")
}

const toGlass, toWall = "glass", "wall"

// Least returns the least clearance, the first of several equal ones; nil if there
// is none.
func Least(all []Clearance) *Clearance {
	var least *Clearance
	for i := range all {
		if c := &all[i]; least == nil || c.Gap < least.Gap {
			least = c
		}
	}
	return least
}

// Clear returns all clearances, in a fixed order, and the least projection of the
// axle that clears everything behind by gap.
func (p Place) Clear(w Winding, gap measure.Length) (all []Clearance, projection measure.Length) {
	up := w.RollUp()
	radius := up.DiameterUp / 2
	if up.DiameterUp%2 != 0 {
		radius++
	}
	behind, front := radius, radius
	// The slat hangs on the cloth's side of the roll, and passes the roll when the
	// shade is up.
	if p.Roll == Reverse {
		front += p.Slat / 2
	} else {
		behind += p.Slat / 2
	}
	plane := toWall
	if p.Mount == Inside {
		plane = toGlass
	}
	all = append(all, Clearance{plane, fieldAxle, p.Axle - behind})
	projection = behind + gap
	for _, o := range p.Proud {
		g, hits := p.proud(o, w, behind)
		if !hits {
			continue
		}
		all = append(all, Clearance{o.Name, fieldObstructions, g})
		projection = max(projection, p.Axle-g+gap)
	}
	if p.Valance != nil {
		all = append(all, Clearance{"valance", fieldValance, *p.Valance - p.Axle - front})
	}
	if p.Head != nil {
		all = append(all, Clearance{"head", fieldHead, *p.Head - radius})
	}
	return all, projection
}

// proud returns the room between an obstruction and the roll or the cloth. It
// returns false if neither passes the obstruction.
func (p Place) proud(o Obstruction, w Winding, behind measure.Length) (measure.Length, bool) {
	roll := p.Axle - behind - o.Proud
	if o.Below == nil || *o.Below <= behind {
		return roll, true
	}
	if *o.Below > w.Drop {
		return 0, false
	}
	if p.Roll == Reverse {
		// The cloth is nearest when down, where the roll is thinnest; the slat is
		// nearest when it passes.
		return min(p.Axle+w.Radius(w.Drop), p.Axle+w.Radius(*o.Below)-p.Slat/2) - o.Proud, true
	}
	return p.Axle - w.Radius(*o.Below) - p.Slat/2 - o.Proud, true
}

// proposes reports whether the axle is not given but can be proposed.
func (p Place) proposes() bool { return p.Axle == 0 && p.Mount == Inside && p.Depth != nil }

func (p Place) check(c *finding.Checker) {
	if p.Mount > Ceiling {
		c.Fail("opening.mount", "", "is not a known mount", "use inside, outside or ceiling")
	}
	if p.Roll > Reverse {
		c.Fail("roll", "", "is not a known roll", "use standard or reverse")
	}
	if !p.proposes() {
		c.Positive(fieldAxle, p.Axle, "measure from the glass or the wall to the middle of the roller's pin")
	}
	c.NotNegative("slat.thickness", p.Slat)
	for _, o := range p.Proud {
		c.NotNegative(fieldObstructions, o.Proud)
		if o.Below != nil {
			c.NotNegative(fieldObstructions, *o.Below)
		}
	}
	for _, v := range []struct {
		field string
		at    *measure.Length
	}{{fieldValance, p.Valance}, {fieldHead, p.Head}, {fieldDepth, p.Depth}} {
		if v.at != nil {
			c.NotNegative(v.field, *v.at)
		}
	}
}

// judge turns clearances into findings, and returns all clearances and the least
// projection.
func (p Place) judge(found *finding.List, w Winding, lim Limits, st measure.Style) (all []Clearance, projection measure.Length) {
	all, projection = p.Clear(w, lim.Gap)
	for _, c := range all {
		if c.Gap < lim.Gap {
			found.Add(p.close(c, projection, lim, st))
		}
	}
	p.recess(found, w, lim, st)
	return all, projection
}

// close returns the finding about a clearance below the least gap.
func (p Place) close(c Clearance, projection measure.Length, lim Limits, st measure.Style) finding.Finding {
	f := finding.Finding{
		Level: finding.Caution, Field: c.Field, Value: st.Fine(c.Gap), Limit: st.Fine(lim.Gap),
		Text:   message.Of("hang.shade-clears-only", c.What(), st.Fine(c.Gap), p.Roll.Message()),
		Source: lim.why("gap"),
		Remedy: p.remedy(c, projection, st),
	}
	if c.Gap < 0 {
		f.Level, f.Limit, f.Source = finding.Stop, st.Fine(0), "geometry: the last part-layer counts as a whole one"
		f.Text = message.Of("hang.shade-would-run-into", c.What(), st.Fine(-c.Gap), p.Roll.Message())
	}
	return f
}

func (p Place) remedy(c Clearance, projection measure.Length, st measure.Style) message.Message {
	switch c.Field {
	case fieldValance:
		return message.Of("hang.fix-valance")
	case fieldHead:
		return message.Of("hang.fix-head")
	}
	return message.Of("hang.fix-axle", st.Words(projection, measure.Up).String())
}

// recess compares the roll with the depth of the recess.
func (p Place) recess(found *finding.List, w Winding, lim Limits, st measure.Style) {
	if p.Mount != Inside || p.Depth == nil {
		return
	}
	up := w.RollUp().DiameterUp
	out := p.Axle + up/2 - *p.Depth
	if p.Roll == Reverse {
		out += p.Slat / 2
	}
	if out <= 0 {
		return
	}
	f := finding.Finding{
		Level: finding.Caution, Field: fieldDepth, Value: st.Format(*p.Depth),
		Text:   message.Of("hang.roll-stands-out", st.Format(up), st.Fine(out)),
		Limit:  st.Words(up+2*lim.Gap+p.Slat/2, measure.Up).String(),
		Source: "geometry: the diameter up, half the slat and the least gap on both sides",
		Remedy: message.Of("hang.fix-roll-stands-out"),
	}
	if p.Axle > *p.Depth {
		f.Level = finding.Stop
		f.Value, f.Limit = st.Apart(p.Axle, *p.Depth)
		f.Text = message.Of("hang.axle-outside-recess", f.Value, f.Limit)
		f.Remedy = message.Of("hang.fix-axle-outside-recess")
	}
	found.Add(f)
}

// RecessFor returns the least depth of a recess that hides the whole roll with gap
// on both sides, and the distance of the axle from the glass in it. Whatever stands
// out from the glass counts as behind the roll.
func (p Place) RecessFor(w Winding, gap measure.Length) (depth, axle measure.Length) {
	up := w.RollUp().DiameterUp
	var proud measure.Length
	for _, o := range p.Proud {
		proud = max(proud, o.Proud)
	}
	axle = proud + gap + up/2
	depth = axle + up/2 + gap
	if p.Roll == Standard {
		return depth + p.Slat/2, axle + p.Slat/2
	}
	return depth + p.Slat/2, axle
}
