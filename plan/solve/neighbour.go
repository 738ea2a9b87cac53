package solve

import (
	"cmp"
	"slices"

	"example.org/kettledrum/plan/solve/lcg"
)

// Where a problem is large a question about all of it seldom ends within its
// conflicts. Between such questions the best answer is improved a piece at a time: something
// that costs is picked, what lies near it in time or hangs together with it is
// free, all else stays where it is, and the model is asked for less. Source:
// P. Shaw, Using constraint programming and local search methods to solve vehicle
// routing problems (1998); the pieces by time and by lags after D. Godard,
// P. Laborie, W. Nuijten, Randomized large neighborhood search for cumulative
// scheduling (2005).
const (
	// largeFrom is how many free activities make a problem large.
	largeFrom = 100
	// pieceMin and pieceMax are how many activities are free at a time.
	pieceMin, pieceMax = 16, 56
	// pieceConflicts is what one question about a piece may cost.
	pieceConflicts = 60
	// fruitless is after how many questions that win nothing the whole is asked again.
	fruitless = 40
)

// neighbours improves the best answer of a large problem at level k, a piece at a
// time, until fruitless questions in a row win nothing.
func (s *solver) neighbours(assume []lcg.Lit, k int) {
	m, w, kind := s.m, s.m.levels[k], s.m.kind[k]
	if !s.large() || s.best.Cost.Broken > 0 && m.kind[0] != LevelBroken {
		return
	}
	near := s.tied()
	for failed := 0; failed < fruitless && !s.spent(); {
		cost := s.best.Cost.of(kind)
		room := Tick(cost) - m.s.Lower(w.V) - w.Plus
		culprit, ok := s.culprit(kind)
		if room <= 0 || !ok {
			break
		}
		m.prefer(s.best)
		step := max(1, room>>(5+failed)) // of much that may be won a little will not do
		ask := s.keeping(append(slices.Clip(assume), w.AtMost(Tick(cost)-step)), s.piece(near, culprit, min(pieceMax, pieceMin+failed)))
		if s.probe(ask, pieceConflicts) == lcg.Sat && s.best.Cost.of(kind) < cost {
			failed = 0
		} else {
			failed++
		}
	}
	m.prefer(s.best)
	s.value[k] = min(s.value[k], Tick(s.best.Cost.of(kind)))
}

// large reports whether so much is free that pieces are worth their while.
func (s *solver) large() bool {
	n := 0
	for _, a := range s.p.Acts {
		if !a.Fixed {
			n++
		}
	}
	return n >= largeFrom
}

// culprit picks an activity for which the best answer pays at a level.
func (s *solver) culprit(kind int) (int, bool) {
	var of []int
	for _, l := range s.p.Lags {
		counts := l.Soft && l.Level == kind || kind == LevelBroken && !l.Soft && l.Relaxable
		if !counts || l.Min <= when(s.best, l.To)-when(s.best, l.From) {
			continue
		}
		for _, q := range []Point{l.From, l.To} {
			if q.Act >= 0 && !s.p.Acts[q.Act].Fixed {
				of = append(of, q.Act)
			}
		}
	}
	for i, a := range s.p.Acts {
		if a.Before > 0 && a.AvoidLevel == kind && !a.Fixed && s.best.Start[i] >= a.Before {
			of = append(of, i)
		}
	}
	if len(of) == 0 {
		return 0, false
	}
	return of[s.rng.IntN(len(of))], true
}

// tied returns, of each activity, those that a hard lag binds to it, milestones
// aside.
func (s *solver) tied() [][]int {
	out := make([][]int, len(s.p.Acts))
	for _, l := range s.p.Lags {
		a, b := l.From.Act, l.To.Act
		if l.Soft || a < 0 || b < 0 || a == b || s.p.Acts[a].Due || s.p.Acts[b].Due {
			continue
		}
		out[a], out[b] = append(out[a], b), append(out[b], a)
	}
	return out
}

// piece returns which activities are free: the milestones, what hangs together
// with the culprit, and those nearest in time to it or to a moment not far off.
func (s *solver) piece(near [][]int, culprit, size int) []bool {
	free := make([]bool, len(s.p.Acts))
	count := 0
	take := func(i int) {
		if !free[i] && !s.p.Acts[i].Due {
			free[i] = true
			count++
		}
	}
	for i, a := range s.p.Acts {
		free[i] = a.Due
	}
	hanging := func(i int) {
		take(i)
		for todo := []int{i}; len(todo) > 0 && count < size; todo = todo[1:] {
			for _, j := range near[todo[0]] {
				if !free[j] {
					take(j)
					todo = append(todo, j)
				}
			}
		}
	}
	hanging(culprit)
	at := s.best.Start[culprit] + Tick(s.rng.IntN(61)) - 45
	order := make([]int, len(free))
	for i := range order {
		order[i] = i
	}
	away := func(i int) Tick { return max(0, at-s.best.End[i], s.best.Start[i]-at) }
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(away(a), away(b)) })
	whole := s.rng.IntN(2) == 0 // with all that hangs together with each
	for _, i := range order {
		if count >= size {
			break
		}
		if whole {
			hanging(i)
		} else {
			take(i)
		}
	}
	return free
}

// keeping adds to some assumptions that all but what is free stays at its times
// in the best answer.
func (s *solver) keeping(assume []lcg.Lit, free []bool) []lcg.Lit {
	for i, a := range s.p.Acts {
		if free[i] || a.Fixed && a.FixedEnd {
			continue
		}
		b, e := s.m.start[i], s.m.end[i]
		assume = append(assume, b.AtLeast(s.best.Start[i]), b.AtMost(s.best.Start[i]))
		if e.V != b.V {
			assume = append(assume, e.AtLeast(s.best.End[i]), e.AtMost(s.best.End[i]))
		}
	}
	return assume
}
