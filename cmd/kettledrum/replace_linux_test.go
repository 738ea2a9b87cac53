package main

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"example.org/kettledrum/plan/journal/journaltest"
)

// TestReplaceFileDiskFull: wherever the disk fills up, in the backup or in the new file,
// the file is whole and alone.
func TestReplaceFileDiskFull(t *testing.T) {
	t.Parallel()
	at := journaltest.Small(t)
	was := strings.Repeat("a line of the plan\n", 600) // 12 kB
	path := filepath.Join(at, "plans", "plan.yaml")
	if err := os.Mkdir(filepath.Dir(path), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(was), 0o600); err != nil {
		t.Fatal(err)
	}
	full := 0
	for room := 0; room <= 40_000; room += 4096 {
		ballast := filepath.Join(at, "ballast")
		os.Remove(ballast)
		for size := 64_000; size > 0; size -= 1024 { // as much as goes
			if os.WriteFile(ballast, bytes.Repeat([]byte("x"), size), 0o600) == nil {
				if err := os.Truncate(ballast, max(0, int64(size-room))); err != nil {
					t.Fatal(err)
				}
				break
			}
		}
		backup, err := replaceFile(path, []byte(was), []byte("# new\n"+was))
		if err == nil {
			if got, _ := os.ReadFile(path); string(got) != "# new\n"+was {
				t.Errorf("room for %d: %d bytes", room, len(got))
			}
			if kept, _ := os.ReadFile(backup); string(kept) != was {
				t.Errorf("room for %d: the backup has %d bytes", room, len(kept))
			}
			break
		}
		full++
		if !errors.Is(err, syscall.ENOSPC) || exitCode(err) != exitBroken {
			t.Errorf("room for %d: %v", room, err)
		}
		untouched(t, path, was)
	}
	if full < 3 {
		t.Errorf("the disk was full %d times only", full)
	}
}

// TestReplaceFileReadOnly: nor is anything lost where nothing can be written.
func TestReplaceFileReadOnly(t *testing.T) {
	t.Parallel()
	at := journaltest.Small(t)
	path := filepath.Join(at, "plan.yaml")
	if err := os.WriteFile(path, []byte("as it was"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := syscall.Mount("tmpfs", at, "tmpfs", syscall.MS_REMOUNT|syscall.MS_RDONLY, ""); err != nil {
		t.Fatal(err)
	}
	_, err := replaceFile(path, []byte("as it was"), []byte("new"))
	if !errors.Is(err, syscall.EROFS) || exitCode(err) != exitBroken || !strings.Contains(err.Error(), "is left as it is") {
		t.Errorf("error %v", err)
	}
	untouched(t, path, "as it was")
}
