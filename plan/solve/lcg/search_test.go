package lcg

import (
	"slices"
	"testing"
)

func TestCore(t *testing.T) {
	t.Parallel()
	var s Solver
	x, y, z := s.NewVar(0, 9), s.NewVar(0, 9), s.NewVar(0, 9)
	s.Arc(View{V: x}, View{V: y}, 3, True)
	s.Arc(View{V: y}, View{V: z}, 3, True)
	assume := []Lit{AtLeast(y, 1), AtLeast(x, 2), AtMost(y, 8), AtMost(z, 7)}
	status, core := s.Solve(assume, 0, nil)
	if want := []Lit{AtLeast(x, 2), AtMost(z, 7)}; status != Unsat || !slices.Equal(core, want) {
		t.Errorf("status %v, core %v, want %v", status, core, want)
	}
	if status, _ = s.Solve(assume[:3], 0, nil); status != Sat {
		t.Error("without the last assumption there is no solution")
	}
	if status, core = s.Solve([]Lit{True, True.Not()}, 0, nil); status != Unsat || !slices.Equal(core, []Lit{True.Not()}) {
		t.Errorf("what is never true: status %v, core %v", status, core)
	}
}

func TestLuby(t *testing.T) {
	t.Parallel()
	want := []int64{1, 1, 2, 1, 1, 2, 4, 1, 1, 2, 1, 1, 2, 4, 8}
	for i, w := range want {
		if got := luby(int64(i + 1)); got != w {
			t.Errorf("luby(%d) = %d, want %d", i+1, got, w)
		}
	}
}

// pigeons is n pigeons, each in one of so many holes, no two in the same.
func pigeons(n, holes int32) *Solver {
	s := &Solver{}
	var all []Task
	for range n {
		all = append(all, at(s.NewVar(0, holes-1), 1))
	}
	s.Cumulative(1, all)
	return s
}

func TestRestartAndForget(t *testing.T) {
	t.Parallel()
	s := pigeons(7, 6)
	if status, _ := s.Solve(nil, 0, nil); status != Unsat {
		t.Errorf("status %v", status)
	}
	if s.Stats.Restarts == 0 || int64(s.learnts) >= s.Stats.Learnt {
		t.Errorf("%d restarts, %d clauses kept of %+v", s.Stats.Restarts, s.learnts, s.Stats)
	}
}

// Many short questions may keep as much as a long one.
func TestKeepGrowsOverQuestions(t *testing.T) {
	t.Parallel()
	s := pigeons(8, 7)
	s.keep = 20
	for range 40 {
		before := s.keep
		s.Solve(nil, 20, nil)
		if s.keep < before {
			t.Fatalf("%d learnt clauses may be kept, before it were %d", s.keep, before)
		}
	}
	if s.keep == 20 {
		t.Errorf("%d learnt clauses may be kept after %+v", s.keep, s.Stats)
	}
}

func TestLimit(t *testing.T) {
	t.Parallel()
	s := pigeons(7, 6)
	for n := range int64(3) {
		if status, _ := s.Solve(nil, 5, nil); status != Limit || s.Stats.Conflicts != 5*(n+1) {
			t.Fatalf("run %d: status %v after %d conflicts", n, status, s.Stats.Conflicts)
		}
	}
	if status, _ := s.Solve(nil, 0, nil); status != Unsat {
		t.Errorf("without a limit: status %v", status)
	}
	if status, _ := pigeons(7, 6).Solve(nil, 0, func() bool { return true }); status != Limit {
		t.Errorf("stopped: status %v", status)
	}
}

func TestPrefer(t *testing.T) {
	t.Parallel()
	var s Solver
	x, y := s.NewVar(0, 9), s.NewVar(0, 9)
	s.Arc(View{V: x}, View{V: y}, 1, True)
	s.Branch = func(s *Solver) (Lit, bool) {
		for _, v := range []Var{x, y} {
			if want := max(s.Lower(v), min(s.Value(v), s.Upper(v))); s.Lower(v) < want {
				return AtLeast(v, want), true
			}
		}
		return Lit{}, false
	}
	s.Prefer(x, 4)
	s.Prefer(y.Neg(), -6)
	if status, _ := s.Solve(nil, 0, nil); status != Sat || s.Value(x) != 4 || s.Value(y) != 6 || s.Value(y.Neg()) != -6 {
		t.Errorf("status %v, x %d, y %d", status, s.Value(x), s.Value(y))
	}
}

// The solver has no clock and no randomness of its own.
func TestSameAgain(t *testing.T) {
	t.Parallel()
	for n := uint64(1); n <= 50; n++ {
		if a, b := audit(t, n, allKinds), audit(t, n, allKinds); a != b {
			t.Errorf("model %d: %+v, then %+v", n, a, b)
		}
	}
}
