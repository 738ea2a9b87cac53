package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"os"

	"github.com/charmbracelet/x/term"

	"example.org/kettledrum/plan/clock"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
	"example.org/kettledrum/sounds"
	"example.org/kettledrum/sounds/speaker"
	"example.org/kettledrum/tui"
)

// terminal is where the live screen goes. Screen and bell share its output, in
// which each write stays whole.
type terminal struct {
	in  *os.File
	out *tui.Output
}

// openTerminal returns the terminal that in and out are connected to, or nil.
func openTerminal(in, out *os.File) *terminal {
	if !term.IsTerminal(in.Fd()) || !term.IsTerminal(out.Fd()) || os.Getenv("TERM") == "dumb" {
		return nil
	}
	return &terminal{in, tui.NewOutput(out)}
}

// show runs the live screen until the cook quits.
// fast is the clock of a rehearsal, nil on the cook-day; resume is the command
// that goes on with the run.
func (t *terminal) show(ctx context.Context, s *session.Session, c clock.Clock, fast *clock.Fast, resume string) error {
	bell := speaker.NewBell(t.out)
	box := speaker.New(sounds.Render(), speaker.Ways(), slog.New(slog.DiscardHandler))
	defer box.Close()
	o := tui.Options{
		Conductor: s, Remedies: s, Clock: c, In: t.in, Out: t.out, ResumeHint: resume, AskFar: fast == nil,
		Ring: func(class run.Class, louder int) {
			sound := sounds.Sound{Class: class, Rise: louder, Volume: sounds.DefaultVolume}
			bell.Ring(sound)
			box.Ring(sound)
		},
	}
	if fast != nil {
		o.Rehearsal = fast
	}
	_, err := tui.Run(ctx, o)
	switch {
	case errors.Is(err, tui.ErrPanic):
		return fail(exitBroken, err)
	case err != nil:
		return fail(exitTerminal, fmt.Errorf("the screen ended: %w", err))
	}
	return nil
}
