package grid

import (
	"bytes"
	"encoding/csv"
)

// CSV returns rows as comma-separated text. It starts with a byte order mark, by
// which spreadsheets on Windows recognise UTF-8, and has Windows line ends.
func CSV(rows [][]string) ([]byte, error) {
	var b bytes.Buffer
	b.WriteString("\ufeff")
	w := csv.NewWriter(&b)
	w.UseCRLF = true
	if err := w.WriteAll(rows); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}
