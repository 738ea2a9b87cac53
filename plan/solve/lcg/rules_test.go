package lcg

import (
	"slices"
	"testing"
)

// What each rule does, by hand, for a reader. That it does so in all cases is
// what TestModels asks.

// expect propagates and compares the bounds of a variable.
func expect(t *testing.T, s *Solver, v Var, low, high int32) {
	t.Helper()
	if !s.propagate() {
		t.Fatalf("conflict: %v", s.confl)
	}
	if s.Lower(v) != low || s.Upper(v) != high {
		t.Errorf("bounds [%d, %d], want [%d, %d]", s.Lower(v), s.Upper(v), low, high)
	}
}

// decide opens a level.
func decide(s *Solver, l Lit) {
	s.level = append(s.level, int32(len(s.trail)))
	s.push(l, reason{by: byDecision})
}

// why is the explanation of a literal, which was the last to be set.
func why(s *Solver, l Lit) []Lit {
	e := s.trail[s.entryOf(l)]
	for s.Holds(l) {
		s.pop()
	}
	return s.explain(l, e.why, nil)
}

func wantLits(t *testing.T, got []Lit, want ...Lit) {
	t.Helper()
	if !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}

func TestNot(t *testing.T) {
	t.Parallel()
	for _, l := range []Lit{True, True.Not(), AtLeast(0, 2), AtMost(0, -1), View{1, 4}.AtLeast(3), View{1, 4}.AtMost(3)} {
		for x := int32(-5); x <= 5; x++ {
			if isTrue(l, []int32{x}) == isTrue(l.Not(), []int32{x}) {
				t.Errorf("%v and %v are alike at %d", l, l.Not(), x)
			}
		}
	}
}

func TestArc(t *testing.T) {
	t.Parallel()
	var s Solver
	x, y := s.NewVar(0, 9), s.NewVar(0, 9)
	s.Arc(View{V: x}, View{V: y}, 3, True)  // y ≥ x + 3
	s.Arc(View{V: y}, View{V: x}, -5, True) // y ≤ x + 5
	expect(t, &s, y, 3, 9)
	expect(t, &s, x, 0, 6)
	decide(&s, AtLeast(x, 4))
	expect(t, &s, y, 7, 9)
	wantLits(t, why(&s, AtLeast(y, 5)), AtLeast(x, 2)) // no more than is needed
}

func TestArcInACircle(t *testing.T) {
	t.Parallel()
	var s Solver
	x, y := s.NewVar(0, 9), s.NewVar(0, 9)
	ok := s.Arc(View{V: x}, View{V: y}, 3, True) && s.Arc(View{V: y}, View{V: x}, -2, True)
	if status, core := s.Solve([]Lit{AtLeast(x, 1)}, 0, nil); status != Unsat || len(core) > 0 {
		t.Errorf("a circle of length 1: %v, status %v, core %v", ok, status, core)
	}
	if s = (Solver{}); s.Arc(View{V: s.NewVar(0, 9)}, View{V: 0, Plus: 1}, 2, True) {
		t.Error("x + 1 ≥ x + 2 was taken for possible")
	}
}

func TestArcCondition(t *testing.T) {
	t.Parallel()
	var s Solver
	x, y, if3 := s.NewVar(0, 9), s.NewVar(0, 9), s.NewBool()
	s.Arc(View{V: x}, View{V: y}, 3, if3)
	expect(t, &s, y, 0, 9)
	decide(&s, if3)
	expect(t, &s, y, 3, 9)
	wantLits(t, why(&s, AtLeast(y, 3)), AtLeast(x, 0), if3)
	s.cancel(0)
	decide(&s, AtMost(y, 4))
	decide(&s, AtLeast(x, 5))
	expect(t, &s, if3.V, 0, 0)
	// y is looked at first: 5 + 3 > 7 suffices.
	wantLits(t, why(&s, if3.Not()), AtMost(y, 7), AtLeast(x, 5))
}

func TestClause(t *testing.T) {
	t.Parallel()
	var s Solver
	x, y := s.NewVar(0, 9), s.NewVar(0, 9)
	s.Clause(AtLeast(x, 7), AtMost(x, 2), AtLeast(y, 5), True.Not())
	decide(&s, AtLeast(x, 3))
	expect(t, &s, x, 3, 9)
	decide(&s, AtMost(x, 6))
	expect(t, &s, y, 5, 9)
	wantLits(t, why(&s, AtLeast(y, 4)), AtMost(x, 6), AtLeast(x, 3))
}

func TestLinear(t *testing.T) {
	t.Parallel()
	var s Solver
	x, y, z, on := s.NewVar(0, 9), s.NewVar(0, 9), s.NewVar(0, 9), s.NewBool()
	s.Linear([]Term{{2, x}, {3, y}, {1, z}}, 12, on)
	expect(t, &s, y, 0, 9)
	decide(&s, on)
	expect(t, &s, y, 0, 4)
	decide(&s, AtLeast(z, 1))
	expect(t, &s, y, 0, 3)
	decide(&s, AtLeast(x, 4)) // 3y ≤ 12 − 8 − 1
	expect(t, &s, y, 0, 1)
	// y ≤ 1 needs 2x + z > 6: z may fall to where it began.
	wantLits(t, why(&s, AtMost(y, 1)), AtLeast(z, 0), AtLeast(x, 4), on)
}

func TestLinearConditionFails(t *testing.T) {
	t.Parallel()
	var s Solver
	x, on := s.NewVar(0, 9), s.NewBool()
	s.Linear([]Term{{2, x}}, 7, on)
	decide(&s, AtLeast(x, 6))
	expect(t, &s, on.V, 0, 0)
}

// at is a task of so long from a variable on.
func at(v Var, length int32) Task {
	return Task{From: View{V: v}, To: View{V: v, Plus: length}, Least: length, Amount: 1, Present: True}
}

func TestCumulativePushes(t *testing.T) {
	t.Parallel()
	var s Solver
	x, y, z := s.NewVar(0, 9), s.NewVar(0, 9), s.NewVar(0, 9)
	s.Cumulative(1, []Task{at(x, 4), at(y, 2), at(z, 0)})
	expect(t, &s, y, 0, 9)
	decide(&s, AtLeast(x, 2))
	expect(t, &s, y, 0, 9)
	decide(&s, AtMost(x, 4)) // x is surely there in [4, 6)
	decide(&s, AtLeast(y, 3))
	expect(t, &s, y, 6, 9)
	expect(t, &s, z, 0, 9) // what lasts no time needs no room
	// From 4 on y would be there at 5, as x is.
	wantLits(t, why(&s, AtLeast(y, 6)), AtLeast(y, 4), AtMost(x, 5), AtLeast(x, 2))
	s.cancel(2)
	decide(&s, AtMost(y, 4))
	expect(t, &s, y, 0, 2)
}

func TestCumulativeAbsent(t *testing.T) {
	t.Parallel()
	var s Solver
	x, y, here := s.NewVar(2, 2), s.NewVar(0, 9), s.NewBool()
	task := at(y, 2)
	task.Present = here
	s.Cumulative(1, []Task{at(x, 4), task})
	decide(&s, AtLeast(y, 3))
	expect(t, &s, y, 3, 9)
	decide(&s, AtMost(y, 4))
	expect(t, &s, here.V, 0, 0)
}

func TestCumulativeVariableLength(t *testing.T) {
	t.Parallel()
	var s Solver
	x, y, end := s.NewVar(5, 5), s.NewVar(0, 9), s.NewVar(0, 9)
	s.Arc(View{V: y}, View{V: end}, 1, True)
	s.Cumulative(1, []Task{at(x, 2), {From: View{V: y}, To: View{V: end}, Least: 1, Amount: 1, Present: True}})
	decide(&s, AtMost(y, 3))
	expect(t, &s, end, 1, 9)
	decide(&s, AtLeast(end, 4)) // it is there at 3: then it ends before 5 or lies over x
	expect(t, &s, end, 4, 9)
	decide(&s, AtLeast(end, 6))
	if s.propagate() {
		t.Error("y is there from 3 to 6 and so is x")
	}
}

func TestCumulativeGroups(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name        string
		n, capacity int32
		want        Status
	}{
		{"two-as-one", 2, 1, Sat},
		{"three-as-two", 3, 1, Unsat},
		{"four-as-two", 4, 2, Sat},
		{"five-as-three", 5, 2, Unsat},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			var s Solver
			var tasks []Task
			for range c.n {
				one := at(s.NewVar(3, 3), 1)
				one.Group = 1
				tasks = append(tasks, one)
			}
			s.Cumulative(c.capacity, tasks)
			if got, _ := s.Solve(nil, 0, nil); got != c.want {
				t.Errorf("status %v, want %v", got, c.want)
			}
		})
	}
}
