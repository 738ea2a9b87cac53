package journal

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"

	"github.com/natefinch/atomic"
)

// FS is what the journal needs of a file system. OS is the real one; package
// journaltest has one that fails and crashes on demand.
type FS interface {
	// ReadFile returns the whole file; the error is fs.ErrNotExist where there
	// is none.
	ReadFile(name string) ([]byte, error)
	// Create opens an empty file for writing, whatever was there before.
	Create(name string) (File, error)
	// Open opens a file that exists for writing.
	Open(name string) (File, error)
	// Replace puts the file oldname in the place of newname, at once.
	Replace(oldname, newname string) error
	// MkdirAll makes a folder and those above it, and syncs the names it adds.
	MkdirAll(dir string) error
	// SyncDir makes the names in a folder survive a crash.
	SyncDir(dir string) error
}

// File is an open file. The journal knows where its end is, so it writes at
// offsets: on Windows a file opened for appending cannot be cut back.
type File interface {
	// WriteAt writes all of p at off, or returns an error with how much it did.
	WriteAt(p []byte, off int64) (n int, err error)
	// Sync makes what was written survive a crash.
	Sync() error
	Truncate(size int64) error
	Close() error
}

// OS is the file system of the machine.
type OS struct{}

const (
	fileMode = 0o600 // what somebody cooks, and for whom, is nobody else's business
	dirMode  = 0o700
)

// ReadFile implements FS.
func (OS) ReadFile(name string) ([]byte, error) { return os.ReadFile(name) }

// Create implements FS.
func (OS) Create(name string) (File, error) {
	return openFile(name, os.O_RDWR|os.O_CREATE|os.O_TRUNC)
}

// Open implements FS.
func (OS) Open(name string) (File, error) { return openFile(name, os.O_RDWR) }

func openFile(name string, flag int) (File, error) {
	f, err := os.OpenFile(name, flag, fileMode)
	if err != nil {
		return nil, err // and not a File that holds a nil *os.File
	}
	return f, nil
}

// Replace implements FS.
func (OS) Replace(oldname, newname string) error { return atomic.ReplaceFile(oldname, newname) }

// MkdirAll implements FS.
func (o OS) MkdirAll(dir string) error {
	switch info, err := os.Stat(dir); {
	case err == nil && info.IsDir():
		return nil
	case err == nil:
		return &fs.PathError{Op: "mkdir", Path: dir, Err: errors.New("there is a file of that name")}
	}
	parent := filepath.Dir(dir)
	if parent != dir {
		if err := o.MkdirAll(parent); err != nil {
			return err
		}
	}
	if err := os.Mkdir(dir, dirMode); err != nil && !errors.Is(err, fs.ErrExist) {
		return err
	}
	return o.SyncDir(parent)
}

// SyncDir implements FS. Windows has no such call and needs none: it keeps
// names in its own log.
func (OS) SyncDir(dir string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	return errors.Join(d.Sync(), d.Close())
}
