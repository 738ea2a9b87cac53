package journal

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
)

// RecoverBefore makes a damaged journal one that ends before the damage, which
// Open can go on with. The damaged file is kept beside it under the returned
// name. A crash at any moment leaves either the damaged journal or the mended
// one in place, never none. Hold the Lock.
func RecoverBefore(fsys FS, damage *DamagedError) (aside string, err error) {
	name := damage.File
	data, err := fsys.ReadFile(name)
	if err != nil {
		return "", fmt.Errorf("read the damaged journal: %w", err)
	}
	if _, good, _, _ := Scan(name, data); good != damage.Offset {
		return "", fmt.Errorf("%s has changed since the damage was found: open it again", name)
	}
	if aside, err = freeName(fsys, name); err != nil {
		return "", err
	}
	if err := writeWhole(fsys, aside, data); err != nil {
		return "", fmt.Errorf("keep the damaged journal: %w", err)
	}
	mended := name + ".mended"
	if err := writeWhole(fsys, mended, data[:damage.Offset]); err != nil {
		return "", fmt.Errorf("write the mended journal: %w", err)
	}
	// The kept copy's name must be safe before the original goes.
	dir := filepath.Dir(name)
	if err := fsys.SyncDir(dir); err != nil {
		return "", err
	}
	if err := fsys.Replace(mended, name); err != nil {
		return "", fmt.Errorf("put the mended journal in place: %w", err)
	}
	return aside, fsys.SyncDir(dir)
}

func writeWhole(fsys FS, name string, data []byte) error {
	f, err := fsys.Create(name)
	if err != nil {
		return err
	}
	_, err = f.WriteAt(data, 0)
	if err == nil {
		err = f.Sync()
	}
	return errors.Join(err, f.Close())
}

// maxAside is how many damaged journals of one run are kept: more than one is
// a dying disk.
const maxAside = 100

// freeName returns the first of name.damaged-1, -2, … that is not taken.
func freeName(fsys FS, name string) (string, error) {
	for i := 1; i <= maxAside; i++ {
		aside := fmt.Sprintf("%s.damaged-%d", name, i)
		if _, err := fsys.ReadFile(aside); errors.Is(err, fs.ErrNotExist) {
			return aside, nil
		} else if err != nil {
			return "", err
		}
	}
	return "", fmt.Errorf("%s has been damaged %d times: move the kept copies away", name, maxAside)
}
