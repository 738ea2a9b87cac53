package main

import (
	"context"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/planner"
)

// longest is how long a command looks for a timetable before it takes the best so
// far: a dinner that has begun long ago is broken whatever is tried.
const longest = 20 * time.Second

// made is planner.Make for as long as a cook waits.
func made(ctx context.Context, p *plan.Plan) *plan.Timetable {
	ctx, cancel := context.WithTimeout(ctx, longest)
	defer cancel()
	return planner.Make(ctx, p)
}
