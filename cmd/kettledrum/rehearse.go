package main

import (
	"context"
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
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
			if r.seeded = c.Flags().Changed("seed"); r.seeded {
				r.risk.seed = r.seed
			} else {
				r.risk.seed = sureSeed
			}
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
	c.Flags().Uint64Var(&r.seed, "seed", 0, "draw how long each step with a range takes, and a few mishaps; the same number draws the same")
	c.Flags().BoolVar(&r.through, "run-through", false, "begin with a clock that does not wait at each cue for your answer; h turns it")
	c.Flags().BoolVar(&r.walks, "walk", false, "walk through each cue without a clock and tick off the tools, burners and shelves; without a terminal, a list")
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
	seed    uint64
	seeded  bool
	through bool
	walks   bool
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
	sized := r.how.planned(ctx, r.w, p)
	sized.tell(r.w)
	t := sized.table
	if r.risk.runs > 0 {
		return r.chances(ctx, p, t)
	}
	x := &staged{r: r, src: src, p: p, t: t, script: script}
	if err := x.begin(); err != nil {
		return err
	}
	x.tellOutside()
	if r.walks {
		return x.walk(ctx)
	}
	x.draw()
	speed := r.speed
	if !r.seen() {
		speed = 0 // the clock jumps from cue to cue instead
	}
	s, fast, err := x.open(ctx, p, t, x.from, speed)
	if err != nil {
		return err
	}
	x.s, x.fast = s, fast
	switch {
	case r.seen():
		return x.show(ctx)
	case r.json:
		return x.report(ctx)
	}
	return x.tell(ctx)
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
	if p.Table.Sub(at) > 12*time.Hour && t.LastServe().After(at.AddDate(0, 0, 1)) {
		at = at.AddDate(0, 0, 1) // past midnight, while the dinner goes on
	}
	if last := t.LastServe(); !at.Before(last) {
		return time.Time{}, fail(exitUse, fmt.Errorf("--from %s is after the last course", text),
			fmt.Sprintf("the last course is on the table at %s", hour(last.In(p.Table.Location()))))
	}
	return at, nil
}
