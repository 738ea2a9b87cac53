package run

import (
	"time"

	"example.org/kettledrum/plan"
)

// State is what is known of a run after some events. A State is never changed
// once made: Apply returns another.
type State struct {
	// Plan is the plan as it stands: Base with Changes and with the courses that are
	// held, when Apply made the state; indices are those of Base.
	Plan *plan.Plan
	// Base is the plan as the run was opened with it: what Fold wants.
	Base *plan.Plan
	// Changes are in force, oldest first: what failed, who is away, remedies taken.
	Changes []plan.Change
	// Timetable is the one in force: the last adopted that was not undone, with what
	// was told since of who does a step, where, and when it may begin at the earliest.
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

	shelf   *shelf          // what Events are on
	names   []string        // of the steps
	adopted *plan.Timetable // as it was adopted; Timetable is made of it
	seen    time.Time       // the instant of At; zero of a state that was not looked at
}

// StepState is what is known of one step.
type StepState struct {
	Status   plan.Progress
	Started  time.Time     // where Begun or Done
	Finished time.Time     // where Done or Skipped
	Extra    time.Duration // how much longer than planned, by Prolonged; below 0 by a Reading
	Inside   Inside        // what a thermometer showed
	// Again counts how often the step was begun again, NotBefore is when that was
	// told the last time: what is known is of this time only.
	Again     int
	NotBefore time.Time
	// Paused is since when it is interrupted, zero if it is not.
	Paused time.Time
	// Given: another cook has it than the timetable was made for.
	Given bool
	// Displaced is since when what it stands on or in has failed, and nobody has told
	// where it is now; zero if not.
	Displaced time.Time
	// Failed is the name of the oven, or the size of the burner, that failed there.
	Failed string
	// Back is the name of the oven that failed there and works again: it is in that still,
	// though a timetable was made meanwhile that has it in none.
	Back string
}

// CourseState is what is known of one course.
type CourseState struct {
	Served time.Time // zero: not yet
	// Held is until when the guests asked to wait, zero if they did not. Open: nobody
	// can say yet; Held is then the earliest.
	Held time.Time
	Open bool
	// Waits: Held was open, and has a time as of the instant of State.At.
	Waits bool
}

// OvenFact is a dial as somebody turned it.
type OvenFact struct {
	Oven int
	At   time.Time
	To   plan.Celsius
	Off  bool
	For  int // step, -1
	// Broke: nobody turned it, the oven failed. Restored is when it worked again, zero
	// while it does not.
	Broke    bool
	Restored time.Time
	// Spent: what it was for was begun again; it answers no cue any more.
	Spent bool
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
