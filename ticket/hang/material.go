package hang

import (
	"math"
	"shadewright/ticket/message"
	"strings"

	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
)

// A Material is the material of a tube or a slat.
type Material struct {
	Name    string
	Modulus float64 // of elasticity along the piece, N/mm²
	Density float64 // kg/m³
	Source  string
}

// materials lists the softer figure where tables disagree, so that a sag is never
// understated.
var materials = []Material{
	{"steel", 200_000, 7860, "200 GPa and 7860 kg/m³ (Halliday, Resnick and Walker, Fundamentals of Physics, table of elastic properties)"},
	{"aluminium", 70_000, 2710, "70 GPa and 2710 kg/m³ (Halliday, Resnick and Walker, Fundamentals of Physics, table of elastic properties); alloys range from 69 to 72 GPa"},
	{"wood", 9_000, 525, "9 GPa, as the softer construction woods (Oregon State University, wood properties: Engelmann spruce 1.30 million lbf/in²); 525 kg/m³, Douglas fir (Halliday, Resnick and Walker); wood varies by 30 % and more"},
	{"pvc", 3_000, 1400, "rigid PVC: 3 GPa in bending, 1.4 g/cm³ (azom.com, article 770)"},
	{"fibreglass", 12_400, 1800, "pultruded glass and polyester: 12.4 GPa in bending, 1.8 g/cm³ (substech.com); rods reach 20 to 41 GPa"},
}

// Materials returns the known materials.
func Materials() []Material { return append([]Material(nil), materials...) }

// Message returns the word for a person.
func (m Material) Message() message.Message {
	return message.Of(map[string]message.ID{
		"steel": "material.steel", "aluminium": "material.aluminium", "wood": "material.wood", "pvc": "material.pvc", "fibreglass": "material.fibreglass",
	}[m.Name])
}

// MaterialNamed returns the material with that name, in capitals or not.
func MaterialNamed(name string) (Material, bool) {
	for _, m := range materials {
		if strings.EqualFold(m.Name, name) {
			return m, true
		}
	}
	return Material{}, false
}

func (m Material) check(c *finding.Checker, field string) {
	const fix = "use a known material or give its figures"
	c.Number(field+".modulus", m.Modulus, 1, 2_000_000, fix+" in N/mm²")
	c.Number(field+".density", m.Density, 1, 30_000, fix+" in kg/m³")
}

// Flat returns the mass of a flat piece.
func (m Material) Flat(width, thickness, length measure.Length) measure.Mass {
	return m.of(width.Millimetres()*thickness.Millimetres(), length)
}

// Round returns the mass of a round piece with a bore; bore is zero for a rod.
func (m Material) Round(diameter, bore, length measure.Length) measure.Mass {
	d, b := diameter.Millimetres(), bore.Millimetres()
	return m.of(math.Pi*(d*d-b*b)/4, length)
}

// of returns the mass of a piece with the given section in mm². 1 kg/m³ is 1e-6
// g/mm³.
func (m Material) of(section float64, length measure.Length) measure.Mass {
	return massOf(m.Density * 1e-6 * section * length.Millimetres())
}
