package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
	"sync"
	"time"

	"github.com/spf13/cobra"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/clock"
	"example.org/kettledrum/plan/journal"
	"example.org/kettledrum/plan/rehearse"
	"example.org/kettledrum/plan/risk"
	"example.org/kettledrum/plan/session"
)

const (
	// mostRuns keeps what is kept of the runs below a hundred megabytes.
	mostRuns = 1_000_000
	// sampled is how many evenings are conducted with planning again, where nobody asks
	// for another number: each takes seconds.
	sampled = 10
)

// risking is what the flags of a rehearsal say of many runs.
type risking struct {
	runs   int
	sample int
	seed   uint64
}

func (o *risking) flags(c *cobra.Command) {
	c.Flags().IntVar(&o.runs, "runs", 0, "cook the dinner so many times, each step as long as it may take, and tell the chances; --seed says which evenings, 1 without it")
	c.Flags().IntVar(&o.sample, "sample", sampled, "with --runs: how many of these evenings are conducted with planning again, to tell what that gains; 0 for none")
}

func (o *risking) check(c *cobra.Command) error {
	if !c.Flags().Changed("runs") {
		if c.Flags().Changed("sample") {
			return fail(exitUse, errors.New("--sample goes with --runs"), "--runs 10000 is usual")
		}
		return nil
	}
	if o.runs < 1 || o.runs > mostRuns {
		return fail(exitUse, fmt.Errorf("--runs %d is out of range", o.runs), fmt.Sprintf("from 1 to %d; 10000 is usual", mostRuns))
	}
	if o.sample < 0 || o.sample > o.runs {
		return fail(exitUse, fmt.Errorf("--sample %d is out of range", o.sample), "from 0 to as many as --runs says")
	}
	for _, other := range []string{"mishaps", "from", "speed", "plain", "walk", "run-through"} {
		if c.Flags().Changed(other) {
			return fail(exitUse, fmt.Errorf("--runs and --%s ask for two things at once", other), "leave one of them out")
		}
	}
	return nil
}

// chances simulates the dinner and prints what may come of it. Stopped on the way, it
// prints what it has.
func (r *rehearsal) chances(ctx context.Context, p *plan.Plan, t *plan.Timetable) error {
	d := risk.New(p, t)
	o := risk.Options{Runs: r.risk.runs, Seed: r.risk.seed, Thin: true, Starts: true}
	bar := newBar(r.w.progress, o.Runs)
	o.Done = bar.done
	report := d.Simulate(ctx, o).Report()
	bar.clear()
	if report.Runs < report.Asked {
		r.w.msg.say("stopped after %d of %d evenings", report.Runs, report.Asked)
	}
	if report.Runs == 0 {
		return nil
	}
	if !r.json {
		writeRisk(r.w.out, report, r.w.utf8 && !r.look.ascii)
	}
	var s *risk.Sampled
	if r.risk.sample > 0 && ctx.Err() == nil {
		bar := newBar(r.w.progress, r.risk.sample)
		bar.what = "evenings conducted"
		var err error
		s, err = d.Sample(ctx, r.risk.seed, r.risk.sample, r.evening(p, t), bar.done)
		bar.clear()
		if err != nil {
			return fail(exitBroken, err)
		}
		if s.Runs < s.Asked {
			r.w.msg.say("stopped after %d of %d evenings conducted with planning again", s.Runs, s.Asked)
		}
	}
	if r.json {
		writeJSON(r.w.out, viewRisk(report, s))
	} else if s != nil && s.Runs > 0 {
		writeSampled(r.w.out, s)
	}
	return nil
}

// evening conducts one run in a session of its own.
func (r *rehearsal) evening(p *plan.Plan, t *plan.Timetable) risk.Play {
	return func(ctx context.Context, took []int64, held bool) ([]time.Time, error) {
		start := first(p, t).Add(-beforeFirst)
		fast := clock.NewFast(r.w.clock, start, 0)
		cfg := sessionConfig(fast, new(journal.Memory))
		cfg.Make = func(context.Context, *plan.Plan) *plan.Timetable { return t }
		cfg.Plan, cfg.Hold, cfg.Copy.Rehearse = p, held, true
		s, err := session.Open(ctx, cfg)
		if err != nil {
			return nil, err
		}
		player := rehearse.New(ctx, s, risk.Script(p, took), start, rehearse.Watcher{})
		if err := session.Play(ctx, s, fast, t.LastServe().Add(patience), player); err != nil {
			return nil, err
		}
		var served []time.Time
		for c, course := range s.State().Courses {
			if course.Served.IsZero() {
				return nil, fmt.Errorf("%s was not served", p.Courses[c].Name)
			}
			served = append(served, course.Served)
		}
		return served, nil
	}
}

// barWidth is that of a progress bar between its brackets.
const barWidth = 30

// bar shows on a terminal how far something is.
type bar struct {
	w    io.Writer // nil: there is no terminal
	of   int
	what string

	mu  sync.Mutex
	now int
}

func newBar(w io.Writer, of int) *bar { return &bar{w: w, of: of, what: "evenings"} }

// done shows that so many are over; others may have told of more already.
func (b *bar) done(n int) {
	if b.w == nil {
		return
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	if n <= b.now {
		return
	}
	b.now = n
	full := barWidth * n / b.of
	fmt.Fprintf(b.w, "\r[%s%s] %d of %d %s", strings.Repeat("#", full), strings.Repeat(".", barWidth-full), n, b.of, b.what)
}

// tries shows how often a dinner was planned, and how sure the best is.
func (b *bar) tries(n int, best float64) {
	if b.w == nil {
		return
	}
	b.now = n
	fmt.Fprintf(b.w, "\rplanned %s, %.1f %% sure ", count(n, "time", "times"), 100*best)
}

// clear takes the bar away.
func (b *bar) clear() {
	if b.w != nil && b.now > 0 {
		fmt.Fprint(b.w, "\r\x1b[K")
	}
}
