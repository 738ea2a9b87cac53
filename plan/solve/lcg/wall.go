package lcg

import (
	"cmp"
	"slices"
)

// wall is a stretch of time with the tasks that have it whatever is decided, where they
// are present: hours in which nobody is there, what facts have taken. A task that they
// leave no room is not at any moment of it:
//
//	it begins after from − Least ⇒ it begins at to or later
//
// and the same from behind. A push that asks of every moment by itself would go over a
// night in hundreds of steps, each to be explained.
type wall struct {
	from, to int32
	tasks    []int32 // the greatest amounts first
}

// build finds the walls.
func (p *cumulative) build(s *Solver) {
	var given, times []int32
	for i, t := range p.tasks {
		if from, to := s.upper(t.From), s.lower(t.To); t.Group == 0 && from < to {
			given = append(given, int32(i))
			times = append(times, from, to)
		}
	}
	slices.Sort(times)
	times = slices.Compact(times)
	slices.SortStableFunc(given, func(a, b int32) int { return cmp.Compare(p.tasks[b].Amount, p.tasks[a].Amount) })
	for k := 1; k < len(times); k++ {
		w := wall{from: times[k-1], to: times[k]}
		for _, i := range given {
			if t := &p.tasks[i]; s.upper(t.From) <= w.from && w.to <= s.lower(t.To) {
				w.tasks = append(w.tasks, i)
			}
		}
		p.walls = append(p.walls, w)
	}
}

// wall returns the wall that a cell is in, if it leaves task i no room now, else −1.
func (p *cumulative) wall(s *Solver, i, c int32) int32 {
	k, in := slices.BinarySearchFunc(p.walls, c+p.low, func(w wall, at int32) int {
		switch {
		case w.to <= at:
			return -1
		case w.from > at:
			return 1
		}
		return 0
	})
	if !in {
		return -1
	}
	room := p.capacity - p.tasks[i].Amount
	for _, w := range p.walls[k].tasks {
		if t := &p.tasks[w]; w != i && s.Holds(t.Present) {
			if room -= t.Amount; room < 0 {
				return int32(k)
			}
		}
	}
	return -1
}

// leapt appends why task i was moved over wall at, or back over wall ^at.
func (p *cumulative) leapt(s *Solver, i, at int32, out []Lit) []Lit {
	t, w := &p.tasks[i], &p.walls[max(at, ^at)]
	if at >= 0 {
		out = append(out, t.From.AtLeast(w.from+1-t.Least))
	} else {
		out = append(out, t.To.AtMost(w.to-1+t.Least))
	}
	if t.Present.V >= 0 {
		out = append(out, t.Present)
	}
	room := p.capacity - t.Amount
	for _, k := range w.tasks {
		u := &p.tasks[k]
		if k == i || !s.Holds(u.Present) {
			continue
		}
		if u.Present.V >= 0 {
			out = append(out, u.Present)
		}
		if room -= u.Amount; room < 0 {
			break
		}
	}
	return out
}
