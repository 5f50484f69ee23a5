package intake

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/uuid"

	"shadewright/ticket/hang"
	"shadewright/ticket/intake/grid"
	"shadewright/ticket/jobfile"
	"shadewright/ticket/measure"
)

const sheets = "../../testdata/sheets"

func optionsFor(t testing.TB, like string, u measure.System) Options {
	t.Helper()
	opt := Options{Name: "test", ID: uuid.MustParse("5f0c8f0e-2b0f-4a55-9f0b-6f1f7a2d9c31"), Units: u}
	if like != "" {
		f, err := jobfile.ReadPath("../../testdata/jobs/"+like+".yaml", jobfile.Options{})
		if err != nil {
			t.Fatal(err)
		}
		opt.Like = f
	}
	return opt
}

func readSheet(t testing.TB, name string, opt Options) (*Result, error) {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(sheets, name))
	if err != nil {
		t.Fatal(err)
	}
	grids, err := readGrids(name, data)
	if err != nil {
		return nil, err
	}
	return Read(grids, opt)
}

func readGrids(name string, data []byte) ([]*grid.Grid, error) {
	g, err := grid.Read(name, data)
	return []*grid.Grid{g}, err
}

// words returns one line for each shade of a job, in exact millimetres.
func words(f *jobfile.File) string {
	var b strings.Builder
	for _, s := range f.Job.Shades {
		fmt.Fprintf(&b, "%s|%s|%d|%v|%v|%s|%s|%s|%v|%s\n", s.ID, s.Place, s.Quantity, s.Finished.Width, s.Finished.Length,
			s.Goods.Name, s.Roller.Name, s.Slat.Name, s.Roll, strings.ReplaceAll(s.Note, "\n", "/"))
	}
	return b.String()
}

// The wanted lines are those of the sheets, read by eye; inches are multiplied by
// 25.4 by hand.
func TestSheets(t *testing.T) {
	for _, tt := range []struct {
		file, like string
		units      measure.System
		in         measure.System
		want       string
	}{
		{"plain.csv", "", 0, measure.Inches,
			"hut-1|door side|2|698.5 mm|1016 mm|reed mesh|donor|flat|standard|left bracket sits lower\n" +
				"hut-2|lake side|1|669.925 mm|939.8 mm|reed mesh|donor|flat|reverse|\n" +
				"hut-3|stove|1|603.25 mm|1778 mm|reed mesh|donor|flat|standard|keep clear of the pipe, please\n"},
		{"semicolon.csv", "narrowboat", measure.Millimetres, measure.Millimetres,
			"A|bow|3|845.5 mm|610 mm|screen|cabin|batten|standard|\nB|stern|1|702.25 mm|425 mm|duck|cabin|batten|standard|\n"},
		{"tabs.tsv", "bunkhouse", 0, measure.Inches,
			"1||1|698.5 mm|1016 mm|reed-mesh|donor|flat|standard|\n2||1|669.925 mm|942.975 mm|reed-mesh|donor|flat|standard|\n"},
		{"bars.txt", "bunkhouse", 0, measure.Inches,
			"bunk-room|Bunk room|2|698.5 mm|1016 mm|reed-mesh|donor|flat|standard|\nbunk-room-2|Bunk room|1|669.925 mm|939.8 mm|reed-mesh|donor|flat|standard|\n"},
		{"mark.csv", "narrowboat", 0, measure.Millimetres,
			"saloon||1|845 mm|610 mm|screen|cabin|batten|standard|\nberth||1|500.5 mm|400 mm|screen|cabin|batten|standard|\n"},
		{"wide.txt", "bunkhouse", 0, measure.Inches, "porch||1|698.5 mm|1016 mm|reed-mesh|donor|flat|standard|\n"},
		{"western.csv", "bunkhouse", 0, measure.Inches, "porch|café|1|698.5 mm|1035.05 mm|reed-mesh|donor|flat|standard|\n"},
		{"quotes.csv", "bunkhouse", 0, measure.Inches,
			"loft||1|698.5 mm|1016 mm|reed-mesh|donor|flat|standard|two lines/of remarks, with a comma\ndoor||1|603.25 mm|1778 mm|reed-mesh|donor|flat|standard|\n"},
		{"title.csv", "narrowboat", 0, measure.Millimetres,
			"saloon|saloon|3|845 mm|610 mm|screen|cabin|batten|standard|\ngalley-hatch|galley hatch|1|700 mm|425 mm|screen|cabin|batten|standard|\n"},
		{"chandlery.csv", "bunkhouse", 0, measure.Inches,
			"Office|Office|2|698.5 mm|1016 mm|reed-mesh|donor|flat|standard|\nOffice-2|Office|1|628.65 mm|920.75 mm|reed-mesh|donor|flat|standard|\n" +
				"Office-3|Office|1|635 mm|968.375 mm|reed-mesh|donor|flat|standard|\n"},
		{"sections.csv", "bunkhouse", 0, measure.Inches,
			"Boathouse-1|Boathouse|2|698.5 mm|1016 mm|reed-mesh|donor|flat|standard|\nBoathouse-2|Boathouse|1|803.275 mm|914.4 mm|reed-mesh|donor|flat|standard|\n" +
				"cabin-3-1|Cabin 3|1|609.6 mm|965.2 mm|reed-mesh|donor|flat|standard|\n"},
		{"german.csv", "narrowboat", 0, measure.Millimetres,
			"A|Bug|3|845.5 mm|610 mm|screen|cabin|batten|standard|zwei gleich\nB|Heck|1|702 mm|425 mm|duck|cabin|batten|standard|\n"},
		{"french.csv", "narrowboat", 0, measure.Millimetres,
			"A|proue|3|845 mm|610 mm|screen|cabin|batten|standard|\nB|poupe|1|702 mm|425 mm|duck|cabin|batten|standard|près du poêle\n"},
		{"spanish.csv", "narrowboat", 0, measure.Millimetres, "V1|Camarote de proa|2|845 mm|610 mm|screen|cabin|batten|standard|dos iguales\n"},
	} {
		res, err := readSheet(t, tt.file, optionsFor(t, tt.like, tt.units))
		if err != nil || len(res.Apart) > 0 {
			t.Errorf("%s: %v", tt.file, err)
			if res != nil {
				t.Error(res.Problems())
			}
			continue
		}
		if got := words(res.File); got != tt.want {
			t.Errorf("%s gives\n%s; want\n%s", tt.file, got, tt.want)
		}
		if got := res.File.Job.Style.System; got != tt.in {
			t.Errorf("%s: the job is in %v; want %v", tt.file, got, tt.in)
		}
		if _, err := jobfile.Write(res.File, jobfile.WriteOptions{}); err != nil {
			t.Errorf("%s cannot be written: %v", tt.file, err)
		}
	}
}

// A row that names a shade but has no size was forgotten: it must be reported, not
// left out as a remark. Ditto below a wrong part repeats the wrong part, not the
// part above both.
func TestForgotten(t *testing.T) {
	const sheet = "Room,Width (in),Length (in),Goods,Roller,Slat\n" +
		"Note room,27-1/2,40,reed-mesh,donor,flat\n" +
		"Den,,,,,\n" +
		"Loft,26,37,reed-mesh,doner,flat\n" +
		"Stair,25,36,ditto,ditto,ditto\n" +
		"Note: as agreed,,,,,\n"
	grids, err := readGrids("a.csv", []byte(sheet))
	if err != nil {
		t.Fatal(err)
	}
	res, err := Read(grids, optionsFor(t, "bunkhouse", 0))
	if err != nil {
		t.Fatal(err)
	}
	want := []string{
		"a.csv:3: column B, Width (in): is empty; write the width",
		"a.csv:3: column C, Length (in): is empty; write the length",
		`a.csv:4: column E, Roller: "doner" is not among the rollers; did you mean donor?`,
		`a.csv:5: column E, Roller: "doner" is not among the rollers; did you mean donor?`,
	}
	var got []string
	for _, p := range res.Problems() {
		if !strings.Contains(p.String(), "does not say which") {
			got = append(got, p.String())
		}
	}
	if !slices.Equal(got, want) || res.Taken != 1 {
		t.Errorf("%d taken, wrong:\n%s\nwant 1,\n%s", res.Taken, strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// ungrouped removes thousands separators only where they cannot be decimal marks.
func TestThousands(t *testing.T) {
	for _, tt := range []struct{ text, want string }{
		{"1.200,5", "1200,5"},
		{"1,200.5", "1200.5"},
		{"1 200,5", "1200,5"},
		{"1 200", "1200"},
		{"1 200 mm", "1200 mm"},
		{"1.200", "1.200"}, // 1.2 or 1200
		{"1,125", "1,125"},
		{"27 1/2", "27 1/2"},
		{"27 100/128", "27 100/128"},
		{"31.625", "31.625"},
	} {
		if got := ungrouped(tt.text); got != tt.want {
			t.Errorf("ungrouped(%q) = %q; want %q", tt.text, got, tt.want)
		}
	}
}

// A date has the same mark twice: 27-1/2 is a length. The check for fractions that
// became dates must not refuse it.
func TestTapeIsNoDay(t *testing.T) {
	for _, text := range []string{"27-1/2", "1-1/8", "31-5/8", "5-7/16"} {
		if got, fault := lengthText(grid.Cell{Text: text}, "in"); fault != nil || got != text+" in" {
			t.Errorf("%s under a heading in inches is %q, %v; want %s in", text, got, fault, text)
		}
	}
	for _, text := range []string{"1/1/2008", "27-1-02", "1.8.2026", "2026-01-08"} {
		if _, fault := lengthText(grid.Cell{Text: text}, "in"); fault == nil || !strings.HasPrefix(fault.Problem, "is a date") {
			t.Errorf("%s: %v; want that it is a date", text, fault)
		}
	}
}

// A part is described once and named afterwards.
func TestParts(t *testing.T) {
	res, err := readSheet(t, "plain.csv", optionsFor(t, "", 0))
	if err != nil {
		t.Fatal(err)
	}
	s := res.File.Job.Shades[2]
	if s.Goods.Width != 58*measure.Inch || s.Goods.Thickness != 600*measure.Micrometre || s.Goods.Mass != 440*measure.GramPerSquareMetre ||
		s.Roller.Shortest != 20*measure.Inch || s.Slat.Thickness != measure.Inch*3/32 {
		t.Errorf("the third shade is of %+v, %+v, %+v", s.Goods, s.Roller, s.Slat)
	}
}

// A problem names the row and column, and nothing of that row is taken.
func TestApart(t *testing.T) {
	const (
		made   = ": the spreadsheet made it from a fraction, perhaps "
		retype = "; set the column's format to text and type it again"
	)
	for _, tt := range []struct {
		file, like string
		taken      int
		want       []string
	}{
		{"dates.csv", "bunkhouse", 1, []string{
			`dates.csv:3: column G, Pocket (in): "1/1/2008" is a date, 1 January 2008` + made + "1-1/8" + retype,
			`dates.csv:3: column H, Hem (in): "8-Mar" is a date, 8 March` + made + "3/8" + retype,
			`dates.csv:4: column H, Hem (in): "03.04.2026" is a date, 3 April 2026` + made + "3/4" + retype,
			`dates.csv:5: column H, Hem (in): "4-Mar" is a date, 4 March` + made + "3/4" + retype,
			`dates.csv:6: column B, Width (in): "#REF!" is a formula that failed; correct it in the spreadsheet, or type the value`,
			`dates.csv:7: column B, Width (in): "12 pt" has the unknown unit "pt"; use in, ft, yd, mm, cm or m`,
			`dates.csv:7: column C, Length (in): is empty; write the length`,
			`dates.csv:8: column E, Roller: "doner" is not among the rollers; did you mean donor?`,
			`dates.csv:9: column B, Width (in): "2" is less than 100 mm; check the number and its unit`,
			`dates.csv:10: column A, Shade: "one" is also the shade of row 2; give each shade its own name, or enter the total quantity in one row`,
		}},
		{"openings.csv", "narrowboat", 2, []string{
			`openings.csv:4: column C, Mount: is empty; write the mount`,
		}},
		{"comma.csv", "narrowboat", 1, []string{
			`comma.csv:2: has 7 cells, but there are only 6 headings; put a number with a decimal comma in quotes, or write a point`,
		}},
		{"bare.csv", "bunkhouse", 0, []string{
			`bare.csv:2: column B, Width: "27.5" has no unit; write the unit in the heading, for example Width (in), or give --units in or --units mm`,
			`bare.csv:2: column C, Length: "40" has no unit; write the unit in the heading, for example Width (in), or give --units in or --units mm`,
			`bare.csv:2: does not say which goods; write dune-acrylic or night-lining or reed-mesh`,
			`bare.csv:2: does not say which roller; write donor or long-donor or pantry or porch or stairs or washroom`,
			`bare.csv:2: does not say which slat; write flat or oak or rod or steel-bar`,
		}},
	} {
		res, err := readSheet(t, tt.file, optionsFor(t, tt.like, 0))
		if err != nil {
			t.Errorf("%s: %v", tt.file, err)
			continue
		}
		if got, want := res.Problems().Error(), strings.Join(tt.want, "\n"); got != want {
			t.Errorf("%s:\n%s\nwant\n%s", tt.file, got, want)
		}
		if res.Taken != tt.taken || tt.taken == 0 && res.File != nil || tt.taken > 0 && len(res.File.Job.Shades) != tt.taken {
			t.Errorf("%s: %d rows taken; want %d", tt.file, res.Taken, tt.taken)
		}
	}
}

// A sheet that cannot be used at all says why.
func TestRefused(t *testing.T) {
	for _, tt := range []struct{ file, want string }{
		{"nothing.csv", "nothing.csv: has no row of headings that names a width and a length; head the columns, for example Shade, Width (in), Length (in), or Opening width (in), Opening height (in), Mount; shadewright import --blank makes a size list to fill in"},
		{"twice.csv", `twice.csv:1: column D: "W (in)" means the same as column B, "Width (in)"; rename or delete one of them`},
	} {
		_, err := readSheet(t, tt.file, optionsFor(t, "bunkhouse", 0))
		if err == nil || err.Error() != tt.want {
			t.Errorf("%s: %v; want %s", tt.file, err, tt.want)
		}
	}
	_, err := readSheet(t, "tabs.tsv", optionsFor(t, "", 0))
	const want = "tabs.tsv:1: no column has the kind of cloth of a shade"
	if err == nil || !strings.HasPrefix(err.Error(), want) {
		t.Errorf("without another job: %v; want %s", err, want)
	}
}

// Openings are read as they were measured.
func TestOpenings(t *testing.T) {
	res, err := readSheet(t, "openings.csv", optionsFor(t, "narrowboat", 0))
	if err != nil {
		t.Fatal(err)
	}
	mm := measure.Millimetre
	a, b := res.File.Job.Shades[0].Opening, res.File.Job.Shades[1].Opening
	if a.Mount != hang.Inside || !slices.Equal(a.Widths, []measure.Length{847 * mm, 846 * mm, 848 * mm}) || !slices.Equal(a.Heights, []measure.Length{610 * mm}) || *a.Depth != 90*mm {
		t.Errorf("the hatch is %+v", a)
	}
	if b.Mount != hang.Outside || len(b.Widths) != 1 || b.Depth != nil {
		t.Errorf("the porthole is %+v", b)
	}
	if _, err := jobfile.Write(res.File, jobfile.WriteOptions{}); err != nil {
		t.Error(err)
	}
}

// Sheet returns the rows kept apart under their headings, with what is wrong.
func TestSheetOfApart(t *testing.T) {
	res, err := readSheet(t, "comma.csv", optionsFor(t, "narrowboat", 0))
	if err != nil {
		t.Fatal(err)
	}
	want := [][]string{
		{"Shade", "Width (mm)", "Length (mm)", "Goods", "Roller", "Slat", "", "what is wrong"},
		{"saloon", "845", "5", "610", "screen", "cabin", "batten", "has 7 cells, but there are only 6 headings; put a number with a decimal comma in quotes, or write a point"},
	}
	if got := res.Sheet(); fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("kept apart:\n%q\nwant\n%q", got, want)
	}
}

// The size list to fill in reads back without a problem, in both units.
func TestBlank(t *testing.T) {
	for _, u := range []measure.System{measure.Inches, measure.Millimetres} {
		rows, _ := Blank(u)
		data, err := grid.CSV(rows)
		if err != nil {
			t.Fatal(err)
		}
		grids, err := readGrids("a.csv", data)
		if err != nil {
			t.Fatal(err)
		}
		res, err := Read(grids, optionsFor(t, "", 0))
		if err != nil || res.Taken != 1 || len(res.Apart) > 0 {
			t.Errorf("in %v: %v, %+v", u, err, res)
			continue
		}
		for _, m := range res.Columns {
			if m.Path == "" || m.Near {
				t.Errorf("in %v: the heading %q is not known", u, m.Heading)
			}
		}
		if got := res.File.Job.Style.System; got != u {
			t.Errorf("the job is in %v; want %v", got, u)
		}
	}
}

// Each heading matches the right field.
func TestHeadings(t *testing.T) {
	for _, tt := range []struct{ heading, path, unit string }{
		{"W", "shades.finished.width", ""},
		{"width in", "shades.finished.width", "in"},
		{"Width (mm)", "shades.finished.width", "mm"},
		{"WIDTH [CM]", "shades.finished.width", "cm"},
		{"finishedWidthMM", "shades.finished.width", "mm"},
		{"Width in mm", "shades.finished.width", "mm"},
		{`Width "`, "shades.finished.width", "in"},
		{"Finished  width, inches", "shades.finished.width", "in"},
		{"drop", "shades.finished.length", ""},
		{"Widht", "shades.finished.width", ""},
		{"Lenght (in)", "shades.finished.length", "in"},
		{"Width (in) (required)", "shades.finished.width", "in"},
		{"Length (tube to hem)", "shades.finished.length", ""},
		{"Qty.", "shades.quantity", ""},
		{"No. of shades", "shades.quantity", ""},
		{"Win #", "shades.id", ""},
		{"Area", "", ""}, // computed from width and length more often than a place
		{"Ancho de tela (cm)", "goods.width", "cm"},
		{"Opening width (in)", "shades.opening.widths#1", "in"},
		{"Opening Height (right) mm", "shades.opening.heights#3", "mm"},
		{"Opening colour", "", ""},
		{"Opening", "shades.id", ""},
		{"Depth (in)", "shades.opening.depth", "in"},
		{"Width top", "shades.opening.widths#1", ""},
		{"Recess drop", "", ""}, // not a finished length
		{"Rough opening", "", ""},
		{"Price", "", ""},
		{"Colour", "", ""},
		{"Date", "", ""},
	} {
		m := match(0, tt.heading, tt.heading)
		if m.Path != tt.path || m.Unit != tt.unit {
			t.Errorf("%q is taken for %q in %q; want %q in %q", tt.heading, m.Path, m.Unit, tt.path, tt.unit)
		}
	}
}

// No file, whatever it contains, makes the reader panic.
func FuzzRead(f *testing.F) {
	all, err := filepath.Glob(filepath.Join(sheets, "*.[ct]*"))
	if err != nil {
		f.Fatal(err)
	}
	for _, path := range all {
		data, err := os.ReadFile(path)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	opt := optionsFor(f, "bunkhouse", 0)
	f.Fuzz(func(t *testing.T, data []byte) {
		grids, err := readGrids("a", data)
		if err != nil {
			return
		}
		res, err := Read(grids, opt)
		if err == nil && res.File == nil && len(res.Apart) == 0 {
			t.Error("neither a job nor a problem")
		}
	})
}
