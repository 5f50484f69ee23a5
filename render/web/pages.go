package web

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/base64"
	"html/template"
	"net/http"
	"path"
	"strings"

	"shadewright/render/language"
	"shadewright/ticket/message"
)

//go:embed pages/*.html
var pageFiles embed.FS

//go:embed assets/*
var assetFiles embed.FS

var pages = template.Must(template.New("").Funcs(template.FuncMap{"whole": whole}).ParseFS(pageFiles, "pages/*.html"))

// whole keeps each length of a size on one line: 40-3/8 in does not break at
// its hyphen or before its unit.
func whole(size string) string {
	parts := strings.Split(size, " × ")
	for i, p := range parts {
		parts[i] = strings.NewReplacer("-", "\u2011", " ", "\u00a0").Replace(p)
	}
	return strings.Join(parts, " × ")
}

// A frame is the part that all pages share. Page templates take their texts
// from its language.
type frame struct {
	language.Language
	Title, Token string
	Who, Where   string
	In           bool
	Board        bool   // the page updates itself
	Here         string // where to return after a change of language
	Choices      []language.Language
}

// frame returns the frame of a page for the phone that asks.
func (s *Server) frame(r *http.Request, title message.ID) frame {
	l := s.speaks(r)
	f := frame{Language: l, Title: l.Say(title), Here: localPath(r.URL.RequestURI()), Choices: s.choices}
	if me, ok := s.login.member(r); ok {
		f.Token, f.Who, f.Where, f.In = s.login.token(me), me.Who, me.Where, true
	}
	return f
}

// outside returns a frame that is the same for every phone.
func (s *Server) outside(r *http.Request, title message.ID) frame {
	f := s.frame(r, title)
	f.Token, f.Who, f.Where, f.In = "", "", "", false
	return f
}

// page sends a whole page, or an error if the page cannot be made.
func (s *Server) page(w http.ResponseWriter, r *http.Request, status int, name string, data any) {
	var b bytes.Buffer
	if err := pages.ExecuteTemplate(&b, name, data); err != nil {
		s.opt.Fault(err)
		http.Error(w, s.speaks(r).Say("web.page-failed"), http.StatusInternalServerError)
		return
	}
	s.heads(w, r)
	w.WriteHeader(status)
	// A write fails only if the phone went away.
	_, _ = w.Write(b.Bytes())
}

// sayPage is a page with one message.
type sayPage struct {
	frame
	Head, Text string
	Join       bool
}

// showMessage answers with one message and its remedy.
func (s *Server) showMessage(w http.ResponseWriter, r *http.Request, status int, head message.ID, text message.Message) {
	p := sayPage{frame: s.frame(r, head), Join: status == http.StatusUnauthorized}
	p.Head, p.Text = p.Title, p.Put(text)
	if wantsJSON(r) {
		s.reply(w, r, status, reply{Outcome: http.StatusText(status), Message: p.Say("mark.no") + "  " + p.Head + ". " + p.Text})
		return
	}
	s.page(w, r, status, "say.html", p)
}

func (s *Server) offline(w http.ResponseWriter, r *http.Request) {
	s.page(w, r, http.StatusOK, "offline.html", s.outside(r, "web.no-network"))
}

// asset sends one of our styles, scripts or pictures. Its tag is the sum of its
// content, so that a phone that asks again gets it only if it changed.
func (s *Server) asset(w http.ResponseWriter, r *http.Request) {
	name := r.PathValue("name")
	if name == "" {
		name = path.Base(r.URL.Path)
	}
	data, err := assetFiles.ReadFile("assets/" + name)
	if err != nil || strings.Contains(name, "/") {
		s.showMessage(w, r, http.StatusNotFound, "web.no-such-page", message.Of("web.begin-first-page"))
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
	// A write fails only if the phone went away.
	_, _ = w.Write(data)
}
