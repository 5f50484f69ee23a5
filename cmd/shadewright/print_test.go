package main

import (
	"testing"

	"shadewright/config"
	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/ticket/measure"
)

// The office printer's correction is right for its own sheets only. Roll paper goes through
// another machine.
func TestTemplatePrinter(t *testing.T) {
	roll, err := sheet.OnRoll(36 * measure.Inch)
	if err != nil {
		t.Fatal(err)
	}
	office := config.Printer{Name: "office", X: 1_003_100, Y: 998_400}
	plotter := config.Printer{Name: "plotter", X: 1_000_400, Y: 1_001_200}
	byHand := config.Printer{X: measure.One, Y: 1_001_200}
	unknown := config.Printer{X: measure.One, Y: measure.One}
	for _, tt := range []struct {
		what string
		own  config.Printer
		on   sheet.Paper
		want config.Printer
	}{
		{"sheets", unknown, sheet.Paper{}, office},
		{"roll paper", unknown, roll, config.Printer{}},
		{"roll paper of a known plotter", plotter, roll, plotter},
		{"sheets of a known plotter", plotter, sheet.Paper{}, plotter},
		{"roll paper of a plotter without a name", byHand, roll, byHand},
	} {
		l := &loadedJob{settings: config.Settings{Printer: office, TemplatePrinter: tt.own}}
		name, c := l.templatePrinter(tt.on)
		if name != tt.want.Name || c != (page.Correction{X: tt.want.X, Y: tt.want.Y}) {
			t.Errorf("%s: printer %q, %+v; want %+v", tt.what, name, c, tt.want)
		}
	}
}
