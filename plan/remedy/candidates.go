package remedy

import (
	"cmp"
	"slices"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/heat"
)

// candidate is one thing to give up.
type candidate struct {
	kind    Kind
	changes []plan.Change
	// step is what it is about, −1 for none; likewise course, dish and cook.
	step, course, dish, cook int
	// pinch tells which to try first: how much later the thing may come, as it is,
	// with no course later; of food, for how much longer it may wait.
	pinch time.Duration
}

// price is what a kind costs beside what the timetable shows, in minutes late: a
// word to another cook, an eye on a hotter oven, a pot to be looked for, guests to
// be told, a dish that somebody shopped for.
var price = map[Kind]int{
	OtherCook: 1, Hotter: 2, OtherPlace: 3, WaitLonger: 0, LeaveTable: 0, ServeLater: 2, DropStep: 10, DropDish: 20,
}

// order is of kinds between equals.
var order = []Kind{OtherCook, Hotter, OtherPlace, WaitLonger, LeaveTable, ServeLater, DropStep, DropDish}

// candidates lists what is tried, what pinches most first, at most Tries.
func (q *Question) candidates() []candidate {
	out := q.servedLater()
	for c := range q.State.Courses {
		out = append(out, q.leaving(c)...)
	}
	for d := range q.State.Plan.Dishes {
		out = append(out, q.droppedDish(d)...)
	}
	for i := range q.State.Steps {
		out = append(out, q.ofStep(i)...)
	}
	slices.SortStableFunc(out, func(a, b candidate) int {
		return cmp.Or(cmp.Compare(a.pinch, b.pinch), cmp.Compare(slices.Index(order, a.kind), slices.Index(order, b.kind)))
	})
	return out[:min(len(out), Tries)]
}

// of is a candidate about step i.
func (q *Question) of(kind Kind, i int, changes ...plan.Change) candidate {
	return candidate{kind: kind, changes: changes, step: i, course: -1, dish: -1, cook: -1, pinch: q.AsItIs.Slots[i].Slack}
}

// ofStep lists what may be given up about one step.
func (q *Question) ofStep(i int) (out []candidate) {
	p, s := q.State.Plan, &q.State.Plan.Steps[i]
	if by := stretch(s.Keeps); by > 0 && q.waits(i) {
		c := q.of(WaitLonger, i, plan.Change{Kind: plan.KeepLonger, Step: s.ID, By: by})
		c.pinch = max(0, s.Keeps.For-q.kept(i, q.AsItIs))
		out = append(out, c)
	}
	if s.Optional && q.left(i) {
		out = append(out, q.of(DropStep, i, plan.Change{Kind: plan.Drop, Step: s.ID}))
	}
	if q.State.Steps[i].Status != plan.Ahead {
		return out
	}
	if s.Hands.Working() && s.By >= 0 {
		for k, cook := range p.Kitchen.Cooks {
			if k != s.By {
				c := q.of(OtherCook, i, plan.Change{Kind: plan.GiveTo, Step: s.ID, Cook: cook.Name})
				c.cook = k
				out = append(out, c)
			}
		}
	}
	if s.Oven != nil && s.Oven.In >= 0 && !q.rides(i) {
		for k, oven := range p.Kitchen.Ovens {
			if k != s.Oven.In {
				out = append(out, q.of(OtherPlace, i, plan.Change{Kind: plan.PutOn, Step: s.ID, Oven: oven.Name}))
			}
		}
	}
	if b := s.Burner; b != nil && b.Size == plan.Large && !s.Length.Elastic && p.Kitchen.Burners.Small >= b.Count {
		out = append(out, q.of(OtherPlace, i, plan.Change{Kind: plan.SmallerBurner, Step: s.ID, By: smaller(s)}))
	}
	for _, tool := range q.vessels(i) {
		out = append(out, q.of(OtherPlace, i, plan.Change{Kind: plan.PutOn, Step: s.ID, Tool: p.Kitchen.Tools[tool].Name}))
	}
	if by := sooner(p, s); by > 0 {
		hot := float64(s.Oven.Hi)
		out = append(out, q.of(Hotter, i, plan.Change{Kind: plan.BakeAt, Step: s.ID, Temp: &hot, By: by}))
	}
	return out
}

// stretch is by how much longer than liked something may wait: not beyond what it may
// at most, nor, whatever the plan says, beyond two hours out of the cold.
func stretch(k plan.Keep) time.Duration {
	if k.Kind != plan.Liking {
		return 0
	}
	return min(k.AtMost, plan.KeepLimitAtMax) - k.For
}

// left reports whether step i is neither done nor left out.
func (q *Question) left(i int) bool {
	status := q.State.Steps[i].Status
	return status == plan.Ahead || status == plan.Begun
}

// waits reports whether what step i makes is still to be taken.
func (q *Question) waits(i int) bool {
	if q.State.Steps[i].Status == plan.Skipped {
		return false
	}
	takers := q.takers(i, q.AsItIs)
	if len(takers) == 0 {
		return q.State.Courses[q.State.Plan.CourseOf(i)].Served.IsZero()
	}
	return slices.ContainsFunc(takers, func(j int) bool { return q.State.Steps[j].Status == plan.Ahead })
}

// takers are the steps that take what step i made, those behind a skipped one too.
func (q *Question) takers(i int, t *plan.Timetable) (out []int) {
	for _, j := range q.State.Plan.Followers()[i] {
		if t.Slots[j].Progress == plan.Skipped {
			out = append(out, q.takers(j, t)...)
		} else {
			out = append(out, j)
		}
	}
	return out
}

// kept is how long what step i made waits in a timetable.
func (q *Question) kept(i int, t *plan.Timetable) time.Duration {
	end, takers := t.Slots[i].End, q.takers(i, t)
	last := end
	for _, j := range takers {
		if at := t.Slots[j].Start; at.After(last) {
			last = at
		}
	}
	if len(takers) == 0 {
		last = t.Serves[q.State.Plan.CourseOf(i)]
	}
	return max(0, last.Sub(end))
}

// rides reports whether step i stays in the oven in which the one before it was.
func (q *Question) rides(i int) bool {
	s := &q.State.Plan.Steps[i]
	return s.AtOnce && slices.ContainsFunc(s.After, func(l plan.Link) bool { return q.State.Plan.Steps[l.Step].Oven != nil })
}

// smaller is by how much a step takes longer on a small burner than on a large one, in
// whole minutes, rounded up: by as long again. It gives about half the heat (common
// practice), and what is to be heated takes t = m·c·ΔT / P. What only simmers takes
// less; the plan does not say which it is.
func smaller(s *plan.Step) time.Duration {
	return time.Duration(plan.Minutes(s.Length.Likely)) * time.Minute
}

// vessels are the tools that could hold the food of step i instead of its own: all
// in which some step of the plan has its food. Only for the first step of a dish
// that wants the vessel: later ones have their food in it.
func (q *Question) vessels(i int) (out []int) {
	p, v := q.State.Plan, q.State.Plan.Steps[i].Vessel
	if v == nil {
		return nil
	}
	for _, j := range p.Dishes[p.Steps[i].Dish].Steps {
		if o := p.Steps[j].Vessel; o != nil && o.Tool == v.Tool && (j < i || q.State.Steps[j].Status != plan.Ahead) {
			return nil
		}
	}
	for k, tool := range p.Kitchen.Tools {
		holds := func(s plan.Step) bool { return s.Vessel != nil && s.Vessel.Tool == k }
		if k != v.Tool && tool.Count >= v.Count && slices.ContainsFunc(p.Steps, holds) {
			out = append(out, k)
		}
	}
	return out
}

// sooner is by how much a bake ends sooner at the top of what it accepts, in whole
// minutes, rounded down; 0 for one that accepts a single temperature.
func sooner(p *plan.Plan, s *plan.Step) time.Duration {
	b := s.Oven
	if b == nil || b.Grill || b.Hi-b.At <= plan.DialError || s.Length.Elastic {
		return 0
	}
	inside := heat.BakedThrough
	if s.Until.HasTemp {
		inside = s.Until.Temp
	}
	likely := s.Length.Planned()
	takes := time.Duration(float64(likely) * heat.Hotter(b.At, b.Hi, p.Kitchen.Room, inside))
	return (likely - max(takes, s.Length.Shortest)).Truncate(time.Minute)
}

// leaving lists what may be given up at table with course c: whoever sits leaves for
// all of it, or for work that is still to be done and no longer, or shorter.
func (q *Question) leaving(c int) (out []candidate) {
	p, course := q.State.Plan, q.State.Plan.Courses[c]
	if !slices.ContainsFunc(p.Kitchen.Cooks, func(k plan.Cook) bool { return k.Sits }) || !q.AsItIs.Serves[c].Add(course.Seated).After(q.Now) {
		return nil
	}
	var lengths []time.Duration
	if course.Seated > course.SlipsAway {
		lengths = append(lengths, course.Seated)
	}
	for i, slot := range q.AsItIs.Slots {
		s, long := &p.Steps[i], slot.End.Sub(slot.Start)
		if q.left(i) && s.Hands.Working() && long > course.SlipsAway && (long <= course.Seated || slot.Progress == plan.Begun) {
			lengths = append(lengths, time.Duration(plan.Minutes(long))*time.Minute)
		}
	}
	slices.Sort(lengths)
	lengths = slices.Compact(lengths)
	slices.Reverse(lengths)
	for k, long := range lengths {
		out = append(out, candidate{
			kind: LeaveTable, changes: []plan.Change{{Kind: plan.LeaveTable, Course: course.Name, By: long}},
			step: -1, course: c, dish: -1, cook: -1, pinch: time.Duration(k) * 10 * time.Minute,
		})
	}
	return out
}

// servedLater lists courses that might come later for what is broken to hold: all of them
// as late as they must, the next one, and each of which something is broken.
func (q *Question) servedLater() []candidate {
	of := func(c int) candidate {
		return candidate{kind: ServeLater, step: -1, course: c, dish: -1, cook: -1, pinch: -1}
	}
	out, next := []candidate{of(-1)}, true
	for c := range q.State.Courses {
		if !q.State.Courses[c].Served.IsZero() {
			continue
		}
		if next || slices.ContainsFunc(q.AsItIs.Breaks, func(b plan.Break) bool {
			return b.Kind.Hard() && (b.Course == c || b.Step >= 0 && q.State.Plan.CourseOf(b.Step) == c)
		}) {
			out = append(out, of(c))
		}
		next = false
	}
	return out
}

// droppedDish lists dish d if it is optional and nothing of it is served.
func (q *Question) droppedDish(d int) []candidate {
	dish := &q.State.Plan.Dishes[d]
	if !dish.Optional || !q.State.Courses[dish.Course].Served.IsZero() || !slices.ContainsFunc(dish.Steps, q.left) {
		return nil
	}
	c := candidate{kind: DropDish, changes: []plan.Change{{Kind: plan.Drop, Dish: dish.ID}}, step: -1, course: -1, dish: d, cook: -1, pinch: plan.Forever}
	for _, i := range dish.Steps {
		if q.left(i) {
			c.pinch = min(c.pinch, q.AsItIs.Slots[i].Slack)
		}
	}
	return []candidate{c}
}
