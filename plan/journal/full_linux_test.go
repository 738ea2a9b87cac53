package journal_test

import (
	"errors"
	"fmt"
	"os"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"example.org/kettledrum/plan/journal"
	"example.org/kettledrum/plan/journal/journaltest"
)

func init() { roles[limited] = appendToLimit }

// fileLimit is where the child's file may not grow any more, in bytes.
const fileLimit = 20_000

// appendToLimit fills a file up to a limit of the system, lifts it and goes on.
// It prints what was confirmed before and after.
func appendToLimit(dir string) error {
	signal.Ignore(syscall.SIGXFSZ) // then a write returns EFBIG
	var limit syscall.Rlimit
	if err := syscall.Getrlimit(syscall.RLIMIT_FSIZE, &limit); err != nil {
		return err
	}
	if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: fileLimit, Max: limit.Max}); err != nil {
		return err
	}
	before, err := fill(dir, syscall.EFBIG, func() error { return syscall.Setrlimit(syscall.RLIMIT_FSIZE, &limit) })
	fmt.Println(before)
	return err
}

// fill appends until the system refuses, makes room, and appends once more with
// the same writer.
func fill(dir string, refusal error, makeRoom func() error) (confirmed uint64, err error) {
	j, _, _, err := journal.Open(journal.OS{}, dir)
	if err != nil {
		return 0, err
	}
	defer j.Close()
	for {
		seq, err := j.Append([]byte(payload(int(confirmed))))
		if err != nil {
			if !errors.Is(err, refusal) || errors.Is(err, journal.ErrReopen) {
				return confirmed, fmt.Errorf("refused with %w, want %w and no need to reopen", err, refusal)
			}
			break
		}
		confirmed = seq
	}
	if err := makeRoom(); err != nil {
		return confirmed, err
	}
	if seq, err := j.Append([]byte(payload(int(confirmed)))); err != nil || seq != confirmed+1 {
		return confirmed, fmt.Errorf("with room again: number %d, error %w", seq, err)
	}
	return confirmed, nil
}

// filled checks a journal that was filled: all that was confirmed, and the one
// record after there was room again.
func filled(t *testing.T, dir string, confirmed uint64) {
	t.Helper()
	recs, torn, err := journal.Read(journal.OS{}, dir)
	if err != nil || torn != nil || uint64(len(recs)) != confirmed+1 || confirmed == 0 {
		t.Fatalf("%d records, torn %v, error %v; %d were confirmed, and one more", len(recs), torn, err, confirmed)
	}
	for i, r := range recs {
		if string(r.Payload) != payload(i) {
			t.Fatalf("record %d is not what was written", r.Seq)
		}
	}
}

func TestFileSizeLimit(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	out, err := child(t, limited, dir).Output()
	if err != nil {
		t.Fatal(err)
	}
	var confirmed uint64
	if _, err := fmt.Sscan(string(out), &confirmed); err != nil {
		t.Fatalf("the child says %q: %v", out, err)
	}
	filled(t, dir, confirmed)
}

// TestFileSystemFillsUp uses a real file system of 64 kB.
func TestFileSystemFillsUp(t *testing.T) {
	t.Parallel()
	at := journaltest.Small(t)
	ballast := filepath.Join(at, "ballast")
	if err := os.WriteFile(ballast, []byte(strings.Repeat("x", 16_000)), 0o600); err != nil {
		t.Fatal(err)
	}
	dir := filepath.Join(at, "run")
	confirmed, err := fill(dir, syscall.ENOSPC, func() error { return os.Remove(ballast) })
	if err != nil {
		t.Fatal(err)
	}
	filled(t, dir, confirmed)
}
