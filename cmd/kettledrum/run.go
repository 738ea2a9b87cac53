package main

import (
	"io"
	"os"

	"example.org/kettledrum/plan/clock"
)

// world is what the commands have from outside. It is made in one place and
// handed inward.
type world struct {
	in    io.Reader
	out   io.Writer
	err   io.Writer
	clock clock.Clock
}

// system returns the world as it is.
func system() world {
	return world{in: os.Stdin, out: os.Stdout, err: os.Stderr, clock: clock.System{}}
}

// run runs the sub-command that args name and returns its exit code.
func run(args []string, w world) int {
	_ = args
	messages{w.err}.say("no sub-command is built in yet")
	return exitUse
}
