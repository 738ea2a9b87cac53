package session

import (
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/remedy"
	"example.org/kettledrum/plan/run"
)

// Moved is the timetable that rebalancing judges.
var Moved = moved

// Projected is what comes of a state at an instant if nothing is changed.
func Projected(s *Session, st *run.State, now time.Time) *plan.Timetable {
	return s.projected(st.At(now), now)
}

// QuestionOf is what a session asks package remedy.
func QuestionOf(s *Session, now time.Time) remedy.Question { return s.question(s.State(), now) }
