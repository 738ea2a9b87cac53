package main

import (
	"context"
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/clock"
	"example.org/kettledrum/plan/journal"
	"example.org/kettledrum/plan/rehearse"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
)

const (
	// beforeFirst is how long before the first step a rehearsal begins: enough
	// for its standby cue.
	beforeFirst = run.SoonAhead
	// mostSpeed keeps a whole evening from passing between two frames.
	mostSpeed = 3600
	// patience is how long after the last planned serve a rehearsal without a
	// screen gives up.
	patience = 6 * time.Hour
)

// rehearseCommand is the same run on a fast clock.
func rehearseCommand(w *world) *cobra.Command {
	r := rehearsal{w: w}
	c := &cobra.Command{
		Use:   "rehearse [FILE]",
		Short: "Run through the dinner on a fast clock; nothing is kept",
		Args:  oneFile,
		RunE: func(c *cobra.Command, args []string) error {
			if err := r.risk.check(c); err != nil {
				return err
			}
			return r.run(c.Context(), args)
		},
	}
	r.how.flags(c)
	r.how.sureFlag(c)
	r.look.flags(c)
	r.hear.flags(c)
	r.risk.flags(c)
	c.Flags().Float64Var(&r.speed, "speed", 60, "how many times as fast as the real clock")
	c.Flags().StringVar(&r.mishaps, "mishaps", "", "a script of what goes wrong: see the README, and schema --mishaps")
	c.Flags().BoolVar(&r.json, "json", false, "print all that happened as JSON; without a screen, at full speed")
	c.Flags().StringVar(&r.from, "from", "", `begin at this time of the cook-day, "17:00"; what comes before counts as done`)
	return c
}

// rehearsal is one call of the rehearse command.
type rehearsal struct {
	w     *world
	how   reading
	from  string
	speed float64
	look  appearance
	hear  hearing
	risk  risking

	mishaps string // name of the script
	json    bool
}

// seen reports whether somebody watches and answers: else it runs through by itself.
func (r *rehearsal) seen() bool { return (r.w.terminal != nil || r.look.plain) && !r.json }

func (r *rehearsal) run(ctx context.Context, args []string) error {
	if !(r.speed > 0 && r.speed <= mostSpeed) {
		return fail(exitUse, fmt.Errorf("--speed %v is out of range", r.speed),
			fmt.Sprintf("from above 0 to %d; 60 makes a minute of a second", mostSpeed))
	}
	if err := r.hear.check(); err != nil {
		return err
	}
	src, err := readSource(args)
	if err != nil {
		return err
	}
	p, err := r.load(src)
	if err != nil {
		return err
	}
	script, err := r.script(src, p)
	if err != nil {
		return err
	}
	screen := r.seen()
	x := r.how.planned(ctx, r.w, p)
	x.tell(r.w)
	t := x.table
	if r.risk.runs > 0 {
		return r.chances(ctx, p, t)
	}
	start := first(p, t).Add(-beforeFirst)
	from := start
	if screen { // the last hours: what was made ahead counts as made
		from = plan.Later(start, firstOn(p, t, p.CookDay()).Add(-beforeFirst))
	}
	for _, m := range script { // what goes wrong before that is rehearsed too
		if !m.At.IsZero() {
			from = plan.Earlier(from, m.At)
		}
	}
	if r.from != "" {
		if from, err = timeOfDay(p, t, r.from); err != nil {
			return err
		}
	}
	speed := r.speed
	if !screen {
		speed = 0 // the clock jumps from cue to cue instead
	}
	fast := clock.NewFast(r.w.clock, from, 0)
	fast.HoldAt(from) // it stands until there is somebody to see it
	fast.SetSpeed(speed)
	cfg := sessionConfig(fast, new(journal.Memory))
	// The timetable is there already.
	cfg.Make = func(context.Context, *plan.Plan) *plan.Timetable { return t }
	cfg.Plan = p
	cfg.Copy = src.copyOf(p, r.how)
	cfg.Copy.Rehearse = true
	s, err := session.Open(ctx, cfg)
	if err != nil {
		return fail(exitJournal, err)
	}
	if from.After(start) {
		if _, err := s.FastForward(from); err != nil {
			return fail(exitJournal, err)
		}
	}
	if !screen {
		fast.HoldAt(time.Time{})
	}
	switch {
	case screen && script == nil:
		return r.w.show(ctx, r.look, live{conductor: s, remedies: s, clock: fast, fast: fast, hear: r.hear})
	case screen:
		player := rehearse.New(ctx, s, script, from, rehearse.Watcher{})
		played := &rehearse.Conductor{Session: s, Player: player, Clock: fast}
		return r.w.show(ctx, r.look, live{conductor: played, remedies: s, clock: fast, fast: fast, hear: r.hear})
	case r.json:
		return r.report(ctx, s, script, fast)
	}
	return r.tell(ctx, s, script, fast)
}

// load reads the plan. A dinner whose date is past is rehearsed as if it were
// today, at the same time.
func (r *rehearsal) load(src source) (*plan.Plan, error) {
	p, err := src.load(r.w, r.how)
	if err != nil || r.how.serve != "" || p.Table.After(r.w.clock.Now()) {
		return p, err
	}
	today, ps, err := src.decode(r.w, reading{serve: hour(p.Table), cautious: r.how.cautious})
	if err != nil || ps.HasErrors() {
		// Today has no such time, or the plan's windows do not move: the clock
		// is a fast one anyway.
		return p, nil
	}
	return today, nil
}

// timeOfDay reads a time of the dinner's day.
func timeOfDay(p *plan.Plan, t *plan.Timetable, text string) (time.Time, error) {
	clock, err := time.Parse("15:04", text)
	if err != nil {
		return time.Time{}, fail(exitUse, fmt.Errorf("--from %q is no time of day", text), "write it like 17:00")
	}
	y, m, d := p.Table.Date()
	at := time.Date(y, m, d, clock.Hour(), clock.Minute(), 0, 0, p.Table.Location())
	if p.Table.Sub(at) > 12*time.Hour && lastServe(t).After(at.AddDate(0, 0, 1)) {
		at = at.AddDate(0, 0, 1) // past midnight, while the dinner goes on
	}
	if last := lastServe(t); !at.Before(last) {
		return time.Time{}, fail(exitUse, fmt.Errorf("--from %s is after the last course", text),
			fmt.Sprintf("the last course is on the table at %s", hour(last.In(p.Table.Location()))))
	}
	return at, nil
}

// firstOn returns when the first step on or after a day begins.
func firstOn(p *plan.Plan, t *plan.Timetable, day time.Time) time.Time {
	first := p.Table
	for _, s := range t.Slots {
		if s.Start.Before(first) && !s.Start.Before(day) {
			first = s.Start
		}
	}
	return first
}

func lastServe(t *plan.Timetable) time.Time {
	var last time.Time
	for _, s := range t.Serves {
		if s.After(last) {
			last = s
		}
	}
	return last
}
