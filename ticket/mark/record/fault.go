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

// A Fault says what is wrong with a record.
type Fault uint8

// The faults.
const (
	Broken      Fault = iota // anything else
	Busy                     // another program is writing and did not finish in time
	Full                     // the disk has no room
	ReadOnly                 // the record can be read but not written
	Damaged                  // the content differs from what was written
	Foreign                  // it belongs to another program
	Newer                    // a newer version of this program wrote it
	Unreachable              // the disk or the database server does not answer
	Closed                   // this program closed the record
)

// advice holds for each fault the text that says what happened and what to do.
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

// An Error says what is wrong with a record, and what to do.
type Error struct {
	Fault Fault
	Where string // the record, without secrets
	Err   error  // the cause; may be nil
}

func (e *Error) Error() string { return e.Message().String() }

// Message returns the error's text for any language. The cause stays in the words
// of the driver or the system.
func (e *Error) Message() message.Message {
	said := message.Of(advice[e.Fault], e.Where)
	if e.Err != nil {
		said = message.Join("", said, message.Verbatim(fmt.Sprintf(" (%s)", e.Err)))
	}
	return said
}

func (e *Error) Unwrap() error { return e.Err }

// Is makes errors.Is(err, &Error{Fault: Full}) true for any error with this fault.
func (e *Error) Is(target error) bool {
	t, ok := target.(*Error)
	return ok && t.Fault == e.Fault && t.Where == "" && t.Err == nil
}

// fault turns an error of a driver into an [*Error]. It returns other errors
// unchanged.
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

// sqliteFault reads a result code, whose low byte is the primary code
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
