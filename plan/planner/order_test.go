package planner

import (
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/planfile"
)

// backwards returns the plan with its dishes in the opposite order.
func backwards(p *plan.Plan) *plan.Plan {
	q := *p
	q.Dishes, q.Steps = nil, nil
	place := make([]int, len(p.Steps)) // of each old step, its new index
	for d := len(p.Dishes) - 1; d >= 0; d-- {
		dish := p.Dishes[d]
		steps := dish.Steps
		dish.Steps = nil
		for _, i := range steps {
			place[i] = len(q.Steps)
			s := p.Steps[i]
			s.Dish = len(q.Dishes)
			dish.Steps = append(dish.Steps, place[i])
			q.Steps = append(q.Steps, s)
		}
		q.Dishes = append(q.Dishes, dish)
	}
	for i := range q.Steps {
		links := make([]plan.Link, len(q.Steps[i].After))
		for k, l := range q.Steps[i].After {
			l.Step = place[l.Step]
			links[k] = l
		}
		q.Steps[i].After = links
	}
	return &q
}

// The order of the dishes in the file changes neither when courses are served, nor
// the latest start, nor what is broken: on the dinners whose best timetable is
// known. (On larger ones this engine searches, and proves nothing.)
func TestOrderOfDishes(t *testing.T) {
	t.Parallel()
	files, err := filepath.Glob("testdata/dinners/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatalf("%d dinners: %v", len(files), err)
	}
	for _, file := range files {
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		p, problems := planfile.Decode(src, planfile.Options{Local: time.UTC, Now: time.Date(2026, 10, 1, 12, 0, 0, 0, time.UTC)})
		if p == nil {
			t.Fatal(problems)
		}
		q := backwards(p)
		a, b := Make(context.Background(), p), Make(context.Background(), q)
		for c := range a.Serves {
			if !a.Serves[c].Equal(b.Serves[c]) {
				t.Errorf("%s: %s at %v, backwards at %v", file, p.Courses[c].Name, a.Serves[c], b.Serves[c])
			}
		}
		if !a.LatestStart.Equal(b.LatestStart) || a.Status != b.Status || len(a.Breaks) != len(b.Breaks) {
			t.Errorf("%s: %v %s %v, backwards %v %s %v", file, a.LatestStart, a.Status, a.Breaks, b.LatestStart, b.Status, b.Breaks)
		}
	}
}
