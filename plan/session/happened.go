package session

import (
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/heat"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/verify"
)

// Happened returns the timetable as it truly went so far, and from now on as it is
// projected, with the breaks that count while cooking. Who did what, and where, is
// as the timetable in force has it. What is done may not start later, so it has no
// slack; once something has begun there is no latest start.
func (s *Session) Happened() *plan.Timetable {
	now := s.cfg.Clock.Now()
	st := s.State().At(now)
	t := moved(st, run.Project(st, now), now)
	for i := range t.Slots {
		if t.Slots[i].Progress != plan.Ahead {
			t.Slots[i].Slack, t.LatestStart = 0, time.Time{}
		}
	}
	t.Sets = truly(st.Plan, t.Sets)
	t.Breaks = s.counting(st.Plan, t, time.Time{})
	t.Status = verify.Status(st.Plan, t, t.Breaks)
	return t
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
		if !set.Off && set.For >= 0 && p.Steps[set.For].Oven != nil {
			b := p.Steps[set.For].Oven
			if d := model.Between(temp, temp, b.Lo, b.Hi); d != heat.Never {
				set.Ready = set.At.Add(time.Duration(plan.Minutes(d)) * time.Minute)
			}
		}
		out = append(out, set)
	}
	return out
}
