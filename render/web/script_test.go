package web

import (
	"regexp"
	"strings"
	"testing"
)

var (
	commentRE = regexp.MustCompile(`(?m)(^|\s)//.*$`)
	quotedRE  = regexp.MustCompile(`'(?:[^'\\\n]|\\.)*'|"(?:[^"\\\n]|\\.)*"`)
	wordsRE   = regexp.MustCompile(`^.\p{Lu}\p{Ll}|\pL{2,},? \pL`)
	outRE     = regexp.MustCompile(`\b(?:textContent|title|placeholder|ariaLabel)\s*\+?=\s*['"][^'"]*\pL[^\n]*`)
)

// The scripts contain no text of their own. Their texts are in the page, where
// the language puts them.
func TestScriptsSayNothing(t *testing.T) {
	heads := map[string]bool{"'use strict'": true, "'Content-Type'": true, "'Content-Language'": true, "'Accept'": true}
	for _, name := range []string{"page.js", "worker.js"} {
		b, err := assetFiles.ReadFile("assets/" + name)
		if err != nil {
			t.Fatal(err)
		}
		script := commentRE.ReplaceAllString(string(b), "$1")
		quoted := quotedRE.FindAllString(script, -1)
		if len(quoted) < 10 {
			t.Errorf("%s: only %d quoted texts are found; it has more", name, len(quoted))
		}
		for _, q := range quoted {
			if wordsRE.MatchString(q) && !heads[q] {
				t.Errorf("%s contains the text %s", name, q)
			}
		}
		for _, out := range outRE.FindAllString(script, -1) {
			t.Errorf("%s puts its own text on the page: %s", name, strings.TrimSpace(out))
		}
	}
}
