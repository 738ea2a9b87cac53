package session

import (
	"time"

	"example.org/kettledrum/plan"
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
	t.Breaks = s.counting(st.Plan, t, time.Time{})
	t.Status = verify.Status(st.Plan, t, t.Breaks)
	return t
}
