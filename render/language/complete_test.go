package language

import (
	"encoding/json"
	"go/ast"
	"go/constant"
	"go/token"
	"go/types"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"golang.org/x/tools/go/packages"

	"shadewright/fonts"
	"shadewright/ticket/message"
)

// A text is a place where the program says something.
type text struct {
	key message.English
	at  token.Position
}

const phrasePath = "shadewright/ticket/message"

// program is every package of the program with its syntax and types.
var program = sync.OnceValues(func() ([]*packages.Package, error) {
	return packages.Load(&packages.Config{
		Mode: packages.NeedName | packages.NeedFiles | packages.NeedCompiledGoFiles | packages.NeedImports |
			packages.NeedTypes | packages.NeedTypesInfo | packages.NeedSyntax | packages.NeedExportFile,
	}, "shadewright/...")
})

func loaded(t *testing.T) []*packages.Package {
	t.Helper()
	all, err := program()
	if err != nil {
		t.Fatal(err)
	}
	if len(all) < 10 {
		t.Fatalf("%d packages; the program has more", len(all))
	}
	for _, p := range all {
		for _, e := range p.Errors {
			t.Fatal(e)
		}
	}
	return all
}

// isEnglish reports whether a type is message.English.
func isEnglish(t types.Type) bool {
	n, ok := t.(*types.Named)
	return ok && n.Obj().Name() == "English" && n.Obj().Pkg() != nil && n.Obj().Pkg().Path() == phrasePath
}

// texts finds each constant of type message.English in a package. Of a sum it is
// the whole that is said.
func texts(p *packages.Package) []text {
	var found []text
	for _, f := range p.Syntax {
		ast.Inspect(f, func(n ast.Node) bool {
			e, ok := n.(ast.Expr)
			if !ok {
				return true
			}
			tv := p.TypesInfo.Types[e]
			if tv.Value == nil || tv.Value.Kind() != constant.String || !isEnglish(tv.Type) {
				return true
			}
			if s := constant.StringVal(tv.Value); s != "" {
				found = append(found, text{message.English(s), p.Fset.Position(e.Pos())})
			}
			return false
		})
	}
	return found
}

// said finds what a template says: {{$.Say "Join"}}.
var said = regexp.MustCompile(`\b[Ss]ay ("(?:[^"\\]|\\.)*")`)

// pageTexts finds what the phone's pages say.
func pageTexts(t *testing.T) []text {
	t.Helper()
	files, err := filepath.Glob("../web/pages/*.html")
	if err != nil || len(files) == 0 {
		t.Fatalf("no pages of the phone: %v", err)
	}
	var found []text
	for _, f := range files {
		b, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range said.FindAllStringSubmatch(string(b), -1) {
			s, err := strconv.Unquote(m[1])
			if err != nil {
				t.Errorf("%s: %s: %v", f, m[1], err)
			}
			found = append(found, text{message.English(s), token.Position{Filename: f}})
		}
	}
	return found
}

// Everything that the program says has its Spanish. The table's own keys are not
// among what it says.
func TestSpanish(t *testing.T) {
	var used []text
	complete := func(t *testing.T, list []text) {
		for _, x := range list {
			if spanish()[x.key] == "" {
				t.Errorf("%s: no Spanish for %q", x.at, x.key)
			}
		}
		used = append(used, list...)
	}
	for _, p := range loaded(t) {
		if p.PkgPath == "shadewright/render/language" {
			continue
		}
		if list := texts(p); len(list) > 0 {
			t.Run(strings.TrimPrefix(p.PkgPath, "shadewright/"), func(t *testing.T) { complete(t, list) })
		}
	}
	t.Run("pages", func(t *testing.T) { complete(t, pageTexts(t)) })
	t.Run("unused", func(t *testing.T) {
		for key := range spanish() {
			if !slices.ContainsFunc(used, func(x text) bool { return x.key == key }) {
				t.Errorf("nothing says %q any more; take it out of the table", key)
			}
		}
	})
	t.Run("once", func(t *testing.T) {
		seen := map[message.English]string{}
		for _, table := range spanishTables {
			for key, s := range table {
				if _, twice := seen[key]; twice {
					t.Errorf("%q stands in two tables; keep it in es_common.go", key)
				}
				seen[key] = s
			}
		}
	})
}

// A text that is put together while the program runs is in no table.
func TestConstant(t *testing.T) {
	for _, p := range loaded(t) {
		if p.PkgPath == phrasePath || p.PkgPath == "shadewright/render/language" {
			continue
		}
		for _, f := range p.Syntax {
			ast.Inspect(f, func(n ast.Node) bool {
				call, ok := n.(*ast.CallExpr)
				if !ok {
					return true
				}
				if tv := p.TypesInfo.Types[call]; isEnglish(tv.Type) && tv.Value == nil && p.TypesInfo.Types[call.Fun].IsType() {
					t.Errorf("%s: a text that is not a constant; use message.Of with arguments, or message.Verbatim", p.Fset.Position(call.Pos()))
				}
				checkArguments(t, p, call)
				return true
			})
		}
	}
}

// checkArguments holds a call that says a constant text to the text's verbs.
func checkArguments(t *testing.T, p *packages.Package, call *ast.CallExpr) {
	sig, ok := p.TypesInfo.Types[call.Fun].Type.(*types.Signature)
	if !ok || !sig.Variadic() || call.Ellipsis.IsValid() {
		return
	}
	last := sig.Params().Len() - 2 // the text before the arguments
	if last < 0 || len(call.Args) <= last || !isEnglish(sig.Params().At(last).Type()) {
		return
	}
	tv := p.TypesInfo.Types[call.Args[last]]
	if tv.Value == nil {
		return
	}
	want, got := len(verbs(constant.StringVal(tv.Value))), len(call.Args)-last-1
	if isCount(p, call) {
		got++ // the number itself
	}
	if got != want {
		t.Errorf("%s: %d arguments for %v", p.Fset.Position(call.Pos()), got, tv.Value)
	}
}

func isCount(p *packages.Package, call *ast.CallExpr) bool {
	sel, ok := call.Fun.(*ast.SelectorExpr)
	return ok && sel.Sel.Name == "Count" && p.TypesInfo.Uses[sel.Sel].Pkg().Path() == phrasePath
}

var verb = regexp.MustCompile(`%(\[\d+\])?([a-z%])`)

// verbs returns the verbs of a text, one for each argument, in the arguments'
// order.
func verbs(s string) []string {
	at := map[int]string{}
	next := 1
	for _, m := range verb.FindAllStringSubmatch(s, -1) {
		if m[2] == "%" {
			continue
		}
		if m[1] != "" {
			next, _ = strconv.Atoi(strings.Trim(m[1], "[]")) // digits by the pattern
		}
		at[next] = m[2]
		next++
	}
	list := make([]string, 0, len(at))
	for i := range len(at) {
		list = append(list, at[i+1])
	}
	return list
}

// Every text can be kept and is read back: none has a verb that is refused there.
func TestEveryTextIsKept(t *testing.T) {
	for key := range spanish() {
		var args []any
		for _, v := range verbs(string(key)) {
			args = append(args, map[string]any{"d": 7, "s": "x", "q": "x"}[v])
		}
		p := message.Of(key, args...)
		b, err := json.Marshal(message.Stored{Message: p})
		var again message.Stored
		if err == nil {
			err = json.Unmarshal(b, &again)
		}
		if err != nil || again.String() != p.String() {
			t.Errorf("%q is kept as %s and read back as %q, %v", key, b, again, err)
		}
	}
}

// A translation takes the arguments of its text, all and in their kinds, and can
// be printed.
func TestTranslations(t *testing.T) {
	for key, s := range spanish() {
		if want, got := verbs(string(key)), verbs(s); !slices.Equal(got, want) {
			t.Errorf("%q: its Spanish %q has verbs %v; want %v", key, s, got, want)
		}
		for _, r := range s {
			for _, face := range fonts.Weights() {
				if _, ok := face.Glyph(r); !ok {
					t.Errorf("%q: its Spanish %q has %q, which %v cannot draw", key, s, r, face)
				}
			}
		}
		if strings.TrimSpace(s) != s && strings.TrimSpace(key.String()) == key.String() {
			t.Errorf("%q: its Spanish %q begins or ends with a space", key, s)
		}
		// The full stop of "izq." ends a word, not a sentence.
		if strings.HasSuffix(key.String(), ".") != strings.HasSuffix(strings.TrimSuffix(s, " izq."), ".") {
			t.Errorf("%q: its Spanish %q ends another way", key, s)
		}
	}
}
