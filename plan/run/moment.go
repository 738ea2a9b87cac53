package run

import (
	"time"

	"example.org/kettledrum/plan"
)

// Class says how urgent a cue is, most urgent first.
type Class int

// Classes of cues.
const (
	Danger  Class = iota // a safety limit is about to be passed
	LateCue              // a course will miss its tolerance; a keep is about to break
	Look                 // a timer ran out: look, test, take out
	Act                  // start this now
	Soon                 // standby, two minutes ahead
	Note                 // something moved
)

// String returns the word for the class.
func (c Class) String() string {
	return [...]string{"danger", "late", "look", "act", "soon", "note"}[c]
}

// Cue is what the tool says at a moment.
type Cue struct {
	// ID is stable while the cue lives: "start:lamb/roast", "end:lamb/roast",
	// "remind:lamb/roast:1.2", "set:oven:lamb/roast", "serve:Main", "timer:17", "conflict:oven:…",
	// "late:Main", "probe:lamb/roast:3", "unsafe:lamb/roast".
	ID     string
	Class  Class
	Step   int // -1 for none; likewise below
	Course int
	Oven   int
	Due    time.Time // when it came up
	Text   string    // what to do, where: "Put the gratin in, oven at 350 °F, upper shelf"
	// Answer is what the obvious key does: the events it records, without
	// times. Empty where there is nothing to answer but to have seen it.
	Answer []Event
	// Label says in a few words what the answer does: "gratin is in".
	Label string
}

// Upcoming is something that is not due yet: a start, an oven setting, an end
// that wants the cook, a reminder, a serve.
type Upcoming struct {
	Cue Cue
	At  time.Time
}

// Going is a step or a quick timer that is going on.
type Going struct {
	Step        int    // -1 for a quick timer
	Timer       uint64 // Timer.Seq, where Step is -1
	Label       string
	Place       string // "oven 325 °F", "large burner", "Ines"; may be empty
	Ends        string // what ends it: "until 190 °F", "until deep amber", ""
	Start, End  time.Time
	Over        bool // End has passed
	Unconfirmed bool // nobody said so: assumed to go as planned
}

// OvenMoment is one oven now.
type OvenMoment struct {
	Oven   int
	On     bool
	Set    plan.Celsius // where On
	Temp   plan.Celsius // by the first-order model
	Ready  time.Time    // when Set is reached; zero if it is
	Inside []int        // steps
	Next   *plan.OvenSet
}

// CourseMoment is one course now.
type CourseMoment struct {
	Course    int
	Asked     time.Time
	Planned   time.Time // by the timetable in force
	Projected time.Time // if nothing else happens
	Served    time.Time // zero: not yet
	Late      time.Duration
	Misses    bool // beyond its tolerance
}

// Unconfirmed is a thing that was due and that nobody answered within
// UnconfirmedAfter: assumed to have gone as planned.
type Unconfirmed struct {
	Cue Cue
	At  time.Time // when it is assumed to have happened
}

// Moment is everything a screen needs to show a run at one instant.
type Moment struct {
	Now         time.Time
	Cues        []Cue // open, most urgent first, then oldest first
	Next        []Upcoming
	Going       []Going // by start, so that rows keep their place
	Ovens       []OvenMoment
	Sets        []plan.OvenSet // those to come, as projected
	Courses     []CourseMoment
	Unconfirmed []Unconfirmed
	// Cautions are about safety, each of a step that is due or going, until somebody
	// has seen it (its Answer): to be shown once, beside the step. They do not ring.
	Cautions   []Cue
	Breaks     []plan.Break // of the projection
	Projection Projection
	Finished   bool // every course is served
}

// Projection is when things will happen if the steps that go take as long as
// expected and everything else starts as soon as it is due and possible.
type Projection struct {
	Start, End []time.Time // one for each step
	Serves     []time.Time // one for each course
}

// Intervals of the conductor.
const (
	// SoonAhead is how long before a start its standby cue comes.
	SoonAhead = 2 * time.Minute
	// UnconfirmedAfter is how long a cue may go unanswered before the run
	// assumes that things went as planned.
	UnconfirmedAfter = 5 * time.Minute
)
