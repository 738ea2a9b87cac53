package journal

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"github.com/gofrs/flock"
)

// ErrLocked is matched by the error of Acquire when another process conducts
// the run.
var ErrLocked = errors.New("the run is being conducted already")

// LockedError says who conducts the run.
type LockedError struct {
	Dir   string
	PID   int       // 0: not known
	Since time.Time // zero: not known
}

// Error says who conducts the run, where that is known, and since when.
func (e *LockedError) Error() string {
	if e.PID == 0 {
		return fmt.Sprintf("%v, by another process (%s)", ErrLocked, e.Dir)
	}
	return fmt.Sprintf("%v, by process %d since %s (%s)",
		ErrLocked, e.PID, e.Since.Format("Mon 15:04"), e.Dir)
}

// Is makes errors.Is(err, ErrLocked) true.
func (e *LockedError) Is(target error) bool { return target == ErrLocked }

// Lock is the right to write to a run's journal. The system frees it when the
// process ends, however it ends.
type Lock struct {
	flock  *flock.Flock
	holder string
}

// holder is what the file beside the lock says: for the message only, for the
// locked file itself cannot be read everywhere.
type holder struct {
	PID   int       `json:"pid"`
	Since time.Time `json:"since"`
}

const (
	lockName   = "lock"
	holderName = "lock-holder.json"
)

// Acquire takes the lock of the run in dir, which it makes where there is none.
// It does not wait.
//
// Errors: *LockedError when somebody else has it.
func Acquire(dir string, now time.Time) (*Lock, error) {
	if err := (OS{}).MkdirAll(dir); err != nil {
		return nil, fmt.Errorf("make the folder of the run: %w", err)
	}
	l := &Lock{
		flock:  flock.New(filepath.Join(dir, lockName), flock.SetPermissions(fileMode)),
		holder: filepath.Join(dir, holderName),
	}
	switch got, err := l.flock.TryLock(); {
	case err != nil:
		return nil, fmt.Errorf("lock the run: %w", err)
	case !got:
		h := readHolder(l.holder)
		return nil, &LockedError{Dir: dir, PID: h.PID, Since: h.Since}
	}
	// The lock holds without the note; a full disk must not stop the cook here.
	note, err := json.Marshal(holder{PID: os.Getpid(), Since: now})
	if err == nil {
		_ = os.WriteFile(l.holder, note, fileMode)
	}
	return l, nil
}

func readHolder(name string) (h holder) {
	data, err := os.ReadFile(name)
	if err != nil || json.Unmarshal(data, &h) != nil {
		return holder{}
	}
	return h
}

// Release gives the lock back.
func (l *Lock) Release() error {
	_ = os.Remove(l.holder)
	return l.flock.Unlock()
}
