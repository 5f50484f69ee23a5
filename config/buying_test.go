package config

import (
	"strings"
	"testing"

	"shadewright/ticket/measure"
)

// The built-in values for cutting and buying are common practice, no source;
// flags replace them.
func TestBuying(t *testing.T) {
	s := load(t, Options{})
	c, b := s.Cutting, s.Buying
	if c.Table != 96*in || !c.Overhang || s.Limits.Table != 0 || c.SquareEnd != 2*in || c.Seconds != 1 || c.KeepWidth != 12*in || c.KeepLength != 18*in || b.Waste != 5 || b.SoldBy != 0 ||
		b.SlatLength != 96*in || b.SawCut != in/8 || b.Currency != "" || b.Rate != 0 || b.Brackets != 0 {
		t.Errorf("cutting %+v, buying %+v", c, b)
	}
	s = load(t, Options{
		Environ: []string{"SHADEWRIGHT_LABOUR_SLAT_FIT=4"},
		Flags: map[string]string{"cutting.table": "8 ft", "buying.currency": "EUR", "buying.waste": "7 %",
			"price.tape": "14.50", "labour.rate": "42", "labour.sew": "12"},
	})
	if s.Cutting.Table != 96*in || s.Limits.Table != 96*in || s.Buying.Currency != "EUR" || s.Buying.Waste != 7 ||
		s.Buying.Prices.Tape != 145_000 || s.Buying.Rate != 42*measure.Unit || s.Buying.Minutes["sew"] != 12 || s.Buying.Minutes["slat-fit"] != 4 {
		t.Errorf("cutting %+v, buying %+v, limits %+v", s.Cutting, s.Buying, s.Limits)
	}
}

func TestBadBuying(t *testing.T) {
	for flag, want := range map[string]string{
		"cutting.seconds=4000":    `flag --set cutting.seconds: "4000" is out of range; write a number from 0 to 3600, in seconds`,
		"labour.rate=-1":          `"-1" is negative; write for example 18.50, without the currency`,
		"cutting.keep_width=1 mm": `"1 mm" is less than 10 mm; check the number and its unit`,
		"labour.nap=3":            `unknown key "labour.nap"`,
	} {
		k, v, _ := strings.Cut(flag, "=")
		_, err := Load(Options{Flags: map[string]string{k: v}})
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v; want %s", flag, err, want)
		}
	}
}
