package code

// Letters returns the name of the n-th thing on paper, from 0: A … Z, AA, AB …
func Letters(n int) string { return nth(n, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") }

// Chalked is [Letters] without I and O, which look like figures when chalked on
// cloth.
func Chalked(n int) string { return nth(n, "ABCDEFGHJKLMNPQRSTUVWXYZ") }

// nth writes n with the letters, as spreadsheets name their columns.
func nth(n int, letters string) string {
	var s string
	for n++; n > 0; n = (n - 1) / len(letters) {
		s = string(letters[(n-1)%len(letters)]) + s
	}
	return s
}
