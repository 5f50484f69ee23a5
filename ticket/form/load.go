package form

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"unicode/utf8"
)

// MaxBytes is the greatest size of a file: about 5,000 shades.
const MaxBytes = 1 << 20

// Load returns the bytes of a file that a person wrote. It refuses a folder, and
// refuses a file that is too large before reading it. The error is a [Problems] if
// the file is at fault, else the error of the system.
func Load(path string) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close() // only read, so a failed close loses nothing
	info, err := f.Stat()
	switch {
	case err != nil:
		return nil, err
	case info.IsDir():
		return nil, Problems{{File: path, Fault: Fault{"is a folder", "give the name of a file in it"}}}
	case info.Size() > MaxBytes:
		return nil, Problems{{File: path, Fault: tooLarge(info.Size())}}
	}
	return LoadFrom(f) // a pipe has no size beforehand, so the limit also applies while reading
}

// LoadFrom returns what a person wrote into a stream, as [Load] does of a file. It
// reads just enough of a stream that is too large for [Parse] to refuse it.
func LoadFrom(r io.Reader) ([]byte, error) {
	return io.ReadAll(io.LimitReader(r, MaxBytes+1))
}

func tooLarge(size int64) Fault {
	const fix = "check that this is the right file, or split it"
	if size > MaxBytes {
		return Fault{fmt.Sprintf("has %.1f MiB, which is over the limit of 1 MiB", float64(size)/(1<<20)), fix}
	}
	return Fault{"has more than 1 MiB", fix}
}

const saveAsText = "write it with a text editor and save it as UTF-8"

// binaries lists the first bytes of files that people mistake for text.
var binaries = []struct{ head, what string }{
	{"%PDF", "is a PDF"},
	{"PK\x03\x04", "is a spreadsheet, a document or an archive"},
	{"\xd0\xcf\x11\xe0", "is a spreadsheet or a document"},
	{"\xff\xfe", "is UTF-16 text"},
	{"\xfe\xff", "is UTF-16 text"},
	{"\x89PNG", "is a picture"},
	{"\xff\xd8\xff", "is a picture"},
}

// text removes a byte order mark, and reports data that is not text.
func text(file string, data []byte) ([]byte, Problems) {
	if len(data) > MaxBytes {
		return nil, Problems{{File: file, Fault: tooLarge(int64(len(data)))}}
	}
	for _, b := range binaries {
		if bytes.HasPrefix(data, []byte(b.head)) {
			return nil, Problems{{File: file, Fault: Fault{b.what, saveAsText}}}
		}
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	line := 1
	for i := 0; i < len(data); {
		c, n := utf8.DecodeRune(data[i:])
		switch {
		case c == utf8.RuneError && n == 1:
			return nil, Problems{{File: file, Line: line, Fault: Fault{fmt.Sprintf("has the byte %#x, which is not UTF-8", data[i]), saveAsText}}}
		case c < ' ' && c != '\n' && c != '\r' && c != '\t', c == 0x7f, c == 0xfeff:
			return nil, Problems{{File: file, Line: line, Fault: Fault{fmt.Sprintf("has the control character %U", c), saveAsText}}}
		case c == '\n':
			line++
		}
		i += n
	}
	return data, nil
}
