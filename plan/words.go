package plan

import (
	"fmt"
	"time"
)

// Spell writes a length as a cook reads it, in whole minutes rounded up: "17 min",
// "2 h", "1 h 30 min".
func Spell(d time.Duration) string {
	h, m := Minutes(d)/60, Minutes(d)%60
	switch {
	case h == 0:
		return fmt.Sprintf("%d min", m)
	case m == 0:
		return fmt.Sprintf("%d h", h)
	}
	return fmt.Sprintf("%d h %d min", h, m)
}

// Several counts things in words: "1 large burner", "2 large burners".
func Several(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}

// StepName is a step with its dish, "Gratin: Bake"; of a chore what to do alone.
func (p *Plan) StepName(i int) string {
	s := &p.Steps[i]
	if d := &p.Dishes[s.Dish]; d.Chore == nil && d.Name != "" {
		return d.Name + ": " + s.Do
	}
	return s.Do
}

// NameBeside is the step's name in a sentence about another step: without the
// dish where it is the same.
func (p *Plan) NameBeside(i, other int) string {
	if p.Steps[i].Dish == p.Steps[other].Dish {
		return p.Steps[i].Do
	}
	return p.StepName(i)
}

// SpellShelves writes oven space given in half shelves: "half a shelf", "2 shelves",
// "1.5 shelves".
func SpellShelves(half int) string {
	switch {
	case half == 1:
		return "half a shelf"
	case half == 2:
		return "1 shelf"
	case half%2 == 0:
		return fmt.Sprintf("%d shelves", half/2)
	}
	return fmt.Sprintf("%.1f shelves", float64(half)/2)
}
