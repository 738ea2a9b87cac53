package journal_test

import (
	"errors"
	"path/filepath"
	"strings"
	"testing"

	"example.org/kettledrum/plan/journal"
	"example.org/kettledrum/plan/journal/journaltest"
)

// damaged returns a file system with a journal whose second line is damaged.
func damaged(seed uint64) (fsys *journaltest.FS, name, text string) {
	fsys = journaltest.New(seed)
	name = filepath.Join(dir, journal.FileName)
	text = line(1, `{"a":1}`) + strings.Replace(line(2, `{"b":2}`), "b", "B", 1) + line(3, `{}`)
	fsys.WriteFile(name, []byte(text))
	return fsys, name, text
}

// TestRecoverBefore crashes at every operation of the mending, and mends again.
func TestRecoverBefore(t *testing.T) {
	t.Parallel()
	for k := 0; ; k++ {
		failed := false
		for seed := range uint64(40) {
			fsys, name, text := damaged(seed)
			_, _, _, err := journal.Open(fsys, dir)
			var damage *journal.DamagedError
			if !errors.As(err, &damage) {
				t.Fatalf("error %v, want damage", err)
			}
			fsys.FailAt(k, journaltest.Crash)
			aside, err := journal.RecoverBefore(fsys, damage)
			if failed = fsys.Failed(); (err != nil) != failed {
				t.Fatalf("crash at %d: %v", k, err)
			}
			fsys.Restart()
			_, _, err = journal.Read(fsys, dir)
			switch {
			case errors.As(err, &damage): // as if nothing had been done
				if got, _ := fsys.ReadFile(name); string(got) != text {
					t.Fatalf("crash at %d: the damaged journal has changed", k)
				}
				if aside, err = journal.RecoverBefore(fsys, damage); err != nil {
					t.Fatalf("crash at %d, mending again: %v", k, err)
				}
			case err != nil:
				t.Fatalf("crash at %d: %v", k, err)
			case aside == "":
				aside = name + ".damaged-1"
			}
			if recs, _, err := journal.Read(fsys, dir); err != nil || len(recs) != 1 {
				t.Fatalf("crash at %d: mended has %d records, error %v; want 1", k, len(recs), err)
			}
			if got, err := fsys.ReadFile(aside); err != nil || string(got) != text {
				t.Fatalf("crash at %d: kept aside in %s: %q, %v", k, aside, got, err)
			}
			outcome{acked: map[uint64]string{1: `{"a":1}`}, tried: map[string]bool{`{"a":1}`: true}}.verify(t, fsys)
		}
		if !failed {
			return
		}
	}
}

func TestRecoverBeforeRefusesAnotherFile(t *testing.T) {
	t.Parallel()
	fsys, name, _ := damaged(1)
	_, _, _, err := journal.Open(fsys, dir)
	var damage *journal.DamagedError
	if !errors.As(err, &damage) {
		t.Fatal(err)
	}
	fsys.WriteFile(name, []byte(line(1, `{"a":1}`)+line(2, `{}`)))
	if _, err := journal.RecoverBefore(fsys, damage); err == nil {
		t.Error("cut a journal that is not the damaged one")
	}
}
