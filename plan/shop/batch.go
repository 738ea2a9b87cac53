package shop

import (
	"fmt"
	"math"
	"slices"

	"example.org/kettledrum/plan"
)

// room is how much oven the larger amount of a step takes, in half shelves.
type room struct {
	step    int
	whole   int   // all of it
	batches []int // of each batch; one where the oven holds it at once
}

// rooms returns the steps that take more oven for the guests than they are written
// with: the room grows with the amount, as pans of the same depth do.
func rooms(p *plan.Plan) []room {
	var out []room
	for i := range p.Steps {
		s := &p.Steps[i]
		times := Times(p, s.Dish)
		if s.Oven == nil || times <= 1 {
			continue
		}
		holds := 0
		for o, oven := range p.Kitchen.Ovens {
			if s.Oven.In < 0 || s.Oven.In == o {
				holds = max(holds, oven.Shelves)
			}
		}
		r := room{step: i, whole: int(math.Ceil(float64(s.Oven.Space)*times - 1e-9))}
		if r.whole == s.Oven.Space || holds == 0 {
			continue
		}
		for left := r.whole; left > 0; left -= holds {
			r.batches = append(r.batches, min(left, holds))
		}
		out = append(out, r)
	}
	return out
}

// Larger returns the plan as it is when every dish is cooked for the guests: what
// bakes takes the room it then takes, and what the oven does not hold at once becomes
// a second batch, a step beside the first. nil where the oven holds all as written.
// Work by hand and pots stay as they are written: the plan does not say how they grow.
func Larger(p *plan.Plan) *plan.Plan {
	grown := rooms(p)
	if len(grown) == 0 {
		return nil
	}
	q := *p
	q.Steps, q.Dishes = slices.Clone(p.Steps), slices.Clone(p.Dishes)
	for i := range q.Steps {
		q.Steps[i].After = slices.Clone(q.Steps[i].After)
	}
	for i := range q.Dishes {
		q.Dishes[i].Steps = slices.Clone(q.Dishes[i].Steps)
	}
	for _, r := range grown {
		oven := *q.Steps[r.step].Oven
		oven.Space = r.batches[0]
		q.Steps[r.step].Oven = &oven
		for n, space := range r.batches[1:] {
			batch := q.Steps[r.step]
			more := oven
			more.Space = space
			batch.Oven, batch.AtOnce = &more, false
			batch.After = slices.Clone(batch.After)
			batch.ID = fmt.Sprintf("%s-batch-%d", batch.ID, n+2)
			batch.Do = fmt.Sprintf("%s, batch %d", batch.Do, n+2)
			at := len(q.Steps)
			for j := range q.Steps { // what follows the step follows all its batches
				for _, l := range q.Steps[j].After {
					if l.Step == r.step {
						l.Step = at
						q.Steps[j].After = append(q.Steps[j].After, l)
						break
					}
				}
			}
			q.Steps = append(q.Steps, batch)
			d := &q.Dishes[batch.Dish]
			d.Steps = slices.Insert(d.Steps, slices.Index(d.Steps, r.step)+1, at)
		}
	}
	return &q
}

// Judge notes whether the larger plan holds, by its timetable and that of the plan as
// it is written.
func (l *List) Judge(larger *plan.Plan, t, written *plan.Timetable) {
	const with = "with that room in the oven, and batches where it is too small, "
	const but = "; longer work by hand and larger pots are not in it"
	add := func(text string) { l.Notes = append(l.Notes, Note{"", with + text}) }
	var broken []plan.Break
	for _, b := range t.Breaks {
		if b.Kind.Hard() {
			broken = append(broken, b)
		}
	}
	switch {
	case t.Status == plan.Broken && written.Status == plan.Broken:
		add("the timetable does not hold, as it does not without")
	case t.Status == plan.Broken && len(broken) == 0:
		add("the timetable does not hold")
	case t.Status == plan.Broken && len(broken) == 1:
		add("the timetable does not hold: " + broken[0].Text)
	case t.Status == plan.Broken:
		add(fmt.Sprintf("the timetable does not hold: %s, and %d more", broken[0].Text, len(broken)-1))
	default:
		late := ""
		for c := range larger.Courses {
			if by := t.Lateness(larger, c); by > written.Lateness(larger, c) {
				late += fmt.Sprintf("; %s is %s late, within what it allows", larger.Courses[c].Name, plan.Spell(by))
			}
		}
		add("the timetable still holds" + late + but)
	}
}
