package journaltest

import (
	"errors"
	"io/fs"
	"maps"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"sync"
	"syscall"

	"example.org/kettledrum/plan/journal"
)

// Fault is what goes wrong at an operation.
type Fault int

// What can go wrong.
const (
	// Crash: the machine stops; the operation is done in part, and nothing
	// works until Restart.
	Crash Fault = iota + 1
	// Fail: this one operation fails, of a write after a part of it. Of what a
	// failed sync was to make safe some may be lost for good.
	Fail
	// Full: no write gets through whole from here on, until Free.
	Full
)

// ErrCrashed is returned by everything after a crash, until Restart.
var ErrCrashed = errors.New("the machine is down")

// FS is a file system in memory; it implements journal.FS. Every operation but
// reading is counted, from 0.
type FS struct {
	mu      sync.Mutex
	rng     *rand.Rand
	dirs    map[string]bool
	names   map[string]*node // as seen now
	durable map[string]*node // as they will be after a crash
	ops     int
	failAt  int
	fault   Fault
	down    bool
	full    bool
}

// node is the content of a file: as seen now, and as it would be after a crash.
type node struct {
	data    []byte
	durable []byte
	pending []change // done and not synced
}

// change is a write, or a truncation where data is nil.
type change struct {
	off  int64
	data []byte
}

func (c change) apply(b []byte) []byte {
	end := c.off + int64(len(c.data))
	if int64(len(b)) < end {
		b = append(b, make([]byte, end-int64(len(b)))...)
	}
	if c.data == nil {
		return slices.Clone(b[:c.off])
	}
	b = slices.Clone(b)
	copy(b[c.off:], c.data)
	return b
}

// New returns an empty file system whose whims follow from seed.
func New(seed uint64) *FS {
	return &FS{
		rng:   rand.New(rand.NewPCG(seed, 0)),
		dirs:  map[string]bool{},
		names: map[string]*node{}, durable: map[string]*node{},
		failAt: -1,
	}
}

// FailAt makes the k-th operation from now go wrong, counted from 0.
func (m *FS) FailAt(k int, f Fault) {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.failAt, m.fault = m.ops+k, f
}

// Ops returns how many operations there were.
func (m *FS) Ops() int {
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.ops
}

// Failed reports whether the operation of FailAt has come.
func (m *FS) Failed() bool {
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.failAt >= 0 && m.ops > m.failAt
}

// Free makes room on a full disk.
func (m *FS) Free() {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.full, m.failAt = false, -1
}

// Restart starts the machine after a crash, or crashes and starts it: a random
// part of what was not synced is gone.
func (m *FS) Restart() {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.down, m.full, m.failAt = false, false, -1
	for _, name := range slices.Sorted(maps.Keys(m.both())) {
		if m.rng.IntN(2) == 0 {
			setName(m.durable, name, m.names[name])
		}
	}
	m.names = maps.Clone(m.durable)
	for _, name := range slices.Sorted(maps.Keys(m.names)) {
		n := m.names[name]
		n.durable = m.survives(n)
		n.data, n.pending = slices.Clone(n.durable), nil
	}
}

// both returns all names, seen or durable.
func (m *FS) both() map[string]*node {
	all := maps.Clone(m.durable)
	maps.Copy(all, m.names)
	return all
}

func setName(to map[string]*node, name string, n *node) {
	if n == nil {
		delete(to, name)
		return
	}
	to[name] = n
}

// survives returns what a crash leaves of n: some changes whole, and of the
// next one a part, perhaps with zeros for bytes that did not get there.
func (m *FS) survives(n *node) []byte {
	b := slices.Clone(n.durable)
	whole := m.rng.IntN(len(n.pending) + 1)
	for _, c := range n.pending[:whole] {
		b = c.apply(b)
	}
	if whole < len(n.pending) && n.pending[whole].data != nil {
		c := n.pending[whole]
		part := slices.Clone(c.data[:m.rng.IntN(len(c.data)+1)])
		clear(part[m.rng.IntN(len(part)+1):])
		b = change{c.off, part}.apply(b)
	}
	return b
}

// step counts an operation and returns the fault it meets: 0 for none.
func (m *FS) step() (Fault, error) {
	if m.down {
		return Crash, ErrCrashed
	}
	now := m.ops
	m.ops++
	if now != m.failAt {
		return 0, nil
	}
	switch m.fault {
	case Crash:
		m.down = true
		return Crash, ErrCrashed
	case Full:
		m.full = true
		return 0, nil
	}
	return Fail, syscall.EIO
}

// ReadFile implements journal.FS.
func (m *FS) ReadFile(name string) ([]byte, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	n := m.names[name]
	switch {
	case m.down:
		return nil, ErrCrashed
	case n == nil:
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
	}
	return slices.Clone(n.data), nil
}

// WriteFile puts a file there as if it had always been.
func (m *FS) WriteFile(name string, data []byte) {
	m.mu.Lock()
	defer m.mu.Unlock()
	n := &node{data: slices.Clone(data), durable: slices.Clone(data)}
	m.dirs[filepath.Dir(name)] = true
	m.names[name], m.durable[name] = n, n
}

// Create implements journal.FS.
func (m *FS) Create(name string) (journal.File, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if _, err := m.step(); err != nil {
		return nil, err
	}
	if !m.dirs[filepath.Dir(name)] {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
	}
	n := m.names[name]
	if n == nil {
		n = &node{}
		m.names[name] = n
	}
	n.change(change{})
	return &file{m, n}, nil
}

// Open implements journal.FS.
func (m *FS) Open(name string) (journal.File, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	n := m.names[name]
	switch {
	case m.down:
		return nil, ErrCrashed
	case n == nil:
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
	}
	return &file{m, n}, nil
}

// Replace implements journal.FS.
func (m *FS) Replace(oldname, newname string) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	if _, err := m.step(); err != nil {
		return err
	}
	m.names[newname] = m.names[oldname]
	delete(m.names, oldname)
	return nil
}

// MkdirAll implements journal.FS; the folder is safe at once.
func (m *FS) MkdirAll(dir string) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	if _, err := m.step(); err != nil {
		return err
	}
	m.dirs[dir] = true
	return nil
}

// SyncDir implements journal.FS.
func (m *FS) SyncDir(dir string) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	if _, err := m.step(); err != nil {
		return err
	}
	for name := range m.both() {
		if filepath.Dir(name) == dir {
			setName(m.durable, name, m.names[name])
		}
	}
	return nil
}
