package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/planner"
)

// kitchenOptions are the arguments of -kitchen.
type kitchenOptions struct {
	steps, n, tight int
	seed            uint64
	print           bool
}

// maxSteps keeps a mistyped number from filling the memory.
const maxSteps = 10_000

// refuse returns what is wrong with them.
func (o kitchenOptions) refuse() error {
	switch {
	case o.steps < 1 || o.steps > maxSteps:
		return fmt.Errorf("-steps %d, want 1 to %d", o.steps, maxSteps)
	case o.n < 1:
		return fmt.Errorf("-n %d, want one at least", o.n)
	case o.tight < -1 || o.tight >= len(tightness):
		return fmt.Errorf("-tight %d, want 0 to %d, or -1 for each in turn", o.tight, len(tightness)-1)
	}
	return nil
}

// kitchenRow is what is printed of one kitchen. Times are in milliseconds. What
// the planner does not tell is left out, never made up.
type kitchenRow struct {
	Seed   uint64      `json:"seed"`
	Steps  int         `json:"steps"`
	Tight  int         `json:"tight"`
	Status plan.Status `json:"status"`
	Late   int         `json:"late"`   // minutes, of all courses
	Broken int         `json:"broken"` // rules that the timetable breaks

	MsPlan float64 `json:"ms_plan"` // until the planner returned
	// MsFirst is the first timetable, MsProved the proof of each objective in the
	// planner's order, null where it is not proven.
	MsFirst *float64 `json:"ms_first,omitempty"`
	// MsWhole is the first that breaks nothing.
	MsWhole  *float64   `json:"ms_whole,omitempty"`
	MsProved []*float64 `json:"ms_proved,omitempty"`

	// After a delay of 15 minutes: until the planner returned, the first timetable,
	// and its proof.
	MsReplan       *float64 `json:"ms_replan,omitempty"`
	MsReplanFirst  *float64 `json:"ms_replan_first,omitempty"`
	MsReplanClosed *float64 `json:"ms_replan_closed,omitempty"`

	// Of a dinner that is impossible: how many facts clash.
	ConflictFacts *int     `json:"conflict_facts,omitempty"`
	MsConflict    *float64 `json:"ms_conflict,omitempty"`

	// Of the first planning: the greatest heap in use (spans with objects in them,
	// MemStats.HeapInuse) and all that was allocated, in MB of 10⁶ bytes.
	MBHeap  float64 `json:"mb_heap_peak"`
	MBAlloc float64 `json:"mb_alloc"`
}

// kitchens makes the kitchens, plans them, prints a row of each to out and a
// summary to log.
func kitchens(o options, now func() time.Time, out, log io.Writer) error {
	show := kitchenText
	switch {
	case o.json:
		show = jsonRow[kitchenRow]
	case !o.print:
		if err := kitchenHeading(out); err != nil {
			return err
		}
	}
	var wrong []error
	var s kitchenSummary
	for k := range o.n {
		seed := o.seed + uint64(k)
		tight := o.tight
		if tight < 0 {
			tight = int(seed % uint64(len(tightness)))
		}
		if o.print {
			if _, err := out.Write(dinner(o.steps, tight, seed)); err != nil {
				return err
			}
			continue
		}
		p, err := kitchenPlan(o.steps, tight, seed)
		if err != nil {
			return err
		}
		r := kitchenRow{Seed: seed, Steps: len(p.Steps), Tight: tight}
		if err := r.cook(p, o.limit, now); err != nil {
			wrong = append(wrong, fmt.Errorf("kitchen %d, tight %d: %w", seed, tight, err))
		}
		s.add(&r)
		if err := show(out, r); err != nil {
			return err
		}
	}
	if !o.print {
		if err := s.print(log, o.steps); err != nil {
			return err
		}
	}
	return errors.Join(wrong...)
}

// stopwatch notes when a planner tells what.
type stopwatch struct {
	now          func() time.Time
	begun        time.Time
	first, whole *float64
	proved       map[string]*float64
}

func (s *stopwatch) elapsed() *float64 {
	t := ms(s.now().Sub(s.begun))
	return &t
}

// watch returns what the planner is to call, from now on.
func (s *stopwatch) watch() planner.Watch {
	s.begun, s.proved = s.now(), map[string]*float64{}
	return planner.Watch{
		Found: func(whole bool) {
			if s.first == nil {
				s.first = s.elapsed()
			}
			if whole && s.whole == nil {
				s.whole = s.elapsed()
			}
		},
		Proven: func(objective string) { s.proved[objective] = s.elapsed() },
	}
}

// all returns when the last objective was proven, nil if one was not.
func (s *stopwatch) all() *float64 { return s.proved[planner.Objectives[len(planner.Objectives)-1]] }

// cook plans the dinner, and again after a delay, each within the limit.
func (r *kitchenRow) cook(p *plan.Plan, limit time.Duration, now func() time.Time) error {
	var tt *plan.Timetable
	w := &stopwatch{now: now}
	r.MBHeap, r.MBAlloc = memoryOf(func() {
		r.MsPlan = timed(limit, now, func(ctx context.Context) { tt = planner.MakeWatched(ctx, p, w.watch()) })
	})
	r.MsFirst, r.MsWhole = w.first, w.whole
	for _, o := range planner.Objectives {
		r.MsProved = append(r.MsProved, w.proved[o])
	}
	r.Status = tt.Status
	for c := range p.Courses {
		r.Late += plan.Minutes(tt.Lateness(p, c))
	}
	for _, b := range tt.Breaks {
		if b.Kind.Hard() {
			r.Broken++
		}
	}
	if tt.Status == plan.Broken {
		var x *planner.Impossible
		asked := timed(limit, now, func(ctx context.Context) { x = planner.Conflict(ctx, p) })
		if x != nil {
			n := len(x.Facts)
			r.ConflictFacts, r.MsConflict = &n, &asked
		}
	}
	s, at, err := delayed(p, tt, r.Seed)
	if errors.Is(err, errNoDelay) {
		return nil
	}
	if err != nil {
		return err
	}
	w = &stopwatch{now: now}
	again := timed(limit, now, func(ctx context.Context) { planner.AgainWatched(ctx, s, at, w.watch()) })
	r.MsReplan, r.MsReplanFirst, r.MsReplanClosed = &again, w.first, w.all()
	return nil
}

// timed returns how many milliseconds do takes; its context ends at the limit.
func timed(limit time.Duration, now func() time.Time, do func(context.Context)) float64 {
	ctx, cancel := context.WithTimeout(context.Background(), limit)
	defer cancel()
	begun := now()
	do(ctx)
	return ms(now().Sub(begun))
}
