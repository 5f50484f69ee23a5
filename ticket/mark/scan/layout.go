package scan

import "strings"

// A keyboard lists what its keys type, row by row from the top left, first plain,
// then with shift. A scanner that types sends key positions of the keyboard it is
// set to, and the computer turns positions into characters of its own keyboard. A
// zero stands for a key that does not type on every keyboard. The keys are those of
// xkeyboard-config 2.35.1, symbols us(basic), de(basic) and fr(basic); an accent
// that waits for a letter stands for itself.
type keyboard struct {
	name         string
	plain, shift string
}

var (
	us = keyboard{
		"US",
		"`1234567890-=" + `qwertyuiop[]\` + `asdfghjkl;'` + `zxcvbnm,./`,
		"~!@#$%^&*()_+" + `QWERTYUIOP{}|` + `ASDFGHJKL:"` + `ZXCVBNM<>?`,
	}
	german = keyboard{
		"German",
		"^1234567890ß´" + `qwertzuiopü+#` + `asdfghjklöä` + `yxcvbnm,.-`,
		`°!"§$%&/()=?` + "`" + `QWERTZUIOPÜ*'` + `ASDFGHJKLÖÄ` + `YXCVBNM;:_`,
	}
	french = keyboard{
		"French",
		`²&é"'(-è_çà)=` + `azertyuiop^$*` + `qsdfghjklmù` + `wxcvbn,;:!`,
		"\x001234567890°+" + `AZERTYUIOP¨£µ` + `QSDFGHJKLM%` + `WXCVBN?./§`,
	}
)

// A mismatch is a scanner and a computer set to different keyboards, with the
// characters that the computer typed for those that the scanner meant.
type mismatch struct {
	scanner, computer string
	meant             map[rune]rune
}

// mismatches lists the mismatches that a parser corrects.
var mismatches = []mismatch{mix(us, german), mix(us, french), mix(german, us), mix(french, us)}

func mix(scanner, computer keyboard) mismatch {
	m := mismatch{scanner: scanner.name, computer: computer.name, meant: map[rune]rune{}}
	add := func(typed, meant []rune) {
		for i, r := range typed {
			if r != 0 && meant[i] != 0 {
				m.meant[r] = meant[i]
			}
		}
	}
	add([]rune(computer.plain), []rune(scanner.plain))
	add([]rune(computer.shift), []rune(scanner.shift))
	return m
}

// restore returns what the scanner meant. certain is true if it changed characters
// other than letters; changed letters alone may be a typing mistake.
func (m mismatch) restore(line string) (meant string, certain, ok bool) {
	ok = true
	meant = strings.Map(func(r rune) rune {
		to, known := m.meant[r]
		if !known {
			ok = r == ' ' && ok
			return r
		}
		if to != r && !(letter(r) && letter(to)) {
			certain = true
		}
		return to
	}, line)
	return meant, certain, ok
}

func letter(r rune) bool { return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' }
