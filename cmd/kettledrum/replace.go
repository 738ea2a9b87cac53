package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"example.org/kettledrum/plan/journal"
)

// replaceFile puts a text in the place of a file, at once, and keeps the file as it was
// beside it, under a name that was free. It follows a link to the file itself, and keeps
// the file's mode. It refuses where the file does not hold the text that was read.
//
// A new file is written beside the old one and synced, then takes its name: after a
// crash, a full disk or any error there is the one or the other, whole.
// Errors: *failure; then the file is as it was, and nothing is left beside it.
func replaceFile(name string, was, text []byte) (backup string, err error) {
	path, err := filepath.EvalSymlinks(name)
	if err != nil {
		return "", fail(exitUse, err)
	}
	info, err := os.Stat(path)
	if err != nil {
		return "", fail(exitUse, err)
	}
	dir, base := filepath.Split(path)
	if backup, err = keepBeside(path, was, info.Mode().Perm()); err != nil {
		return "", notReplaced(name, err)
	}
	temp, err := os.CreateTemp(dir, "."+base+".*")
	if err != nil {
		os.Remove(backup)
		return "", notReplaced(name, err)
	}
	err = writeSynced(temp, text, info.Mode().Perm())
	if err == nil {
		err = unchanged(path, was)
	}
	if err == nil {
		err = journal.OS{}.Replace(temp.Name(), path)
	}
	if err != nil {
		os.Remove(temp.Name())
		os.Remove(backup)
		return "", notReplaced(name, err)
	}
	if err := (journal.OS{}).SyncDir(filepath.Clean(dir)); err != nil {
		return backup, fail(exitBroken, fmt.Errorf("%s is written, but may not survive a power cut: %w", name, err))
	}
	return backup, nil
}

// errChanged: somebody else has written the file.
var errChanged = errors.New("it was changed meanwhile")

func notReplaced(name string, err error) error {
	if errors.Is(err, errChanged) {
		return fail(exitUse, fmt.Errorf("%s is left as it is: %w", name, err), "start the same command again")
	}
	return fail(exitBroken, fmt.Errorf("%s cannot be written, and is left as it is: %w", name, err))
}

// unchanged refuses a file that does not hold a text.
func unchanged(path string, text []byte) error {
	now, err := os.ReadFile(path)
	if err != nil {
		return fmt.Errorf("%w: %w", errChanged, err)
	}
	if !bytes.Equal(now, text) {
		return errChanged
	}
	return nil
}

// mostBackups ends the search for a name that is free.
const mostBackups = 1000

// keepBeside writes a text into a new file beside another: dinner.yaml.bak, or
// dinner.yaml.2.bak where that is there.
func keepBeside(path string, text []byte, mode fs.FileMode) (string, error) {
	for n := 1; n <= mostBackups; n++ {
		name := path + ".bak"
		if n > 1 {
			name = fmt.Sprintf("%s.%d.bak", path, n)
		}
		f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
		if errors.Is(err, fs.ErrExist) {
			continue
		} else if err != nil {
			return "", err
		}
		if err := writeSynced(f, text, mode); err != nil {
			os.Remove(name)
			return "", err
		}
		return name, nil
	}
	return "", fmt.Errorf("there are %d backups beside it", mostBackups)
}

// writeSynced writes a text into a file, gives it a mode, and closes it once it is safe.
func writeSynced(f *os.File, text []byte, mode fs.FileMode) error {
	_, err := f.Write(text)
	if err == nil {
		err = f.Chmod(mode)
	}
	if err == nil {
		err = f.Sync()
	}
	return errors.Join(err, f.Close())
}
