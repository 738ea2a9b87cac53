package journal_test

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"example.org/kettledrum/plan/journal"
	"example.org/kettledrum/plan/journal/journaltest"
)

const dir = "/state/run"

// payload is the i-th thing to write; no two have the same length.
func payload(i int) string {
	return fmt.Sprintf(`{"i":%d,"fill":"%s"}`, i, strings.Repeat("x", i*37%500+i))
}

// outcome is what a writer was told.
type outcome struct {
	acked map[uint64]string // by number
	tried map[string]bool
	err   error // the first
}

// write appends n payloads, opening the journal as often as it asks for it, and
// goes on after errors as a cook does; a crash ends it.
func write(fsys *journaltest.FS, n int) outcome {
	o := outcome{acked: map[uint64]string{}, tried: map[string]bool{}}
	note := func(err error) {
		if o.err == nil {
			o.err = err
		}
	}
	var j *journal.Journal
	for i := range n {
		if j == nil {
			var err error
			if j, _, _, err = journal.Open(fsys, dir); err != nil {
				note(err)
				j = nil
				continue
			}
		}
		p := payload(i)
		o.tried[p] = true
		seq, err := j.Append([]byte(p))
		switch {
		case err == nil:
			o.acked[seq] = p
		case errors.Is(err, journal.ErrReopen):
			j = nil
		}
		if err != nil {
			note(err)
		}
	}
	return o
}

// verify opens the journal and checks that all that was confirmed is in its
// place and that nothing is there in part.
func (o outcome) verify(t *testing.T, fsys journal.FS) {
	t.Helper()
	j, recs, _, err := journal.Open(fsys, dir)
	if err != nil {
		t.Fatalf("open again: %v", err)
	}
	for seq, p := range o.acked {
		if uint64(len(recs)) < seq || string(recs[seq-1].Payload) != p {
			t.Errorf("record %d was confirmed and is gone or another; there are %d", seq, len(recs))
		}
	}
	for _, r := range recs {
		if !o.tried[string(r.Payload)] {
			t.Errorf("record %d was never written: %.80s", r.Seq, r.Payload)
		}
	}
	if seq, err := j.Append([]byte(`"on"`)); err != nil || seq != uint64(len(recs))+1 {
		t.Errorf("going on: number %d, error %v; want number %d", seq, err, len(recs)+1)
	}
	if again, _, err := journal.Read(fsys, dir); err != nil || len(again) != len(recs)+1 {
		t.Errorf("read back: %d records, error %v; want %d", len(again), err, len(recs)+1)
	}
}

// TestFaultAtEveryOperation lets each operation go wrong in turn, in each way,
// and then pulls the plug.
func TestFaultAtEveryOperation(t *testing.T) {
	t.Parallel()
	faults := map[string]journaltest.Fault{
		"crash": journaltest.Crash, "fail": journaltest.Fail, "disk-full": journaltest.Full,
	}
	const appends = 8
	for name, fault := range faults {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			for k := 0; ; k++ {
				failed := false
				for seed := range uint64(40) {
					fsys := journaltest.New(seed)
					fsys.FailAt(k, fault)
					o := write(fsys, appends)
					failed = fsys.Failed()
					if !failed && (o.err != nil || len(o.acked) != appends) {
						t.Fatalf("without a fault: %v, %d confirmed", o.err, len(o.acked))
					}
					fsys.Restart()
					o.verify(t, fsys)
					if t.Failed() {
						t.Fatalf("with %s at operation %d, seed %d", name, k, seed)
					}
				}
				if !failed {
					if k < 2*appends {
						t.Fatalf("only %d operations could fail: the test bites too little", k)
					}
					return
				}
			}
		})
	}
}

// TestCrashWhileRecovering crashes a second time, in the recovery.
func TestCrashWhileRecovering(t *testing.T) {
	t.Parallel()
	for k := 0; ; k++ {
		failed := false
		for seed := range uint64(60) {
			fsys := journaltest.New(seed)
			fsys.FailAt(9, journaltest.Crash) // in the midst of the appends
			o := write(fsys, 8)
			fsys.Restart()
			fsys.FailAt(k, journaltest.Crash)
			_, _, _, err := journal.Open(fsys, dir)
			failed = failed || fsys.Failed()
			if (err != nil) != fsys.Failed() {
				t.Fatalf("crash at %d: %v", k, err)
			}
			fsys.Restart()
			o.verify(t, fsys)
		}
		if !failed {
			return
		}
	}
}

func TestDiskFullThenFreed(t *testing.T) {
	t.Parallel()
	for seed := range uint64(10) {
		fsys := journaltest.New(seed)
		j, _, _, err := journal.Open(fsys, dir)
		if err != nil {
			t.Fatal(err)
		}
		fsys.FailAt(0, journaltest.Full)
		for range 3 {
			if _, err := j.Append([]byte(payload(100))); !errors.Is(err, syscall.ENOSPC) || errors.Is(err, journal.ErrReopen) {
				t.Fatalf("on a full disk: %v, want ENOSPC and no need to reopen", err)
			}
			if recs, torn, err := journal.Read(fsys, dir); len(recs) != 0 || torn != nil || err != nil {
				t.Fatalf("half a record was left: %v, error %v", torn, err)
			}
		}
		fsys.Free()
		if seq, err := j.Append([]byte(payload(1))); err != nil || seq != 1 {
			t.Errorf("with room again: number %d, error %v", seq, err)
		}
	}
}

// TestWhatOpenShowsIsSafe: a process died between writing and syncing; what its
// successor reads, a crash does not take away any more.
func TestWhatOpenShowsIsSafe(t *testing.T) {
	t.Parallel()
	for seed := range uint64(20) {
		fsys := journaltest.New(seed)
		name := filepath.Join(dir, journal.FileName)
		fsys.WriteFile(name, []byte(line(1, `{}`)))
		f, err := fsys.Open(name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := f.WriteAt([]byte(line(2, `{}`)), int64(len(line(1, `{}`)))); err != nil {
			t.Fatal(err)
		}
		_, shown, _, err := journal.Open(fsys, dir)
		if err != nil || len(shown) != 2 {
			t.Fatalf("%d records, error %v; want 2", len(shown), err)
		}
		fsys.Restart()
		if recs, torn, err := journal.Read(fsys, dir); err != nil || len(recs) != 2 {
			t.Errorf("%d of 2 records are left, torn %v, error %v", len(recs), torn, err)
		}
	}
}

func TestFailedSyncRefusesAll(t *testing.T) {
	t.Parallel()
	fsys := journaltest.New(1)
	j, _, _, err := journal.Open(fsys, dir)
	if err != nil {
		t.Fatal(err)
	}
	fsys.FailAt(1, journaltest.Fail) // the sync after the write
	for range 2 {
		_, err := j.Append([]byte(payload(1)))
		if !errors.Is(err, journal.ErrReopen) || !errors.Is(err, syscall.EIO) {
			t.Errorf("error %v, want ErrReopen and its cause", err)
		}
	}
}

func TestAppendRefusesWhatIsNoLine(t *testing.T) {
	t.Parallel()
	for _, p := range []string{"", "{", "{}\n", "{\n}", "1 2", "{}\r"} {
		var m journal.Memory
		if _, err := m.Append([]byte(p)); !errors.Is(err, journal.ErrPayload) {
			t.Errorf("%q: error %v, want ErrPayload", p, err)
		}
	}
}

// TestMemory: the one in memory numbers and keeps as the one on disk does.
func TestMemory(t *testing.T) {
	t.Parallel()
	var m journal.Memory
	p := []byte(`"a"`)
	for want := uint64(1); want <= 3; want++ {
		if seq, err := m.Append(p); err != nil || seq != want {
			t.Fatalf("number %d, error %v, want %d", seq, err, want)
		}
	}
	p[1] = 'b'
	if recs := m.Records(); len(recs) != 3 || string(recs[0].Payload) != `"a"` {
		t.Errorf("kept %v", recs)
	}
}
