package solve

import (
	"slices"
)

// crowded is how many calls a span has for one of them to be moved out.
const crowded = 3

// spread moves calls out of crowded spans into the next on either side, where
// nothing that counts more gets worse. It is a search of the neighbourhood: what
// it finds is not proven to be best.
func (pl *placer) spread(r *Result) *Result {
	pl.counting = true
	defer func() { pl.counting = false }()
	best := pl.decode(r.answer())
	groups := pl.rigid()
	for moved := true; moved; {
		moved = false
		for _, g := range groups {
			if next := pl.nudge(g, best); next != nil {
				best, moved = next, true
			}
		}
	}
	return best
}

// nudge moves a set of points by just so much that one of its calls is in
// another span, and returns the answer if it is better, else nil with everything
// as it was.
func (pl *placer) nudge(g rigid, best *Result) *Result {
	earlier, later := pl.room(g)
	calls, span := pl.calls(), pl.p.CallSpan
	var steps []Tick
	for _, c := range pl.p.Calls {
		if c.At.Act < 0 || !g.in[pointIndex(c.At, pl.n)] {
			continue
		}
		at := pl.at(c.At, c.Plus)
		if calls[at/span] < crowded {
			continue
		}
		for _, by := range []Tick{span - at%span, -1 - at%span} {
			if -earlier <= by && by <= later && !slices.Contains(steps, by) {
				steps = append(steps, by)
			}
		}
	}
	if len(steps) == 0 {
		return nil
	}
	pl.lift(g)
	for _, by := range steps {
		if next, _ := pl.moved(g, by, best); next != nil && next.Cost.Less(best.Cost) {
			return next
		}
	}
	pl.putBack(g, best)
	return nil
}

// calls counts the calls in each span.
func (pl *placer) calls() []int32 {
	n := pl.callBuf
	if n == nil {
		n = make([]int32, pl.p.Horizon/pl.p.CallSpan+1)
		pl.callBuf = n
	}
	clear(n)
	for _, c := range pl.p.Calls {
		n[pl.at(c.At, c.Plus)/pl.p.CallSpan]++
	}
	for _, sets := range pl.settings {
		for _, set := range sets {
			n[max(0, set.Tick)/pl.p.CallSpan]++
		}
	}
	return n
}
