package run

import (
	"slices"
	"time"

	"example.org/kettledrum/plan"
)

// stretch is from one tick to another, its end excluded.
type stretch struct{ from, to int64 }

// absences are the stretches of time for which it was told that a cook is away,
// by cook, and those for which nobody is there. Those without an end are not in
// it: nothing is projected to wait for a return that nobody told of.
func (pr *projected) absences() (of map[int][]stretch, all []stretch) {
	for _, c := range pr.s.Changes {
		if c.Kind != plan.NotThere || c.To.IsZero() || !c.To.After(c.From) {
			continue
		}
		cook := slices.IndexFunc(pr.s.Plan.Kitchen.Cooks, func(k plan.Cook) bool { return k.Name == c.Cook })
		if of == nil {
			of = map[int][]stretch{}
		}
		of[cook] = append(of[cook], stretch{pr.ticks(c.From), pr.ticks(upToMinute(c.To))})
	}
	if len(of) < len(pr.s.Plan.Kitchen.Cooks) {
		return of, nil
	}
	all = of[0]
	for cook := 1; cook < len(of); cook++ {
		var both []stretch
		for _, a := range all {
			for _, b := range of[cook] {
				if s := (stretch{max(a.from, b.from), min(a.to, b.to)}); s.from < s.to {
					both = append(both, s)
				}
			}
		}
		all = both
	}
	return of, all
}

// waitForCooks moves what needs a cook who is away to their return: work that
// has not begun, and, while nobody is there, all that somebody is asked to tell.
// Until nothing moves any more: what moved may push other things into an absence.
func (pr *projected) waitForCooks() {
	of, all := pr.absences()
	if len(of) == 0 {
		return
	}
	for again := true; again; {
		again = false
		for v := range pr.x {
			from, to := pr.x[v], pr.x[v]+1
			away := all
			if i := v / 2; v == pr.start(i) && v < 2*len(pr.s.Steps) && pr.s.Plan.Steps[i].Hands.Working() {
				if cook := pr.s.Timetable.Slots[i].Cook; cook >= 0 {
					away, to = of[cook], pr.x[pr.end(i)]
				}
			}
			for _, s := range away {
				if from < s.to && s.from < to && pr.asks(v) && !pr.long(v) {
					if moved, _ := pr.net.Raise(pr.x, v, s.to); len(moved) > 0 { // no error: every point has a time
						again = true
					}
				}
			}
		}
	}
}

// long reports whether a point came up so long ago that it is taken to have come.
func (pr *projected) long(v int) bool { return pr.ticks(pr.now)-pr.x[v] >= int64(UnconfirmedAfter) }

// gone is how much of what is left of step i, from an instant on, its cook is told
// to be away; but for what stands still until they are back.
func (pr *projected) gone(i int, since time.Time) (sum time.Duration) {
	cook := pr.s.Timetable.Slots[i].Cook
	if cook < 0 || !pr.s.Plan.Steps[i].Hands.Working() {
		return 0
	}
	from, to := plan.Later(pr.at(pr.start(i)), since), pr.at(pr.end(i))
	for _, c := range pr.s.Changes {
		waits := pr.s.Steps[i].Status == plan.Begun && !c.To.IsZero() && !c.From.Before(pr.s.Steps[i].Started)
		if c.Kind == plan.NotThere && !waits && c.Cook == pr.s.Plan.Kitchen.Cooks[cook].Name {
			a, b := plan.Later(from, c.From), to
			if !c.To.IsZero() && c.To.Before(b) {
				b = c.To
			}
			sum += max(0, b.Sub(a))
		}
	}
	return sum
}
