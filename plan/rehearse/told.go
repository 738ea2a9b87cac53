package rehearse

import (
	"slices"
	"sync"
)

// Told gathers the mishaps of a rehearsal as they are played. Its methods may be
// called from several goroutines.
type Told struct {
	mu   sync.Mutex
	all  []Played
	read int
}

// Add is a Watcher's Mishap.
func (t *Told) Add(m Played) {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.all = append(t.all, m)
}

// All are all of them so far.
func (t *Told) All() []Played {
	t.mu.Lock()
	defer t.mu.Unlock()
	return slices.Clone(t.all)
}

// News are those since it was last called.
func (t *Told) News() []Played {
	t.mu.Lock()
	defer t.mu.Unlock()
	news := slices.Clone(t.all[t.read:])
	t.read = len(t.all)
	return news
}
