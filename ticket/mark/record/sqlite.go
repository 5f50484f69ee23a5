package record

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"

	_ "modernc.org/sqlite" // driver "sqlite"

	"shadewright/ticket/mark"
)

// applicationID marks a file as ours: "Shad" in ASCII (sqlite.org/pragma.html,
// application_id).
const applicationID = 0x53686164

// sqliteHead starts every SQLite file (sqlite.org/fileformat.html, 1.3).
var sqliteHead = []byte("SQLite format 3\x00")

var sqliteDialect = dialect{
	begin:  "BEGIN IMMEDIATE",
	insert: insertOneByOne,
}

func openSQLite(ctx context.Context, l *Record, path string) error {
	abs, err := filepath.Abs(path)
	if err != nil {
		return err
	}
	l.where, l.dial = path, sqliteDialect
	if err := os.MkdirAll(filepath.Dir(abs), 0o700); err != nil {
		return &Error{Fault: fileFault(err), Where: path, Err: err}
	}
	if err := l.inspect(ctx, abs); err != nil {
		return l.fault(err)
	}
	l.db, err = sql.Open("sqlite", sqliteAddress(abs, "rwc", l.opts))
	if err != nil {
		return l.fault(err)
	}
	if err := l.prepareSQLite(ctx); err != nil {
		return errors.Join(l.fault(err), l.db.Close())
	}
	return nil
}

// sqliteAddress escapes a path, so that no character in it is read as an option.
func sqliteAddress(abs, mode string, opts Options) string {
	slashed := filepath.ToSlash(abs)
	if !strings.HasPrefix(slashed, "/") { // a drive letter
		slashed = "/" + slashed
	}
	q := url.Values{"mode": {mode}, "_pragma": {
		"busy_timeout(" + strconv.FormatInt(opts.Patience.Milliseconds(), 10) + ")",
		"synchronous(FULL)", // in WAL mode: sync at every commit
		"foreign_keys(1)",
	}}
	if opts.pragma != "" {
		q.Add("_pragma", opts.pragma)
	}
	return "file://" + (&url.URL{Path: slashed}).EscapedPath() + "?" + q.Encode()
}

// inspect refuses a file that is not ours, is newer, damaged or not writable. It
// changes nothing, because SQLite opens the file through handles that cannot write.
func (l *Record) inspect(ctx context.Context, abs string) (err error) {
	head := make([]byte, 100)
	if err := writable(filepath.Dir(abs)); err != nil {
		return &Error{Fault: fileFault(err), Where: l.where, Err: err}
	}
	f, err := os.OpenFile(abs, os.O_RDWR, 0)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return &Error{Fault: fileFault(err), Where: l.where, Err: err}
	}
	n, readErr := io.ReadFull(f, head)
	if err := f.Close(); err != nil {
		return err
	}
	switch {
	case errors.Is(readErr, io.EOF): // empty: a new file, or one that another program is creating now
		return nil
	case readErr != nil && !errors.Is(readErr, io.ErrUnexpectedEOF):
		return &Error{Fault: fileFault(readErr), Where: l.where, Err: readErr}
	case !bytes.HasPrefix(head[:n], sqliteHead):
		return &Error{Fault: Foreign, Where: l.where, Err: errors.New("it is not an SQLite file, or its start is damaged")}
	}
	db, err := sql.Open("sqlite", sqliteAddress(abs, "ro", l.opts))
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	version, err := l.identify(ctx, db)
	if err != nil || version == 0 {
		return err
	}
	var verdict string
	if err := db.QueryRowContext(ctx, "PRAGMA quick_check(1)").Scan(&verdict); err != nil {
		return err
	}
	if verdict != "ok" {
		return &Error{Fault: Damaged, Where: l.where, Err: errors.New(verdict)}
	}
	return nil
}

// writable tests a folder, because SQLite keeps the write-ahead log and its index
// beside the file.
func writable(folder string) error {
	f, err := os.CreateTemp(folder, ".shadewright-*")
	if err != nil {
		return err
	}
	return errors.Join(f.Close(), os.Remove(f.Name()))
}

// identify returns the version of one of our files, or 0 if it has no tables.
func (l *Record) identify(ctx context.Context, q querier) (int, error) {
	var id, version, tables int
	err := errors.Join(
		q.QueryRowContext(ctx, "PRAGMA application_id").Scan(&id),
		q.QueryRowContext(ctx, "PRAGMA user_version").Scan(&version),
		q.QueryRowContext(ctx, "SELECT count(*) FROM sqlite_schema").Scan(&tables),
	)
	switch {
	case err != nil:
		return 0, err
	case id == 0 && version == 0 && tables == 0:
		return 0, nil
	case id != applicationID:
		return 0, &Error{Fault: Foreign, Where: l.where, Err: fmt.Errorf("its application id is %#x", id)}
	case version > len(l.steps):
		return 0, &Error{Fault: Newer, Where: l.where, Err: fmt.Errorf("version %d; this program knows %d", version, len(l.steps))}
	}
	return version, nil
}

// prepareSQLite creates or upgrades the tables, and ensures that commits reach the
// disk.
func (l *Record) prepareSQLite(ctx context.Context) (err error) {
	conn, err := l.db.Conn(ctx)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, conn.Close()) }()
	var mode string
	if err := conn.QueryRowContext(ctx, "PRAGMA journal_mode = WAL").Scan(&mode); err != nil {
		return err
	}
	if mode != "wal" {
		return &Error{Fault: Unreachable, Where: l.where, Err: fmt.Errorf("its folder allows no write-ahead log (%s); put it on a local disk", mode)}
	}
	if err := run(ctx, conn, "BEGIN IMMEDIATE"); err != nil {
		return err
	}
	if err := l.migrateSQLite(ctx, conn); err != nil {
		return errors.Join(err, run(ctx, conn, "ROLLBACK"))
	}
	return run(ctx, conn, "COMMIT")
}

// migrateSQLite creates or upgrades the tables, inside the transaction that keeps
// all other programs from writing.
func (l *Record) migrateSQLite(ctx context.Context, conn *sql.Conn) error {
	version, err := l.identify(ctx, conn)
	if err != nil || version == len(l.steps) {
		return err
	}
	if version > 0 {
		l.reached("locked")
		if err := l.keepFile(ctx, version); err != nil {
			return err
		}
	}
	l.reached("copied")
	if err := migrate(ctx, conn, l.steps, version, "INTEGER"); err != nil {
		return err
	}
	if err := run(ctx, conn, fmt.Sprintf("PRAGMA application_id = %d", applicationID)); err != nil {
		return err
	}
	l.reached("migrated")
	return run(ctx, conn, fmt.Sprintf("PRAGMA user_version = %d", len(l.steps)))
}

// reached tells a test how far an upgrade of the record is.
func (l *Record) reached(stage string) {
	if l.opts.stage != nil {
		l.opts.stage(stage)
	}
}

// keepFile puts a copy of the record beside it, marks.db.version-2, which a program
// of that version can read. The copy is complete or absent. keepFile keeps a copy
// of an earlier try. The caller holds the right to write, so the copy is the record
// as it is now.
func (l *Record) keepFile(ctx context.Context, version int) error {
	at, err := filepath.Abs(l.where)
	if err != nil {
		return err
	}
	at = fmt.Sprintf("%s.version-%d", at, version)
	aside := at + ".part"
	if err := os.Remove(aside); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return &Error{Fault: fileFault(err), Where: l.where, Err: err}
	}
	// Another connection copies, because this statement is refused inside a
	// transaction.
	if _, err := l.db.ExecContext(ctx, "VACUUM INTO ?", aside); err != nil {
		return errors.Join(err, os.Remove(aside))
	}
	if err := synced(aside); err != nil {
		return &Error{Fault: fileFault(err), Where: l.where, Err: err}
	}
	kept := at
	for n := 2; ; n++ {
		if _, err := os.Lstat(kept); errors.Is(err, fs.ErrNotExist) {
			break
		}
		kept = fmt.Sprintf("%s.%d", at, n)
	}
	if err := os.Rename(aside, kept); err != nil {
		return &Error{Fault: fileFault(err), Where: l.where, Err: err}
	}
	// Some systems cannot sync a folder. The copy is on disk in any case, at worst
	// under its temporary name.
	_ = synced(filepath.Dir(kept))
	return nil
}

// synced waits until a file or a folder is on disk.
func synced(name string) error {
	f, err := os.OpenFile(name, os.O_RDWR, 0)
	if err != nil {
		if f, err = os.Open(name); err != nil {
			return err
		}
	}
	return errors.Join(f.Sync(), f.Close())
}

// fileFault reads an error of the operating system.
func fileFault(err error) Fault {
	switch {
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		return ReadOnly
	case errors.Is(err, syscall.ENOSPC):
		return Full
	}
	return Unreachable
}

// insertOneByOne runs a prepared statement for each mark: without a network,
// sending marks together saves nothing.
func insertOneByOne(ctx context.Context, w *writer, marks []mark.Line) error {
	for _, r := range marks {
		if err := w.insertMark(ctx, r); err != nil {
			return err
		}
	}
	return nil
}
