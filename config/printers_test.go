package config

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"shadewright/ticket/form"
	"shadewright/ticket/measure"
)

func userFile(t *testing.T, text string) string {
	t.Helper()
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, FileName), []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return dir
}

// The correction of the chosen printer applies unless a flag overrides it.
func TestPrinters(t *testing.T) {
	const both = "printers:\n  office: {x: 1.0031, y: 0.9984}\n  back room: {x: 1.01, y: 1}\n"
	for _, tt := range []struct {
		name, text string
		flags      map[string]string
		want       Printer
	}{
		{"none chosen", both, nil, Printer{X: measure.One, Y: measure.One}},
		{"chosen in the file", both + "printer: {name: office}\n", nil, Printer{"office", 1_003_100, 998_400}},
		{"chosen by a flag", both + "printer: {name: office}\n", map[string]string{"printer.name": "back room"}, Printer{"back room", 1_010_000, measure.One}},
		{"a flag's own factor", both + "printer: {name: office}\n", map[string]string{"printer.x": "1.02"}, Printer{"office", 1_020_000, 998_400}},
		{"written out", "printer: {name: other, x: 1.02}\n" + both, nil, Printer{"other", 1_020_000, measure.One}},
	} {
		s, err := Load(Options{UserDir: userFile(t, tt.text), Flags: tt.flags})
		if err != nil || s.Printer != tt.want {
			t.Errorf("%s: %v, %+v; want %+v", tt.name, err, s.Printer, tt.want)
		}
	}
}

// The template may have its own printer with its own correction.
func TestTemplatePrinter(t *testing.T) {
	const text = "template_paper: roll-914mm\ntemplate_printer: {name: plotter}\nprinter: {name: office}\nprinters:\n  office: {x: 1.0031, y: 0.9984}\n  plotter: {x: 1.0004, y: 1.0012}\n"
	s, err := Load(Options{UserDir: userFile(t, text)})
	if err != nil {
		t.Fatal(err)
	}
	if want := (Printer{"office", 1_003_100, 998_400}); s.Printer != want {
		t.Errorf("printer %+v; want %+v", s.Printer, want)
	}
	if want := (Printer{"plotter", 1_000_400, 1_001_200}); s.TemplatePrinter != want {
		t.Errorf("template_printer %+v; want %+v", s.TemplatePrinter, want)
	}
	if want := (form.PaperChoice{Roll: 914 * mm}); s.TemplatePaper != want || s.ByFlag("template_paper") {
		t.Errorf("template_paper %+v; want %+v, by no flag", s.TemplatePaper, want)
	}
	s, err = Load(Options{UserDir: userFile(t, text), Flags: map[string]string{"template_paper": "tabloid"}})
	if err != nil || s.TemplatePaper.Name != "tabloid" || !s.ByFlag("template_paper") || s.ByFlag("paper") {
		t.Errorf("with a flag: %v, %+v", err, s.TemplatePaper)
	}
}

func TestPrintersRefused(t *testing.T) {
	for _, tt := range []struct{ text, want string }{
		{"printers: {office: {x: 1.0031, y: 1}}\nprinter: {name: ofice}\n", `shop.yaml:2: printer.name: "ofice" is not a measured printer; did you mean office?`},
		{"printer: {name: office}\n", `shop.yaml:1: printer.name: "office" is not a measured printer; measure it first, with shadewright calibrate --printer "office"`},
		{"printers: {office: {x: 1.0031, y: 1}}\ntemplate_printer: {name: ofice}\n", `shop.yaml:2: template_printer.name: "ofice" is not a measured printer; did you mean office?`},
		{"printers: {office: {x: 0.94, z: 1}}\n", `shop.yaml:1: printers.office: unknown key "z"; the keys are x, y`},
		{"printers: {office: {x: 1.4}}\n", `shop.yaml:1: printers.office.x: "1.4" is more than 1.1`},
		{"printers: {office: 1.02}\n", `shop.yaml:1: printers.office: "1.02" is one value, not a printer's correction`},
		{"printers: office\n", `shop.yaml:1: printers: "office" is one value, not a group of printers`},
	} {
		_, err := Load(Options{UserDir: userFile(t, tt.text)})
		if err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%q: %v; want %s", tt.text, err, tt.want)
		}
	}
}

// Adding a correction leaves the rest of the file unchanged.
func TestWithPrinter(t *testing.T) {
	for _, tt := range []struct {
		before, want string
		chosen       bool
	}{
		{"", "printers:\n  office:\n    x: 1.0031\n    y: 0.9984\nprinter:\n  name: office\n", true},
		{"# ours\npaper: a4   # the good one\n", "# ours\npaper: a4   # the good one\nprinters:\n  office:\n    x: 1.0031\n    y: 0.9984\nprinter:\n  name: office\n", true},
		{"printer:\n  name: old # keep\nprinters:\n  old: {x: 1, y: 1}\n", "printer:\n  name: old # keep\nprinters:\n  office:\n    x: 1.0031\n    y: 0.9984\n  old: {x: 1, y: 1}\n", false},
		{"printers:\n  office: {x: 1.02, y: 1} # in May\nprinter: {name: office}\n", "printers:\n  office: {x: 1.0031, y: 0.9984} # in May\nprinter: {name: office}\n", true},
	} {
		dir := userFile(t, tt.before)
		_, got, chosen, err := WithPrinter(dir, ForAll, Printer{"office", 1_003_100, 998_400})
		if err != nil || string(got) != tt.want || chosen != tt.chosen {
			t.Errorf("%q: %v, %v\n%s\nwant %v\n%s", tt.before, err, chosen, got, tt.chosen, tt.want)
			continue
		}
		if err := os.WriteFile(filepath.Join(dir, FileName), got, 0o644); err != nil {
			t.Fatal(err)
		}
		s, err := Load(Options{UserDir: dir, Flags: map[string]string{"printer.name": "office"}})
		if err != nil || s.Printer != (Printer{"office", 1_003_100, 998_400}) {
			t.Errorf("read back: %v, %+v", err, s.Printer)
		}
	}
	if _, _, _, err := WithPrinter(t.TempDir(), ForAll, Printer{"office", measure.One, measure.One}); err != nil {
		t.Errorf("without a file: %v", err)
	}
}

// Measuring a plotter for the template does not make it the printer for other
// sheets.
func TestWithPrinterOfTemplate(t *testing.T) {
	plotter := Printer{"plotter", 1_001_000, 1_002_000}
	office := Printer{"office", 1_003_100, 998_400}
	dir := t.TempDir()
	for _, step := range []struct {
		group string
		p     Printer
	}{{ForTemplate, plotter}, {ForAll, office}} {
		path, text, chosen, err := WithPrinter(dir, step.group, step.p)
		if err != nil || !chosen {
			t.Fatalf("%s: chosen %t, %v", step.group, chosen, err)
		}
		if err := os.WriteFile(path, text, 0o644); err != nil {
			t.Fatal(err)
		}
		s, err := Load(Options{UserDir: dir})
		if err != nil || s.TemplatePrinter != plotter || step.group == ForTemplate && s.Printer.Name != "" {
			t.Errorf("after %s: printer %+v, of the template %+v, %v", step.group, s.Printer, s.TemplatePrinter, err)
		}
	}
	if s, err := Load(Options{UserDir: dir}); err != nil || s.Printer != office {
		t.Errorf("the printer is %+v, %v; want %+v", s.Printer, err, office)
	}
}
