package session

import (
	"slices"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/heat"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/verify"
)

// Happened returns the timetable as it truly went so far, and from now on as it is
// projected, with the breaks that count while cooking, each by the plan as it stood
// then. What is done may not start later, so it has no slack; once something has
// begun there is no latest start.
func (s *Session) Happened() *plan.Timetable {
	now := s.cfg.Clock.Now()
	st := s.State().At(now)
	h := history{s: s, from: time.Time{}}
	h.fold(s.State(), now)
	t := h.as(st, now)
	for i := range t.Slots {
		if t.Slots[i].Progress != plan.Ahead {
			t.Slots[i].Slack, t.LatestStart = 0, time.Time{}
		}
	}
	t.Breaks = append(h.breaks, h.during(t, st.Plan, time.Time{})...)
	slices.SortStableFunc(t.Breaks, func(a, b plan.Break) int { return a.At.Compare(b.At) })
	t.Status = verify.Status(st.Plan, t, t.Breaks)
	return t
}

// history is what happened in a run, stretch by stretch: one ends where what was
// told changes the plan, or has something begin again.
type history struct {
	s      *Session
	where  map[int]plan.Slot // who did a step that is done, and where
	from   time.Time         // when the stretch began
	breaks []plan.Break      // of the stretches before
}

// fold goes through all that was told.
func (h *history) fold(last *run.State, now time.Time) {
	h.where = map[int]plan.Slot{}
	st, err := run.Fold(last.Base, nil)
	for k := 0; err == nil && k < len(last.Events); k++ {
		e := last.Events[k]
		var next *run.State
		if next, err = st.Apply(e); err != nil {
			break
		}
		if st.Timetable != nil && (next.Plan != st.Plan || e.Kind == run.Redone || e.Kind == run.Undone) && e.At.Before(now) {
			h.breaks = append(h.breaks, h.during(h.as(st.At(e.At), e.At), st.Plan, e.At)...)
			h.from = e.At
		}
		for i := range next.Steps {
			if next.Steps[i].Status != plan.Done {
				delete(h.where, i)
			} else if _, known := h.where[i]; !known && next.Timetable != nil {
				h.where[i] = next.Timetable.Slots[i]
			}
		}
		st = next
	}
	if err != nil {
		panic("session: " + err.Error()) // every event was applied before
	}
}

// as is the timetable as it went up to an instant.
func (h *history) as(st *run.State, at time.Time) *plan.Timetable {
	t := moved(st, run.Project(st, at), at)
	for i, was := range h.where {
		t.Slots[i].Cook, t.Slots[i].Oven, t.Slots[i].Burner = was.Cook, was.Oven, was.Burner
	}
	t.Sets = truly(st.Plan, t.Sets)
	return t
}

// during are the breaks that count from the beginning of the stretch to its end,
// the zero time for none.
func (h *history) during(t *plan.Timetable, p *plan.Plan, to time.Time) []plan.Break {
	return slices.DeleteFunc(h.s.counting(p, t, h.from), func(b plan.Break) bool {
		return b.At.Before(h.from) || !to.IsZero() && !b.At.Before(to)
	})
}

// truly returns oven settings with when each was, or will be, truly ready, by the
// temperature that the oven had; without those that turned no dial.
func truly(p *plan.Plan, sets []plan.OvenSet) (out []plan.OvenSet) {
	last := map[int]plan.OvenSet{}
	temps := map[int]plan.Celsius{} // when the last was set
	for _, set := range sets {
		model := heat.Of(p.Kitchen.Ovens[set.Oven], p.Kitchen.Room)
		was, on := last[set.Oven]
		temp := model.Room
		if on {
			temp = model.After(temps[set.Oven], was.To, was.Off, set.At.Sub(was.At))
		}
		if on && was.Off == set.Off && (set.Off || was.To == set.To) || !on && set.Off {
			continue
		}
		last[set.Oven], temps[set.Oven] = set, temp
		set.Ready = set.At
		if set.Off || set.For < 0 {
			out = append(out, set)
			continue
		}
		b := p.Steps[set.For].Oven
		if b == nil { // what keeps warm there
			b = p.Steps[set.For].Keeps.Warm
		}
		if b != nil {
			if d := model.Between(temp, temp, b.Lo, b.Hi); d != heat.Never {
				set.Ready = set.At.Add(time.Duration(plan.Minutes(d)) * time.Minute)
			}
		}
		out = append(out, set)
	}
	return out
}
