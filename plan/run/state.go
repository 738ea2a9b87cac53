package run

import (
	"time"

	"example.org/kettledrum/plan"
)

// State is what is known of a run after some events. A State is never changed
// once made: Apply returns another.
type State struct {
	Plan *plan.Plan
	// Timetable is the one in force: the last adopted that was not undone.
	Timetable *plan.Timetable
	// Why says what the last adoption changed, AdoptedAt when it was.
	Why       []string
	AdoptedAt time.Time

	Steps   []StepState   // one for each of Plan.Steps
	Courses []CourseState // one for each of Plan.Courses
	Sets    []OvenFact    // the ovens' dials as told, by time
	Timers  []Timer       // quick timers, oldest first
	Acked   map[string]time.Time

	Events []Event // all, undone ones too
}

// StepState is what is known of one step.
type StepState struct {
	Status   plan.Progress
	Started  time.Time     // where Begun or Done
	Finished time.Time     // where Done or Skipped
	Extra    time.Duration // how much longer than planned, by Prolonged
}

// CourseState is what is known of one course.
type CourseState struct {
	Served time.Time // zero: not yet
}

// OvenFact is a dial as somebody turned it.
type OvenFact struct {
	Oven int
	At   time.Time
	To   plan.Celsius
	Off  bool
	For  int // step, -1
}

// Timer is a quick timer that the cook set.
type Timer struct {
	Seq   uint64 // of its event: its identity
	Label string
	Set   time.Time
	Due   time.Time
	// Stopped is when its cue was answered; zero while it goes.
	Stopped time.Time
}
