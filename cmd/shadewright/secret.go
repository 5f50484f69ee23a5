package main

import (
	"crypto/rand"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"math/big"
	"os"
	"path/filepath"
	"runtime"
	"strings"

	"shadewright/config"
)

// secrets returns the key that signs cookies, and the PIN. Both are files in the data
// folder that only this user can read. A PIN in the settings comes first; pinFile is then
// empty.
func secrets(s environment, c config.Settings) (key []byte, pin, pinFile string, err error) {
	if s.dataDir == "" {
		return nil, "", "", usageError{errors.New("this user has no data folder to keep the server's key in; set XDG_DATA_HOME, or HOME")}
	}
	text, err := kept(filepath.Join(s.dataDir, "serve.key"), func() (string, error) {
		b := make([]byte, 32)
		_, err := rand.Read(b)
		return hex.EncodeToString(b), err
	})
	if err != nil {
		return nil, "", "", err
	}
	if key, err = hex.DecodeString(text); err != nil || len(key) < 32 {
		return nil, "", "", fmt.Errorf("%s: does not hold a key; delete the file and run serve again: it makes a new key, and every phone must join again", filepath.Join(s.dataDir, "serve.key"))
	}
	if c.Server.PIN != "" {
		return key, c.Server.PIN, "", nil
	}
	pinFile = filepath.Join(s.dataDir, "pin")
	pin, err = kept(pinFile, newPIN)
	if err == nil && len(pin) < 6 {
		err = fmt.Errorf("%s: does not hold a PIN of at least six digits; delete the file and run serve again: it makes a new PIN", pinFile)
	}
	return key, pin, pinFile, err
}

// newPIN returns eight random digits.
func newPIN() (string, error) {
	n, err := rand.Int(rand.Reader, big.NewInt(100_000_000))
	if err != nil {
		return "", err
	}
	return fmt.Sprintf("%08d", n), nil
}

// kept reads a secret from its file, or makes the file the first time. It refuses a file
// that others can read, since its contents may be known.
func kept(path string, fresh func() (string, error)) (string, error) {
	data, err := os.ReadFile(path)
	if err == nil {
		info, err := os.Stat(path)
		if err != nil {
			return "", err
		}
		if runtime.GOOS != "windows" && info.Mode().Perm()&0o077 != 0 {
			return "", fmt.Errorf("%s: other users can read it (%s); delete the file and run serve again: it makes a new one", path, info.Mode().Perm())
		}
		return strings.TrimSpace(string(data)), nil
	}
	if !errors.Is(err, fs.ErrNotExist) {
		return "", err
	}
	text, err := fresh()
	if err != nil {
		return "", err
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return "", err
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return "", err
	}
	_, err = f.WriteString(text + "\n")
	return text, errors.Join(err, f.Sync(), f.Close())
}
