package safety

import (
	"cmp"
	"slices"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/source"
)

// Cautions returns what a cook should know of a plan as its timetable has it, by
// the time of its step. What the plan accepts is among it, marked so. A step that has
// slack may be done before that is used up, and what it made waits longer then: what
// that would draw is among it too.
func Cautions(p *plan.Plan, t *plan.Timetable) []plan.Caution {
	if len(t.Slots) != len(p.Steps) || len(t.Serves) != len(p.Courses) {
		return nil // no timetable of this plan
	}
	found := cautions(p, t)
	if early := withoutSlack(t); early != nil {
		for _, c := range cautions(p, early) {
			k := slices.IndexFunc(found, func(o plan.Caution) bool { return o.Code == c.Code && o.Step == c.Step })
			if k < 0 {
				found = append(found, c)
			}
		}
	}
	slices.SortStableFunc(found, func(a, b plan.Caution) int {
		return cmp.Or(t.Slots[a.Step].Start.Compare(t.Slots[b.Step].Start), cmp.Compare(a.Step, b.Step))
	})
	return found
}

// withoutSlack returns a timetable in which each step to come that has slack ends
// without it; nil where none has.
func withoutSlack(t *plan.Timetable) *plan.Timetable {
	var early *plan.Timetable
	for i, s := range t.Slots {
		if s.Extra <= 0 || s.Progress != plan.Ahead {
			continue
		}
		if early == nil {
			c := *t
			c.Slots = slices.Clone(t.Slots)
			early = &c
		}
		early.Slots[i].End = s.End.Add(-s.Extra)
	}
	return early
}

// cautions is Cautions of the ends that a timetable has.
func cautions(p *plan.Plan, t *plan.Timetable) []plan.Caution {
	f := &finder{path: trace(p, t)}
	f.targets()
	f.raws()
	f.ovens()
	f.times()
	f.keeps()
	f.pots()
	f.reheats()
	f.thaws()
	f.eggs()
	f.flours()
	f.burns()
	f.birds()
	f.allergens()
	f.guests() // looks at what was found
	return f.found
}

// finder collects cautions.
type finder struct {
	*path
	found []plan.Caution
}

// add adds a caution of a code about a step: what it is, what to do, and the source
// of the figure where it is not that of the code. The same is not
// added twice.
func (f *finder) add(code string, step int, text, do string, from ...source.Source) {
	k := slices.IndexFunc(advices, func(a advice) bool { return a.code == code })
	if k < 0 {
		panic("safety: there is no advice for " + code)
	}
	a := advices[k]
	src := a.source
	if len(from) > 0 {
		src = from[0]
	}
	c := plan.Caution{Code: code, Step: step, Text: text, Why: a.why, Do: do, Source: src.String()}
	for _, x := range f.p.Steps[step].Accept {
		if x.Code == code {
			c.Accepted = x.Reason
		}
	}
	if slices.ContainsFunc(f.found, func(o plan.Caution) bool {
		return o.Code == code && o.Step == step && o.Text == text
	}) {
		return
	}
	f.found = append(f.found, c)
}

// temp writes a temperature as the plan shows them.
func (f *finder) temp(c plan.Celsius) string { return f.p.Units.Temp(c) }

// degrees writes one that is published in degrees Fahrenheit.
func (f *finder) degrees(fahrenheit int) string {
	return f.temp(plan.FromFahrenheit(float64(fahrenheit)))
}

// dishes goes through the dishes that are to be made, chores left out.
func (f *finder) dishes(look func(d *plan.Dish, steps []int)) {
	for k := range f.p.Dishes {
		d := &f.p.Dishes[k]
		if d.Chore != nil {
			continue
		}
		steps := slices.DeleteFunc(slices.Clone(d.Steps), f.skipped)
		if len(steps) > 0 {
			look(d, steps)
		}
	}
}
