//go:build unix

package tui

import (
	"context"
	"os"
	"os/signal"
	"syscall"
)

// understandSequences has nothing to do: terminals do.
func understandSequences(uintptr) error { return nil }

// resized calls f whenever the terminal may have another size, or comes back after
// another program had it, until ctx ends.
func resized(ctx context.Context, f func(back bool)) {
	c := make(chan os.Signal, 1)
	signal.Notify(c, syscall.SIGWINCH, syscall.SIGCONT)
	defer signal.Stop(c)
	for {
		select {
		case <-ctx.Done():
			return
		case s := <-c:
			f(s == syscall.SIGCONT)
		}
	}
}
