package main

import (
	"os"
	"sync"

	"github.com/charmbracelet/x/term"
)

// terminal is where the live screen goes. The screen and the bell write to the
// same one; each write stays whole.
type terminal struct {
	in       *os.File
	*os.File // out
	mu       *sync.Mutex
}

// openTerminal returns the terminal that in and out are connected to, or nil.
func openTerminal(in, out *os.File) *terminal {
	if !term.IsTerminal(in.Fd()) || !term.IsTerminal(out.Fd()) || os.Getenv("TERM") == "dumb" {
		return nil
	}
	return &terminal{in, out, &sync.Mutex{}}
}

// Write implements io.Writer for the screen and the bell together.
func (t *terminal) Write(b []byte) (int, error) {
	t.mu.Lock()
	defer t.mu.Unlock()
	return t.File.Write(b)
}
