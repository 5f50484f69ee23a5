package record

import (
	"context"
	"database/sql"
	"errors"
	"fmt"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/stdlib"

	"shadewright/ticket/mark"
)

// lockKey is the advisory lock that writers of one database take in turn:
// "shadewri" in ASCII. It makes sequence numbers follow the order of commits.
const lockKey = 0x7368616465777269

var postgresDialect = dialect{
	begin:    "BEGIN",
	lock:     fmt.Sprintf("SELECT pg_advisory_xact_lock(%d)", lockKey),
	insert:   insertTogether,
	snapshot: sql.LevelRepeatableRead,
	network:  true,
}

func openPostgres(ctx context.Context, l *Record, address string) error {
	config, err := pgx.ParseConfig(address)
	if err != nil {
		// The cause may quote the address, and the address may contain a password.
		return errors.New("the record's address is not a PostgreSQL address; write for example postgres://user@host:5432/database")
	}
	l.where = fmt.Sprintf("postgres://%s:%d/%s", config.Host, config.Port, config.Database)
	l.dial = postgresDialect
	if config.RuntimeParams["application_name"] == "" {
		config.RuntimeParams["application_name"] = "shadewright"
	}
	// A commit that is acknowledged must be on disk, whatever the server's default
	// is. And a server that has vanished must not keep the lock.
	config.RuntimeParams["synchronous_commit"] = "on"
	config.RuntimeParams["lock_timeout"] = fmt.Sprint(l.opts.Patience.Milliseconds())
	if config.ConnectTimeout == 0 {
		config.ConnectTimeout = l.opts.Patience
	}
	l.db = stdlib.OpenDB(*config)
	if err := l.preparePostgres(ctx); err != nil {
		return errors.Join(l.fault(err), l.db.Close())
	}
	return nil
}

func (l *Record) preparePostgres(ctx context.Context) error {
	tx, err := l.db.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	err = l.migratePostgres(ctx, tx)
	if err != nil {
		return errors.Join(err, tx.Rollback())
	}
	return tx.Commit()
}

func (l *Record) migratePostgres(ctx context.Context, tx *sql.Tx) error {
	if err := run(ctx, tx, postgresDialect.lock); err != nil {
		return err
	}
	var syncs string
	if err := tx.QueryRowContext(ctx, "SHOW fsync").Scan(&syncs); err != nil {
		return err
	}
	if syncs != "on" {
		return &Error{Fault: Broken, Where: l.where, Err: errors.New("the server runs with fsync off, so nothing it acknowledges is safe; set fsync = on")}
	}
	version, err := l.postgresVersion(ctx, tx)
	switch {
	case err != nil:
		return err
	case version > len(l.steps):
		return &Error{Fault: Newer, Where: l.where, Err: fmt.Errorf("version %d; this program knows %d", version, len(l.steps))}
	case version == len(l.steps):
		return nil
	case version > 0:
		l.reached("locked")
		if err := keepTables(ctx, tx, version); err != nil {
			return err
		}
	}
	l.reached("copied")
	if err := migrate(ctx, tx, l.steps, version, "BIGINT"); err != nil {
		return err
	}
	l.reached("migrated")
	return run(ctx, tx, "UPDATE shadewright SET version = $1", len(l.steps))
}

// postgresVersion returns the version of the tables, or 0 if there are none.
func (l *Record) postgresVersion(ctx context.Context, tx *sql.Tx) (version int, err error) {
	var ours, others int
	const count = "SELECT count(*) FILTER (WHERE table_name = 'shadewright'), count(*) FILTER (WHERE table_name IN ('marks', 'tickets', 'routes')) FROM information_schema.tables WHERE table_schema = current_schema()"
	if err := tx.QueryRowContext(ctx, count).Scan(&ours, &others); err != nil {
		return 0, err
	}
	switch {
	case ours > 0:
		return version, tx.QueryRowContext(ctx, "SELECT version FROM shadewright").Scan(&version)
	case others > 0:
		return 0, &Error{Fault: Foreign, Where: l.where, Err: errors.New("it has tables of the same names")}
	}
	if err := run(ctx, tx, "CREATE TABLE shadewright (version BIGINT NOT NULL)"); err != nil {
		return 0, err
	}
	return 0, run(ctx, tx, "INSERT INTO shadewright VALUES (0)")
}

// keepTables copies the tables as they are, in the transaction that will change
// them: version_2_marks and so on. It keeps copies of an earlier try.
func keepTables(ctx context.Context, tx *sql.Tx, version int) error {
	for n := 1; ; n++ {
		prefix := fmt.Sprintf("version_%d_", version)
		if n > 1 {
			prefix = fmt.Sprintf("version_%d_copy_%d_", version, n)
		}
		var taken int
		if err := tx.QueryRowContext(ctx, "SELECT count(*) FROM information_schema.tables WHERE table_schema = current_schema() AND table_name = $1", prefix+"marks").Scan(&taken); err != nil {
			return err
		}
		if taken > 0 {
			continue
		}
		for _, table := range []string{"routes", "tickets", "marks"} {
			if err := run(ctx, tx, "CREATE TABLE "+prefix+table+" AS TABLE "+table); err != nil {
				return err
			}
		}
		return nil
	}
}

const insertMarks = "INSERT INTO marks (" + markColumns + `)
SELECT * FROM unnest($1::bigint[], $2::text[], $3::text[], $4::text[], $5::text[], $6::text[], $7::text[],
	$8::bigint[], $9::bigint[], $10::bigint[], $11::bigint[], $12::bigint[], $13::text[], $14::text[], $15::text[], $16::text[])`

// insertTogether sends all marks in one statement, column by column, so that a
// whole group takes one round trip to the server.
func insertTogether(ctx context.Context, w *writer, marks []mark.Line) error {
	var numbers [6][]int64
	var texts [10][]string
	for _, r := range marks {
		n, t := 0, 0
		for _, v := range markRow(r.Seq, r.Mark) {
			switch v := v.(type) {
			case int64:
				numbers[n] = append(numbers[n], v)
				n++
			case string:
				texts[t] = append(texts[t], v)
				t++
			}
		}
	}
	_, err := w.conn.ExecContext(ctx, insertMarks, numbers[0], texts[0], texts[1], texts[2], texts[3], texts[4], texts[5],
		numbers[1], numbers[2], numbers[3], numbers[4], numbers[5], texts[6], texts[7], texts[8], texts[9])
	return err
}
