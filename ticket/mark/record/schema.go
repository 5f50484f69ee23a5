package record

import (
	"context"
	"database/sql"
	"fmt"
	"strings"
)

// A migration upgrades a record by one version. In a statement, {int} is the 64-bit
// integer type of the database.
type migration struct {
	statements []string
	convert    func(context.Context, transaction) error // rewrites rows after the statements; nil: nothing to rewrite
}

// migrations upgrade an empty database to the version of their number. A released
// step never changes: add another one after it.
var migrations = []migration{
	{statements: []string{
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
	}},
	{statements: []string{ // how the ticket's spring is wound, in hundredths of a turn; 0: not worked out
		`ALTER TABLE tickets ADD COLUMN turns_least {int} NOT NULL DEFAULT 0`,
		`ALTER TABLE tickets ADD COLUMN turns_best {int} NOT NULL DEFAULT 0`,
		`ALTER TABLE tickets ADD COLUMN turns_most {int} NOT NULL DEFAULT 0`,
	}},
	{statements: []string{ // facts instead of sentences
		`ALTER TABLE tickets ADD COLUMN printed TEXT NOT NULL DEFAULT ''`, // the values on the paper, as ticket.Printed writes them
		`ALTER TABLE marks ADD COLUMN reason_id TEXT NOT NULL DEFAULT ''`, // a reason of the program's own; reason has the shop's words
	}, convert: convertSentences},
}

// A transaction is an open transaction: a transaction of database/sql, or the
// connection that holds one.
type transaction interface {
	querier
	ExecContext(ctx context.Context, statement string, args ...any) (sql.Result, error)
}

// run runs a statement and ignores its result.
func run(ctx context.Context, t transaction, statement string, args ...any) error {
	_, err := t.ExecContext(ctx, statement, args...)
	return err
}

// migrate runs the steps from a version on. The caller holds the transaction and
// stores the new version in it.
func migrate(ctx context.Context, t transaction, steps []migration, from int, intType string) error {
	for v, step := range steps[from:] {
		if err := step.run(ctx, t, intType); err != nil {
			return fmt.Errorf("bringing the record to version %d: %w", from+v+1, err)
		}
	}
	return nil
}

func (m migration) run(ctx context.Context, t transaction, intType string) error {
	for _, statement := range m.statements {
		if err := run(ctx, t, strings.ReplaceAll(statement, "{int}", intType)); err != nil {
			return err
		}
	}
	if m.convert == nil {
		return nil
	}
	return m.convert(ctx, t)
}
