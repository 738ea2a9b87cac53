package journaltest

import "syscall"

// file is an open file of an FS.
type file struct {
	fs   *FS
	node *node
}

func (n *node) change(c change) {
	n.data = c.apply(n.data)
	n.pending = append(n.pending, c)
}

// WriteAt implements journal.File.
func (f *file) WriteAt(p []byte, off int64) (int, error) {
	f.fs.mu.Lock()
	defer f.fs.mu.Unlock()
	if f.fs.down {
		return 0, ErrCrashed
	}
	_, err := f.fs.step()
	if err == nil && f.fs.full {
		err = syscall.ENOSPC
	}
	if err != nil {
		part := append([]byte{}, p[:f.fs.rng.IntN(len(p)+1)]...)
		f.node.change(change{off, part})
		return len(part), err
	}
	f.node.change(change{off, append([]byte{}, p...)})
	return len(p), nil
}

// Sync implements journal.File.
func (f *file) Sync() error {
	f.fs.mu.Lock()
	defer f.fs.mu.Unlock()
	fault, err := f.fs.step()
	switch fault {
	case Fail:
		// The system counts the pages as clean although they may not have
		// reached the disk: no later sync writes them.
		f.node.durable = f.fs.survives(f.node)
		f.node.pending = nil
		return err
	case Crash:
		return err
	}
	for _, c := range f.node.pending {
		f.node.durable = c.apply(f.node.durable)
	}
	f.node.pending = nil
	return nil
}

// Truncate implements journal.File.
func (f *file) Truncate(size int64) error {
	f.fs.mu.Lock()
	defer f.fs.mu.Unlock()
	if _, err := f.fs.step(); err != nil {
		return err
	}
	f.node.change(change{off: size})
	return nil
}

// Close implements journal.File. An open file costs nothing.
func (*file) Close() error { return nil }
