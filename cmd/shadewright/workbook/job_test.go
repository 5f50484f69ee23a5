package workbook

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/uuid"

	"shadewright/ticket/intake"
	"shadewright/ticket/jobfile"
	"shadewright/ticket/measure"
)

// job turns a workbook into a job. Like names the sample job whose parts it uses.
func job(t *testing.T, name string, data []byte, like string) *intake.Result {
	t.Helper()
	grids, err := Read(name, data, "")
	if err != nil {
		t.Fatal(err)
	}
	opt := intake.Options{Name: "test", ID: uuid.MustParse("5f0c8f0e-2b0f-4a55-9f0b-6f1f7a2d9c31")}
	if like != "" {
		if opt.Like, err = jobfile.ReadPath("../../../testdata/jobs/"+like+".yaml", jobfile.Options{}); err != nil {
			t.Fatal(err)
		}
	}
	res, err := intake.Read(grids, opt)
	if err != nil {
		t.Fatal(err)
	}
	return res
}

// The wanted lines were read off the sheets by eye, inches times 25.4 by hand.
func TestJob(t *testing.T) {
	for _, tt := range []struct {
		file, like string
		in         measure.System
		want       []string
	}{
		{"merged.xlsx", "bunkhouse", measure.Inches, []string{
			"B-1, Bunk room: 2 of 698.5 mm × 1016 mm, standard", "B-2, Bunk room: 1 of 669.925 mm × 942.975 mm, standard", "B-3, Door: 1 of 603.25 mm × 1778 mm, standard"}},
		{"kept-as-text.xlsx", "bunkhouse", measure.Inches, []string{
			"101, : 2 of 698.5 mm × 1016 mm, standard", "102, : 1 of 669.925 mm × 942.975 mm, standard",
			"103, : 1 of 603.25 mm × 1778 mm, standard", "104, : 1 of 673.1 mm × 1041.4 mm, standard"}},
		// The hidden row is not a shade, although the room of the row above is merged into it.
		{"farmhouse.xlsx", "bunkhouse", measure.Inches, []string{
			"1, Kitchen: 1 of 698.5 mm × 1219.2 mm, standard", "2, Larder: 2 of 698.5 mm × 1238.25 mm, standard",
			"3, Back stair: 1 of 635 mm × 1482.725 mm, standard"}},
		{"second.xlsx", "narrowboat", measure.Millimetres, []string{
			"saloon, : 1 of 845 mm × 610 mm, reverse", "berth, : 1 of 500 mm × 400 mm, standard"}},
	} {
		res := job(t, tt.file, load(t, tt.file), tt.like)
		if len(res.Apart) > 0 {
			t.Errorf("%s: %v", tt.file, res.Problems())
			continue
		}
		var got []string
		for _, s := range res.File.Job.Shades {
			got = append(got, fmt.Sprintf("%s, %s: %d of %v × %v, %v", s.ID, s.Place, s.Quantity, s.Finished.Width, s.Finished.Length, s.Roll))
		}
		if got, want := strings.Join(got, "\n"), strings.Join(tt.want, "\n"); got != want {
			t.Errorf("%s gives\n%s\nwant\n%s", tt.file, got, want)
		}
		if got := res.File.Job.Style.System; got != tt.in {
			t.Errorf("%s: the job is in %v; want %v", tt.file, got, tt.in)
		}
	}
}

// The error for a fraction that became a date names sheet, row and column.
func TestDates(t *testing.T) {
	const (
		made   = ": the spreadsheet made it from a fraction, perhaps "
		retype = "; set the column's format to text and type it again"
	)
	res := job(t, "dates.xlsx", load(t, "dates.xlsx"), "bunkhouse")
	want := strings.Join([]string{
		`dates.xlsx (Sheet1):3: column G, Hem (in): "2026-03-08" is a date, 8 March 2026` + made + "3/8" + retype,
		`dates.xlsx (Sheet1):4: column H, Pocket (in): "2008-01-01" is a date, 1 January 2008` + made + "1-1/8" + retype,
		`dates.xlsx (Sheet1):5: column B, Width (in): "#N/A" is a formula that failed; correct it in the spreadsheet, or type the value`,
	}, "\n")
	if got := res.Problems().Error(); got != want || res.Taken != 1 {
		t.Errorf("%d taken, kept apart:\n%s\nwant 1,\n%s", res.Taken, got, want)
	}
}

// A formula without its result is an error, not an empty cell. The notes list what was
// left out.
func TestLeftOut(t *testing.T) {
	res := job(t, "formulas.xlsx", load(t, "formulas.xlsx"), "narrowboat")
	const want = `formulas.xlsx (Sheet):2: column B, Width (mm): "=600+12" is a formula whose result is not in the file; open the file in a spreadsheet program and save it there, or type the value`
	if got := res.Problems().Error(); got != want || res.Taken != 1 {
		t.Errorf("%d taken, kept apart:\n%s\nwant 1,\n%s", res.Taken, got, want)
	}
	res = job(t, "farmhouse.xlsx", load(t, "farmhouse.xlsx"), "bunkhouse")
	notes := []string{"row 8 is hidden and left out", "row 11 says nothing about a shade, so it was left out", "row 12 is a total, so it was left out"}
	if got := strings.Join(res.Notes, "\n"); got != strings.Join(notes, "\n") {
		t.Errorf("the notes are\n%s\nwant\n%s", got, strings.Join(notes, "\n"))
	}
}

// The size list to fill in is read back without problems or notes.
func TestBlank(t *testing.T) {
	for _, u := range []measure.System{measure.Inches, measure.Millimetres} {
		rows, remarks := intake.Blank(u)
		data, err := Write("shades", rows, remarks)
		if err != nil {
			t.Fatal(err)
		}
		res := job(t, "a.xlsx", data, "")
		if res.Taken != 1 || len(res.Apart) > 0 || res.File.Job.Style.System != u {
			t.Errorf("in %v: %+v", u, res)
		}
	}
}
