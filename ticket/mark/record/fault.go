package record

import (
	"context"
	"database/sql"
	"database/sql/driver"
	"errors"
	"fmt"
	"io"
	"net"

	"github.com/jackc/pgx/v5/pgconn"
	"modernc.org/sqlite"

	"shadewright/ticket/message"
)

// A Fault is what is the matter with a store.
type Fault uint8

// The faults.
const (
	Broken      Fault = iota // none of the others
	Busy                     // another program is writing and did not end in time
	Full                     // no room on the disk
	ReadOnly                 // it may be read but not written
	Damaged                  // its content is not what was written
	Foreign                  // it belongs to another program
	Newer                    // a newer version of this program wrote it
	Unreachable              // the disk or the database server does not answer
	Closed                   // it was closed by this program
)

// advice says what happened to a store and how to mend it.
var advice = map[Fault]message.ID{
	Broken:      "mark.record-unusable",
	Busy:        "mark.record-busy",
	Full:        "mark.record-disk-full",
	ReadOnly:    "mark.record-read-only",
	Damaged:     "mark.record-damaged",
	Foreign:     "mark.record-foreign",
	Newer:       "mark.record-newer",
	Unreachable: "mark.record-unreachable",
	Closed:      "mark.record-closed",
}

// An Error is what is the matter with a store, and how to mend it.
type Error struct {
	Fault Fault
	Where string // the store, without secrets
	Err   error  // the cause; may be nil
}

func (e *Error) Error() string { return e.Message().String() }

// Message returns what the error says for any language; the cause is as a driver or
// the system tells it.
func (e *Error) Message() message.Message {
	said := message.Of(advice[e.Fault], e.Where)
	if e.Err != nil {
		said = message.Join("", said, message.Verbatim(fmt.Sprintf(" (%s)", e.Err)))
	}
	return said
}

func (e *Error) Unwrap() error { return e.Err }

// Is lets errors.Is(err, &Error{Fault: Full}) ask for a fault wherever it is.
func (e *Error) Is(target error) bool {
	t, ok := target.(*Error)
	return ok && t.Fault == e.Fault && t.Where == "" && t.Err == nil
}

// fault puts an error of a driver into words. What is no driver's stays as it
// is.
func (l *Record) fault(err error) error {
	var ours *Error
	switch {
	case err == nil:
		return nil
	case errors.As(err, &ours) && ours.Where != "":
		return err
	case ours != nil:
		return &Error{Fault: ours.Fault, Where: l.where, Err: ours.Err}
	case errors.Is(err, context.Canceled):
		return err
	}
	if f, ok := driverFault(err); ok {
		return &Error{Fault: f, Where: l.where, Err: err}
	}
	return err
}

func driverFault(err error) (Fault, bool) {
	var lite *sqlite.Error
	var pg *pgconn.PgError
	var connect *pgconn.ConnectError
	var network net.Error
	switch {
	case errors.As(err, &lite):
		return sqliteFault(lite.Code()), true
	case errors.As(err, &pg):
		return postgresFault(pg.Code), true
	case errors.As(err, &connect), errors.As(err, &network), errors.Is(err, driver.ErrBadConn), errors.Is(err, sql.ErrConnDone),
		errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF), errors.Is(err, net.ErrClosed), errors.Is(err, context.DeadlineExceeded),
		pgconn.SafeToRetry(err):
		return Unreachable, true
	}
	return Broken, false
}

// sqliteFault reads a result code; its low byte is the primary one
// (sqlite.org/rescode.html).
func sqliteFault(code int) Fault {
	const ioErrShmSize = 10 | 19<<8 // the file that programs share could not grow
	if code == ioErrShmSize {
		return Full
	}
	switch code & 0xff {
	case 5, 6: // SQLITE_BUSY, SQLITE_LOCKED
		return Busy
	case 8, 3: // SQLITE_READONLY, SQLITE_PERM
		return ReadOnly
	case 10, 14: // SQLITE_IOERR, SQLITE_CANTOPEN
		return Unreachable
	case 11, 26: // SQLITE_CORRUPT, SQLITE_NOTADB
		return Damaged
	case 13: // SQLITE_FULL
		return Full
	}
	return Broken
}

// postgresFault reads a SQLSTATE (PostgreSQL documentation, appendix A).
func postgresFault(state string) Fault {
	if len(state) != 5 {
		return Broken
	}
	switch state {
	case "25006": // read_only_sql_transaction
		return ReadOnly
	case "53100": // disk_full
		return Full
	case "40001", "40P01", "55P03", "53300": // serialization, deadlock, lock, connections
		return Busy
	case "XX001", "XX002": // data_corrupted, index_corrupted
		return Damaged
	}
	switch state[:2] {
	case "08", "57", "28", "3D": // connection, operator intervention, login, no such database
		return Unreachable
	}
	return Broken
}
