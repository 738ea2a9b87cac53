package solve

// Tick is a whole number of the caller's time unit after the caller's origin.
type Tick = int32

// Unbounded is the greatest length of an activity without a limit.
const Unbounded Tick = 1 << 28

// Point is a time point: the start or the end of an activity, or with Act = -1
// the origin, which is at tick 0.
type Point struct {
	Act int
	End bool
}

// Origin is the point at tick 0.
var Origin = Point{Act: -1}

// StartOf and EndOf name the points of activity i.
func StartOf(i int) Point { return Point{Act: i} }

// EndOf names the end of activity i.
func EndOf(i int) Point { return Point{Act: i, End: true} }

// Problem is a scheduling problem as plain data. Times lie in [0, Horizon].
type Problem struct {
	Horizon Tick
	// Now is the first tick that is judged: what facts occupy before it is past.
	Now Tick
	// Day is the first tick of the stretch whose first start is to be late: what
	// starts before it does not count for that.
	Day       Tick
	Acts      []Activity
	Lags      []Lag
	Resources []Resource
	Uses      []Use
	States    []State
	// SpaceOf is, for each state, the resource that its stays fill.
	SpaceOf []int
	Stays   []Stay
	// Calls are the moments that want somebody. Beside the settings they are to be
	// spread over spans of CallSpan ticks, from tick 0.
	Calls    []Call
	CallSpan Tick
	// Guards are the facts and means that Conflict may name. What has a guard, one
	// more than its index here, counts only where that holds; 0 is no guard. All
	// hold for Solve.
	Guards []Guard
}

// Call is a moment Plus ticks after a point.
type Call struct {
	At   Point
	Plus Tick
}

// Guard is a name that the caller has for something in a problem.
type Guard struct {
	// Means are what a conflict is about, a resource say; the others are facts,
	// which could be otherwise.
	Means bool
}

// Activity is one piece of work: Min ≤ end − start ≤ Max.
type Activity struct {
	Min, Max Tick
	// Earliest bounds the start from below. It is physical: never relaxed.
	Earliest Tick
	Guard    int // of Earliest
	// Fixed activities have happened (or are happening): their times are facts,
	// occupy resources, and are not judged. Start counts always, End where
	// FixedEnd.
	Fixed, FixedEnd bool
	Start, End      Tick
	// Before, where positive, is a tick before which the activity had better
	// start: if it does not, its least length counts at AvoidLevel.
	Before     Tick
	AvoidLevel int
	// Due marks a milestone (Min = Max = 0) that the search may move later, one
	// course of a meal say: it is put at its earliest possible tick first.
	Due bool
}

// Lag demands x_To − x_From ≥ Min.
type Lag struct {
	From, To Point
	Min      Tick
	// Soft lags do not bind: each tick short costs Weight at the given Level.
	Soft   bool
	Level  int // 0 is the most important
	Weight int64
	// Relaxable hard lags may be given up where nothing else helps; each tick
	// short then counts as broken, Weight times.
	Relaxable bool
	Guard     int
}

// Resource is renewable: at each tick the amounts in use add up to its capacity
// at most.
type Resource struct {
	// Calendar gives the capacity from each tick on; it begins at tick 0.
	Calendar []Capacity
	Guard    int   // of how much there is at most
	Hours    []int // guards of when there is less: all must hold
}

// Capacity is what there is of a resource from tick From on.
type Capacity struct {
	From   Tick
	Amount int32
}

// Use says that something is occupied from From+FromPlus to To+ToPlus.
type Use struct {
	From, To         Point
	FromPlus, ToPlus Tick
	// Options are the ways to do it, each a set of demands; one is chosen.
	// Earlier ones are preferred.
	Options []Option
	// Pair, where positive: two uses of the same Pair on the same resource may
	// share one tick, as if they were one. Only for uses of a single tick.
	Pair int32
}

// Option is one way to serve a Use.
type Option []Demand

// Demand is an amount of a resource.
type Demand struct {
	Resource int
	Amount   int32
	// Plus, where positive: taken for so many ticks from the start of the use,
	// however long the use is.
	Plus Tick
}

// until returns the end of a demand of a use of [from, to).
func (d Demand) until(from, to int) int {
	if d.Plus > 0 {
		return from + int(d.Plus)
	}
	return to
}

// State is a resource that has one value at a time, such as a temperature. It
// drifts towards what it is set to.
type State struct {
	// Drift returns the ticks, not rounded, from one value to another. The
	// changeover between two ranges is the drift between their nearest ends.
	Drift func(from, to float64) float64
	// Initial is the value before the first setting, Rest the value that it
	// tends to when left alone for long.
	Initial, Rest float64
	// Setting are the ways to serve the one tick in which the state is set.
	Setting []Option
	// SetFrom is the first tick at which it can be set. IsSet and Now tell what
	// it is set to then.
	SetFrom  Tick
	IsSet    bool
	Now      float64
	NowClass int
	// Dial, if not nil, returns the value to set for a goal so that it lies in
	// [lo, hi]; without it the goal is taken, or the nearest end.
	Dial func(goal, lo, hi float64) float64
	// Idle is the number of ticks after which an unused state is left alone, so
	// that the next stay needs a setting of its own.
	Idle  Tick
	Guard int
}

// Stay is an activity's need of a state: a value in [Lo, Hi] from start to end.
type Stay struct {
	Act    int
	States []int // any one of these
	Lo, Hi float64
	// Goal is the value wanted where nothing speaks against it.
	Goal float64
	// Space is taken of SpaceOf[state].
	Space int32
	// Class keeps stays of unlike kinds apart whatever their values.
	Class int
	// Shut: no other stay begins or ends while this one lasts.
	Shut bool
	// Continues is another stay (index), or -1: this one follows it at once and
	// accepts the change of value between them.
	Continues int
}

// Status says what an answer is worth.
type Status int

// What an answer is worth.
const (
	// Feasible: every hard lag, resource and state holds.
	Feasible Status = iota
	// Broken: the answer breaks something, as little as was found.
	Broken
	// Optimal: proven best at every level.
	Optimal
	// Infeasible: proven that there is no answer.
	Infeasible
	// Unknown: stopped before an answer was found.
	Unknown
)

// Result is the answer.
type Result struct {
	Status     Status
	Start, End []Tick // one for each activity
	Choice     []int  // option of each use, -1 where none was free
	StateOf    []int  // state of each stay
	Settings   []Setting
	Cost       Cost
	// Latest is the last tick at which the first start on or after Day may lie with
	// nothing broken and level 0 no worse; LatestProven, that there is no later.
	Latest       Tick
	LatestProven bool
	// Impossible: proven that every answer breaks something.
	Impossible bool
	// Values are what is made small, level by level; Bounds what is proven that
	// they cannot go below. A level that was not reached has no bound.
	Values, Bounds []int64
	Stats          Stats
}

// Setting is one turn of a state, made for a stay.
type Setting struct {
	State int
	// Tick is the tick in which it is made, At the exact moment in it.
	Tick  Tick
	At    float64
	Value float64
	Stay  int
	// Choice is the option of State.Setting that serves it, -1 where none was free.
	Choice int
}

// Cost is the objective vector, compared level by level, smaller is better.
type Cost struct {
	Broken   int64 // ticks by which relaxable lags, calendars and settings are broken
	Soft     [3]int64
	Settings int64
	First    int64 // ticks from the first start on or after Day to the horizon
	Calls    int64 // sum over spans of the square of the calls in each; 0 where not counted
	Early    int64 // sum over activities of ticks before the horizon
}

// Less reports whether c is better than d.
func (c Cost) Less(d Cost) bool {
	switch {
	case c.Broken != d.Broken:
		return c.Broken < d.Broken
	case c.Soft != d.Soft:
		for i := range c.Soft {
			if c.Soft[i] != d.Soft[i] {
				return c.Soft[i] < d.Soft[i]
			}
		}
	case c.Settings != d.Settings:
		return c.Settings < d.Settings
	}
	switch {
	case c.First != d.First:
		return c.First < d.First
	case c.Calls != d.Calls:
		return c.Calls < d.Calls
	}
	return c.Early < d.Early
}

// Stats counts what the search did.
type Stats struct {
	Tries      int // timetables generated
	Placements int // candidate times tried
	Improved   int // timetables that were better than the best before

	Conflicts, Propagations int64
}

// Options bound the search. The same problem and the same options always give
// the same answer, unless ctx cuts the search off.
type Options struct {
	// Conflicts is how many conflicts the search for the best answer and its proof
	// may meet, 0 for no limit.
	Conflicts int64
	// Lesser is how many of them each level may meet that counts less than broken
	// lags and level 0; 0 for no such limit.
	Lesser int64
	// Tries is how many timetables are generated in search of the least broken,
	// where none is whole.
	Tries int
	Seed  uint64
	// From, if any, is an earlier answer: where it still holds the search begins
	// from it, else it tries to keep activities where they were.
	From *Answer
	// Latest asks for Result.Latest beyond the first start of the answer, and its proof.
	Latest bool
	// Found, if any, is called with each better answer, the first included. A
	// field that is not known yet is empty.
	Found func(*Result)
	// Proven, if any, is called as the best answer is proven to be best at a level,
	// and at all before it: a level of the soft lags, or one of the constants.
	Proven func(level int)
}

// Levels beside those of the soft lags: before all, and after them.
const (
	LevelBroken   = -1
	LevelSettings = 1 << 20
	LevelFirst    = LevelSettings + 1
)

// Answer says when everything is, by which options, on which states.
type Answer struct {
	Start, End []Tick
	Choice     []int // option of each use
	StateOf    []int // state of each stay
	// Fresh tells which stays have a setting of their own.
	Fresh []bool
}
