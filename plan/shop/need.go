package shop

import (
	"regexp"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/ingredient"
)

// need is one line of one dish, scaled.
type need struct {
	ingredient.Line
	of   plan.Ingredient
	key  string
	dish int
	at   time.Time // when its step starts
	by   time.Time // when it must be in the house: before that, if it must thaw
	step int
	// times is by how much the amounts were multiplied; lo, hi are the result, in the
	// line's own unit.
	times  float64
	lo, hi float64
}

// gather reads every line of every dish.
func gather(p *plan.Plan, t *plan.Timetable, in func(time.Time) time.Time) []need {
	var out []need
	for d := range p.Dishes {
		dish := &p.Dishes[d]
		for _, i := range dish.Ingredients {
			n := need{Line: ingredient.Of(i, system(p)), of: i, dish: d, step: i.Step}
			if n.Heading {
				continue
			}
			if n.step < 0 {
				n.step = firstStep(dish, t)
			}
			n.at = in(t.Slots[n.step].Start)
			if n.key = ingredient.Key(n.Item); n.key == "water" {
				continue // it comes out of the tap
			}
			n.times = Times(p, d)
			switch {
			case i.Fixed || forFrying(n.Line):
				n.times = 1
			case n.PerPerson && p.Guests > 0:
				n.times = float64(p.Guests)
			}
			n.lo, n.hi = n.Amount.Lo*n.times, n.Amount.Hi*n.times
			n.by = n.at
			if takes, _ := n.thaws(p); takes > 0 {
				n.by = n.at.Add(-takes)
			}
			out = append(out, n)
		}
	}
	return out
}

// firstStep returns the step of the dish that the timetable starts first.
func firstStep(d *plan.Dish, t *plan.Timetable) int {
	first := d.Steps[0]
	for _, s := range d.Steps {
		if t.Slots[s].Start.Before(t.Slots[first].Start) {
			first = s
		}
	}
	return first
}

// Times returns by how much a dish is multiplied: guests by what the recipe makes. 1
// where the plan does not say both.
func Times(p *plan.Plan, dish int) float64 {
	if makes := p.Dishes[dish].Makes; makes > 0 && p.Guests > 0 {
		return float64(p.Guests) / float64(makes)
	}
	return 1
}

var frying = regexp.MustCompile(`(?i)\bfor (deep[- ]?|shallow[- ]?)?frying\b|\bto fry\b`)

// forFrying tells fat whose amount the pan decides, not the guests.
func forFrying(l ingredient.Line) bool { return frying.MatchString(l.Note) }
