package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"

	"github.com/charmbracelet/x/term"

	"example.org/kettledrum/plan/clock"
	"example.org/kettledrum/plan/debrief"
	"example.org/kettledrum/plan/run"
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

// orNoTerminal returns the file if somebody sees what is written to it, else nil.
func orNoTerminal(f *os.File) io.Writer {
	if !term.IsTerminal(f.Fd()) || os.Getenv("TERM") == "dumb" {
		return nil
	}
	return f
}

// live is a run to be shown.
type live struct {
	conductor tui.Conductor
	remedies  tui.Remedies // nil: none are looked for
	clock     clock.Clock
	fast      *clock.Fast // the clock of a rehearsal, nil on the cook-day
	watch     func() (*run.State, error)
	resume    string // the command that goes on with the run
	awake     bool   // keep the machine awake
	hint      string // told at the start
	debrief   debriefed
	askFar    bool
	hear      hearing
	dir       string // for the log; empty: nothing is to be kept
}

// debriefed is what a rehearsal adds to a run: whether its clock begins by running
// through, and what is told of it.
type debriefed struct {
	through bool
	news    func() []string                         // what befell it since it was last asked
	look    func() []debrief.Section                // once all is served
	improve func(context.Context) []debrief.Section // the same, with what to change
}

// show shows a run until the cook quits, on the terminal's screen or in lines.
func (w *world) show(ctx context.Context, look appearance, l live) error {
	o := tui.Options{
		Conductor: l.conductor, Remedies: l.remedies, Clock: l.clock, Watch: l.watch,
		ResumeHint: l.resume, AskFar: l.askFar, ASCII: look.ascii, Light: look.light,
	}
	if l.fast != nil {
		o.Rehearsal = l.fast
	}
	out := w.plainOut
	if w.terminal != nil {
		out = w.terminal.out
		o.In = w.terminal.in
	}
	if l.hint != "" {
		o.Hint = func() string { return l.hint }
	}
	o.Through, o.News, o.Debrief, o.Improve = l.debrief.through, l.debrief.news, l.debrief.look, l.debrief.improve
	o.Out = out
	o.Sound.Ask = l.askFar
	var bell io.Writer
	if w.terminal != nil { // a bell in a log is a smudge
		bell = out
	}
	box := l.hear.openSounds(&o, l.dir, bell)
	defer func() { box.close(w.msg) }()
	if l.awake {
		release := make(chan func(), 1)
		o.Hint = func() string {
			let, ok := awake.hold(ctx)
			release <- let
			if !ok {
				return awakeHint
			}
			return ""
		}
		defer func() {
			select {
			case let := <-release:
				let()
			default: // not yet: it ends with this process
			}
		}()
	}
	screen := tui.Run
	if look.plain {
		screen = tui.RunPlain
	}
	_, err := screen(ctx, o)
	switch {
	case errors.Is(err, tui.ErrPanic):
		return fail(exitBroken, err)
	case err != nil:
		return fail(exitTerminal, fmt.Errorf("the screen ended: %w", err))
	}
	return nil
}
