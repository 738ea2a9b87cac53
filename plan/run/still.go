package run

import (
	"slices"
	"time"

	"example.org/kettledrum/plan"
)

// StandsStill returns the stretches in which step i, which has begun, stands still or
// stood, by time: it takes a cook from start to end, and they are away. It ends later
// by as much. Who left before it began had come back for it. An absence that is open
// lasts until the instant of At.
func (s *State) StandsStill(i int) []plan.Window { return s.stillUntil(i, s.seen) }

// stillUntil is StandsStill with open absences ending at an instant.
func (s *State) stillUntil(i int, now time.Time) (out []plan.Window) {
	st, step := &s.Steps[i], &s.Plan.Steps[i]
	if len(s.Changes) == 0 || st.Status != plan.Begun && st.Status != plan.Done || !step.Hands.Working() || step.Length.Elastic {
		return nil
	}
	end := st.Started.Add(step.Length.Planned() + st.Extra)
	for _, a := range s.awayFrom(i, now) {
		if a.From.Before(st.Started) || st.Status == plan.Begun && !a.From.Before(end) {
			continue
		}
		if st.Status == plan.Done {
			a.To = plan.Earlier(a.To, st.Finished)
		}
		if n := len(out); n > 0 {
			a.From = plan.Later(a.From, out[n-1].To)
		}
		if a.From.Before(a.To) {
			out, end = append(out, a), end.Add(a.To.Sub(a.From))
		}
	}
	return out
}

// awayFrom is when the cook of step i is away, as told, by time; open absences end at
// an instant.
func (s *State) awayFrom(i int, now time.Time) (out []plan.Window) {
	if s.Timetable == nil || s.Timetable.Slots[i].Cook < 0 {
		return nil
	}
	name := s.Plan.Kitchen.Cooks[s.Timetable.Slots[i].Cook].Name
	for _, c := range s.Changes {
		if c.Kind != plan.NotThere || c.Cook != name {
			continue
		}
		w := plan.Window{From: c.From, To: upToMinute(c.To)}
		if c.To.IsZero() {
			w.To = upToMinute(now)
		}
		if w.From.Before(w.To) {
			out = append(out, w)
		}
	}
	slices.SortStableFunc(out, func(a, b plan.Window) int { return a.From.Compare(b.From) })
	return out
}

// still is for how long step i stands still in all.
func (s *State) still(i int) time.Duration {
	return sumWithin(s.StandsStill(i), time.Time{}, farFuture)
}

// sumWithin sums what lies of windows between two instants.
func sumWithin(ws []plan.Window, from, to time.Time) (sum time.Duration) {
	for _, w := range ws {
		sum += max(0, plan.Earlier(w.To, to).Sub(plan.Later(w.From, from)))
	}
	return sum
}

// resume has step i go on if it was paused; it ends later by as long, but for what it
// would have stood still anyway.
func (s *State) resume(i int, at time.Time) {
	st := &s.Steps[i]
	if st.Paused.IsZero() {
		return
	}
	st.Extra += max(0, at.Sub(st.Paused))
	if s.Plan.Steps[i].Hands.Working() {
		away := slices.DeleteFunc(s.awayFrom(i, at), func(w plan.Window) bool { return w.From.Before(st.Started) })
		st.Extra -= sumWithin(away, st.Paused, at)
	}
	st.Paused = time.Time{}
}
