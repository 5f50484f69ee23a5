package record

import (
	"bufio"
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/exec"
	"runtime"
	"slices"
	"strings"
	"testing"

	"shadewright/ticket/mark"
)

// begun is what the program prints before it opens the record.
const begun = "begun"

// stages are the points at which an upgrade of the record may be killed.
var stages = []string{"locked", "copied", "migrated"}

// upgradeVariable makes the test binary a program that upgrades a record and ends
// at a stage. Its value is the stage, a space and the record's address.
const upgradeVariable = "SHADEWRIGHT_TEST_UPGRADE"

// upgradeAndStop opens a record, prints every stage, and waits at one to be killed.
func upgradeAndStop(at, stop string) error {
	fmt.Println(begun)
	l, err := Open(background, at, Options{Policy: mark.UsualPolicy(), stage: func(reached string) {
		fmt.Println(reached)
		if reached == stop {
			select {}
		}
	}})
	if err != nil {
		return err
	}
	fmt.Println("done")
	return l.Close()
}

// killedUpgrade starts a program that upgrades a record. It kills the program when
// that has printed a stage, and so many turns of the scheduler later. A program that
// waits dies at the stage; one that goes on dies at any moment after it.
func killedUpgrade(t *testing.T, at, stage string, waits bool, turns int) {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(self)
	stop := ""
	if waits {
		stop = stage
	}
	cmd.Env = append(os.Environ(), upgradeVariable+"="+stop+" "+at)
	cmd.Stderr = os.Stderr
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	for s := bufio.NewScanner(out); s.Scan() && s.Text() != stage; {
	}
	for range turns {
		runtime.Gosched()
	}
	if err := cmd.Process.Kill(); err != nil && !errors.Is(err, os.ErrProcessDone) {
		t.Fatal(err)
	}
	_ = cmd.Wait() // it was killed, which is the error
}

// wholly returns the version of a record. It fails unless the record is exactly the
// old one or the new one with every row.
func wholly(t *testing.T, at string, old map[string][]string) int {
	t.Helper()
	db := openSQL(t, at)
	version := 0
	query := "PRAGMA user_version"
	if isPostgres(at) {
		query = "SELECT version FROM shadewright"
	}
	if err := db.QueryRow(query).Scan(&version); err != nil {
		t.Fatal(err)
	}
	for _, table := range tables {
		rows := rowsOf(t, db, table)
		switch {
		case version == 2 && !slices.Equal(rows, old[table]):
			t.Errorf("version 2 with other rows of %s", table)
		case version == len(migrations) && len(rows) != len(old[table]):
			t.Errorf("version %d with %d rows of %s; want %d", version, len(rows), table, len(old[table]))
		}
	}
	if version == len(migrations) {
		checkFacts(t, db)
	}
	return version
}

// TestUpgradeKilled kills the program that upgrades the record, at every stage and
// at random moments. The record is wholly old or wholly new, no copy is incomplete,
// and the next program that opens the record finishes the upgrade.
func TestUpgradeKilled(t *testing.T) {
	onEach(t, func(t *testing.T, at string) {
		oldRecord(t, at)
		old := map[string][]string{}
		for _, table := range tables {
			old[table] = rowsOf(t, openSQL(t, at), table)
		}
		for _, stage := range stages {
			killedUpgrade(t, at, stage, true, 0)
			if v := wholly(t, at, old); v != 2 {
				t.Errorf("killed when it had %s, the record has version %d; want 2: nothing was committed", stage, v)
			}
		}
		shut(t, open(t, at))
		if v := wholly(t, at, old); v != len(migrations) {
			t.Errorf("opened again, it has version %d", v)
		}
	})
	if testing.Short() {
		return
	}
	seen := map[int]int{}
	moments := append([]string{begun, "done"}, stages...)
	for i := range 40 {
		at := newFile(t)
		oldRecord(t, at)
		old := map[string][]string{}
		for _, table := range tables {
			old[table] = rowsOf(t, openSQL(t, at), table)
		}
		killedUpgrade(t, at, moments[i%len(moments)], false, rand.IntN(100_000))
		seen[wholly(t, at, old)]++
		shut(t, open(t, at))
		for _, name := range copies(t, at) {
			if strings.HasSuffix(name, ".part") {
				t.Errorf("%s was left", name)
				continue
			}
			copied := openSQL(t, name)
			for _, table := range tables {
				if !slices.Equal(rowsOf(t, copied, table), old[table]) {
					t.Errorf("%s is not the record as it was", name)
				}
			}
		}
		if info, err := os.Stat(at + ".version-2"); err != nil || info.Size() == 0 {
			t.Errorf("no copy beside the record: %v", err)
		}
	}
	if seen[2]+seen[len(migrations)] != 40 {
		t.Errorf("versions %v", seen)
	}
	t.Logf("killed 40 times: %d old, %d new", seen[2], seen[len(migrations)])
}

// A copy of an earlier try is never overwritten.
func TestCopiesStay(t *testing.T) {
	at := newFile(t)
	oldRecord(t, at)
	if err := os.WriteFile(at+".version-2", []byte("mine"), 0o600); err != nil {
		t.Fatal(err)
	}
	shut(t, open(t, at))
	if got := readFile(t, at+".version-2"); got != "mine" {
		t.Errorf("the earlier copy is %q", got)
	}
	if _, err := os.Stat(at + ".version-2.2"); errors.Is(err, fs.ErrNotExist) {
		t.Error("there is no second copy")
	}
}
