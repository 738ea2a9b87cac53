//go:build unix

package main

import (
	"context"
	"testing"
)

// env stands for the system's program: it too runs another one and ends with it.
func TestKeepAwake(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		with inhibitor
		ok   bool
	}{
		"holds":   {inhibitor{"env", nil}, true},
		"refuses": {inhibitor{"false", nil}, false}, // as systemd-inhibit without a bus
		"missing": {inhibitor{"no-such-program-here", nil}, false},
		"none":    {inhibitor{}, false},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			release, ok := c.with.hold(t.Context())
			if ok != c.ok {
				t.Errorf("held %v, want %v", ok, c.ok)
			}
			release() // waits for the program to be gone
		})
	}
	ended, stop := context.WithCancel(t.Context())
	stop()
	release, _ := inhibitor{"sleep", []string{"1000"}}.hold(ended) // "sleep 1000 cat" fails, or is given up
	release()
}
