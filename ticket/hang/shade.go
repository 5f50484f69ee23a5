package hang

import (
	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// A Shade is everything that decides whether one shade will hang. A nil or zero
// value means unknown where the field says so: the rest is worked out, and a note
// names what could not be.
type Shade struct {
	Winding Winding
	Load    Load    // Load.Cloth is zero if the cloth's mass is unknown
	Place   *Place  // nil if the brackets are unknown
	Spring  *Spring // nil if the spring's rate is unknown
	Beam    *Beam   // nil if the tube's wall or material is unknown
}

// A Result is what is worked out for a shade. A nil field could not be worked out.
type Result struct {
	Roll       RollUp
	Clearances []Clearance    // in a fixed order
	Clearance  *Clearance     // the least of them
	Axle       measure.Length // from the plane behind: as given, or proposed for a recess
	Projection measure.Length // the least that clears everything behind
	Weight     *Weight        // with the shade down
	Wind       *Wind
	Sag        *Sag
}

// Work does the arithmetic of one shade. The findings are in the order of the work;
// [finding.Sort] puts the worst first. The error joins an [*finding.InputError] for
// each fault.
func (s Shade) Work(lim Limits, st measure.Style) (Result, []finding.Finding, error) {
	if err := s.check(lim, st); err != nil {
		return Result{}, nil, err
	}
	s = s.proposeAxle(lim)
	var found finding.List
	r := Result{Roll: s.Winding.RollUp()}
	r.Roll.judge(&found, s.Winding, lim, st)
	s.clear(&r, &found, lim, st)
	s.lift(&r, &found, lim, st)
	s.sag(&r, &found, lim, st)
	return r, found, nil
}

// proposeAxle places the axle of an inside mount so that the recess hides the roll,
// if the recess is known and the brackets are not.
func (s Shade) proposeAxle(lim Limits) Shade {
	if p := s.Place; p != nil && p.proposes() {
		place := *p
		_, place.Axle = p.RecessFor(s.Winding, lim.Gap)
		s.Place = &place
	}
	return s
}

func (s Shade) check(lim Limits, st measure.Style) error {
	c := &finding.Checker{Style: st}
	lim.check(c)
	s.Winding.check(c)
	if s.Load.Cloth != 0 {
		(Lift{s.Winding, s.Load}).checkLoad(c)
	}
	if s.Place != nil {
		s.Place.check(c)
	}
	if s.Spring != nil {
		s.Spring.check(c)
	}
	if s.Beam != nil {
		s.Beam.check(c)
	}
	return c.Err()
}

func (s Shade) clear(r *Result, found *finding.List, lim Limits, st measure.Style) {
	if s.Place == nil {
		unknown(found, "opening.axle", "hang.axle-unknown",
			"hang.give-axle")
		return
	}
	r.Axle = s.Place.Axle
	r.Clearances, r.Projection = s.Place.judge(found, s.Winding, lim, st)
	r.Clearance = Least(r.Clearances)
}

func (s Shade) lift(r *Result, found *finding.List, lim Limits, st measure.Style) {
	if s.Load.Cloth == 0 {
		unknown(found, "goods.mass", "hang.cloth-mass-unknown",
			"hang.weigh-swatch", st.Decimal(5.4, 2))
		return
	}
	weight := s.Load.Weight()
	r.Weight = &weight
	if s.Spring == nil {
		unknown(found, "roller.spring", "hang.spring-unknown",
			"hang.measure-spring")
		return
	}
	l := Lift{s.Winding, s.Load}
	wind := l.Wind(*s.Spring, lim)
	wind.judge(found, l, *s.Spring, lim, st)
	r.Wind = &wind
}

func (s Shade) sag(r *Result, found *finding.List, lim Limits, st measure.Style) {
	wide(found, s.Load.Width, s.Winding.Tube, lim, st)
	if s.Load.Cloth == 0 {
		return
	}
	if s.Beam == nil {
		unknown(found, "roller.wall", "hang.sag-unknown",
			"hang.measure-wall")
		return
	}
	// The tube carries all the cloth, whether it hangs or is wound.
	whole := s.Load
	whole.Fold += s.Winding.Wrap
	sag := Sag{Sag: s.Beam.Sag(whole.Weight().Total), Limit: lim.Sag, Own: s.Beam.Own()}
	sag.judge(found, *s.Beam, lim, st)
	r.Sag = &sag
}

// unknown notes something that could not be worked out. args are for the remedy.
func unknown(found *finding.List, field string, text, remedy message.ID, args ...any) {
	found.Add(finding.Finding{
		Level: finding.Unchecked, Field: field, Text: message.Of(text),
		Source: finding.NoGuess, Remedy: message.Of(remedy, args...),
	})
}
