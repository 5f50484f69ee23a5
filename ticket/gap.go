package ticket

import (
	"shadewright/ticket/finding"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// A gap is a measure that the job does not give for a shade. If a likely range is known,
// the shade is tried at values from that range; see [tried].
type gap struct {
	field  string          // the key of the job file within the shade
	what   message.Message // what is not known
	rests  message.ID      // what could not be checked without it
	remedy message.ID      // how to measure it, and the key to give it under
	source string          // of the likely range

	values []value
	from   message.Message // the ends of the likely range, for a person
	to     message.Message
	// bounded says that the check counts as made if it comes out right at every value.
	bounded bool
}

// A value is one value that a missing measure may have.
type value struct {
	with message.Message // for a person: "cloth 0.6 mm thick"
	set  func(*Shade)
}

// The likely ranges of parts. They are common practice, no source: spring rollers for
// windows, and the steel, aluminium and wood they are made of.
const (
	thinnestTube, thickestTube    = 19 * measure.Millimetre, 51 * measure.Millimetre
	narrowestSlat, widestSlat     = 19 * measure.Millimetre, 32 * measure.Millimetre
	thinnestSlat, thickestSlat    = 3 * measure.Millimetre / 2, 6 * measure.Millimetre
	thinnestWall, thickestWall    = measure.Millimetre / 2, 3 * measure.Millimetre / 2
	lightestSlat, heaviestSlat    = "wood", "steel"
	mostElasticTube, stiffestTube = "aluminium", "steel"
)

// gapsOf lists what a shade's job does not say, in the order in which it is measured.
func gapsOf(s *Shade, st measure.Style) []gap {
	gaps := openingGaps(s)
	gaps = append(gaps, partGaps(s, st)...)
	return append(gaps, weightGaps(s, st)...)
}

// openingGaps lists what is not known of the place where a shade hangs.
func openingGaps(s *Shade) (gaps []gap) {
	add := func(field string, what, rests, remedy message.ID) {
		gaps = append(gaps, gap{field: field, what: message.Of(what), rests: rests, remedy: remedy, source: finding.NoGuess})
	}
	o := s.Opening
	if o == nil {
		if !s.AsBefore {
			add("opening", "gap.opening", "gap.opening-rests", "gap.opening-remedy")
		}
		return gaps
	}
	if o.Mount == hang.Inside {
		if o.Depth == nil {
			add("opening.depth", "gap.depth", "gap.depth-rests", "gap.depth-remedy")
		}
		if o.Diagonals == [2]measure.Length{} {
			add("opening.diagonals", "gap.diagonals", "gap.diagonals-rests", "gap.diagonals-remedy")
		}
	}
	if len(o.Obstructions) == 0 && !o.Unobstructed {
		add("opening.obstructions", "gap.obstructions", "gap.obstructions-rests", "gap.obstructions-remedy")
	}
	if s.Bracket == nil {
		add("bracket", "gap.bracket", "gap.bracket-rests", "gap.bracket-remedy")
	}
	if s.Behind == nil {
		add("behind", "gap.behind", "gap.behind-rests", "gap.behind-remedy")
	}
	if s.Roller.Pins == nil {
		gaps = append(gaps, gap{field: "roller.pins", what: message.Of("gap.pins", s.Roller.Name), rests: "gap.pins-rests", remedy: "gap.pins-remedy", source: finding.NoGuess})
	}
	return gaps
}

// partGaps lists the sizes that are not known of cloth, tube and slat.
func partGaps(s *Shade, st measure.Style) (gaps []gap) {
	if likely := s.Goods.Kind.Cloth().Likely; s.Goods.Thickness == 0 {
		fine := measure.Style{System: measure.Millimetres, Metric: measure.Nanometre, Comma: st.Comma}
		gaps = append(gaps, lengths("goods.thickness", message.Of("gap.thickness", s.Goods.Name), "gap.thickness-rests", "gap.thickness-remedy",
			"gap.with-thickness", [2]measure.Length{likely.Thin, likely.Thick}, fine, likely.Source,
			func(s *Shade, l measure.Length) { s.Goods.Thickness = l }))
	}
	if s.Roller.Tube == 0 {
		gaps = append(gaps, lengths("roller.tube", message.Of("gap.tube", s.Roller.Name), "gap.tube-rests", "gap.tube-remedy",
			"gap.with-tube", [2]measure.Length{thinnestTube, thickestTube}, st, practice,
			func(s *Shade, l measure.Length) { s.Roller.Tube = l }))
	}
	if s.Slat.Round() {
		return gaps
	}
	if s.Slat.Width == 0 {
		gaps = append(gaps, lengths("slat.width", message.Of("gap.slat-width", s.Slat.Name), "gap.slat-rests", "gap.slat-width-remedy",
			"gap.with-slat-width", [2]measure.Length{narrowestSlat, widestSlat}, st, practice,
			func(s *Shade, l measure.Length) { s.Slat.Width = l }))
	}
	if s.Slat.Thickness == 0 {
		gaps = append(gaps, lengths("slat.thickness", message.Of("gap.slat-thickness", s.Slat.Name), "gap.slat-rests", "gap.slat-thickness-remedy",
			"gap.with-slat-thickness", [2]measure.Length{thinnestSlat, thickestSlat}, st, practice,
			func(s *Shade, l measure.Length) { s.Slat.Thickness = l }))
	}
	return gaps
}

// lengths makes the gap of a length that is tried at both ends of its range and in the
// middle.
func lengths(field string, what message.Message, rests, remedy, with message.ID, ends [2]measure.Length, st measure.Style, source string, set func(*Shade, measure.Length)) gap {
	g := gap{field: field, what: what, rests: rests, remedy: remedy, source: source, from: message.Verbatim(st.Format(ends[0])), to: message.Verbatim(st.Format(ends[1]))}
	for _, l := range []measure.Length{ends[0], (ends[0] + ends[1]) / 2, ends[1]} {
		g.values = append(g.values, value{message.Of(with, st.Format(l)), func(s *Shade) { set(s, l) }})
	}
	return g
}

// weightGaps lists what is not known of masses, of the spring and of the tube's wall.
func weightGaps(s *Shade, st measure.Style) (gaps []gap) {
	if likely := s.Goods.Kind.Cloth().Likely; s.Goods.Mass == 0 {
		g := gap{field: "goods.mass", what: message.Of("gap.mass", s.Goods.Name), rests: massRests(s), remedy: "gap.mass-remedy", source: likely.Source,
			from: message.Verbatim(areal(likely.Light, st)), to: message.Verbatim(areal(likely.Heavy, st))}
		for _, m := range []measure.ArealMass{likely.Light, likely.Heavy} {
			g.values = append(g.values, value{message.Of("gap.with-mass", areal(m, st)), func(s *Shade) { s.Goods.Mass = m }})
		}
		gaps = append(gaps, g)
	}
	if s.Slat.Mass == 0 && s.Slat.Material.Name == "" {
		g := gap{field: "slat.mass", what: message.Of("gap.slat-mass", s.Slat.Name), rests: massRests(s), remedy: "gap.slat-mass-remedy", source: practice,
			from: material(lightestSlat).Message(), to: material(heaviestSlat).Message()}
		for _, name := range []string{lightestSlat, heaviestSlat} {
			m := material(name)
			g.values = append(g.values, value{message.Of("gap.with-slat-of", m.Message()), func(s *Shade) { s.Slat.Material = m }})
		}
		gaps = append(gaps, g)
	}
	if s.Roller.Spring == 0 && s.Trial == nil && !s.Roller.ByTrial {
		gaps = append(gaps, gap{field: "roller.spring", what: message.Of("gap.spring", s.Roller.Name), rests: "gap.spring-rests", remedy: "gap.spring-remedy", source: finding.NoGuess})
	}
	if s.Roller.Wall == 0 || s.Roller.Material.Name == "" {
		gaps = append(gaps, wallGap(s, st))
	}
	return gaps
}

// massRests says what hangs on a mass.
func massRests(s *Shade) message.ID {
	if s.Roller.Spring == 0 && s.Trial == nil {
		return "gap.mass-sag"
	}
	return "gap.mass-rests"
}

// wallGap is the wall and the material of a tube. Few people can measure the wall of a
// tube with its spring in it, so the check counts as made if no likely tube sags too far.
func wallGap(s *Shade, st measure.Style) gap {
	g := gap{field: "roller.wall", what: message.Of("gap.wall", s.Roller.Name), rests: "gap.wall-rests", remedy: "gap.wall-remedy", source: practice,
		from: message.Verbatim(st.Fine(thinnestWall)), to: message.Verbatim(st.Fine(thickestWall)), bounded: true}
	for _, wall := range []measure.Length{thinnestWall, thickestWall} {
		for _, name := range []string{mostElasticTube, stiffestTube} {
			m := material(name)
			if s.Roller.Material.Name != "" {
				m = s.Roller.Material
			}
			if s.Roller.Wall != 0 {
				wall = s.Roller.Wall
			}
			g.values = append(g.values, value{message.Of("gap.with-wall", m.Message(), st.Fine(wall)), func(s *Shade) { s.Roller.Wall, s.Roller.Material = wall, m }})
		}
	}
	return g
}

// material returns a material of package hang's table by its name there.
func material(name string) hang.Material {
	m, _ := hang.MaterialNamed(name)
	return m
}

func areal(m measure.ArealMass, st measure.Style) string {
	return st.Decimal(m.GramsPerSquareMetre(), 0) + " g/m²"
}
