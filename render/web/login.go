package web

import (
	"crypto/hmac"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/base32"
	"encoding/base64"
	"encoding/binary"
	"encoding/json"
	"net/http"
	"strings"
	"time"
)

// A member is a phone that joined, with the person and bench in its cookie.
type member struct {
	ID    string `json:"id"`
	Who   string `json:"who,omitempty"`
	Where string `json:"where,omitempty"`
	Until int64  `json:"until"` // seconds since 1970
}

// A login admits phones.
type login struct {
	key      []byte
	pin      string
	days     int
	secure   bool
	now      func() time.Time
	attempts *attempts
}

func newLogin(opt Options) *login {
	l := &login{pin: opt.PIN, days: max(opt.Days, 1), secure: opt.Secure, now: opt.Now, attempts: newAttempts(opt.Now)}
	// The key depends on the PIN, so a new PIN ends every cookie. A change of
	// the constant text would do the same.
	l.key = mac(opt.Key, "shadewright door", opt.PIN)
	return l
}

// mac is the HMAC-SHA256 of parts. Each part has its length in front, so that
// different parts never give the same input.
func mac(key []byte, parts ...string) []byte {
	h := hmac.New(sha256.New, key)
	for _, p := range parts {
		var n [8]byte
		binary.BigEndian.PutUint64(n[:], uint64(len(p)))
		h.Write(n[:])
		h.Write([]byte(p))
	}
	return h.Sum(nil)
}

var b64 = base64.RawURLEncoding

// cookieName has the prefix that makes a browser bind the cookie to this host
// and to TLS (RFC 6265bis, 4.1.3.2).
func (l *login) cookieName() string {
	if l.secure {
		return "__Host-in"
	}
	return "in"
}

// admit gives a phone its cookie.
func (l *login) admit(w http.ResponseWriter, m member) error {
	body, err := json.Marshal(m)
	if err != nil {
		return err
	}
	text := b64.EncodeToString(body)
	http.SetCookie(w, &http.Cookie{
		Name: l.cookieName(), Value: text + "." + b64.EncodeToString(mac(l.key, "cookie", text)),
		Path: "/", Expires: time.Unix(m.Until, 0), HttpOnly: true, Secure: l.secure, SameSite: http.SameSiteLaxMode,
	})
	return nil
}

// expel removes a phone's cookie.
func (l *login) expel(w http.ResponseWriter) {
	http.SetCookie(w, &http.Cookie{Name: l.cookieName(), Path: "/", MaxAge: -1, HttpOnly: true, Secure: l.secure, SameSite: http.SameSiteLaxMode})
}

// until returns when a cookie given now expires.
func (l *login) until() int64 { return l.now().AddDate(0, 0, l.days).Unix() }

// member reads and checks the cookie of a request.
func (l *login) member(r *http.Request) (member, bool) {
	c, err := r.Cookie(l.cookieName())
	if err != nil {
		return member{}, false
	}
	text, sum, _ := strings.Cut(c.Value, ".")
	given, err := b64.DecodeString(sum)
	if err != nil || !hmac.Equal(given, mac(l.key, "cookie", text)) {
		return member{}, false
	}
	body, err := b64.DecodeString(text)
	var m member
	if err != nil || json.Unmarshal(body, &m) != nil {
		return member{}, false
	}
	return m, l.now().Unix() < m.Until
}

// token returns the token for the forms on a phone's pages.
func (l *login) token(m member) string { return b64.EncodeToString(mac(l.key, "form", m.ID)[:16]) }

func (l *login) tokenFits(m member, given string) bool {
	return subtle.ConstantTimeCompare([]byte(given), []byte(l.token(m))) == 1
}

// joinFor is how long a join code is valid.
const joinFor = 10 * time.Minute

// Join codes use capitals and digits, so that the modules of the QR symbol stay
// large.
var b32 = base32.StdEncoding.WithPadding(base32.NoPadding)

// joinCode returns a code that admits phones until it expires.
func (l *login) joinCode() string {
	var until [8]byte
	binary.BigEndian.PutUint64(until[:], uint64(l.now().Add(joinFor).Unix()))
	body := until[4:]
	return b32.EncodeToString(append(body[:len(body):len(body)], mac(l.key, "join", string(body))[:16]...))
}

// joinCodeGood reports whether a join code is valid, in upper or lower case.
func (l *login) joinCodeGood(text string) bool {
	data, err := b32.DecodeString(strings.ToUpper(text))
	if err != nil || len(data) != 4+16 {
		return false
	}
	body, sum := data[:4], data[4:]
	return hmac.Equal(sum, mac(l.key, "join", string(body))[:16]) && l.now().Unix() < int64(binary.BigEndian.Uint32(body))
}

// pinFits compares a PIN in constant time, so that the time does not tell how
// much of it was right.
func (l *login) pinFits(given string) bool {
	a, b := sha256.Sum256([]byte(strings.TrimSpace(given))), sha256.Sum256([]byte(l.pin))
	return subtle.ConstantTimeCompare(a[:], b[:]) == 1
}
