package rehearse

import (
	"hash/fnv"
	"math/rand/v2"
	"slices"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/mishap"
)

// Drawn is a rehearsal drawn by a seed.
type Drawn struct {
	// Lengths are how long steps truly take; one that takes as long as planned is not
	// among them.
	Lengths []mishap.Mishap
	// Mishaps are what else goes wrong, by time.
	Mishaps []mishap.Mishap
	// Ranges is how many steps have a range to draw from, Without how many go exactly
	// as written since they have none.
	Ranges, Without int
}

// Script is all of it.
func (d *Drawn) Script() []mishap.Mishap { return slices.Concat(d.Lengths, d.Mishaps) }

// Draw draws how a dinner goes from an instant on. The length of each step that the
// food decides is drawn from its three points, in whole minutes:
//
//	X = F⁻¹(U), U uniform in (0, 1), F as of plan.Length.Percentile (beta-PERT)
//
// and from one to three other mishaps, each of another kind, of those that can be: guests
// who are late, a cook called away, a burner that fails, work that has no range and
// runs long. How likely they are is nowhere written: they are to be met, not counted on.
//
// Each step has a stream of its own, made of the seed and its name: with the same seed
// it takes as long wherever the rehearsal begins and whatever else the plan has.
func Draw(p *plan.Plan, t *plan.Timetable, from time.Time, seed uint64) Drawn {
	var d Drawn
	for i := range p.Steps {
		l, slot := p.Steps[i].Length, t.Slots[i]
		if l.Elastic || !slot.End.After(from) {
			continue
		}
		if l.Longest <= l.Shortest {
			d.Without++
			continue
		}
		d.Ranges++
		took := l.Percentile(stream(seed, p.Steps[i].ID).Float64()).Round(time.Minute)
		if gone := from.Sub(slot.Start); gone >= 0 { // it is going: it cannot have ended before
			took = max(took, gone.Truncate(time.Minute)+time.Minute)
		}
		if took = max(took, time.Minute); took != l.Planned() {
			m := mishap.None(mishap.Takes)
			m.Step, m.By = i, took
			d.Lengths = append(d.Lengths, m)
		}
	}
	x := drawer{rand: stream(seed, ""), p: p, t: t, from: from}
	kinds := []func() (mishap.Mishap, bool){x.guests, x.away, x.burner, x.long}
	x.rand.Shuffle(len(kinds), func(i, j int) { kinds[i], kinds[j] = kinds[j], kinds[i] })
	for n := 1 + x.rand.IntN(3); n > 0 && len(kinds) > 0; kinds = kinds[1:] {
		if m, ok := kinds[0](); ok {
			d.Mishaps = append(d.Mishaps, m)
			n--
		}
	}
	slices.SortStableFunc(d.Mishaps, func(a, b mishap.Mishap) int { return a.At.Compare(b.At) })
	return d
}

// stream is the source of chance for a name.
func stream(seed uint64, name string) *rand.Rand {
	h := fnv.New64a()
	_, _ = h.Write([]byte(name)) // never fails
	return rand.New(rand.NewPCG(seed, h.Sum64()))
}

// drawer draws single mishaps; ok is false where there is nothing to befall.
type drawer struct {
	rand *rand.Rand
	p    *plan.Plan
	t    *plan.Timetable
	from time.Time
}

// minutes is a length between two, both included.
func (x *drawer) minutes(least, most int) time.Duration {
	return time.Duration(least+x.rand.IntN(most-least+1)) * time.Minute
}

// pick is one of the steps that begin after the rehearsal and fit.
func (x *drawer) pick(fits func(i int) bool) (int, bool) {
	var of []int
	for i, slot := range x.t.Slots {
		if slot.Start.After(x.from) && fits(i) {
			of = append(of, i)
		}
	}
	if len(of) == 0 {
		return -1, false
	}
	return of[x.rand.IntN(len(of))], true
}

// callAhead is how long before the first course guests say that they are late.
const callAhead = 20 * time.Minute

func (x *drawer) guests() (mishap.Mishap, bool) {
	m := mishap.None(mishap.GuestsLate)
	m.By = 5 * x.minutes(1, 4)
	m.At = x.p.Asked(0).Add(-callAhead)
	return m, m.At.After(x.from)
}

func (x *drawer) away() (mishap.Mishap, bool) {
	m := mishap.None(mishap.Away)
	i, ok := x.pick(func(i int) bool {
		return x.t.Slots[i].Cook >= 0 && x.t.Slots[i].End.Sub(x.t.Slots[i].Start) >= 4*time.Minute
	})
	if !ok {
		return m, false
	}
	m.Cook, m.By, m.At = x.t.Slots[i].Cook, x.minutes(5, 15), x.t.Slots[i].Start.Add(2*time.Minute)
	return m, true
}

// burner fails under a step, where there is another of its size.
func (x *drawer) burner() (mishap.Mishap, bool) {
	m := mishap.None(mishap.Fails)
	has := map[plan.BurnerSize]int{plan.Large: x.p.Kitchen.Burners.Large, plan.Small: x.p.Kitchen.Burners.Small}
	i, ok := x.pick(func(i int) bool {
		slot := x.t.Slots[i]
		return slot.Burner != plan.AnyBurner && has[slot.Burner] >= 2 && slot.End.Sub(slot.Start) >= 4*time.Minute
	})
	if !ok {
		return m, false
	}
	m.Burner, m.At = x.t.Slots[i].Burner, x.t.Slots[i].Start.Add(2*time.Minute)
	return m, true
}

// long is work without a range that takes from a quarter to a half longer.
func (x *drawer) long() (mishap.Mishap, bool) {
	m := mishap.None(mishap.Takes)
	i, ok := x.pick(func(i int) bool {
		l := x.p.Steps[i].Length
		return x.p.Steps[i].Hands.Working() && !l.Elastic && l.Longest <= l.Shortest && l.Planned() >= 8*time.Minute
	})
	if !ok {
		return m, false
	}
	planned := x.p.Steps[i].Length.Planned()
	m.Step, m.By = i, planned+(planned/4+time.Duration(x.rand.Float64()*float64(planned/4))).Round(time.Minute)
	return m, true
}
