package planner

import (
	"cmp"
	"maps"
	"slices"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/kept"
	"example.org/kettledrum/plan/solve"
)

func (j *job) lag(from, to solve.Point, least tick) {
	j.prob.Lags = append(j.prob.Lags, solve.Lag{From: from, To: to, Min: least})
}

// atMost adds x_to − x_from ≤ most, to be given up for weight a minute, as what
// somebody wrote.
func (j *job) atMost(from, to solve.Point, most tick, weight int64, g guarded) {
	j.prob.Lags = append(j.prob.Lags, solve.Lag{From: to, To: from, Min: -most, Relaxable: true, Weight: weight, Guard: j.guardOf(g)})
}

// liked adds a penalty of one a minute at a level for x_to − x_from over most.
func (j *job) liked(from, to solve.Point, most tick, level int) {
	j.prob.Lags = append(j.prob.Lags, solve.Lag{From: to, To: from, Min: -most, Soft: true, Level: level, Weight: 1})
}

// still adds a penalty for moving step i away from its start in the timetable
// in force.
func (j *job) still(i int, start tick) {
	if j.facts.of(i).progress == plan.Ahead {
		j.liked(solve.Origin, solve.StartOf(i), start, levelMoves)
		j.prob.Lags = append(j.prob.Lags, solve.Lag{From: solve.Origin, To: solve.StartOf(i), Min: start, Soft: true, Level: levelMoves, Weight: 1})
	}
}

// courses adds the milestones: not before asked, not before the guests are
// through with the course before, late at a price, and later still as a break.
func (j *job) courses() {
	for c, course := range j.p.Courses {
		i := len(j.prob.Acts)
		asked := j.tick(j.p.Asked(c))
		a := solve.Activity{Due: true, Earliest: max(asked, j.facts.now), Guard: j.guardOf(guarded{what: theServe, index: c})}
		if t, ok := j.facts.served(c); ok {
			a = solve.Activity{Due: true, Fixed: true, FixedEnd: true, Start: t, End: t}
		}
		j.prob.Acts = append(j.prob.Acts, a)
		j.due = append(j.due, i)
		j.liked(solve.Origin, solve.StartOf(i), asked, 0)
		j.atMost(solve.Origin, solve.StartOf(i), asked+tick(plan.Minutes(course.LateOK)), weightLate, guarded{what: theServe, index: c})
		if c > 0 {
			j.prob.Lags = append(j.prob.Lags, solve.Lag{
				From: solve.StartOf(j.due[c-1]), To: solve.StartOf(i), Min: tick(plan.Minutes(j.p.Courses[c-1].Seated)),
				Guard: j.guardOf(guarded{what: theSeated, index: c - 1}),
			})
		}
	}
}

// links adds the order of the steps, their gaps and their keeps. A skipped step
// hands the order on and binds nothing else.
func (j *job) links() {
	p := j.p
	j.hot = kept.Hot(p)
	followed := make([]bool, len(p.Steps))
	for i := range p.Steps {
		s := &p.Steps[i]
		if j.facts.of(i).progress == plan.Skipped {
			continue
		}
		links := j.effective(i)
		glue := j.lastToEnd(links)
		for _, l := range links {
			followed[l.Step] = true
			from, to := solve.EndOf(l.Step), solve.StartOf(i)
			j.lag(from, to, tick(plan.Minutes(l.Min)))
			if l.HasMax {
				j.atMost(from, to, tick(plan.Minutes(l.Max)), weightGap, guarded{what: theGap, index: i, from: l.Step})
			}
			if s.AtOnce && l.Step == glue {
				j.atMost(from, to, 0, weightGap, guarded{what: atOnce, index: i, from: l.Step})
			}
			keep := p.Steps[l.Step].Keeps
			if !l.HasMax || !keep.Assumed {
				j.keep(l.Step, to, keep)
			}
			j.waitsHot(l.Step, to)
		}
	}
	for i := range p.Steps {
		if j.facts.of(i).progress == plan.Skipped {
			continue
		}
		due := solve.StartOf(j.due[p.CourseOf(i)])
		if c := p.Dishes[p.Steps[i].Dish].Chore; c != nil && c.After >= 0 {
			j.lag(solve.StartOf(j.due[c.After]), solve.StartOf(i), 0)
		}
		if !followed[i] {
			j.lag(solve.EndOf(i), due, 0)
			j.keep(i, due, p.Steps[i].Keeps)
			j.waitsHot(i, due)
		}
	}
}

// keep binds what step i made to the moment it is taken.
func (j *job) keep(i int, taken solve.Point, k plan.Keep) {
	made := solve.EndOf(i)
	switch k.Kind {
	case plan.Limit:
		j.atMost(made, taken, tick(plan.Minutes(k.For)), weightKeep, guarded{what: theKeep, index: i})
	case plan.Liking:
		j.atMost(made, taken, tick(plan.Minutes(k.AtMost)), weightKeep, guarded{what: theKeep, index: i})
		j.liked(made, taken, tick(plan.Minutes(k.For)), 0)
	}
}

// effective returns the links of step i with skipped steps bypassed.
func (j *job) effective(i int) []plan.Link {
	var out []plan.Link
	seen := map[int]bool{}
	var walk func(links []plan.Link, bypass bool)
	walk = func(links []plan.Link, bypass bool) {
		for _, l := range links {
			switch {
			case seen[l.Step]:
			case j.facts.of(l.Step).progress == plan.Skipped:
				seen[l.Step] = true
				walk(j.p.Steps[l.Step].After, true)
			default:
				seen[l.Step] = true
				if bypass {
					l = plan.Link{Step: l.Step}
				}
				out = append(out, l)
			}
		}
	}
	walk(j.p.Steps[i].After, false)
	return out
}

// lastToEnd picks, of several steps before one that starts at once, the one
// that it is tied to: the one with the longest way before it.
func (j *job) lastToEnd(links []plan.Link) int {
	if len(links) == 0 {
		return -1
	}
	way := func(l plan.Link) tick { return j.wayTo(l.Step) }
	return slices.MaxFunc(links, func(a, b plan.Link) int { return cmp.Compare(way(a), way(b)) }).Step
}

// wayTo returns the longest chain of planned lengths up to the end of step i.
func (j *job) wayTo(i int) tick {
	var most tick
	for _, l := range j.p.Steps[i].After {
		most = max(most, j.wayTo(l.Step)+tick(plan.Minutes(l.Min)))
	}
	return most + tick(plan.Minutes(j.p.Steps[i].Length.Planned()))
}

func sortedKeys[K cmp.Ordered, V any](m map[K]V) []K { return slices.Sorted(maps.Keys(m)) }
