package lcg

import "testing"

// A task is over a wall, or back over it, in one step, wherever in it the first moment
// is at which it has no room, and though the wall may begin a little sooner.
func TestWallIsLeapt(t *testing.T) {
	t.Parallel()
	const dusk, dawn, end, least = 1000, 2000, 3000, 7
	task := func(v View, least int32) Task {
		return Task{From: v, To: View{V: v.V, Plus: v.Plus + least}, Least: least, Amount: 1, Present: True}
	}
	s := &Solver{}
	zero, after, before := s.NewVar(0, 0), s.NewVar(dusk, end), s.NewVar(0, dawn-1)
	night := Task{From: View{V: s.NewVar(dusk-60, dusk)}, To: View{V: zero, Plus: dawn}, Least: dawn - dusk, Amount: 1, Present: True}
	s.Cumulative(1, []Task{night, task(View{V: after}, least)})
	s.Cumulative(1, []Task{night, task(View{V: before}, least)})
	if !s.Under(nil, func() {
		if got := s.Lower(after); got != dawn {
			t.Errorf("the one begins at %d, want %d", got, dawn)
		}
		if got := s.Upper(before); got != dusk-least {
			t.Errorf("the other begins by %d, want %d", got, dusk-least)
		}
	}) {
		t.Error("there is no room by day")
	}
	if n := s.Stats.Propagations; n != 2 {
		t.Errorf("%d steps, want one each", n)
	}
}

// A resource that is added while something is decided has no wall of what was decided.
func TestWallIsOfTheRoot(t *testing.T) {
	t.Parallel()
	s := &Solver{}
	task := func(v Var, least int32) Task {
		return Task{From: View{V: v}, To: View{V: v, Plus: least}, Least: least, Amount: 1, Present: True}
	}
	first, next, last := s.NewVar(0, 0), s.NewVar(0, 9), s.NewVar(0, 9)
	s.level = append(s.level, 0)
	s.push(AtMost(last, 0), reason{by: byDecision})
	s.Cumulative(1, []Task{task(first, 1), task(next, 2), task(last, 4)})
	if st, _ := s.Solve([]Lit{AtLeast(last, 5), AtMost(next, 1)}, 0, nil); st != Sat {
		t.Errorf("status %d, want an answer with one after the other", st)
	}
}
