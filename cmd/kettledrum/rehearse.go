package main

import (
	"context"
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/clock"
	"example.org/kettledrum/plan/journal"
	"example.org/kettledrum/plan/planner"
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
	// cueIndent is the width of a cue's time and class: "17:49  act    ".
	cueIndent = 14
)

// rehearseCommand is the same run on a fast clock.
func rehearseCommand(w *world) *cobra.Command {
	r := rehearsal{w: w}
	c := &cobra.Command{
		Use:   "rehearse [FILE]",
		Short: "Run through the dinner on a fast clock; nothing is kept",
		Args:  oneFile,
		RunE:  func(c *cobra.Command, args []string) error { return r.run(c.Context(), args) },
	}
	r.how.flags(c)
	r.look.flags(c)
	c.Flags().Float64Var(&r.speed, "speed", 60, "how many times as fast as the real clock")
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
}

// seen reports whether somebody watches and answers: else it runs through by itself.
func (r *rehearsal) seen() bool { return r.w.terminal != nil || r.look.plain }

func (r *rehearsal) run(ctx context.Context, args []string) error {
	if !(r.speed > 0 && r.speed <= mostSpeed) {
		return fail(exitUse, fmt.Errorf("--speed %v is out of range", r.speed),
			fmt.Sprintf("from above 0 to %d; 60 makes a minute of a second", mostSpeed))
	}
	src, err := readSource(args)
	if err != nil {
		return err
	}
	p, err := r.load(src)
	if err != nil {
		return err
	}
	t := planner.Make(ctx, p)
	start := first(p, t).Add(-beforeFirst)
	from := start
	if r.seen() { // the last hours: what was made ahead counts as made
		from = later(start, firstOn(p, t, p.CookDay()).Add(-beforeFirst))
	}
	if r.from != "" {
		if from, err = timeOfDay(p, t, r.from); err != nil {
			return err
		}
	}
	speed := r.speed
	if !r.seen() {
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
	if !r.seen() {
		fast.HoldAt(time.Time{})
		return r.simulate(ctx, s, fast)
	}
	return r.w.show(ctx, r.look, live{conductor: s, remedies: s, clock: fast, fast: fast})
}

// load reads the plan. A dinner whose date is past is rehearsed as if it were
// today, at the same time.
func (r *rehearsal) load(src source) (*plan.Plan, error) {
	p, err := src.load(r.w, r.how)
	if err != nil || r.how.serve != "" || p.Table.After(r.w.clock.Now()) {
		return p, err
	}
	today, ps, err := src.decode(r.w, reading{hour(p.Table), r.how.cautious})
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

func later(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
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

// simulate runs the whole dinner without a screen, as if the cook answered
// every cue when it is due, and prints each cue as a line.
func (r *rehearsal) simulate(ctx context.Context, s *session.Session, fast *clock.Fast) error {
	p := s.State().Plan
	fmt.Fprintf(r.w.out, "%s, rehearsed without a terminal: every cue answered when it is due\n", clean(titleOf(p)))
	until := lastServe(s.State().Timetable).Add(patience)
	today := p.Table // a dinner of one day says no day
	err := session.Simulate(ctx, s, fast, until, func(c run.Cue, at time.Time) {
		at = at.In(p.Table.Location())
		if !sameDay(at, today) {
			today = at
			fmt.Fprintf(r.w.out, "\n%s\n", weekday(at))
		}
		lines := wrap(c.Text, textWidth-cueIndent)
		fmt.Fprintf(r.w.out, "%s  %-6s %s\n", hour(at), c.Class, lines[0])
		for _, l := range lines[1:] {
			fmt.Fprintf(r.w.out, "%*s%s\n", cueIndent, "", l)
		}
	})
	if err != nil {
		return fail(exitBroken, err)
	}
	return r.outcome(s.State())
}

// outcome prints when each course was served.
func (r *rehearsal) outcome(s *run.State) error {
	p := s.Plan
	for c, course := range s.Courses {
		if course.Served.IsZero() {
			return fail(exitBroken, fmt.Errorf("%s was not served", p.Courses[c].Name))
		}
		line := fmt.Sprintf("%s served %s", p.Courses[c].Name, hour(course.Served.In(p.Table.Location())))
		if late := course.Served.Sub(p.Asked(c)); late >= time.Minute {
			line += fmt.Sprintf(", %s late", plan.Spell(late.Truncate(time.Minute)))
		} else {
			line += ", on time"
		}
		writePara(r.w.out, "", line)
	}
	return nil
}
