package code

// Letters names the n-th of things that are told apart on paper, from 0:
// A … Z, AA, AB …
func Letters(n int) string { return nth(n, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") }

// Chalked is [Letters] without those that are taken for a figure when they are
// chalked on cloth.
func Chalked(n int) string { return nth(n, "ABCDEFGHJKLMNPQRSTUVWXYZ") }

// nth counts in words over the letters, as spreadsheets name their columns.
func nth(n int, letters string) string {
	var s string
	for n++; n > 0; n = (n - 1) / len(letters) {
		s = string(letters[(n-1)%len(letters)]) + s
	}
	return s
}
