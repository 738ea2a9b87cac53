package planner

import (
	"slices"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/solve"
)

// answer is read backwards: a timetable as an answer to the problem, with what is
// known by now in place of what was planned.
func (j *job) answer(t *plan.Timetable) *solve.Answer {
	a := &solve.Answer{
		Start: make([]solve.Tick, len(j.prob.Acts)), End: make([]solve.Tick, len(j.prob.Acts)),
		Choice: make([]int, len(j.prob.Uses)), StateOf: make([]int, len(j.prob.Stays)), Fresh: make([]bool, len(j.prob.Stays)),
	}
	for i, s := range t.Slots {
		a.Start[i], a.End[i] = j.tick(s.Start), j.tick(s.End)
	}
	for c, i := range j.due {
		a.Start[i] = j.tick(t.Serves[c])
		a.End[i] = a.Start[i]
	}
	for i, act := range j.prob.Acts {
		if act.Fixed {
			a.Start[i] = act.Start
			a.End[i] = max(a.End[i], act.Start+act.Min)
		}
		if act.FixedEnd {
			a.End[i] = act.End
		}
	}
	for i, of := range j.warmOf {
		a.Start[i] = a.End[of]
		for _, l := range j.prob.Lags { // until it is taken
			if l.From == solve.EndOf(i) && !l.Soft && !l.Relaxable && l.To.Act >= 0 {
				a.End[i] = a.Start[l.To.Act]
			}
		}
		if j.prob.Acts[i].Fixed {
			a.Start[i] = j.prob.Acts[i].Start
		}
	}
	for i, s := range t.Slots {
		if u := j.working[i]; u >= 0 && s.Cook >= 0 {
			a.Choice[u] = max(0, j.optionOf(u, j.hands[s.Cook]))
		}
		if u := j.burnerOf[i]; u >= 0 && s.Burner == plan.Large {
			a.Choice[u] = max(0, j.optionOf(u, j.large))
		}
	}
	for _, u := range j.touches {
		at := a.Start[u.step]
		if j.prob.Uses[u.use].From.End {
			at = a.End[u.step]
		}
		at += j.prob.Uses[u.use].FromPlus
		k := slices.IndexFunc(t.Touches, func(x plan.Touch) bool {
			return x.What == u.what && x.Step == u.step && j.tick(x.At) == at
		})
		if k >= 0 && t.Touches[k].Cook >= 0 {
			a.Choice[u.use] = t.Touches[k].Cook
		}
	}
	for k, s := range j.prob.Stays {
		a.StateOf[k] = s.States[0]
		if o := t.Slots[j.stepOf(s.Act)].Oven; o >= 0 && slices.Contains(s.States, o) {
			a.StateOf[k] = o
		}
	}
	for _, s := range t.Sets {
		if s.Off || s.For < 0 {
			continue
		}
		for k, stay := range j.prob.Stays {
			_, warm := j.warmOf[stay.Act]
			if j.stepOf(stay.Act) == s.For && warm == !j.time(a.End[s.For]).After(s.At) {
				a.Fresh[k] = true
			}
		}
	}
	return a
}

// optionOf returns the option of a use that asks for a resource, -1 for none.
func (j *job) optionOf(use, resource int) int {
	return slices.IndexFunc(j.prob.Uses[use].Options, func(o solve.Option) bool { return o[0].Resource == resource })
}
