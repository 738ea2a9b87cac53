package run

import (
	"cmp"
	"slices"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/heat"
)

// setting is one oven setting of the timetable and what became of it.
type setting struct {
	plan.OvenSet
	// told is when somebody said so; zero if nobody did.
	told time.Time
	// moot: what it was for has been put in, is done or is dropped, or the oven has
	// failed. Of what was put
	// in the oven was set, at the latest by then, whoever said so; only what began
	// at once may still wait for its setting.
	moot bool
	// takes is how long after the setting the oven is ready.
	takes time.Duration
}

// settings matches the timetable's oven settings with what was told, oldest
// first.
func settings(s *State) []setting {
	out := make([]setting, 0, len(s.Timetable.Sets))
	used := make([]bool, len(s.Sets))
	for _, set := range s.Timetable.Sets {
		k := setting{OvenSet: set, takes: max(0, set.Ready.Sub(set.At))}
		if set.For >= 0 {
			st := s.Steps[set.For].Status
			k.moot = st != plan.Ahead && (st != plan.Begun || !s.Plan.Steps[set.For].AtOnce)
		}
		k.moot = k.moot || s.Plan.Kitchen.Ovens[set.Oven].Shelves == 0
		for f, fact := range s.Sets {
			if fact.Oven == set.Oven && fact.For == set.For && s.Overturned(fact, set) {
				k.At = plan.Later(k.At, s.turned(fact.Oven).At) // again, and not before that
			}
			if !used[f] && answers(s, fact, set) {
				used[f] = true
				k.told = fact.At
				break
			}
		}
		if k.told.IsZero() && !k.Off && !k.moot {
			k.At = plan.Later(k.At, s.restored(set.Oven))
		}
		out = append(out, k)
	}
	// Turning the oven up again tells that it was off before, or never was.
	for i := range out {
		if out[i].Off && out[i].told.IsZero() {
			out[i].moot = slices.ContainsFunc(out[i+1:], func(later setting) bool {
				return later.Oven == out[i].Oven && (!later.told.IsZero() || later.moot)
			})
		}
	}
	return out
}

// answers reports whether a fact is the setting that the timetable asks for.
func answers(s *State, fact OvenFact, set plan.OvenSet) bool {
	switch {
	case fact.Oven != set.Oven || fact.Off != set.Off || s.Overturned(fact, set):
		return false
	case fact.Spent: // no other than the one that it was
		return set.Done && set.For == fact.For && set.At.Equal(fact.At)
	case set.Off && fact.Broke && set.At.Equal(fact.At):
		return true // it failed then, whatever it was set to since
	case set.Off:
		// Only the last word counts: an oven that was set again is not off.
		last := slices.IndexFunc(s.Sets, func(f OvenFact) bool { return f.Oven == fact.Oven && f.At.After(fact.At) })
		return last < 0 && !fact.At.Before(set.At.Add(-time.Hour)) && Nearest(s.Timetable.Sets, fact, set)
	case fact.For >= 0:
		return fact.For == set.For
	}
	return SameDial(fact.To, set.To)
}

// SameDial reports whether two settings of a dial are the same, but for what rounding to
// whole degrees of another unit hides.
func SameDial(a, b plan.Celsius) bool { return a-b < 1 && b-a < 1 }

// Overturned reports whether a setting has to be done again though the dial was
// turned for it: what it is for is not in the oven yet, and the dial was turned to
// what does not suit that since. That it was turned stays a fact of the timetable.
func (s *State) Overturned(f OvenFact, set plan.OvenSet) bool {
	if f.For < 0 || f.Off || s.Steps[f.For].Status != plan.Ahead || set.Done && set.At.Equal(f.At) {
		return false
	}
	bake, now := s.Plan.Steps[f.For].Oven, s.turned(f.Oven)
	return now.At.After(f.At) && bake != nil && (now.Off || now.To < bake.Lo || now.To > bake.Hi)
}

// turned is how a dial was turned last; the zero fact if nobody did.
func (s *State) turned(oven int) OvenFact {
	for _, now := range slices.Backward(s.Sets) {
		if now.Oven == oven {
			return now
		}
	}
	return OvenFact{}
}

// restored is when an oven that had failed worked again, zero if it never failed.
func (s *State) restored(oven int) (at time.Time) {
	for _, f := range s.Sets {
		if f.Oven == oven {
			at = plan.Later(at, f.Restored)
		}
	}
	return at
}

// broken reports whether an oven did not work at an instant.
func (s *State) broken(oven int, at time.Time) bool {
	return slices.ContainsFunc(s.Sets, func(f OvenFact) bool {
		return f.Broke && f.Oven == oven && !at.Before(f.At) && (f.Restored.IsZero() || at.Before(f.Restored))
	})
}

// Nearest reports whether, of all times at which an oven is to be switched off,
// that of set is the nearest to when it was: the plan may do so on several days.
func Nearest(sets []plan.OvenSet, fact OvenFact, set plan.OvenSet) bool {
	return !slices.ContainsFunc(sets, func(o plan.OvenSet) bool {
		return o.Off && o.Oven == set.Oven && o.At.Sub(fact.At).Abs() < set.At.Sub(fact.At).Abs()
	})
}

// settings adds the arcs of the oven settings that nobody has told of.
func (o *order) settings() {
	for k := range o.sets {
		set := &o.sets[k]
		if set.moot {
			continue
		}
		if set.told.IsZero() {
			o.mayTurn(k)
		}
		if set.Off {
			continue
		}
		until := o.nextSet(k)
		for b := range o.s.Steps {
			slot := o.s.Timetable.Slots[b]
			if o.s.Plan.Steps[b].Oven == nil || o.s.Steps[b].Status != plan.Ahead || slot.Oven != set.Oven || o.auto(b) {
				continue
			}
			if b == set.For || (!slot.Start.Before(set.Ready) && slot.Start.Before(until)) {
				o.arc(o.set(k), o.start(b), o.lag(k, b))
			}
		}
	}
}

// mayTurn adds that setting k waits for the bakes before it that it does not
// suit, as long as planned, and for the setting before it.
func (o *order) mayTurn(k int) {
	set := &o.sets[k]
	for a := range o.s.Steps {
		bake, slot := o.s.Plan.Steps[a].Oven, o.s.Timetable.Slots[a]
		if bake == nil || slot.Oven != set.Oven || a == set.For || o.skipped(a) {
			continue
		}
		if suits := !set.Off && bake.Lo <= set.To && set.To <= bake.Hi; !suits && slot.Start.Before(set.At) {
			// The dial may be turned in the last minutes of a bake, while the
			// oven is still hot enough for it.
			o.arc(o.end(a), o.set(k), min(0, set.At.Sub(slot.End)))
		}
	}
	for before := k - 1; before >= 0; before-- {
		if o.sets[before].Oven == set.Oven && !o.sets[before].moot {
			o.arc(o.set(before), o.set(k), 0)
			break
		}
	}
}

// nextSet is when the oven of setting k is planned to be turned again.
func (o *order) nextSet(k int) time.Time {
	for _, later := range o.sets[k+1:] {
		if later.Oven == o.sets[k].Oven {
			return later.At
		}
	}
	return farFuture
}

var farFuture = time.Date(9999, 1, 1, 0, 0, 0, 0, time.UTC)

// lag is how long after setting k the oven suits step b: as planned, or, once
// the dial was turned, by the temperature that the oven had then.
func (o *order) lag(k, b int) time.Duration {
	set := &o.sets[k]
	if set.told.IsZero() {
		return set.takes
	}
	temp := curveOf(o, nil, set.Oven).at(set.told)
	return readyAfter(ovenOf(o.s.Plan, set.Oven), o.s.Plan.Steps[b].Oven, temp, set.takes)
}

// readyAfter is how long an oven of some temperature takes until it suits a bake;
// as planned, if it never does.
func readyAfter(model heat.Oven, bake *plan.Bake, temp plan.Celsius, planned time.Duration) time.Duration {
	d := model.Between(temp, temp, bake.Lo, bake.Hi)
	if d == heat.Never {
		return planned
	}
	return wholeMinutes(d)
}

// ovens adds the changeover between bakes that no temperature suits both of.
func (o *order) ovens() {
	var bakes []int
	for i := range o.s.Steps {
		if o.s.Plan.Steps[i].Oven != nil && !o.skipped(i) {
			bakes = append(bakes, i)
		}
	}
	for _, a := range bakes {
		for _, b := range bakes {
			if o.unlike(a, b) && o.before(a, b) && !o.auto(b) {
				o.handAfter(a, b, o.changeover(a, b))
			}
		}
	}
}

// before says which of two bakes the timetable has first.
func (o *order) before(a, b int) bool {
	return cmp.Or(o.begins[a].Compare(o.begins[b]), cmp.Compare(a, b)) < 0
}

// unlike reports whether two steps bake in the same oven, and no temperature suits both.
func (o *order) unlike(a, b int) bool {
	x, y := o.s.Plan.Steps[a].Oven, o.s.Plan.Steps[b].Oven
	oven := o.s.Timetable.Slots[a].Oven
	return a != b && x != nil && y != nil && oven >= 0 && oven == o.s.Timetable.Slots[b].Oven &&
		!o.skipped(a) && !o.skipped(b) && (x.Hi < y.Lo || y.Hi < x.Lo)
}

func (o *order) changeover(a, b int) time.Duration {
	x, y := o.s.Plan.Steps[a].Oven, o.s.Plan.Steps[b].Oven
	d := ovenOf(o.s.Plan, o.s.Timetable.Slots[a].Oven).Between(x.Lo, x.Hi, y.Lo, y.Hi)
	if d == heat.Never {
		return 0 // no order helps, the timetable is broken there
	}
	return wholeMinutes(d)
}

func ovenOf(p *plan.Plan, i int) heat.Oven { return heat.Of(p.Kitchen.Ovens[i], p.Kitchen.Room) }

func wholeMinutes(d time.Duration) time.Duration { return time.Duration(plan.Minutes(d)) * time.Minute }
