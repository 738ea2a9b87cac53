package main

import (
	"context"
	"errors"
	"fmt"
	"time"

	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
	"example.org/kettledrum/plan/walk"
	"example.org/kettledrum/tui"
)

// walk goes through the cues of the cook-day without a clock: on a screen each in its
// turn, to tick off what it asks for; else as a list.
func (x *staged) walk(ctx context.Context) error {
	if x.r.json || x.r.mishaps != "" || x.r.seeded || x.r.through {
		return fail(exitUse, errors.New("--walk goes through the plan as it is: no --json, --mishaps, --seed or --run-through"))
	}
	stops, s, err := x.stops(ctx)
	if err != nil {
		return err
	}
	w := x.r.w
	if w.terminal == nil || x.r.look.plain {
		x.list(stops)
		return nil
	}
	result, err := tui.Run(ctx, tui.Options{Conductor: s, Clock: x.fast, Rehearsal: x.fast, Walk: stops, ASCII: x.r.look.ascii,
		In: w.terminal.in, Out: w.terminal.out})
	if err != nil {
		return fail(exitTerminal, fmt.Errorf("the screen ended: %w", err))
	}
	x.missing(result.Missing)
	return nil
}

// stops are those of the cook-day as planned, from the beginning of the rehearsal on.
// The session is one that has gone through them all.
func (x *staged) stops(ctx context.Context) ([]walk.Stop, *session.Session, error) {
	s, fast, err := x.open(ctx, x.p, x.t, x.from, 0)
	if err != nil {
		return nil, nil, err
	}
	x.fast = fast
	var cues []run.Cue
	each := func(c run.Cue, _ time.Time) { cues = append(cues, c) }
	if err := session.Simulate(ctx, s, fast, x.t.LastServe().Add(patience), each); err != nil {
		return nil, nil, fail(exitBroken, err)
	}
	return walk.Of(x.p, x.t, cues), s, nil
}

// list prints every cue with what it asks for, and at the end all of it once.
func (x *staged) list(stops []walk.Stop) {
	out := x.r.w.out
	fmt.Fprintf(out, "%s, walked through from %s: have you got it all?\n\n", clean(titleOf(x.p)), hour(x.from.In(x.p.Table.Location())))
	for _, s := range stops {
		head := run.DayTime(s.At, x.p.Table, x.p.Table.Location()) + "  "
		for _, l := range wrap(s.Text, textWidth-len(head)) {
			fmt.Fprintf(out, "%*s%s\n", len(head), head, l)
			head = fmt.Sprintf("%*s", len(head), "")
		}
		for _, t := range s.Things {
			x.box(len(head), t.Text)
		}
	}
	fmt.Fprintf(out, "\nAltogether\n")
	for _, t := range walk.Totals(stops) {
		text := t.Name
		if t.Need > 1 {
			text = fmt.Sprintf("%d × %s", t.Need, t.Name)
		}
		x.box(2, text)
	}
}

// missing prints what a walk-through did not find, for the screen is gone then.
func (x *staged) missing(missing []walk.Missing) {
	out := x.r.w.out
	if len(missing) == 0 {
		fmt.Fprintf(out, "%s, walked through: everything is there\n", clean(titleOf(x.p)))
		return
	}
	fmt.Fprintf(out, "%s, to find before it begins\n", clean(titleOf(x.p)))
	for _, m := range missing {
		x.box(2, m.Text+": for "+run.DayTime(m.For.At, x.p.Table, x.p.Table.Location())+" "+m.For.Text)
	}
}

// box prints a thing with a box to tick.
func (x *staged) box(indent int, text string) {
	head := fmt.Sprintf("%*s[ ] ", indent, "")
	for _, l := range wrap(text, textWidth-len(head)) {
		fmt.Fprintf(x.r.w.out, "%s%s\n", head, l)
		head = fmt.Sprintf("%*s", len(head), "")
	}
}
