package tui

import (
	"fmt"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

// Which shelf, which burner. A timetable counts them; that the same pot stands on
// the same one as long as it is there is settled here, in the order of time.

// spots are the numbers of shelves and burners that steps have, from 1; 0 for none.
type spots struct{ shelf, burner []int }

func (m *Model) spots() spots {
	p, t := m.state.Plan, m.state.Timetable
	out := spots{make([]int, len(p.Steps)), make([]int, len(p.Steps))}
	if t == nil {
		return out
	}
	for o := range p.Kitchen.Ovens {
		m.number(out.shelf, p.Kitchen.Ovens[o].Shelves/2, func(i int) int {
			if p.Steps[i].Oven == nil || t.Slots[i].Oven != o {
				return 0
			}
			return 1
		})
	}
	for size, n := range map[plan.BurnerSize]int{plan.Small: p.Kitchen.Burners.Small, plan.Large: p.Kitchen.Burners.Large} {
		m.number(out.burner, n, func(i int) int {
			if p.Steps[i].Burner == nil || t.Slots[i].Burner != size {
				return 0
			}
			return p.Steps[i].Burner.Count
		})
	}
	return out
}

// number gives each step that uses any of n like things the number of its first.
func (m *Model) number(of []int, n int, uses func(step int) int) {
	var in []piece
	for i := range of {
		k := uses(i)
		if k == 0 {
			continue
		}
		if q, ok := m.pieceOf(i); ok {
			for range k {
				in = append(in, q)
			}
		}
	}
	for k, l := range packed("", in) {
		for _, q := range l.pieces {
			if k < n && of[q.step] == 0 {
				of[q.step] = k + 1
			}
		}
	}
}

// places says where something going is, in short and in full: "large 1", "large
// burner 1".
func (m *Model) places(g *run.Going, at spots) (short, full string) {
	if g.Step < 0 || m.state.Timetable == nil {
		return g.Place, g.Place
	}
	p, slot := m.state.Plan, m.state.Timetable.Slots[g.Step]
	step := &p.Steps[g.Step]
	full = g.Place
	switch {
	case step.Oven != nil && slot.Oven >= 0:
		short = p.Kitchen.Ovens[slot.Oven].Name
		if k := at.shelf[g.Step]; k > 0 && p.Kitchen.Ovens[slot.Oven].Shelves > 2 {
			full += fmt.Sprintf(", shelf %d", k)
		}
	case step.Burner != nil && slot.Burner != plan.AnyBurner:
		short = slot.Burner.String()
		if k := at.burner[g.Step]; k > 0 && step.Burner.Count == 1 {
			short += fmt.Sprintf(" %d", k)
			full += fmt.Sprintf(" %d", k)
		}
	case step.Cold != "":
		short = step.Cold
	case slot.Cook >= 0 && len(p.Kitchen.Cooks) > 1:
		short = p.Kitchen.Cooks[slot.Cook].Name
	}
	return short, full
}
