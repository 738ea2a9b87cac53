package debrief

import (
	"cmp"
	"slices"
	"time"

	"example.org/kettledrum/plan"
)

// TightSpan is the span in which hands are counted.
const TightSpan = 5 * time.Minute

// Tight is the span in which the cooks had the least room: of what they could do,
// the largest part; of equals, the most that called for them; then the first.
type Tight struct {
	From, To time.Time
	// Work is for how long cooks were at it, Hands for how long they were there.
	Work, Hands time.Duration
	// Calls are the steps that called for somebody then, by time: begun, taken out,
	// seen to, or an oven set for them.
	Calls []int
}

// Idle is how long a cook stood idle: there, not at table, and nothing to do. Pots
// that are minded are nothing to do.
type Idle struct {
	Total   time.Duration
	Longest plan.Window // zero for none
}

// stretch is a window of work, and the step it is for.
type stretch struct {
	plan.Window
	step int
}

// work lists what a cook did, by time: steps with their hands and touches of a minute.
func (d *Dinner) work(cook int) (out []stretch) {
	for i, s := range d.Was.Slots {
		if s.Cook == cook && d.Plan.Steps[i].Hands.Working() && d.there(i) {
			out = append(out, stretch{plan.Window{From: s.Start, To: s.End}, i})
		}
	}
	for _, x := range d.Was.Touches {
		if x.Cook == cook && !x.At.Before(d.From) {
			out = append(out, stretch{plan.Window{From: x.At, To: x.At.Add(time.Minute)}, x.Step})
		}
	}
	slices.SortFunc(out, func(a, b stretch) int { return cmp.Or(a.From.Compare(b.From), cmp.Compare(a.step, b.step)) })
	return out
}

// free lists when a cook was there and not at table, from From to the last serve.
func (d *Dinner) free(cook int) []plan.Window {
	c := &d.Stood.Kitchen.Cooks[cook]
	out := within(c.Free, d.From, d.to())
	if c.Sits {
		for k, at := range d.Was.Serves {
			out = without(out, plan.Window{From: at, To: at.Add(d.Plan.Courses[k].Seated)})
		}
	}
	return out
}

// idle is what is left of a cook's free time.
func (d *Dinner) idle(cook int) (out Idle) {
	left := d.free(cook)
	for _, w := range d.work(cook) {
		left = without(left, w.Window)
	}
	for _, w := range left {
		out.Total += w.To.Sub(w.From)
		if w.To.Sub(w.From) > out.Longest.To.Sub(out.Longest.From) {
			out.Longest = w
		}
	}
	return out
}

// tight looks at every minute's span. Cost: O(m · n) for m minutes and n calls.
func (d *Dinner) tight() *Tight {
	var best *Tight
	end := d.to()
	cooks := make([]struct {
		work []stretch
		free []plan.Window
	}, len(d.Plan.Kitchen.Cooks))
	for k := range cooks {
		cooks[k].work, cooks[k].free = d.work(k), d.free(k)
	}
	for at := d.From; !at.Add(TightSpan).After(end); at = at.Add(time.Minute) {
		t := Tight{From: at, To: at.Add(TightSpan)}
		var calls []stretch
		for _, c := range cooks {
			var busy, there []plan.Window
			for _, w := range c.work {
				busy = append(busy, w.Window)
				if !w.From.Before(t.From) && w.From.Before(t.To) {
					calls = append(calls, w)
				}
			}
			busy = joined(within(busy, t.From, t.To))
			there = joined(append(within(c.free, t.From, t.To), busy...)) // who slips away from table is there
			t.Work += length(busy)
			t.Hands += length(there)
		}
		slices.SortStableFunc(calls, func(a, b stretch) int { return a.From.Compare(b.From) })
		for _, w := range calls {
			t.Calls = append(t.Calls, w.step)
		}
		if t.Work > 0 && (best == nil || t.tighter(best)) {
			best = &t
		}
	}
	return best
}

func (t *Tight) tighter(than *Tight) bool {
	// Of two shares the larger, without a division: a/b > c/d where ad > cb.
	mine, other := int64(t.Work/time.Second)*int64(than.Hands/time.Second), int64(than.Work/time.Second)*int64(t.Hands/time.Second)
	if mine != other {
		return mine > other
	}
	return len(t.Calls) > len(than.Calls)
}

// within cuts windows to [from, to).
func within(ws []plan.Window, from, to time.Time) (out []plan.Window) {
	for _, w := range ws {
		if a, b := plan.Later(w.From, from), plan.Earlier(w.To, to); a.Before(b) {
			out = append(out, plan.Window{From: a, To: b})
		}
	}
	return out
}

// without takes a window out of others.
func without(ws []plan.Window, cut plan.Window) (out []plan.Window) {
	for _, w := range ws {
		if before := (plan.Window{From: w.From, To: plan.Earlier(w.To, cut.From)}); before.From.Before(before.To) {
			out = append(out, before)
		}
		if after := (plan.Window{From: plan.Later(w.From, cut.To), To: w.To}); after.From.Before(after.To) {
			out = append(out, after)
		}
	}
	return out
}

// joined sorts windows and makes one of those that meet.
func joined(ws []plan.Window) (out []plan.Window) {
	ws = slices.Clone(ws)
	slices.SortFunc(ws, func(a, b plan.Window) int { return a.From.Compare(b.From) })
	for _, w := range ws {
		if n := len(out); n > 0 && !w.From.After(out[n-1].To) {
			out[n-1].To = plan.Later(out[n-1].To, w.To)
			continue
		}
		out = append(out, w)
	}
	return out
}

func length(ws []plan.Window) (sum time.Duration) {
	for _, w := range ws {
		sum += w.To.Sub(w.From)
	}
	return sum
}
