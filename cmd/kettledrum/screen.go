package main

import (
	"context"
	"errors"

	"example.org/kettledrum/plan/clock"
	"example.org/kettledrum/plan/session"
)

// show runs the live screen until the cook quits.
func show(ctx context.Context, w *world, s *session.Session, c clock.Clock, fast *clock.Fast) error {
	return errors.New("there is no screen yet")
}
