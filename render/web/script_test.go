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

// The scripts have no words of their own: what they say is in the page, where the
// language puts it.
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
			t.Errorf("%s: %d texts in quotes are found; it has more", name, len(quoted))
		}
		for _, q := range quoted {
			if wordsRE.MatchString(q) && !heads[q] {
				t.Errorf("%s says %s itself", name, q)
			}
		}
		for _, out := range outRE.FindAllString(script, -1) {
			t.Errorf("%s puts a text of its own on the page: %s", name, strings.TrimSpace(out))
		}
	}
}
