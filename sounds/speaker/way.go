package speaker

import (
	"context"
	"errors"
)

// Way is one way to a loudspeaker.
type Way interface {
	// Name is what the way is called in the log.
	Name() string
	// Play sounds the samples, 16 bits at sounds.Rate in one channel, and returns
	// when they have been heard, or with why they were not. When ctx ends it
	// stops at once. It writes nothing to the terminal, and returns even if what
	// it speaks to never answers.
	Play(ctx context.Context, pcm []int16) error
}

// Errors of ways.
var (
	// ErrAbsent is wrapped where the way is not there at all: no such server, no
	// such player.
	ErrAbsent = errors.New("not there")
	// ErrHangs is wrapped where something is there and does not answer.
	ErrHangs = errors.New("does not answer")
	// ErrGone is wrapped where the device or the server went away in the middle
	// of a sound.
	ErrGone = errors.New("went away")
)
