package planner

import (
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/solve"
)

// slips returns the longest absence from the table that any course allows.
func (j *job) slips() time.Duration {
	var most time.Duration
	for _, c := range j.p.Courses {
		most = max(most, c.SlipsAway)
	}
	return most
}

// seats puts the cooks who sit at table from each serve on. Where they may slip
// away it is but for short work, one absence in plan.SlipEvery: each start of
// short work takes one slip for that long, and while seated there is but one.
// That an absence of several touches in a row may be one is not used.
func (j *job) seats() {
	for c, cook := range j.p.Kitchen.Cooks {
		if !cook.Sits {
			continue
		}
		for k, course := range j.p.Courses {
			seated := tick(plan.Minutes(course.Seated))
			take := solve.Option{{Resource: j.pots, Amount: int32(j.p.Kitchen.Minds)}}
			switch {
			case course.SlipsAway == 0:
				take = append(take, solve.Demand{Resource: j.hands[c], Amount: 1}, solve.Demand{Resource: j.minds[c], Amount: 1})
			default:
				take = append(take, solve.Demand{Resource: j.long[c], Amount: 1}, solve.Demand{Resource: j.slip[c], Amount: manySlips - 1})
			}
			j.prob.Uses = append(j.prob.Uses, solve.Use{
				From: solve.StartOf(j.due[k]), To: solve.StartOf(j.due[k]), ToPlus: seated, Options: []solve.Option{take},
			})
		}
	}
}

// slipped adds, for a cook who may slip away, the slip that short work takes:
// one use more for each use of a step or touch, on the same option.
func (j *job) slipped(o solve.Option, c int) solve.Option {
	if j.slip[c] < 0 {
		return o
	}
	return append(o, solve.Demand{Resource: j.slip[c], Amount: 1, Plus: tick(plan.Minutes(plan.SlipEvery))})
}

// hasOven reports whether some oven can be had for what bakes or keeps warm. Where
// what could take it has failed, none can: the rest is planned all the same, and
// that the step is in no oven is a break.
func (j *job) hasOven(b *plan.Bake) bool {
	failed := false
	for o, oven := range j.p.Kitchen.Ovens {
		if oven.Shelves >= b.Space && (b.In < 0 || b.In == o) {
			return true
		}
		failed = failed || oven.Shelves == 0
	}
	return !failed
}

// hasBurner is hasOven of burners.
func (j *job) hasBurner(b *plan.BurnerUse) bool {
	k := &j.p.Kitchen.Burners
	return !j.facts.live || k.Large >= b.Count || b.Size != plan.Large && k.Small >= b.Count
}

// vessels holds a piece of a vessel through the gap from each step that names it
// to the next one of the dish that does.
func (j *job) vessels() {
	followers := j.p.Followers()
	for i := range j.p.Steps {
		v := j.p.Steps[i].Vessel
		if v == nil || j.facts.of(i).progress == plan.Skipped {
			continue
		}
		u := solve.Use{
			From: solve.StartOf(i), To: solve.EndOf(i), ToPlus: tick(plan.Minutes(j.p.Kitchen.Tools[v.Tool].Wash)),
			Options: []solve.Option{{{Resource: j.tools[v.Tool], Amount: int32(v.Count)}}},
		}
		if next := j.nextIn(followers, i, v.Tool, i, map[int]bool{}); next >= 0 {
			u.To, u.ToPlus = solve.StartOf(next), 0
		}
		j.prob.Uses = append(j.prob.Uses, u)
	}
}

// nextIn finds the first step after i, in the dish of the step of, that names a
// vessel.
func (j *job) nextIn(followers [][]int, i, tool, of int, seen map[int]bool) int {
	for _, f := range followers[i] {
		if seen[f] || j.p.Steps[f].Dish != j.p.Steps[of].Dish {
			continue
		}
		seen[f] = true
		if v := j.p.Steps[f].Vessel; v != nil && v.Tool == tool && j.facts.of(f).progress != plan.Skipped {
			return f
		}
		if next := j.nextIn(followers, f, tool, of, seen); next >= 0 {
			return next
		}
	}
	return -1
}

// wash returns for how long a tool is out of use after step i. A step of the
// same dish that follows so closely that there is no time to wash it needs none.
func (j *job) wash(i, tool int) tick {
	wash := j.p.Kitchen.Tools[tool].Wash
	keep := j.p.Steps[i].Keeps
	for f := range j.p.Steps {
		s := &j.p.Steps[f]
		if s.Dish != j.p.Steps[i].Dish || !uses(s, tool) {
			continue
		}
		for _, l := range s.After {
			soon := s.AtOnce || l.HasMax && l.Max < wash || keep.Kind != plan.Freely && keep.For < wash
			if l.Step == i && soon {
				return 0
			}
		}
	}
	return tick(plan.Minutes(wash))
}

func uses(s *plan.Step, tool int) bool {
	for _, u := range s.Uses {
		if u.Tool == tool {
			return true
		}
	}
	return false
}

// keepers gives what keeps in a cold place or in an oven its room there, from
// the end of the step to the start of the last that takes it, or to the serve.
func (j *job) keepers() {
	followers := j.p.Followers()
	for i := range j.p.Steps {
		k := j.p.Steps[i].Keeps
		if j.facts.of(i).progress == plan.Skipped {
			continue
		}
		taken := solve.StartOf(j.due[j.p.CourseOf(i)])
		if last := j.lastOf(followers[i]); last >= 0 {
			taken = solve.StartOf(last)
		}
		if r, ok := j.cold[k.Place]; ok && k.Place != "" {
			j.prob.Uses = append(j.prob.Uses, solve.Use{
				From: solve.EndOf(i), To: taken,
				Options: []solve.Option{{{Resource: r, Amount: int32(max(1, k.Places))}}},
			})
		}
		if k.Warm != nil && j.hasOven(k.Warm) && !(j.facts.of(i).progress == plan.Done && j.isFact(taken)) {
			j.warm(i, taken, k)
		}
	}
}

// isFact reports whether the start of an activity has been.
func (j *job) isFact(q solve.Point) bool { return j.prob.Acts[q.Act].Fixed }

// lastOf picks the follower that is likely to start last: with the longest way
// before it.
func (j *job) lastOf(followers []int) int {
	last := -1
	for _, f := range followers {
		if j.facts.of(f).progress != plan.Skipped && (last < 0 || j.wayTo(f) > j.wayTo(last)) {
			last = f
		}
	}
	return last
}

// warm adds the stay in the oven of what keeps warm there: as an activity that
// lasts from the end of the step until it is taken.
func (j *job) warm(i int, taken solve.Point, k plan.Keep) {
	a := len(j.prob.Acts)
	j.warmOf[a] = i
	most, late := tick(plan.Minutes(k.For)), tick(0)
	if x := j.facts.of(i); x.progress == plan.Done {
		most = solve.Unbounded           // how long it has been already is a fact
		late = max(0, j.facts.now-x.end) // and so is where it was: what takes it may be begun again
	}
	j.prob.Acts = append(j.prob.Acts, solve.Activity{Max: most})
	j.lag(solve.EndOf(i), solve.StartOf(a), 0)
	j.atMost(solve.EndOf(i), solve.StartOf(a), late, weightKeep, guarded{what: theKeep, index: i})
	j.lag(solve.EndOf(a), taken, 0)
	j.atMost(solve.EndOf(a), taken, 0, weightKeep, guarded{what: theKeep, index: i})
	st := solve.Stay{Act: a, Lo: float64(k.Warm.Lo), Hi: float64(k.Warm.Hi), Goal: float64(k.Warm.At), Space: int32(k.Warm.Space), Continues: -1}
	switch baked := j.stayOf[i]; {
	case baked >= 0:
		st.States, st.Continues = j.prob.Stays[baked].States, baked
	case k.Warm.In >= 0:
		st.States = []int{k.Warm.In}
	default:
		st.States = []int{0}
	}
	j.prob.Stays = append(j.prob.Stays, st)
}
