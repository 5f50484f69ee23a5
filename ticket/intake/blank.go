package intake

import (
	"shadewright/ticket/jobfile"
	"shadewright/ticket/measure"
)

// worked holds the columns of the size list to fill in, with an invented shade in
// inches and in millimetres.
var worked = []struct{ path, inches, metric string }{
	{"shades.id", "kitchen-left", "galley"},
	{"shades.place", "over the sink", "galley hatch"},
	{"shades.quantity", "1", "1"},
	{"shades.finished.width", "27 1/2", "698"},
	{"shades.finished.length", "40", "1015"},
	{"shades.roll", "standard", "standard"},
	{"shades.goods", "reed mesh", "reed mesh"},
	{"goods.kind", "coated-mesh", "coated-mesh"},
	{"goods.width", "58", "1470"},
	{"goods.selvage", "1/2", "12"},
	{"goods.thickness", "0.6 mm", "0.6"},
	{"goods.mass", "440 g/m2", "440 g/m2"},
	{"goods.lay", "any", "any"},
	{"shades.roller", "donor", "donor"},
	{"rollers.tube", "1 1/8", "28"},
	{"rollers.shortest", "20", "500"},
	{"rollers.longest", "36", "900"},
	{"shades.slat", "flat", "flat"},
	{"slats.width", "3/4", "20"},
	{"slats.thickness", "3/32", "2.5"},
	{"shades.note", "left bracket 1/4 in lower", "left bracket 6 mm lower"},
}

// Blank returns a size list to fill in, with its headings and one worked row. The
// remarks explain each column, for a second sheet.
func Blank(u measure.System) (rows, remarks [][]string) {
	fields := jobfile.FieldsOf(jobfile.Options{})
	var heads, values []string
	remarks = append(remarks, []string{"column", "what goes there"})
	for _, w := range worked {
		m := meaningOf(w.path)
		head := capital(m.words[0])
		if m.length {
			head += " (" + u.String() + ")"
		}
		value := w.inches
		if u == measure.Millimetres {
			value = w.metric
		}
		heads, values = append(heads, head), append(values, value)
		f := fields.At(w.path)
		remarks = append(remarks, []string{head, f.Doc + after(w.path)})
	}
	return [][]string{heads, values}, remarks
}

// after returns what to say about a column after the job file's own help.
func after(path string) string {
	switch path {
	case "goods.kind", "rollers.tube", "slats.width":
		return " Needed once for each name; other rows may leave it empty."
	case "goods.width":
		return " Needed once for each name."
	}
	return ""
}

func capital(s string) string { return string(s[0]-'a'+'A') + s[1:] }
