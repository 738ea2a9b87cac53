package journal_test

import (
	"bufio"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"
	"time"

	"example.org/kettledrum/plan/journal"
)

// The test binary runs itself again as one of these, told by the environment.
const (
	roleVar  = "KETTLEDRUM_JOURNAL_ROLE"
	dirVar   = "KETTLEDRUM_JOURNAL_DIR"
	appender = "appender" // appends for ever and prints each confirmed number
	holder   = "holder"   // holds the lock until its input ends
	limited  = "limited"  // appends against a limit of the file size
)

var roles = map[string]func(dir string) error{appender: appendForEver, holder: holdLock}

func TestMain(m *testing.M) {
	if role := roles[os.Getenv(roleVar)]; role != nil {
		if err := role(os.Getenv(dirVar)); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		return
	}
	os.Exit(m.Run())
}

// child starts the test binary in a role.
func child(t *testing.T, role, dir string) *exec.Cmd {
	t.Helper()
	exe, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(exe)
	cmd.Env = append(os.Environ(), roleVar+"="+role, dirVar+"="+dir)
	cmd.Stderr = os.Stderr
	return cmd
}

func appendForEver(dir string) error {
	lock, err := journal.Acquire(dir, time.Now())
	if err != nil {
		return err
	}
	defer lock.Release()
	j, recs, _, err := journal.Open(journal.OS{}, dir)
	if err != nil {
		return err
	}
	for i := len(recs); ; i++ {
		seq, err := j.Append([]byte(payload(i)))
		if err != nil {
			return err
		}
		fmt.Println(seq)
	}
}

// TestKill kills a process that appends, at moments that differ, and opens what
// it leaves: everything it had confirmed is there, and its lock is free.
func TestKill(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	rng := rand.New(rand.NewPCG(1, 2))
	for range 12 {
		cmd := child(t, appender, dir)
		out, err := cmd.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		confirmed, lines := 0, bufio.NewScanner(out)
		for left := 1 + rng.IntN(40); lines.Scan(); {
			if confirmed, err = strconv.Atoi(lines.Text()); err != nil {
				t.Fatal(err)
			}
			if left--; left == 0 {
				if err := cmd.Process.Kill(); err != nil {
					t.Fatal(err)
				}
			}
		}
		if err := cmd.Wait(); err == nil || cmd.ProcessState.Exited() {
			t.Fatalf("the child ended by itself: %v", err)
		}
		recs, _, err := journal.Read(journal.OS{}, dir)
		if err != nil {
			t.Fatal(err)
		}
		if n := len(recs); n < confirmed || n > confirmed+1 {
			t.Fatalf("%d records are there, %d were confirmed", n, confirmed)
		}
		for i, r := range recs {
			if string(r.Payload) != payload(i) {
				t.Fatalf("record %d is not what was written", r.Seq)
			}
		}
	}
}

func holdLock(dir string) error {
	lock, err := journal.Acquire(dir, time.Date(2026, 10, 17, 18, 4, 0, 0, time.UTC))
	if err != nil {
		return err
	}
	fmt.Println("held")
	_, _ = bufio.NewReader(os.Stdin).ReadString('\n')
	return lock.Release()
}

// TestSecondConductorIsRefused by a lock that another process holds, and let in
// once that has ended, even by force.
func TestSecondConductorIsRefused(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	cmd := child(t, holder, dir)
	if _, err := cmd.StdinPipe(); err != nil {
		t.Fatal(err)
	}
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	if line, err := bufio.NewReader(out).ReadString('\n'); err != nil || line != "held\n" {
		t.Fatalf("the child says %q, %v", line, err)
	}
	_, err = journal.Acquire(dir, time.Now())
	var locked *journal.LockedError
	if !errors.Is(err, journal.ErrLocked) || !errors.As(err, &locked) {
		t.Fatalf("error %v, want ErrLocked", err)
	}
	if locked.PID != cmd.Process.Pid {
		t.Errorf("held by %d, want %d", locked.PID, cmd.Process.Pid)
	}
	want := fmt.Sprintf("the run is being conducted already, by process %d since Sat 18:04 (%s)", cmd.Process.Pid, dir)
	if err.Error() != want {
		t.Errorf("error %q, want %q", err, want)
	}
	if err := cmd.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	_ = cmd.Wait()
	lock, err := journal.Acquire(dir, time.Now())
	if err != nil {
		t.Fatalf("after it was killed: %v", err)
	}
	if err := lock.Release(); err != nil {
		t.Error(err)
	}
}

func TestLockWithoutNote(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	lock, err := journal.Acquire(dir, time.Now())
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(dir+"/lock-holder.json", []byte("{"), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := journal.Acquire(dir, time.Now()); err == nil || !strings.Contains(err.Error(), "by another process") {
		t.Errorf("error %v", err)
	}
	if err := lock.Release(); err != nil {
		t.Fatal(err)
	}
	if lock, err = journal.Acquire(dir, time.Now()); err != nil {
		t.Fatalf("after release: %v", err)
	}
	_ = lock.Release()
}
