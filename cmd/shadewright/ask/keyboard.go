package ask

import (
	"io"
	"os"
)

// A keyboard reads the terminal's keys during the whole interview and lends them to one
// prompt after another. If each prompt read the terminal itself, the reader that a
// finished prompt leaves behind would take the first keys of the next prompt.
type keyboard struct {
	file *os.File
	keys chan []byte
	rest []byte // of the last read
}

// newKeyboard starts to read. The reader ends with the program.
func newKeyboard(f *os.File) *keyboard {
	k := &keyboard{file: f, keys: make(chan []byte, 64)}
	go func() {
		defer close(k.keys)
		for {
			buf := make([]byte, 256)
			n, err := f.Read(buf)
			if n > 0 {
				k.keys <- buf[:n]
			}
			if err != nil {
				return
			}
		}
	}()
	return k
}

// lend returns the keyboard for one prompt, until giveBack.
func (k *keyboard) lend() *loan { return &loan{k, make(chan struct{})} }

// A loan is the keyboard while one prompt has it. Its file descriptor lets the prompt set
// the terminal's mode.
type loan struct {
	*keyboard
	over chan struct{}
}

func (l *loan) giveBack() { close(l.over) }

// Read implements [io.Reader]. After giveBack it returns io.EOF.
func (l *loan) Read(p []byte) (int, error) {
	select {
	case <-l.over:
		return 0, io.EOF
	default:
	}
	if len(l.rest) == 0 {
		select {
		case <-l.over:
			return 0, io.EOF
		case b, ok := <-l.keys:
			if !ok {
				return 0, io.EOF
			}
			l.rest = b
		}
	}
	n := copy(p, l.rest)
	l.rest = l.rest[n:]
	return n, nil
}

// Write implements [io.Writer].
func (l *loan) Write(p []byte) (int, error) { return l.file.Write(p) }

// Close leaves the terminal open for the next prompt.
func (l *loan) Close() error { return nil }

// Fd returns the terminal's file descriptor.
func (l *loan) Fd() uintptr { return l.file.Fd() }
