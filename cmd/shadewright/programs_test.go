package main

import (
	"bytes"
	"context"
	"encoding/json"
	"regexp"
	"strings"
	"testing"
)

// The guide for programs names every field in the report of check, and no others. Renaming
// a field fails here, as it would in every program that reads it.
func TestFieldsOfCheck(t *testing.T) {
	guide, err := guides.ReadFile("help/programs.md")
	if err != nil {
		t.Fatal(err)
	}
	documented := map[string]bool{}
	for _, row := range regexp.MustCompile(`(?m)^\| .* \|$`).FindAllString(string(guide), -1) {
		for _, m := range regexp.MustCompile("`([a-z_0-9]+)`").FindAllStringSubmatch(row, -1) {
			documented[m[1]] = true
		}
	}
	reported := map[string]bool{}
	for _, job := range []string{"bunkhouse", "leanto", "narrowboat"} {
		var out, talk bytes.Buffer
		s := environment{in: strings.NewReader(""), out: &out, err: &talk}
		code := run(context.Background(), []string{"check", "--json", "../../testdata/jobs/" + job + ".yaml"}, s)
		if code != exitDone && code != exitRefused {
			t.Fatalf("%s: exit code %d: %s", job, code, talk.String())
		}
		var report struct{ Shades []any }
		if err := json.Unmarshal(out.Bytes(), &report); err != nil {
			t.Fatal(err)
		}
		for _, shade := range report.Shades {
			fieldNames(shade, reported)
		}
	}
	for name := range reported {
		if !documented[name] {
			t.Errorf("help/programs.md does not name the field %s", name)
		}
	}
	// No sample has these fields: a trial is for one shade, and offcuts are the shop's.
	for _, rare := range []string{"on_hand", "rate_error_nmm_per_turn"} {
		delete(documented, rare)
	}
	for name := range documented {
		if !reported[name] {
			t.Errorf("help/programs.md names the field %s, which no sample's report has", name)
		}
	}
}

// fieldNames collects the names of the fields in a JSON value.
func fieldNames(v any, into map[string]bool) {
	switch v := v.(type) {
	case map[string]any:
		for name, inner := range v {
			into[name] = true
			fieldNames(inner, into)
		}
	case []any:
		for _, inner := range v {
			fieldNames(inner, into)
		}
	}
}
