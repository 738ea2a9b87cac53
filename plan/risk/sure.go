package risk

import (
	"cmp"
	"context"
	"slices"
	"time"

	"example.org/kettledrum/plan"
)

// How slack is looked for.
const (
	// tried is how many evenings judge a timetable: a chance of 90 % to half a percent.
	tried = 4000
	// weighed is how many tell what a step's slack is worth.
	weighed = 1000
	// mostPlans is how often the dinner is planned again at most.
	mostPlans = 60
	// patience is after how many steps in a row that make nothing better it gives up.
	patience = 4
	// seldom is how often a step must be critical to be given slack in the first place.
	seldom = 0.02
)

// slackLevels are the percentiles of a step's length that it may be planned with, beside
// the likely one.
var slackLevels = [...]float64{0.50, 0.65, 0.80, 0.90, 0.95, 0.99}

// SureOptions say how sure a dinner is to be.
type SureOptions struct {
	Target float64 // chance that every course is on time, 0 < Target < 1
	Seed   uint64
	// Make plans a dinner; Again, which may be nil, plans it from a timetable that it
	// nearly has. Hot tells what suffers from waiting.
	Make  func(context.Context, *plan.Plan) *plan.Timetable
	Again func(context.Context, *plan.Plan, *plan.Timetable) *plan.Timetable
	// Check sets what a timetable of the plan as written breaks, and its status.
	Check func(*plan.Plan, *plan.Timetable)
	Hot   []bool
	// Done is told how often the dinner was planned, and the best chance so far; may be nil.
	Done func(plans int, best float64)
}

// Sure is a dinner with slack where it buys the most.
type Sure struct {
	// By is how much longer each step is planned than is likely. Timetable is one of the
	// plan as written, in which each step has so much Extra.
	By        []time.Duration
	Timetable *plan.Timetable
	// Before is what the timetable without slack is worth, After what this one is.
	Before, After Worth
	// Reached: the target is. Else this is the best that was found, and the rest says why.
	Reached bool
	// Thin is the course that is on time most seldom, with its chance; Steps those that
	// make courses late most, of whatever course.
	Thin   int
	Chance Chance
	Steps  []Step
	// Blocked is what came of more slack, the last time it was tried: a timetable that is
	// late or breaks something. Nil where nothing stood in the way.
	Blocked *plan.Timetable
	Plans   int // how often the dinner was planned
}

// Worth is what a timetable is worth, and what it costs.
type Worth struct {
	OnTime Chance
	// Late is by how much all courses that are late are, together, on average.
	Late time.Duration
	// Begins is the first start on the dinner's day, Waits for how long hot food waits in
	// all, on average.
	Begins time.Time
	Waits  time.Duration
}

// BeSure puts slack into a plan until every course is on time with the chance that is
// asked for. t is the plan's timetable without any.
//
// A step has slack if it is planned longer than is likely; then the dinner is planned
// anew, by all its rules, and simulated with the evenings of the same seed (common
// random numbers, so that two timetables differ by what they are and not by luck).
//
//  1. The steps that make courses late most, by what slack after each would save, are
//     planned one level longer, all at once; of what does not help only half, and so on.
//     Until the target is reached, or nothing helps.
//  2. Slack that buys least is taken away again: one level from the steps whose slack
//     costs the fewest evenings, as many as the chance to spare allows; of what costs too
//     much only half, and so on.
//
// Of two timetables that reach the target the cheaper is better, its price the minutes by
// which the day begins earlier and hot food waits longer; else the surer, or, of equal
// ones, that whose courses are less late. What breaks a rule that the first timetable
// keeps, or plans a course later, is never better. No proof that it is the cheapest.
//
// When the context ends, the best so far comes back. Cost: at most mostPlans times
// planning, and as many simulations.
func BeSure(ctx context.Context, p *plan.Plan, t *plan.Timetable, o SureOptions) *Sure {
	s := &search{ctx: ctx, o: o, p: p, first: t, levels: make([][]time.Duration, len(p.Steps))}
	for i := range p.Steps {
		s.levels[i] = levelsOf(p.Steps[i].Length)
	}
	first := s.judged(make([]int, len(p.Steps)), t)
	s.best = first
	s.grow()
	s.prune()
	return s.sure(first)
}

// levelsOf are how much longer than likely a step may be planned, in whole minutes more;
// the first is not at all.
func levelsOf(l plan.Length) []time.Duration {
	out := []time.Duration{0}
	if l.Elastic || l.Likely <= 0 {
		return out
	}
	for _, at := range Spread(l).Percentiles(slackLevels[:]) {
		by := (plan.Length{Likely: at}).Planned() - l.Planned()
		if by > out[len(out)-1] {
			out = append(out, by)
		}
	}
	return out
}

// search looks for slack.
type search struct {
	ctx    context.Context
	o      SureOptions
	p      *plan.Plan
	levels [][]time.Duration // of each step

	first   *plan.Timetable // without slack
	best    *attempt
	alone   []bool // of each step: it is left alone
	blocked *plan.Timetable
	plans   int
}

// attempt is a timetable with slack, and what it is worth.
type attempt struct {
	at     []int // level of each step
	table  *plan.Timetable
	dinner *Dinner
	runs   *Runs
	worth  Worth
}

func (s *search) by(at []int) []time.Duration {
	out := make([]time.Duration, len(at))
	for i, l := range at {
		out[i] = s.levels[i][l]
	}
	return out
}

// try plans and judges some levels; nil where the context or the patience ends.
func (s *search) try(at []int) *attempt {
	if s.plans >= mostPlans || s.ctx.Err() != nil {
		return nil
	}
	s.plans++
	q := s.p.Slack(s.by(at))
	t := s.o.Make(s.ctx, q)
	if t.Status != plan.Whole && s.o.Again != nil { // the search gave up; what there was may do
		if again := s.o.Again(s.ctx, q, s.best.table); again != nil {
			t = again
		}
	}
	a := s.judged(at, s.written(t, s.by(at)))
	if s.ctx.Err() != nil {
		return nil // cut short: not what it would be
	}
	if s.o.Done != nil {
		s.o.Done(s.plans, s.best.worth.OnTime.P)
	}
	return a
}

// written is the timetable of a plan with slack as one of the plan as written: the slack
// is what each step takes in it beyond that.
func (s *search) written(t *plan.Timetable, by []time.Duration) *plan.Timetable {
	w := *t
	w.Slots = slices.Clone(t.Slots)
	for i := range w.Slots {
		w.Slots[i].Extra = by[i]
	}
	s.o.Check(s.p, &w)
	return &w
}

// judged simulates a timetable: with how long steps truly take.
func (s *search) judged(at []int, t *plan.Timetable) *attempt {
	d := New(s.p, t)
	r := d.Simulate(context.WithoutCancel(s.ctx), Options{Runs: tried, Seed: s.o.Seed, Thin: true, Hot: s.o.Hot})
	a := &attempt{at: at, table: t, dinner: d, runs: r}
	late, onTime := 0, 0
	for _, ok := range r.AllOnTime() {
		onTime += one(ok)
	}
	for _, course := range r.Late {
		for _, by := range course {
			if time.Duration(by)*time.Second >= LateFrom {
				late += int(by)
			}
		}
	}
	perEvening := func(seconds int) time.Duration {
		return time.Duration(float64(seconds) / float64(r.N) * float64(time.Second)).Round(time.Second)
	}
	a.worth = Worth{OnTime: chance(onTime, r.N), Late: perEvening(late), Begins: s.begins(t), Waits: perEvening(r.Waited)}
	return a
}

// begins is the first start on the dinner's day.
func (s *search) begins(t *plan.Timetable) time.Time {
	if first := t.FirstOn(s.p.CookDay()); !first.IsZero() {
		return plan.Earlier(first, s.p.Table)
	}
	return s.p.Table
}

// price is what an attempt costs.
func (a *attempt) price() time.Duration {
	return a.worth.Waits - time.Duration(a.worth.Begins.Unix())*time.Second
}

// holds reports whether a timetable breaks nothing, unless the first one does, and plans
// no course later than that.
func (s *search) holds(a *attempt) bool {
	if a.table.Status != plan.Whole && a.table.Status != s.first.Status {
		return false
	}
	for c := range s.p.Courses {
		if a.table.Lateness(s.p, c) > s.first.Lateness(s.p, c) {
			return false
		}
	}
	return true
}

// better reports whether an attempt is better than the best so far.
func (s *search) better(a *attempt) bool {
	if !s.holds(a) {
		s.blocked = a.table
		return false
	}
	is, was := a.worth.OnTime.P, s.best.worth.OnTime.P
	switch {
	case is >= s.o.Target && was >= s.o.Target:
		return a.price() < s.best.price()
	case is >= s.o.Target || was >= s.o.Target:
		return is >= s.o.Target
	case is != was && max(is, was) > seldom:
		return is > was
	}
	return a.worth.Late < s.best.worth.Late
}

// grow adds slack until the target is reached or nothing helps.
func (s *search) grow() {
	s.climb(s.thin, +1, func() bool { return s.best.worth.OnTime.P < s.o.Target })
}

// prune takes away the slack that buys least.
func (s *search) prune() {
	s.climb(s.idle, -1, func() bool { return s.best.worth.OnTime.P >= s.o.Target })
}

// climb moves the steps that want says by a level, all of them at first: half as many
// where that makes nothing better, all again, or twice as many of those that lose slack,
// where it does. A single one that makes
// nothing better is left alone.
func (s *search) climb(want func() []int, by int, more func() bool) {
	s.alone = make([]bool, len(s.best.at))
	size := len(s.best.at) // how many are moved at once
	for failures := 0; more() && failures < patience; {
		steps := want()
		if len(steps) == 0 {
			return
		}
		steps = steps[:min(size, len(steps))]
		at := slices.Clone(s.best.at)
		for _, i := range steps {
			at[i] += by
		}
		a := s.try(at)
		switch {
		case a == nil:
			return
		case s.better(a):
			s.best, failures, size = a, 0, 2*len(steps)
			if by > 0 { // what did not help before may now
				clear(s.alone)
				size = len(at)
			}
		case len(steps) == 1:
			s.alone[steps[0]] = true
			failures++
		default:
			size = (len(steps) + 1) / 2
		}
	}
}

// thin are the steps that may be planned longer, those first that would save the most
// lateness a minute.
func (s *search) thin() []int {
	var out []int
	for i, n := range s.best.runs.Critical {
		if float64(n) >= seldom*tried && !s.alone[i] && s.best.at[i]+1 < len(s.levels[i]) {
			out = append(out, i)
		}
	}
	less := func(i int) float64 {
		more := s.levels[i][s.best.at[i]+1] - s.levels[i][s.best.at[i]]
		return float64(s.best.runs.Less[i]) * min(1, float64(more)/float64(slackTried)) / more.Minutes()
	}
	slices.SortStableFunc(out, func(i, j int) int { return cmp.Compare(less(j), less(i)) })
	return out
}

// idle are steps whose slack may go by a level, those first that cost the fewest
// evenings; as many as the chance to spare allows, and one.
func (s *search) idle() []int {
	cut := make([]time.Duration, len(s.best.at))
	var out []int
	for i, l := range s.best.at {
		if l > 0 && !s.alone[i] {
			cut[i] = s.levels[i][l] - s.levels[i][l-1]
			out = append(out, i)
		}
	}
	lost := s.best.dinner.Lost(s.o.Seed, weighed, cut)
	slices.SortStableFunc(out, func(i, j int) int {
		return cmp.Or(cmp.Compare(lost[i], lost[j]), cmp.Compare(cut[j], cut[i]))
	})
	spare := int((s.best.worth.OnTime.P - s.o.Target) * weighed)
	n := 0
	for n < len(out) && (n == 0 || lost[out[n]] <= spare) {
		spare -= lost[out[n]]
		n++
	}
	return out[:n]
}

// Lost counts, for each step, in how many of the first runs that are on time some course
// would be late with so much less slack after the step: with the step as much longer.
//
// Shape: one entry for each step; nothing is counted where cut has 0.
func (d *Dinner) Lost(seed uint64, runs int, cut []time.Duration) []int {
	w := newWorker(d, Options{Seed: seed}, nil)
	out := make([]int, len(cut))
	for n := range runs {
		w.source.Draw(seed, n, w.took)
		if w.is.Run(w.took); !w.onTime(w.is) {
			continue
		}
		for i, by := range cut {
			if by > 0 {
				w.took[i] += int64(by)
				w.other.Run(w.took)
				w.took[i] -= int64(by)
				out[i] += one(!w.onTime(w.other))
			}
		}
	}
	return out
}

// sure tells what was found.
func (s *search) sure(first *attempt) *Sure {
	b := s.best
	out := &Sure{
		By: s.by(b.at), Timetable: b.table, Before: first.worth, After: b.worth,
		Reached: b.worth.OnTime.P >= s.o.Target, Plans: s.plans,
	}
	if out.Reached {
		return out
	}
	out.Blocked = s.blocked
	for c, late := range b.runs.Late {
		onTime := 0
		for _, by := range late {
			onTime += one(time.Duration(by)*time.Second < LateFrom)
		}
		if x := chance(onTime, b.runs.N); c == 0 || x.P < out.Chance.P {
			out.Thin, out.Chance = c, x
		}
	}
	for i, n := range b.runs.Critical {
		if n > 0 {
			out.Steps = append(out.Steps, Step{Step: i, Critical: chance(n, b.runs.N)})
		}
	}
	slices.SortStableFunc(out.Steps, func(x, y Step) int { return cmp.Compare(y.Critical.P, x.Critical.P) })
	return out
}
