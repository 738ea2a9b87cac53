package journal

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
)

// FileName is the name of the journal in the folder of a run.
const FileName = "journal.jsonl"

// ErrReopen is returned by a writer that no longer knows what is on the disk: a
// sync failed, or a half record could not be taken back. Close it, and Open the
// journal again to see what is there.
var ErrReopen = errors.New("the journal must be opened again before anything more is written")

// Journal writes the records of one run. It is for one goroutine at a time and
// one process: hold the Lock.
type Journal struct {
	file   File
	name   string
	good   int64  // where the good records end
	seq    uint64 // of the last good one
	broken error  // why nothing more may be written
}

// Open opens the journal in the folder of a run, after the recovery steps of
// the package comment, and returns the records in it. A new folder gets an
// empty one. Torn tells of a last line that was cut off.
//
// Errors: *DamagedError, with nothing changed; those of the file system.
func Open(fsys FS, dir string) (j *Journal, recs []Record, torn *Torn, err error) {
	if err := fsys.MkdirAll(dir); err != nil {
		return nil, nil, nil, fmt.Errorf("make the folder of the run: %w", err)
	}
	name := filepath.Join(dir, FileName)
	data, err := fsys.ReadFile(name)
	fresh := errors.Is(err, fs.ErrNotExist)
	if err != nil && !fresh {
		return nil, nil, nil, fmt.Errorf("read the journal: %w", err)
	}
	recs, good, torn, err := Scan(name, data)
	if err != nil {
		return nil, recs, nil, err
	}
	open := fsys.Open
	if fresh {
		open = fsys.Create
	}
	f, err := open(name)
	if err != nil {
		return nil, nil, nil, fmt.Errorf("open the journal for writing: %w", err)
	}
	if err := settle(fsys, f, dir, good, torn != nil); err != nil {
		_ = f.Close()
		return nil, nil, nil, fmt.Errorf("recover the journal %s: %w", name, err)
	}
	return &Journal{file: f, name: name, good: good, seq: uint64(len(recs))}, recs, torn, nil
}

// settle makes what was read the truth on the disk: steps 4 and 5.
func settle(fsys FS, f File, dir string, good int64, cut bool) error {
	if cut {
		if err := f.Truncate(good); err != nil {
			return err
		}
	}
	if err := f.Sync(); err != nil {
		return err
	}
	return fsys.SyncDir(dir)
}

// Read returns the records of the journal in the folder of a run and changes
// nothing; it needs no lock. A line that is being written counts as torn.
//
// Errors: *DamagedError, with the records before it; fs.ErrNotExist where there
// is no journal.
func Read(fsys FS, dir string) ([]Record, *Torn, error) {
	name := filepath.Join(dir, FileName)
	data, err := fsys.ReadFile(name)
	if err != nil {
		return nil, nil, fmt.Errorf("read the journal: %w", err)
	}
	recs, _, torn, err := Scan(name, data)
	return recs, torn, err
}

// Append writes one record and returns its number once it is safe on the disk.
//
// Errors: ErrPayload; those of the file system, when nothing was written and
// the next Append may succeed; ErrReopen, when it may not. With an error from a
// failed sync the record may yet be found, whole, when the journal is opened
// again.
func (j *Journal) Append(payload []byte) (uint64, error) {
	if j.broken != nil {
		return 0, j.broken
	}
	if err := checkPayload(payload); err != nil {
		return 0, err
	}
	line := appendLine(nil, Record{Seq: j.seq + 1, Payload: payload})
	if _, err := j.file.WriteAt(line, j.good); err != nil {
		err = fmt.Errorf("write to the journal: %w", err)
		if back := j.takeBack(); back != nil {
			return 0, j.refuse(errors.Join(err, fmt.Errorf("take the half record back: %w", back)))
		}
		return 0, err
	}
	if err := j.file.Sync(); err != nil {
		// Cut the record off if that still works, so that it does not turn up
		// again; but trust nothing any more.
		_ = j.takeBack()
		return 0, j.refuse(fmt.Errorf("sync the journal: %w", err))
	}
	j.good += int64(len(line))
	j.seq++
	return j.seq, nil
}

// takeBack cuts the file to the last good record.
func (j *Journal) takeBack() error {
	if err := j.file.Truncate(j.good); err != nil {
		return err
	}
	return j.file.Sync()
}

func (j *Journal) refuse(err error) error {
	j.broken = fmt.Errorf("%s: %w (%w)", j.name, ErrReopen, err)
	return j.broken
}

// Close closes the file. Nothing is lost by not calling it.
func (j *Journal) Close() error { return j.file.Close() }
