package main

import (
	"context"
	"fmt"
	"strconv"
	"strings"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/kept"
	"example.org/kettledrum/plan/planner"
	"example.org/kettledrum/plan/risk"
	"example.org/kettledrum/plan/safety"
	"example.org/kettledrum/plan/verify"
)

// longest is how long a command looks for a timetable before it takes the best so
// far: a dinner that has begun long ago is broken whatever is tried.
const longest = 20 * time.Second

// sureSeed is the seed of many evenings where nobody names one: the same plan gets the
// same chances, and the same slack.
const sureSeed = 1

// made is planner.Make for as long as a cook waits.
func made(ctx context.Context, p *plan.Plan) *plan.Timetable {
	ctx, cancel := context.WithTimeout(ctx, longest)
	defer cancel()
	return planner.Make(ctx, p)
}

// sureness is how sure a dinner is to be, from 0 to 1; 0: nobody asked.
type sureness float64

// The least and most that --sure takes: below, there is nothing to be sure of; above,
// a simulation cannot tell.
const leastSure, mostSure = 0.05, 0.99

// Set reads "90%", "90" or "0.9"; it implements pflag.Value.
func (s *sureness) Set(text string) error {
	x, err := strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(text, "%")), 64)
	if err == nil && (strings.HasSuffix(text, "%") || x >= 1) {
		x /= 100
	}
	if err != nil || !(x >= leastSure && x <= mostSure) {
		return fmt.Errorf("want a chance from %.0f%% to %.0f%%, like 90%%", 100*leastSure, 100*mostSure)
	}
	*s = sureness(x)
	return nil
}

// String implements pflag.Value.
func (s *sureness) String() string {
	if *s == 0 {
		return ""
	}
	return fmt.Sprintf("%g%%", 100*float64(*s))
}

// Type implements pflag.Value.
func (s *sureness) Type() string { return "chance" }

// planned is a plan with its timetable.
type planned struct {
	plan  *plan.Plan
	table *plan.Timetable
	asked sureness
	sure  *risk.Sure // nil where it was not, or where the plan cannot be
}

// planned makes the timetable that the flags ask for.
func (o *reading) planned(ctx context.Context, w *world, p *plan.Plan) planned {
	x := planned{plan: p, table: made(ctx, p), asked: o.sure}
	if o.sure == 0 || x.table.Status == plan.Broken {
		return x
	}
	bar := newBar(w.progress, 0)
	x.sure = risk.BeSure(ctx, p, x.table, risk.SureOptions{
		Target: float64(o.sure), Seed: sureSeed, Make: planner.Make, Again: planner.From, Check: checked, Hot: kept.Hot(p), Done: bar.tries,
	})
	bar.clear()
	if ctx.Err() != nil {
		w.msg.say("stopped: this is the best so far, planned %s", count(x.sure.Plans, "time", "times"))
	}
	x.table = x.sure.Timetable
	return x
}

// checked sets what a timetable breaks, its status and what to know of safety.
func checked(p *plan.Plan, t *plan.Timetable) {
	t.Breaks = verify.Check(p, t, time.Time{})
	t.Status = verify.Status(p, t, t.Breaks)
	t.Cautions = safety.Cautions(p, t)
}
