package record

import (
	"context"
	"fmt"
	"strings"
)

// migrations bring a store up by one version each, in order. A step that was
// ever released is never changed: another is put after it. {int} is the whole
// number type of 64 bits that the database has.
var migrations = [][]string{
	{
		`CREATE TABLE routes (
	id    TEXT NOT NULL PRIMARY KEY, -- digest of steps
	steps TEXT NOT NULL              -- JSON
)`,
		`CREATE TABLE tickets ( -- registrations, appended: the last of a code counts
	seq          {int} NOT NULL PRIMARY KEY, -- shared with marks, without gaps
	id           TEXT NOT NULL,
	code         TEXT NOT NULL,
	revision     TEXT NOT NULL,
	job          TEXT NOT NULL,
	job_name     TEXT NOT NULL,
	due          TEXT NOT NULL, -- YYYY-MM-DD or empty
	shade        TEXT NOT NULL,
	unit         {int} NOT NULL,
	of_units     {int} NOT NULL,
	remake       {int} NOT NULL,
	replaces     TEXT NOT NULL, -- code or empty
	panel_width  {int} NOT NULL, -- nanometres, as all lengths
	panel_length {int} NOT NULL,
	route        TEXT NOT NULL REFERENCES routes (id),
	summary      TEXT NOT NULL -- JSON or empty
)`,
		`CREATE TABLE marks ( -- appended, never changed
	seq        {int} NOT NULL PRIMARY KEY,
	id         TEXT NOT NULL, -- made by the sender; see cache.ids for why no index
	code       TEXT NOT NULL,
	revision   TEXT NOT NULL,
	kind       TEXT NOT NULL,
	step       TEXT NOT NULL,
	reason     TEXT NOT NULL,
	diagonal_1 {int} NOT NULL, -- 0: not measured
	diagonal_2 {int} NOT NULL,
	width      {int} NOT NULL,
	turns      {int} NOT NULL, -- hundredths
	anyway     {int} NOT NULL, -- 0 or 1
	who        TEXT NOT NULL,
	place      TEXT NOT NULL,
	at         TEXT NOT NULL -- RFC 3339 with the sender's offset
)`,
	},
	{ // how the ticket's spring is wound, in hundredths of a turn; 0: not worked out
		`ALTER TABLE tickets ADD COLUMN turns_least {int} NOT NULL DEFAULT 0`,
		`ALTER TABLE tickets ADD COLUMN turns_best {int} NOT NULL DEFAULT 0`,
		`ALTER TABLE tickets ADD COLUMN turns_most {int} NOT NULL DEFAULT 0`,
	},
}

// execer runs a statement.
type execer interface {
	exec(ctx context.Context, statement string, args ...any) error
}

// migrate runs steps from a version on. The caller holds the transaction
// and notes the new version in it.
func migrate(ctx context.Context, x execer, steps [][]string, from int, intType string) error {
	for v, step := range steps[from:] {
		for _, statement := range step {
			if err := x.exec(ctx, strings.ReplaceAll(statement, "{int}", intType)); err != nil {
				return fmt.Errorf("bringing the store to version %d: %w", from+v+1, err)
			}
		}
	}
	return nil
}
