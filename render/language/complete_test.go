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

// A text is a place where the program uses a text of the catalogue.
type text struct {
	key message.ID
	at  token.Position
}

const messagePath = "shadewright/ticket/message"

// program loads every package of the program with its syntax and types.
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

// isID reports whether a type is message.ID.
func isID(t types.Type) bool {
	n, ok := t.(*types.Named)
	return ok && n.Obj().Name() == "ID" && n.Obj().Pkg() != nil && n.Obj().Pkg().Path() == messagePath
}

// texts finds each constant of type message.ID in a package. In a concatenation
// it takes the whole, not the parts.
func texts(p *packages.Package) []text {
	var found []text
	for _, f := range p.Syntax {
		ast.Inspect(f, func(n ast.Node) bool {
			e, ok := n.(ast.Expr)
			if !ok {
				return true
			}
			tv := p.TypesInfo.Types[e]
			if tv.Value == nil || tv.Value.Kind() != constant.String || !isID(tv.Type) {
				return true
			}
			if s := constant.StringVal(tv.Value); s != "" {
				found = append(found, text{message.ID(s), p.Fset.Position(e.Pos())})
			}
			return false
		})
	}
	return found
}

// said matches a text in a page template: {{$.Say "Join"}}.
var said = regexp.MustCompile(`\b[Ss]ay ("(?:[^"\\]|\\.)*")`)

// pageTexts finds the texts in the phone's pages.
func pageTexts(t *testing.T) []text {
	t.Helper()
	files, err := filepath.Glob("../web/pages/*.html")
	if err != nil || len(files) == 0 {
		t.Fatalf("the phone's pages cannot be read: %v", err)
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
			found = append(found, text{message.ID(s), token.Position{Filename: f}})
		}
	}
	return found
}

// The catalogue has every text that the program uses, in each language, and
// nothing else.
func TestCatalogue(t *testing.T) {
	used := map[message.ID]bool{}
	complete := func(t *testing.T, list []text) {
		for _, x := range list {
			used[x.key] = true
			for _, l := range []message.Language{message.English, message.Spanish} {
				if words, ok := l.Text(x.key); !ok || words == "" {
					t.Errorf("%s: the catalogue has no text %q", x.at, x.key)
					break
				}
			}
		}
	}
	for _, p := range loaded(t) {
		if p.PkgPath == messagePath {
			used["common.and"] = true // used by message.List
			continue
		}
		if list := texts(p); len(list) > 0 {
			t.Run(strings.TrimPrefix(p.PkgPath, "shadewright/"), func(t *testing.T) { complete(t, list) })
		}
	}
	t.Run("pages", func(t *testing.T) { complete(t, pageTexts(t)) })
	t.Run("unused", func(t *testing.T) {
		for _, id := range message.IDs() {
			switch {
			case !used[id] && !id.Retired():
				t.Errorf("nothing uses %q; move its row to catalogue_retired.go", id)
			case used[id] && id.Retired():
				t.Errorf("the program uses %q; move its row from catalogue_retired.go to another table", id)
			}
		}
	})
}

// wellFormed matches an id: the part of the program, a dot, and a few words.
var wellFormed = regexp.MustCompile(`^[a-z]+\.[a-z0-9]+(-[a-z0-9]+)*$`)

func TestIDs(t *testing.T) {
	for _, id := range message.IDs() {
		if !wellFormed.MatchString(string(id)) {
			t.Errorf("id %q does not have the form of card.cut-size", id)
		}
	}
}

// A text that is put together at run time would not be in the catalogue.
func TestConstant(t *testing.T) {
	for _, p := range loaded(t) {
		if p.PkgPath == messagePath || p.PkgPath == "shadewright/render/language" {
			continue
		}
		for _, f := range p.Syntax {
			ast.Inspect(f, func(n ast.Node) bool {
				call, ok := n.(*ast.CallExpr)
				if !ok {
					return true
				}
				if tv := p.TypesInfo.Types[call]; isID(tv.Type) && tv.Value == nil && p.TypesInfo.Types[call.Fun].IsType() {
					t.Errorf("%s: the text is not a constant; use message.Of with arguments, or message.Verbatim", p.Fset.Position(call.Pos()))
				}
				checkArguments(t, p, call)
				checkSaid(t, p, call)
				return true
			})
		}
	}
}

// checkSaid reports an id passed as an argument: a reader would see the id
// instead of its text.
func checkSaid(t *testing.T, p *packages.Package, call *ast.CallExpr) {
	sig, ok := p.TypesInfo.Types[call.Fun].Type.(*types.Signature)
	if !ok || !sig.Variadic() || call.Ellipsis.IsValid() {
		return
	}
	rest := sig.Params().Len() - 1
	for _, a := range call.Args[min(rest, len(call.Args)):] {
		elem := sig.Params().At(rest).Type().(*types.Slice).Elem()
		if _, any := elem.Underlying().(*types.Interface); any && isID(p.TypesInfo.Types[a].Type) {
			t.Errorf("%s: an argument is an id; use message.Of, or English() for text that is always English", p.Fset.Position(a.Pos()))
		}
	}
}

// checkArguments checks that the arguments of a call match the verbs of its
// constant text.
func checkArguments(t *testing.T, p *packages.Package, call *ast.CallExpr) {
	sig, ok := p.TypesInfo.Types[call.Fun].Type.(*types.Signature)
	if !ok || !sig.Variadic() || call.Ellipsis.IsValid() {
		return
	}
	last := sig.Params().Len() - 2 // the text comes before the arguments
	if last < 0 || len(call.Args) <= last || !isID(sig.Params().At(last).Type()) {
		return
	}
	tv := p.TypesInfo.Types[call.Args[last]]
	if tv.Value == nil {
		return
	}
	want, got := len(verbs(message.ID(constant.StringVal(tv.Value)).English())), len(call.Args)-last-1
	if isCount(p, call) {
		got++ // the number itself is also an argument
	}
	if got != want {
		t.Errorf("%s: %d arguments for %v", p.Fset.Position(call.Pos()), got, tv.Value)
	}
}

func isCount(p *packages.Package, call *ast.CallExpr) bool {
	sel, ok := call.Fun.(*ast.SelectorExpr)
	return ok && sel.Sel.Name == "Count" && p.TypesInfo.Uses[sel.Sel].Pkg().Path() == messagePath
}

var verb = regexp.MustCompile(`%(\[\d+\])?([a-z%])`)

// verbs returns the verbs of a text, one for each argument, in the order of the
// arguments.
func verbs(s string) []string {
	at := map[int]string{}
	next := 1
	for _, m := range verb.FindAllStringSubmatch(s, -1) {
		if m[2] == "%" {
			continue
		}
		if m[1] != "" {
			next, _ = strconv.Atoi(strings.Trim(m[1], "[]")) // the pattern allows only digits
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

// Every text can be stored and read back, so no text has a verb that the record
// refuses.
func TestEveryTextIsKept(t *testing.T) {
	for _, key := range message.IDs() {
		var args []any
		for _, v := range verbs(key.English()) {
			args = append(args, map[string]any{"d": 7, "s": "x", "q": "x"}[v])
		}
		p := message.Of(key, args...)
		b, err := json.Marshal(message.Stored{Message: p})
		var again message.Stored
		if err == nil {
			err = json.Unmarshal(b, &again)
		}
		if err != nil || again.String() != p.String() {
			t.Errorf("%q is stored as %s and read back as %q, %v", key, b, again, err)
		}
	}
}

// A translation takes all arguments of its text, each in its kind, and the
// typeface has all letters of both.
func TestTranslations(t *testing.T) {
	for _, key := range message.IDs() {
		s, _ := message.Spanish.Text(key) // TestCatalogue checks that it exists
		if want, got := verbs(key.English()), verbs(s); !slices.Equal(got, want) {
			t.Errorf("%q: its Spanish %q has verbs %v; want %v", key, s, got, want)
		}
		for _, r := range key.English() + s {
			for _, face := range fonts.Weights() {
				if _, ok := face.Glyph(r); !ok {
					t.Errorf("%q has the letter %q, which %v cannot draw", key, r, face)
				}
			}
		}
		if strings.TrimSpace(s) != s && strings.TrimSpace(key.English()) == key.English() {
			t.Errorf("%q: its Spanish %q begins or ends with a space", key, s)
		}
		// The full stop of "izq." ends an abbreviation, not a sentence.
		if strings.HasSuffix(key.English(), ".") != strings.HasSuffix(strings.TrimSuffix(s, " izq."), ".") {
			t.Errorf("%q: its Spanish %q ends differently", key, s)
		}
	}
}
