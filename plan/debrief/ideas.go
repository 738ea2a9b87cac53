package debrief

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/mishap"
)

// Idea is something that might be done otherwise next time. Whether it helps only
// playing the dinner again with it can tell.
type Idea struct {
	Do string // what, in the imperative: "plan Roast the pork with 4 h 25 min, as it took"
	// Plan is the plan with it.
	Plan *plan.Plan
	// Drop is what is left out from the start, none for nothing.
	Drop []mishap.Mishap
}

// Tried is an idea after the dinner was played again with it. The first that is
// tried does nothing otherwise: the same evening, with every cue answered when due.
type Tried struct {
	Do string
	// Late is how late each course then was, beyond what it was held; whole minutes. Of
	// one that was not served at all, how long it had been waited for in vain: Unserved.
	Late     []time.Duration
	Unserved []int
	// Start is when the first step of the last hours then began.
	Start time.Time
	// Broken is how many rules it broke.
	Broken int
}

// Ideas are what might have made a late dinner less late; none for one that was not.
// The first changes nothing, to compare the others with. Then: the steps that made it late planned as long as they took, the whole dinner planned
// cautiously, and each thing left out that the plan calls optional.
func Ideas(d Dinner, b Debrief) (out []Idea) {
	if !b.Late() {
		return nil
	}
	out = append(out, Idea{Plan: d.Plan})
	if steps := b.causes(); len(steps) > 0 {
		p := *d.Plan
		p.Steps = slices.Clone(p.Steps)
		var names []string
		for _, i := range steps {
			took := time.Duration(plan.Minutes(d.took(i))) * time.Minute
			l := &p.Steps[i].Length
			l.Likely, l.Shortest, l.Longest = took, min(l.Shortest, took), max(l.Longest, took)
			names = append(names, p.StepName(i)+" with "+plan.Spell(took))
		}
		it := "it"
		if len(steps) > 1 {
			it = "they"
		}
		out = append(out, Idea{Do: "plan " + strings.Join(names, " and ") + ", as long as " + it + " took", Plan: &p})
	}
	if p := d.Plan.Cautious(); !slices.EqualFunc(p.Steps, d.Plan.Steps, func(a, b plan.Step) bool { return a.Length == b.Length }) {
		out = append(out, Idea{Do: "plan cautiously (--cautious)", Plan: p})
	}
	drop := func(name string, dish, step int) {
		m := mishap.None(mishap.Dropped)
		m.Dish, m.Step, m.At = dish, step, d.From
		out = append(out, Idea{Do: "leave out " + name, Plan: d.Plan, Drop: []mishap.Mishap{m}})
	}
	for i, s := range d.Plan.Steps {
		switch dish := d.Plan.Dishes[s.Dish]; {
		case !dish.Optional && s.Optional && d.there(i):
			drop(d.Plan.StepName(i), -1, i)
		case dish.Optional && i == dish.Steps[0] && slices.ContainsFunc(dish.Steps, d.there):
			name := dish.Name
			if name == "" {
				name = d.Plan.StepName(i)
			}
			drop(name, s.Dish, -1)
		}
	}
	return out
}

// causes are the steps that made courses late by taking longer, each once, in the
// order of the plan.
func (b *Debrief) causes() (out []int) {
	for _, c := range b.Courses {
		for _, w := range c.Why {
			if w.Took > w.Planned && !slices.Contains(out, w.Step) {
				out = append(out, w.Step)
			}
		}
	}
	slices.Sort(out)
	return out
}

// Again is the script by which the same evening happens to another plan of the same
// steps: what was told, and every step of the last hours that the food decides takes
// as long as it took.
func (d *Dinner) Again(told []mishap.Mishap) (out []mishap.Mishap) {
	for _, m := range told {
		if m.Kind != mishap.Takes && m.Kind != mishap.Longer && m.Kind != mishap.TakeRemedy {
			out = append(out, m)
		}
	}
	for i, s := range d.Plan.Steps {
		if d.there(i) && !s.Length.Elastic && d.Was.Slots[i].Progress == plan.Done {
			m := mishap.None(mishap.Takes)
			m.Step, m.By = i, d.took(i)
			out = append(out, m)
		}
	}
	return out
}

// Helps returns those of the ideas tried, after the first, that made the dinner less
// late than that and broke no more rules: the least late first, then the latest start.
func Helps(tried []Tried) (out []Tried) {
	for k := 1; k < len(tried); k++ {
		if t := tried[k]; t.Broken <= tried[0].Broken && t.Sum() < tried[0].Sum() {
			out = append(out, t)
		}
	}
	slices.SortStableFunc(out, func(x, y Tried) int { return cmp.Or(cmp.Compare(x.Sum(), y.Sum()), y.Start.Compare(x.Start)) })
	return out
}

// Sum is by how much all courses together were late.
func (t *Tried) Sum() (sum time.Duration) {
	for _, d := range t.Late {
		sum += d
	}
	return sum
}
