package message

import (
	_ "embed"
	"strings"
	"sync"
)

// legacyText lists the English of every text that records held before they kept
// ids. It is frozen: whoever rewords a text changes its row in the catalogue and
// leaves this list alone.
//
//go:embed legacy.txt
var legacyText string

// legacy returns the ids of texts by their earlier English. In the list, a vertical
// bar separates a text from the note that distinguished two meanings of the same
// English.
var legacy = sync.OnceValue(func() map[string]ID {
	ids := map[string]ID{}
	for line := range strings.Lines(legacyText) {
		if id, text, ok := strings.Cut(strings.TrimSuffix(line, "\n"), "\t"); ok {
			ids[text] = ID(id)
		}
	}
	return ids
})
