package plan

import "time"

// LoadSpan is the span in which a cook's load is counted.
const LoadSpan = 10 * time.Minute

// Load is what a cook has to do from an instant on, for LoadSpan.
type Load struct {
	From time.Time
	// Calls is how many things call for the cook: steps to begin with their hands,
	// and touches.
	Calls int
	// Work is for how much of the span they are at it.
	Work time.Duration
}

// Busiest returns the span with the most calls for a cook; of equals the one with
// the most work, then the first. ok is false where nothing calls for them.
// Cost: O(n²) for the n calls of the cook.
func (t *Timetable) Busiest(p *Plan, cook int) (busiest Load, ok bool) {
	var work []Window // each begins with a call
	for i, s := range t.Slots {
		if s.Cook == cook && p.Steps[i].Hands.Working() && s.Progress != Skipped {
			work = append(work, Window{s.Start, s.End})
		}
	}
	for _, x := range t.Touches {
		if x.Cook == cook {
			work = append(work, Window{x.At, x.At.Add(time.Minute)})
		}
	}
	for _, first := range work {
		l := Load{From: first.From}
		to := l.From.Add(LoadSpan)
		for _, w := range work {
			if !w.From.Before(l.From) && w.From.Before(to) {
				l.Calls++
			}
			l.Work += max(0, Earlier(w.To, to).Sub(Later(w.From, l.From)))
		}
		l.Work = min(l.Work, LoadSpan) // two touches of one dish may share a minute
		if !ok || l.more(busiest) {
			busiest, ok = l, true
		}
	}
	return busiest, ok
}

func (l Load) more(than Load) bool {
	switch {
	case l.Calls != than.Calls:
		return l.Calls > than.Calls
	case l.Work != than.Work:
		return l.Work > than.Work
	}
	return l.From.Before(than.From)
}
