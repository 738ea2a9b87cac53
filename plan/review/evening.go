package review

import (
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

// Evening is one run, looked back at.
type Evening struct {
	// Plan is as the file had it when the run was opened: without run.PlanCopy.Cautious.
	Plan    *plan.Plan
	Table   time.Time // of the plan that was cooked
	Steps   []Step    // one for each of Plan.Steps
	Courses []Course  // one for each of Plan.Courses
	Notes   []Note    // of no step, by time
}

// Step is what was planned of a step and what came of it.
type Step struct {
	// Planned is the length that the timetable was made with: a likely one, of a wait
	// the least.
	Planned time.Duration
	// PlannedStart and PlannedEnd are of the first timetable; zero where there was none.
	PlannedStart, PlannedEnd time.Time
	// Start and End are as the run has them, told or not; zero where it has none.
	Start, End time.Time
	// Took is End − Start without what does not count; zero where Why says so.
	Took time.Duration
	// Stood is for how long it was interrupted or its cook away.
	Stood time.Duration
	// Why it cannot be judged; Judged where it can.
	Why   Reason
	Notes []Note // by time
}

// Course is what was planned of a course and when it came.
type Course struct {
	Asked   time.Time // as the plan had it when the run was opened
	Planned time.Time // in the first timetable; Asked where there was none
	Served  time.Time // zero: never
	Told    bool      // Served is when the cook said so, not what was taken for granted
	Late    time.Duration
	Missed  bool // Late is beyond what the plan allows
}

// Note is what the cook wrote down, or knew, of a step or of the dinner.
type Note struct {
	At   time.Time
	Kind run.Kind // Noted; Acknowledged: what was asked and answered; Added: what was not in the plan
	Text string
	By   time.Duration // of Added: for how long
}

// Reason is why the length of a step cannot be judged.
type Reason string

// Why a length cannot be judged.
const (
	Judged    Reason = ""
	Waits     Reason = "waits"      // the cook decides how long
	LeftOut   Reason = "left_out"   // skipped
	Untold    Reason = "untold"     // neither its beginning nor its end was told
	NoStart   Reason = "no_start"   // nobody told when it began
	NoEnd     Reason = "no_end"     // nobody told when it was done
	Assumed   Reason = "assumed"    // said afterwards to have gone as planned
	MadeAhead Reason = "made_ahead" // made ahead, without its times
	Again     Reason = "again"      // begun again
	Displaced Reason = "displaced"  // its oven or burner failed
	Otherwise Reason = "otherwise"  // a remedy had it done otherwise
	AtOnce    Reason = "at_once"    // beginning and end were told at one moment
)

// Words says why, in the kitchen's words, on one line.
func (r Reason) Words() string {
	return map[Reason]string{
		Waits:     "the cook decides how long",
		LeftOut:   "left out",
		Untold:    "nobody told when it began or was done",
		NoStart:   "nobody told when it began",
		NoEnd:     "nobody told when it was done",
		Assumed:   "said afterwards to have gone as planned",
		MadeAhead: "made ahead, its times were not told",
		Again:     "burnt, or begun again",
		Displaced: "its oven or burner failed",
		Otherwise: "done otherwise than planned, to be on time",
		AtOnce:    "begun and done were told at one moment",
	}[r]
}
