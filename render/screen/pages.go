package screen

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/base64"
	"html/template"
	"net/http"
	"path"
	"strings"
)

//go:embed pages/*.html
var pageFiles embed.FS

//go:embed assets/*
var assetFiles embed.FS

var pages = template.Must(template.New("").Funcs(template.FuncMap{"whole": whole}).ParseFS(pageFiles, "pages/*.html"))

// whole keeps each length of a size on one line: 40-3/8 in is not parted at its
// hyphen or before its unit.
func whole(size string) string {
	parts := strings.Split(size, " × ")
	for i, p := range parts {
		parts[i] = strings.NewReplacer("-", "\u2011", " ", "\u00a0").Replace(p)
	}
	return strings.Join(parts, " × ")
}

// frame is what every page has around it.
type frame struct {
	Title, Lang, Token string
	Who, Where         string
	In                 bool
	Board              bool // the page changes by itself
}

func (s *Screen) frame(me session, title string) frame {
	return frame{Title: title, Lang: s.opt.Language.Tag(), Token: s.door.token(me), Who: me.Who, Where: me.Where, In: true}
}

// page sends a page whole or not at all.
func (s *Screen) page(w http.ResponseWriter, r *http.Request, status int, name string, data any) {
	var b bytes.Buffer
	if err := pages.ExecuteTemplate(&b, name, data); err != nil {
		s.opt.Fault(err)
		http.Error(w, "the page cannot be made", http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.WriteHeader(status)
	// The phone went away if it cannot be written.
	_, _ = w.Write(b.Bytes())
}

// sayPage says one thing.
type sayPage struct {
	frame
	Head, Text string
	Join       bool
}

// say answers with one thing and what to do.
func (s *Screen) say(w http.ResponseWriter, r *http.Request, status int, head, text string) {
	if wantsJSON(r) {
		writeReply(w, status, reply{Outcome: http.StatusText(status), Message: "NO  " + head + ". " + text})
		return
	}
	p := sayPage{Head: head, Text: text, Join: status == http.StatusUnauthorized}
	if me, ok := s.door.session(r); ok {
		p.frame = s.frame(me, head)
	}
	p.Title, p.Lang = head, s.opt.Language.Tag()
	s.page(w, r, status, "say.html", p)
}

func (s *Screen) offline(w http.ResponseWriter, r *http.Request) {
	s.page(w, r, http.StatusOK, "offline.html", frame{Title: "No network", Lang: s.opt.Language.Tag()})
}

// asset sends a style or script of ours. What it holds is named by its sum, so
// that a phone asks again and gets nothing twice.
func (s *Screen) asset(w http.ResponseWriter, r *http.Request) {
	name := r.PathValue("name")
	if name == "" {
		name = path.Base(r.URL.Path)
	}
	data, err := assetFiles.ReadFile("assets/" + name)
	if err != nil || strings.Contains(name, "/") {
		s.say(w, r, http.StatusNotFound, "There is no such page", "Begin at the first page.")
		return
	}
	types := map[string]string{".css": "text/css; charset=utf-8", ".js": "text/javascript; charset=utf-8", ".svg": "image/svg+xml"}
	sum := sha256.Sum256(data)
	tag := `"` + base64.RawURLEncoding.EncodeToString(sum[:12]) + `"`
	w.Header().Set("Cache-Control", "no-cache")
	w.Header().Set("ETag", tag)
	if r.Header.Get("If-None-Match") == tag {
		w.WriteHeader(http.StatusNotModified)
		return
	}
	w.Header().Set("Content-Type", types[path.Ext(name)])
	// The phone went away if it cannot be written.
	_, _ = w.Write(data)
}
