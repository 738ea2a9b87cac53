package planfile

import (
	"fmt"

	"gopkg.in/yaml.v3"

	"example.org/kettledrum/plan"
)

// chores reads the steps of no dish. Each becomes a dish of its own without a
// name, after all that are eaten.
func (d *decoder) chores(n *yaml.Node) {
	d.choreNo = map[string]int{}
	if n == nil || isNothing(n) {
		return
	}
	if n.Kind != yaml.SequenceNode {
		d.fail(n, "wrong-kind", "`chores` is a list of chores, not "+kindOf(n), "start each with a dash: `- Lay the table, 20m`")
		return
	}
	for _, c := range n.Content {
		step, raw, ok := d.step(c, inChore)
		if !ok {
			continue
		}
		if first, twice := d.choreNo[raw.id]; twice && raw.id != "" {
			d.fail(c, "double-id", fmt.Sprintf("two chores are called `%s`", raw.id),
				fmt.Sprintf("the other is in line %d; give each an `id` of its own", d.p.Steps[first].Pos.Line))
		}
		at := len(d.p.Steps)
		d.choreNo[raw.id] = at
		step.ID, step.Dish = raw.id, len(d.p.Dishes)
		dish := plan.Dish{Steps: []int{at}, Chore: &plan.Chore{After: -1}, Pos: pos(c)}
		d.choreTime(&dish, raw.f, &step)
		raw.after = nil // it names a course
		d.p.Dishes = append(d.p.Dishes, dish)
		d.dishSteps = append(d.dishSteps, nil)
		d.p.Steps = append(d.p.Steps, step)
		d.raw = append(d.raw, raw)
	}
}

// choreTime reads when a chore may be done.
func (d *decoder) choreTime(dish *plan.Dish, f fields, s *plan.Step) {
	found := d.found
	if n := f.get("before"); n != nil {
		dish.Course, _ = d.courseNamed(n, "`before`")
	}
	if n := f.get("after"); n != nil && (n.Kind != yaml.ScalarNode || n.Value != "none") {
		if n.Kind != yaml.ScalarNode {
			d.fail(n, "wrong-kind", "`after` of a chore is a course, not "+kindOf(n), "write it like `after: Main`; a chore follows no step")
		} else if c, ok := d.courseNamed(n, "`after`"); ok {
			dish.Chore.After = c
		}
	}
	if v, ok := field(d, f, "ahead", Duration); ok {
		dish.Chore.Ahead, dish.Chore.HasAhead = v, true
		switch {
		case v == 0:
			d.fail(f.get("ahead"), "ahead", "a chore that starts no time ahead is never done before its course", "say how early it may be started, like 6h")
		case v < s.Length.Shortest:
			d.fail(f.get("ahead"), "ahead", fmt.Sprintf("%s ahead is less than the chore takes, %s", written(v), written(s.Length.Shortest)),
				"it counts to the start of the chore")
		}
	}
	after := dish.Chore.After
	if d.coursesBad || d.found > found || after < dish.Course {
		return
	}
	cs := d.p.Courses
	at, hint := f.get("after"), "name a later course with `before`"
	if f.get("before") != nil {
		at = f.get("before")
	}
	if after == len(cs)-1 {
		hint = "it is the last: what is to be done after it needs no plan"
	}
	d.fail(at, "chore-order", fmt.Sprintf("the chore is to be done after %s is served and before %s is", quote(cs[after].Name), quote(cs[dish.Course].Name)), hint)
}

// courseNamed returns the course that n names.
func (d *decoder) courseNamed(n *yaml.Node, what string) (int, bool) {
	name, ok := d.text(n, what)
	if !ok {
		return 0, false
	}
	c, ok := d.courseNo[slug(name)]
	if !ok {
		d.unknown(n, "unknown-course", "course", name, d.courseNames)
	}
	return c, ok
}
