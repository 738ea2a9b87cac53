package solve

import (
	"cmp"
	"math/rand/v2"
	"slices"

	"example.org/kettledrum/plan/solve/lcg"
)

// What the search of neighbourhoods may cost, and how far it looks.
const (
	largeActs  = 100  // activities of a problem from which on it is worth it
	vastActs   = 400  // and from which on it comes first: the model of the whole is slow to make, and to mend what is broken
	firstTry   = 300  // conflicts of that model before, of smaller ones
	ofBudget   = 4    // one part in so many of the budget is for it
	unbounded  = 5000 // conflicts, where there is no budget
	firstFree  = 24   // activities let go at first
	leastFree  = 10
	inRegion   = 150 // conflicts for a region
	inQuestion = 40  // and for a question about it
	staleWhole = 300 // regions without anything better, until it is given up
	staleLess  = 60  // while something is broken
	layLater   = 8   // better answers, until everything is laid later again
)

// around searches the neighbourhood of the best answer: it lets some activities
// go, has the engine itself put them down again in what the rest leaves, and keeps
// what is better.
type around struct {
	s     *solver
	g     *search
	rng   *rand.Rand
	chain []int // of each activity, one that hard lags tie it to, milestones aside: the same for all of them
	acts  []int // that may move
	size  int   // how many are let go
	free  []bool
	count int    // of free
	open  []bool // states that free stays may choose
	spent int64
}

// neighbourhoods improves the best answer of a large problem before anything is
// proven: the model of the whole comes down slowly from a poor answer. A conflict
// counts as the share of the problem that is free, and making a region as two. How
// many activities are let go follows from what came of it: more where nothing
// better was possible, fewer where that was not known in the end.
//
// Sources: P. Shaw, Using constraint programming and local search methods to solve
// vehicle routing problems, CP 1998 (large neighbourhood search); on what to let go,
// D. Godard, P. Laborie, W. Nuijten, Randomized large neighborhood search for
// cumulative scheduling, ICAPS 2005. From memory.
func (s *solver) neighbourhoods(g *search) {
	most := s.left / ofBudget
	if s.o.Conflicts == 0 {
		most = unbounded
	}
	s.left -= s.searchAround(g, firstFree, most)
}

// searchAround lets size activities go at first, and returns what it spent of most.
func (s *solver) searchAround(g *search, size int, most int64) int64 {
	a := newAround(s, g)
	a.size = size
	for stale, found := 0, 0; len(a.acts) > 0 && a.spent < most && !s.stop(); {
		if best := &s.best.Cost; best.Broken == 0 && best.Soft == [3]int64{} ||
			stale >= staleWhole || stale >= staleLess && best.Broken > 0 {
			break
		}
		was := s.best
		a.letGo()
		exhausted := a.repair()
		switch stale++; {
		case s.best != was:
			stale = 0
			found++
		case exhausted:
			a.size = min(a.size+1, len(a.acts)/2)
		default:
			a.size = max(a.size-1, leastFree)
		}
		if found >= layLater || found > 0 && stale >= layLater {
			found = 0
			s.layLater(g)
		}
	}
	return a.spent
}

func newAround(s *solver, g *search) *around {
	n := len(s.p.Acts)
	a := &around{s: s, g: g, rng: g.rng,
		chain: chains(s.p), free: make([]bool, n), open: make([]bool, len(s.p.States))}
	for i, act := range s.p.Acts {
		if !act.Fixed {
			a.acts = append(a.acts, i)
		}
	}
	return a
}

// chains returns, for each activity, one that stands for all that hard lags tie
// together, milestones aside: the steps of a dish, say.
func chains(p *Problem) []int {
	of := make([]int, len(p.Acts))
	for i := range of {
		of[i] = i
	}
	var find func(int) int
	find = func(i int) int {
		if of[i] != i {
			of[i] = find(of[i])
		}
		return of[i]
	}
	for _, l := range p.Lags {
		if a, b := l.From.Act, l.To.Act; !l.Soft && a >= 0 && b >= 0 && !p.Acts[a].Due && !p.Acts[b].Due {
			of[find(a)] = find(b)
		}
	}
	for i := range of {
		of[i] = find(i)
	}
	return of
}

// letGo chooses what is free: around a moment at which something is not as it
// should be, mostly, whatever is then; whole chains; some of both; or the chains of
// the stays on one state.
func (a *around) letGo() {
	clear(a.free)
	a.count = 0
	seed := a.seed()
	near := a.near(seed)
	switch a.rng.IntN(4) {
	case 0:
		a.gather(near, a.size, a.add)
	case 1:
		a.addChain(seed)
		a.gather(near, a.size, a.addChain)
	case 2:
		a.addChain(seed)
		a.gather(near, a.size, func(i int) {
			switch a.rng.IntN(9) {
			case 0:
				a.addChain(i)
			case 1, 2, 3, 4, 5, 6:
				a.add(i)
			}
		})
	default:
		a.addChain(seed)
		state := a.stateNear(near)
		a.gather(near, 2*a.size, func(i int) {
			for _, k := range a.g.pl.staysOf[i] {
				if a.s.best.StateOf[k] == state {
					a.addChain(i)
				}
			}
		})
	}
	a.openStates()
}

// gather adds activities in an order until so many are free.
func (a *around) gather(order []int, most int, add func(int)) {
	for _, i := range order {
		if a.count >= most {
			return
		}
		add(i)
	}
}

func (a *around) add(i int) {
	if !a.free[i] && !a.s.p.Acts[i].Fixed {
		a.free[i] = true
		a.count++
	}
}

func (a *around) addChain(i int) {
	for j, c := range a.chain {
		if c == a.chain[i] {
			a.add(j)
		}
	}
}

// seed returns an activity to begin with: three times in four one that has to do
// with what is not as it should be.
func (a *around) seed() int {
	if a.rng.IntN(4) > 0 {
		if wrong := a.wrong(); len(wrong) > 0 {
			return wrong[a.rng.IntN(len(wrong))]
		}
	}
	return a.acts[a.rng.IntN(len(a.acts))]
}

// wrong returns the activities that have to do with what is broken, or else with
// what a penalty is paid for, some of them several times.
func (a *around) wrong() []int {
	p, r, pl := a.s.p, a.s.best, a.g.pl
	var out []int
	add := func(i int) {
		if i >= 0 && !p.Acts[i].Fixed {
			out = append(out, i)
		}
	}
	broken := r.Cost.Broken > 0
	for _, l := range p.Lags {
		if l.Soft != broken && l.Min > when(r, l.To)-when(r, l.From) {
			add(l.From.Act)
			add(l.To.Act)
		}
	}
	if !broken {
		return out
	}
	pl.decode(r.answer())
	for i := range p.Acts {
		if pl.forced[i] > 0 || pl.tooEarly(i) > 0 {
			add(i)
		}
	}
	for _, set := range r.Settings {
		if set.Choice < 0 {
			add(p.Stays[set.Stay].Act)
		}
	}
	return out
}

// near returns what may move, the nearest in time to the middle of activity i first.
func (a *around) near(i int) []int {
	r := a.s.best
	middle := (r.Start[i] + r.End[i]) / 2
	order := slices.Clone(a.acts)
	far := func(i int) Tick { return max(0, r.Start[i]-middle, middle-r.End[i]) }
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(far(i), far(j)) })
	return order
}

// stateNear returns the state of the first stay of some activities, -1 for none.
func (a *around) stateNear(acts []int) int {
	for _, i := range acts {
		if of := a.g.pl.staysOf[i]; len(of) > 0 {
			return a.s.best.StateOf[of[0]]
		}
	}
	return -1
}

// openStates opens the states that free stays are on, and now and then another one.
func (a *around) openStates() {
	clear(a.open)
	for k, t := range a.s.p.Stays {
		if !a.free[t.Act] {
			continue
		}
		a.open[a.s.best.StateOf[k]] = true
		if len(t.States) > 1 && a.rng.IntN(4) == 0 {
			a.open[t.States[a.rng.IntN(len(t.States))]] = true
		}
	}
}

// repair looks for a better answer with what is free anywhere, and reports whether
// it is proven that there is none.
func (a *around) repair() bool {
	s, was := a.s, a.s.best
	t := regionOf(s.p, was, a.free, a.open)
	before := t.of(was)
	in := &solver{ctx: s.ctx, p: t.p, o: Options{Conflicts: inRegion}, left: inRegion, best: before}
	in.m = t.model(before)
	for _, v := range in.m.costs(before) {
		in.value = append(in.value, Tick(v))
	}
	in.sat = func() bool {
		r := a.g.pl.decode(t.put(was, in.m.read()))
		if r.Cost.Less(s.best.Cost) {
			s.found(r)
		}
		return !was.Cost.Less(r.Cost)
	}
	exhausted := in.descend(was.Cost.Broken > 0)
	a.spent += 2 + (inRegion-in.left)*int64(a.count)/int64(len(a.acts))
	s.regions.Conflicts += in.m.s.Stats.Conflicts
	s.regions.Propagations += in.m.s.Stats.Propagations
	return exhausted
}

// descend makes the levels down to the settings smaller in their order, by half of
// what is left first, with few conflicts a question; fresh: it asks for any answer
// before. It reports whether each is proven to be as small as it can be.
func (s *solver) descend(fresh bool) bool {
	if fresh {
		if st := s.probe(nil, inQuestion); st != lcg.Sat {
			return st == lcg.Unsat
		}
	}
	var assume []lcg.Lit
	proven := true
	for k, kind := range s.m.kind {
		if kind >= LevelSettings {
			break
		}
		if fresh && kind != LevelBroken {
			break
		}
		w := s.m.levels[k]
		low := s.m.s.Lower(w.V) + w.Plus
		for step := (s.value[k] - low + 1) / 2; low < s.value[k]; {
			try := max(low, s.value[k]-max(1, step))
			st := s.probe(append(assume[:len(assume):len(assume)], w.AtMost(try)), inQuestion)
			if st == lcg.Sat {
				continue
			}
			if st == lcg.Unsat {
				low = try + 1
			}
			if step <= 1 {
				proven = proven && st == lcg.Unsat
				break
			}
			step /= 4
		}
		if s.spent() {
			return false
		}
		assume = append(assume, w.AtMost(s.value[k]))
	}
	return proven
}
