package planner

import (
	"cmp"
	"slices"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

// canonical is a plan with its dishes in an order that is not the file's: the
// search breaks ties by the order of activities, and where a dish is written
// down must not decide what a cook does when. The steps of a dish stay in theirs,
// which says what follows what.
type canonical struct {
	plan *plan.Plan
	file []int // of each step of plan, its index in the file's order
	here []int // of each step in the file's order, its index in plan
}

// canonicalOf puts the dishes first, then the chores, each by course, and within
// one by the ID of their first step, which no other step has.
func canonicalOf(p *plan.Plan) *canonical {
	dishes := make([]int, len(p.Dishes))
	for d := range dishes {
		dishes[d] = d
	}
	chore := func(d int) int {
		if p.Dishes[d].Chore != nil {
			return 1
		}
		return 0
	}
	first := func(d int) string {
		if len(p.Dishes[d].Steps) == 0 {
			return p.Dishes[d].ID
		}
		return p.Steps[p.Dishes[d].Steps[0]].ID
	}
	slices.SortStableFunc(dishes, func(a, b int) int {
		return cmp.Or(cmp.Compare(chore(a), chore(b)), cmp.Compare(p.Dishes[a].Course, p.Dishes[b].Course), cmp.Compare(first(a), first(b)))
	})

	q := *p
	q.Dishes, q.Steps = nil, nil
	c := &canonical{plan: &q, here: make([]int, len(p.Steps))}
	for d, was := range dishes {
		dish := p.Dishes[was]
		dish.Steps = nil
		for _, i := range p.Dishes[was].Steps {
			c.here[i] = len(q.Steps)
			c.file = append(c.file, i)
			step := p.Steps[i]
			step.Dish = d
			dish.Steps = append(dish.Steps, c.here[i])
			q.Steps = append(q.Steps, step)
		}
		q.Dishes = append(q.Dishes, dish)
	}
	for i := range q.Steps {
		links := slices.Clone(q.Steps[i].After)
		for k := range links {
			links[k].Step = c.here[links[k].Step]
		}
		q.Steps[i].After = links
	}
	return c
}

// state returns what is known of the run, of the canonical plan. Its events are
// left out: their timetables are in the file's order.
func (c *canonical) state(s *run.State) *run.State {
	out := *s
	out.Plan, out.Events = c.plan, nil
	if s.Timetable != nil {
		out.Timetable = moved(s.Timetable, c.file, c.here)
	}
	out.Steps = make([]run.StepState, len(s.Steps))
	for i, was := range c.file {
		out.Steps[i] = s.Steps[was]
	}
	out.Sets = slices.Clone(s.Sets)
	for k := range out.Sets {
		out.Sets[k].For = at(c.here, out.Sets[k].For)
	}
	return &out
}

// timetable returns a timetable of the canonical plan as one of the file's.
func (c *canonical) timetable(t *plan.Timetable) *plan.Timetable { return moved(t, c.here, c.file) }

// moved returns a timetable with its steps in another order: from has the old
// index of each new step, to the new one of each old.
func moved(t *plan.Timetable, from, to []int) *plan.Timetable {
	out := *t
	out.Slots = make([]plan.Slot, len(t.Slots))
	for i, was := range from {
		out.Slots[i] = t.Slots[was]
	}
	out.Touches = slices.Clone(t.Touches)
	for k := range out.Touches {
		out.Touches[k].Step = at(to, out.Touches[k].Step)
	}
	sortTouches(out.Touches)
	out.Sets = slices.Clone(t.Sets)
	for k := range out.Sets {
		out.Sets[k].For = at(to, out.Sets[k].For)
	}
	out.Breaks = slices.Clone(t.Breaks)
	for k := range out.Breaks {
		out.Breaks[k].Step = at(to, out.Breaks[k].Step)
	}
	out.Cautions = slices.Clone(t.Cautions)
	for k := range out.Cautions {
		out.Cautions[k].Step = at(to, out.Cautions[k].Step)
	}
	return &out
}

// at is index i of a step, moved; -1 is none and stays so.
func at(to []int, i int) int {
	if i < 0 {
		return i
	}
	return to[i]
}
