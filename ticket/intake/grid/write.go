package grid

import (
	"bytes"
	"encoding/csv"
)

// CSV returns rows as text parted by commas, with the mark by which spreadsheets
// on Windows know UTF-8 and with the line ends they write.
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
