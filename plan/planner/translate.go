package planner

import (
	"math"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/heat"
	"example.org/kettledrum/plan/solve"
)

// Tick is one minute.
type tick = solve.Tick

// Weights of relaxable lags: how much a minute of each break counts.
const (
	weightGap  = 3 // a stated gap, an at_once: the food does not allow it
	weightKeep = 2
	weightLate = 1 // a tolerance
)

const (
	// levelMoves is the objective level of minutes moved, when planning again.
	levelMoves = 2
	// madeAhead is how long a step must keep for its work to be better done on a
	// day before.
	madeAhead = 12 * time.Hour
	// manySlips is more absences than a cook can have at once.
	manySlips = 1000
	// hotWait is how long hot food may wait before it counts.
	hotWait = 5
	// callSpan is the stretch over which calls are to be spread, minutes.
	callSpan = 10
	// idleOven is after how many minutes without a bake an oven is switched off.
	idleOven = 60
	// spill is how far past the last serve times may lie, in minutes.
	spill = 8 * 60
)

// job is one translation: the problem and how to read its answer.
type job struct {
	p      *plan.Plan
	facts  facts
	origin time.Time
	prob   *solve.Problem
	ovens  []heat.Oven

	due     []int          // activity of each course
	hands   []int          // resource of each cook
	minds   []int          // resource of each cook's attention, for touches and tied steps
	anyMind []solve.Option // one tick of any cook's attention
	pots    int
	small   int
	large   int
	tools   []int
	cold    map[string]int // resource of each cold place that is counted
	long    []int          // of each cook: taken by steps too long to slip away for
	slip    []int          // of each cook: how often they slip away
	stayOf  []int          // stay of each step, -1
	warmOf  map[int]int    // activities that stand for a warm keep, and whose it is

	guards   []guarded // of prob.Guards
	hot      []bool    // of each step: what it made is hot
	working  []int     // use of each step's cook, -1
	burnerOf []int     // use of each step's burner, -1
	touches  []touchUse
}

// touchUse is a use that is a touch.
type touchUse struct {
	use  int
	step int
	what plan.TouchKind
}

func translate(p *plan.Plan, f facts) *job {
	j := &job{p: p, facts: f, origin: originOf(p), warmOf: map[int]int{}}
	last := j.tick(p.Table)
	for c := range p.Courses {
		last = max(last, j.tick(p.Asked(c).Add(p.Courses[c].LateOK)))
	}
	if f.live {
		last = max(last, f.now)
	}
	j.prob = &solve.Problem{Horizon: last + spill, Now: f.now, Day: j.tick(p.CookDay()), CallSpan: callSpan}
	j.resources()
	j.steps()
	j.courses()
	j.links()
	j.seats()
	j.vessels()
	j.keepers()
	return j
}

// originOf is tick 0: midnight at the start of the first day on which anybody
// is free, at the latest of the cook-day.
func originOf(p *plan.Plan) time.Time {
	first := p.CookDay()
	for _, c := range p.Kitchen.Cooks {
		for _, w := range c.Free {
			if w.From.Before(first) {
				y, m, d := w.From.In(p.Table.Location()).Date()
				first = time.Date(y, m, d, 0, 0, 0, 0, p.Table.Location())
			}
		}
	}
	return first
}

func (j *job) tick(t time.Time) tick { return tick(plan.Minutes(t.Sub(j.origin))) }

func (j *job) time(t tick) time.Time { return j.origin.Add(time.Duration(t) * time.Minute) }

func (j *job) resource(r solve.Resource) int {
	j.prob.Resources = append(j.prob.Resources, r)
	return len(j.prob.Resources) - 1
}

func always(n int) solve.Resource {
	return solve.Resource{Calendar: []solve.Capacity{{Amount: int32(n)}}}
}

func (j *job) resources() {
	k := &j.p.Kitchen

	j.guardHouse()
	for c := range k.Cooks {
		r := solve.Resource{
			Calendar: j.calendar([]plan.Cook{k.Cooks[c]}, 1),
			Guard:    j.guardOf(guarded{what: theHands, index: c}), Hours: []int{j.guardOf(guarded{what: theHours, index: c})},
		}
		j.hands = append(j.hands, j.resource(r))
		j.minds = append(j.minds, j.resource(r))
		j.long = append(j.long, -1)
		j.slip = append(j.slip, -1)
		if k.Cooks[c].Sits && j.slips() > 0 {
			j.long[c] = j.resource(always(1))
			j.slip[c] = j.resource(always(manySlips))
		}
		j.anyMind = append(j.anyMind, j.slipped(solve.Option{{Resource: j.minds[c], Amount: 1}}, c))
	}
	pots := solve.Resource{Calendar: j.calendar(k.Cooks, int32(k.Minds)), Guard: j.guardOf(guarded{what: theMinds})}
	for c := range k.Cooks {
		pots.Hours = append(pots.Hours, j.guardOf(guarded{what: theHours, index: c}))
	}
	j.pots = j.resource(pots)
	j.small = j.resource(j.counted(k.Burners.Small, guarded{what: theBurners, index: int(plan.Small)}))
	j.large = j.resource(j.counted(k.Burners.Large, guarded{what: theBurners, index: int(plan.Large)}))
	j.cold = map[string]int{}
	for i, c := range k.Cold {
		j.cold[c.Name] = j.resource(j.counted(c.Places, guarded{what: thePlaces, index: i}))
	}
	for i, t := range k.Tools {
		j.tools = append(j.tools, j.resource(j.counted(t.Count, guarded{what: theTools, index: i})))
	}
	for o, ov := range k.Ovens {
		h := heat.Of(ov, k.Room)
		j.ovens = append(j.ovens, h)
		st := solve.State{
			Drift: func(from, to float64) float64 {
				return h.Change(plan.Celsius(from), plan.Celsius(to)).Minutes()
			},
			Initial: float64(k.Room), Rest: float64(k.Room),
			Setting: j.anyMind, Idle: idleOven, Dial: dial, Guard: j.guardOf(guarded{what: theOven, index: o}),
		}
		if j.facts.live {
			j.facts.ovenNow(j.p, o, h, &st)
		}
		j.prob.States = append(j.prob.States, st)
		j.prob.SpaceOf = append(j.prob.SpaceOf, j.resource(j.counted(ov.Shelves, guarded{what: theShelves, index: o})))
	}
}

// dial returns the value to set an oven to: the goal where all accept it and it
// is a number that a dial shows, else the roundest such number in the range. The
// scale is the one the plan was written in, told by which of the two the ends of
// the range are whole numbers of; how temperatures are shown changes nothing.
func dial(goal, lo, hi float64) float64 {
	whole := func(x float64) bool { return math.Abs(x-math.Round(x)) < 1e-6 }
	from := func(x float64) float64 { return x }
	to, steps := from, []float64{20, 10, 5, 1}
	if !whole(lo) && !whole(hi) {
		from = func(x float64) float64 { return float64(plan.FromFahrenheit(x)) }
		to = func(x float64) float64 { return plan.Celsius(x).Fahrenheit() }
		steps = []float64{25, 5, 1}
	}
	goal = min(max(goal, lo), hi)
	if whole(to(goal) / 5) {
		return goal
	}
	for _, step := range steps {
		if x := from(math.Round(to(goal)/step) * step); lo <= x && x <= hi {
			return x
		}
	}
	return goal
}

// calendar returns the capacity over time of cooks who bring each each.
func (j *job) calendar(cooks []plan.Cook, each int32) []solve.Capacity {
	change := map[tick]int32{}
	for _, c := range cooks {
		for _, w := range c.Free {
			// A minute counts only where it is free to its end.
			from, to := j.tick(w.From), tick(w.To.Sub(j.origin)/time.Minute)
			change[max(0, from)] += each
			change[max(0, to)] -= each
		}
	}
	out := []solve.Capacity{{}}
	var sum int32
	for _, t := range sortedKeys(change) {
		if change[t] == 0 {
			continue
		}
		sum += change[t]
		if last := &out[len(out)-1]; last.From == t {
			last.Amount = sum
		} else {
			out = append(out, solve.Capacity{From: t, Amount: sum})
		}
	}
	return out
}

func (j *job) steps() {
	n := len(j.p.Steps)
	j.stayOf, j.working, j.burnerOf = fill(n), fill(n), fill(n)
	for i := range j.p.Steps {
		j.activity(i)
	}
	for i := range j.p.Steps {
		s, f := &j.p.Steps[i], j.facts.of(i)
		if f.progress == plan.Skipped {
			continue
		}
		if s.Hands.Working() {
			j.work(i, s, f)
			j.prob.Calls = append(j.prob.Calls, solve.Call{At: solve.StartOf(i)})
		} else {
			j.touch(i, s, f)
		}
		if s.Hands == plan.Near {
			j.use(i, []solve.Option{{{Resource: j.pots, Amount: 1}}}, 0)
		}
		if b := s.Burner; b != nil && j.hasBurner(b) {
			j.burnerOf[i] = j.use(i, j.burnerOptions(b, f), 0)
		}
		for _, u := range s.Uses {
			k := j.use(i, []solve.Option{{{Resource: j.tools[u.Tool], Amount: int32(u.Count)}}}, 0)
			j.prob.Uses[k].ToPlus = j.wash(i, u.Tool)
		}
		if r, ok := j.cold[s.Cold]; ok && s.Cold != "" {
			j.use(i, []solve.Option{{{Resource: r, Amount: int32(max(1, s.ColdPlaces))}}}, 0)
		}
		if s.Oven != nil && j.hasOven(s.Oven) {
			j.stay(i, s.Oven, f)
		}
	}
}

// activity adds the activity of step i.
func (j *job) activity(i int) {
	l, f := j.p.Steps[i].Length, j.facts.of(i)
	a := solve.Activity{Earliest: j.facts.now}
	a.Min = tick(plan.Minutes(l.Planned())) + f.extra
	a.Max = a.Min
	if l.Elastic {
		a.Max = solve.Unbounded
		if l.Longest != plan.Forever {
			a.Max = max(a.Min, tick(plan.Minutes(l.Longest)))
		}
	}
	if s := &j.p.Steps[i]; s.Hands.Working() && !s.Keeps.Assumed && s.Keeps.Kind != plan.Freely && s.Keeps.For >= madeAhead {
		a.Before, a.AvoidLevel = j.tick(j.p.CookDay()), levelMoves
	}
	if c := j.p.Dishes[j.p.Steps[i].Dish].Chore; c != nil {
		from := j.p.CookDay()
		if c.HasAhead {
			from = j.p.Asked(j.p.CourseOf(i)).Add(-c.Ahead)
		}
		a.Earliest = max(a.Earliest, j.tick(from))
	}
	switch f.progress {
	case plan.Begun:
		a.Fixed, a.Start = true, f.start
		if l.Elastic {
			a.Min = max(a.Min, j.facts.now-f.start)
			a.Max = max(a.Max, a.Min)
		} else {
			a.Min = f.end - f.start
			a.Max = a.Min
		}
	case plan.Done, plan.Skipped:
		a.Fixed, a.FixedEnd, a.Start, a.End = true, true, f.start, f.end
	}
	j.prob.Acts = append(j.prob.Acts, a)
}

// use adds a use of step i from its start to its end.
func (j *job) use(i int, opts []solve.Option, pair int32) int {
	j.prob.Uses = append(j.prob.Uses, solve.Use{From: solve.StartOf(i), To: solve.EndOf(i), Options: opts, Pair: pair})
	return len(j.prob.Uses) - 1
}

// work adds that a cook is at step i, but for the minutes in which it stands still.
func (j *job) work(i int, s *plan.Step, f fact) {
	opts, from := j.cookOptions(s, f), tick(0)
	for _, w := range f.still {
		if to := tick(w.From.Sub(j.origin)/time.Minute) - f.start; to > from {
			j.prob.Uses = append(j.prob.Uses, solve.Use{From: solve.StartOf(i), FromPlus: from, To: solve.StartOf(i), ToPlus: to, Options: opts})
		}
		from = j.tick(w.To) - f.start
	}
	j.working[i] = j.use(i, opts, 0)
	j.prob.Uses[j.working[i]].FromPlus = from
}

func (j *job) cookOptions(s *plan.Step, f fact) []solve.Option {
	var opts []solve.Option
	for c := range j.p.Kitchen.Cooks {
		if s.By >= 0 && s.By != c || f.progress != plan.Ahead && f.cook >= 0 && f.cook != c {
			continue
		}
		o := solve.Option{{Resource: j.hands[c], Amount: 1}}
		if s.Hands == plan.Tied {
			o = append(o, solve.Demand{Resource: j.minds[c], Amount: 1})
		}
		switch {
		case j.long[c] < 0:
		case s.Length.Planned()+time.Duration(f.extra)*time.Minute > j.slips():
			o = append(o, solve.Demand{Resource: j.long[c], Amount: 1})
		default:
			o = j.slipped(o, c)
		}
		opts = append(opts, o)
	}
	return opts
}

func (j *job) burnerOptions(b *plan.BurnerUse, f fact) []solve.Option {
	small := solve.Option{{Resource: j.small, Amount: int32(b.Count)}}
	large := solve.Option{{Resource: j.large, Amount: int32(b.Count)}}
	switch {
	case f.progress != plan.Ahead && f.burner == plan.Small:
		return []solve.Option{small}
	case f.progress != plan.Ahead && f.burner == plan.Large, b.Size == plan.Large:
		return []solve.Option{large}
	}
	return []solve.Option{small, large}
}

// touch adds the touches of a step that takes nobody from start to end.
func (j *job) touch(i int, s *plan.Step, f fact) {
	pair := int32(s.Dish + 1)
	add := func(what plan.TouchKind, at solve.Point, plus tick) {
		j.prob.Uses = append(j.prob.Uses, solve.Use{
			From: at, FromPlus: plus, To: at, ToPlus: plus + 1,
			Options: j.anyMind, Pair: pair,
		})
		j.touches = append(j.touches, touchUse{len(j.prob.Uses) - 1, i, what})
		j.prob.Calls = append(j.prob.Calls, solve.Call{At: at, Plus: plus})
	}
	if f.progress == plan.Ahead && !s.AtOnce {
		add(plan.TouchStart, solve.StartOf(i), 0)
	}
	if f.progress != plan.Done && (s.Oven != nil || s.Burner != nil) {
		add(plan.TouchEnd, solve.EndOf(i), -1)
	}
	if f.progress == plan.Done {
		return
	}
	least := tick(plan.Minutes(s.Length.Planned())) + f.extra
	coming := func(at tick) bool { return f.progress == plan.Ahead || f.start+at >= j.facts.now }
	for _, r := range s.Reminds {
		every := tick(plan.Minutes(r.For))
		switch r.When {
		case plan.Every:
			for at := every; every > 0 && at < least; at += every {
				if coming(at) {
					add(plan.TouchRemind, solve.StartOf(i), at)
				}
			}
		case plan.Halfway:
			if coming(least / 2) {
				add(plan.TouchRemind, solve.StartOf(i), least/2)
			}
		case plan.BeforeEnd:
			if coming(least - every) {
				add(plan.TouchRemind, solve.EndOf(i), -every)
			}
		}
	}
}

func (j *job) stay(i int, b *plan.Bake, f fact) {
	st := solve.Stay{Act: i, Lo: float64(b.Lo), Hi: float64(b.Hi), Goal: float64(b.At), Space: int32(b.Space), Continues: -1, Shut: b.Shut}
	if b.Grill {
		st.Class = 1
	}
	switch {
	case f.progress != plan.Ahead && f.oven >= 0:
		st.States = []int{f.oven}
	case b.In >= 0:
		st.States = []int{b.In}
	default:
		for o := range j.p.Kitchen.Ovens {
			st.States = append(st.States, o)
		}
	}
	if s := &j.p.Steps[i]; s.AtOnce {
		for _, l := range s.After {
			if k := j.stayOf[l.Step]; k >= 0 && j.p.Steps[l.Step].Dish == s.Dish {
				st.Continues, st.States = k, j.prob.Stays[k].States
			}
		}
	}
	j.stayOf[i] = len(j.prob.Stays)
	j.prob.Stays = append(j.prob.Stays, st)
}

func fill(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = -1
	}
	return out
}
