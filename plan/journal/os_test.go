package journal_test

import (
	"os"
	"path/filepath"
	"testing"

	"example.org/kettledrum/plan/journal"
)

func TestOnDisk(t *testing.T) {
	t.Parallel()
	dir := filepath.Join(t.TempDir(), "runs", "deep", "in")
	for want := uint64(1); want <= 3; want++ {
		j, recs, torn, err := journal.Open(journal.OS{}, dir)
		if err != nil || uint64(len(recs)) != want-1 || torn != nil {
			t.Fatalf("%d records, torn %v, error %v; want %d", len(recs), torn, err, want-1)
		}
		if seq, err := j.Append([]byte(`{"a":1}`)); err != nil || seq != want {
			t.Fatalf("number %d, error %v, want %d", seq, err, want)
		}
		if err := j.Close(); err != nil {
			t.Fatal(err)
		}
	}
}

func TestTornOnDiskIsCutOff(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	name := filepath.Join(dir, journal.FileName)
	good := line(1, `{"a":1}`)
	if err := os.WriteFile(name, []byte(good+`{"n":2,"crc":"00`), 0o600); err != nil {
		t.Fatal(err)
	}
	if recs, torn, err := journal.Read(journal.OS{}, dir); err != nil || len(recs) != 1 || torn == nil {
		t.Fatalf("%d records, torn %v, error %v", len(recs), torn, err)
	}
	if got, _ := os.ReadFile(name); len(got) == len(good) {
		t.Error("reading changed the file")
	}
	j, _, torn, err := journal.Open(journal.OS{}, dir)
	if err != nil || torn == nil {
		t.Fatalf("torn %v, error %v", torn, err)
	}
	defer j.Close()
	if got, _ := os.ReadFile(name); string(got) != good {
		t.Errorf("the file is %q, want %q", got, good)
	}
}

func TestRecoverOnDisk(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	name := filepath.Join(dir, journal.FileName)
	text := line(1, `{"a":1}`) + "scratch\n" + line(3, `{}`)
	if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	_, _, _, err := journal.Open(journal.OS{}, dir)
	damage, ok := err.(*journal.DamagedError)
	if !ok {
		t.Fatalf("error %v", err)
	}
	aside, err := journal.RecoverBefore(journal.OS{}, damage)
	if err != nil {
		t.Fatal(err)
	}
	if kept, err := os.ReadFile(aside); err != nil || string(kept) != text || aside != name+".damaged-1" {
		t.Errorf("kept in %s: %q, %v", aside, kept, err)
	}
	if recs, torn, err := journal.Read(journal.OS{}, dir); err != nil || torn != nil || len(recs) != 1 {
		t.Errorf("%d records, torn %v, error %v", len(recs), torn, err)
	}
}

// BenchmarkAppend is one event as a cook makes them, written and synced.
func BenchmarkAppend(b *testing.B) {
	j, _, _, err := journal.Open(journal.OS{}, b.TempDir())
	if err != nil {
		b.Fatal(err)
	}
	defer j.Close()
	p := []byte(`{"kind":"started","at":"2026-10-17T17:35:00Z","noted":"2026-10-17T17:35:02Z","step":"roast/season"}`)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := j.Append(p); err != nil {
			b.Fatal(err)
		}
	}
}
