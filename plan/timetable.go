package plan

import "time"

// Status says what a timetable is worth.
type Status string

// What a timetable is worth.
const (
	Whole  Status = "whole"  // every rule is kept, every course on time
	Late   Status = "late"   // every rule is kept, some course is late within its tolerance
	Broken Status = "broken" // some rule is broken: see Breaks
)

// Timetable says when each step starts and ends, with whom, on what. It is
// plain data: it goes into the journal as it is.
type Timetable struct {
	Status  Status      `json:"status"`
	Slots   []Slot      `json:"slots"`  // one for each of Plan.Steps, same order
	Serves  []time.Time `json:"serves"` // planned serve of each course
	Touches []Touch     `json:"touches"`
	Sets    []OvenSet   `json:"sets"` // by time
	// LatestStart is the last moment at which the first remaining step may begin.
	LatestStart time.Time `json:"latest_start"`
	Breaks      []Break   `json:"breaks,omitempty"`
	Cautions    []Caution `json:"cautions,omitempty"`
}

// Progress says how far a step was when the timetable was made.
type Progress int

// How far a step was.
const (
	Ahead   Progress = iota // not begun: the timetable decides
	Begun                   // going: its start is a fact, its end is expected
	Done                    // both are facts
	Skipped                 // dropped: it takes no time and needs nothing
)

// Slot is the place of one step in a timetable.
type Slot struct {
	Start time.Time `json:"start"`
	End   time.Time `json:"end"`
	// Cook works on the step (hands busy or tied); -1 for near and free.
	Cook   int        `json:"cook"`
	Oven   int        `json:"oven"`   // -1 for none
	Burner BurnerSize `json:"burner"` // the size it stands on; AnyBurner for none
	// Slack is how much later the step may start with no course later, on the
	// fixed order of the resources.
	Slack    time.Duration `json:"slack"`
	Progress Progress      `json:"progress,omitempty"`
	// Extra is how much longer than the plan says the step takes, as the cook
	// told beforehand; of a wait, how much longer than its least.
	Extra time.Duration `json:"extra,omitempty"`
	// Still is for how long of it the step stands still, or stood, since its cook is
	// away; of a step that has begun.
	Still time.Duration `json:"still,omitempty"`
}

// TouchKind says what a touch is for.
type TouchKind string

// What a touch is for.
const (
	TouchStart TouchKind = "start"
	TouchEnd   TouchKind = "end" // the last minute of the step
	TouchSet   TouchKind = "set" // setting the oven
	// TouchRemind is a reminder of a step that is going.
	TouchRemind TouchKind = "remind"
)

// Touch is the minute [At, At+1min) in which a cook puts in, takes out or sets.
// Switching an oven off needs none.
type Touch struct {
	What TouchKind `json:"what"`
	Step int       `json:"step"` // of a set: the step it is for
	Oven int       `json:"oven"` // of a set; -1 otherwise
	At   time.Time `json:"at"`
	Cook int       `json:"cook"`
}

// OvenSet is the moment at which an oven's dial is turned.
type OvenSet struct {
	Oven int       `json:"oven"`
	At   time.Time `json:"at"`
	To   Celsius   `json:"to"`
	Off  bool      `json:"off,omitempty"`  // To is unused
	For  int       `json:"for"`            // the step that needs it; -1 when Off
	Done bool      `json:"done,omitempty"` // it is a fact: the dial has been turned
	// Ready is when the step's accepted range is reached, rounded up to the minute.
	Ready time.Time `json:"ready"`
}

// BreakKind names the rule that is broken.
type BreakKind string

// The rules that a timetable can break.
const (
	BreakLate    BreakKind = "late"    // a course later than its tolerance
	BreakEarly   BreakKind = "early"   // a course before its time, or before the guests are through
	BreakOrder   BreakKind = "order"   // a step before one it follows
	BreakGap     BreakKind = "gap"     // a stated gap too long, or an at_once not at once
	BreakKeep    BreakKind = "keep"    // kept longer than its limit
	BreakLiking  BreakKind = "liking"  // kept longer than liked: no rule, but named
	BreakLength  BreakKind = "length"  // a step shorter or longer than it may be
	BreakHands   BreakKind = "hands"   // a cook in two places, or not there
	BreakTouch   BreakKind = "touch"   // nobody free for a touch
	BreakMinding BreakKind = "minding" // more pots than the cooks present can mind
	BreakOven    BreakKind = "oven"    // a temperature the step does not accept
	BreakSpace   BreakKind = "space"   // more in the oven than it holds
	BreakBurner  BreakKind = "burner"  // more pots than burners
	BreakTool    BreakKind = "tool"    // more of a tool than there is, or one unwashed
	BreakCold    BreakKind = "cold"    // more in a cold place than it holds
)

// Hard reports whether the break is of a rule, and not of a liking.
func (k BreakKind) Hard() bool { return k != BreakLiking }

// Break is one rule that a timetable does not keep, and by how much.
type Break struct {
	Kind    BreakKind `json:"kind"`
	Step    int       `json:"step"`   // -1 where a course is meant
	Course  int       `json:"course"` // -1 where a step is meant
	At      time.Time `json:"at"`     // when it happens
	Minutes int       `json:"minutes"`
	Text    string    `json:"text"` // in the plan's own words
}

// Caution is something a cook should know about safety, with its source. It
// warns and never refuses.
type Caution struct {
	Code   string `json:"code"` // short, stable: "two-hours"; what `accept` names
	Step   int    `json:"step"`
	Text   string `json:"text"` // what it is: lower case, no full stop; likewise Why and Do
	Source string `json:"source"`
	Why    string `json:"why,omitempty"` // in one line
	Do     string `json:"do,omitempty"`  // what to do about it
	// Accepted is why the cook accepts it; empty: not accepted.
	Accepted string `json:"accepted,omitempty"`
}

// Lateness returns by how much course c is planned after its asked time.
func (t *Timetable) Lateness(p *Plan, c int) time.Duration {
	return max(0, t.Serves[c].Sub(p.Asked(c)))
}

// LastServe is when the last course comes.
func (t *Timetable) LastServe() (last time.Time) {
	for _, at := range t.Serves {
		last = Later(last, at)
	}
	return last
}

// FirstOn is when the first step on or after a day begins that is not skipped; zero
// where none does.
func (t *Timetable) FirstOn(day time.Time) (first time.Time) {
	for _, s := range t.Slots {
		if s.Progress != Skipped && !s.Start.Before(day) && (first.IsZero() || s.Start.Before(first)) {
			first = s.Start
		}
	}
	return first
}
