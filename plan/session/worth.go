package session

import (
	"math"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

// What gains and moves count, in minutes late.
const (
	// WorthMoving is the least that another timetable must gain to be worth learning.
	WorthMoving = 3 * time.Minute
	// moveShare is what a minute counts by which a step moves whose cue is now;
	// moveHalves is how much further ahead the cue is for each halving of it.
	moveShare  = 0.25
	moveHalves = 10 * time.Minute
	// elsewhere is how many minutes of moving another cook, oven or burner is.
	elsewhere = 5 * time.Minute
)

// worth is the rule of adoption: whether a timetable, with the breaks of it that
// count, is to be in force instead of the projection, which is what comes
// without it. It must mend a break, or gain more than it moves; the package
// comment has the formula.
func worth(st *run.State, now time.Time, again *plan.Timetable, breaks []plan.Break, projected *plan.Timetable) bool {
	switch harm(breaks).against(harm(projected.Breaks)) {
	case less:
		return true
	case more:
		return false
	}
	gain := cost(st, projected, projected.Breaks) - cost(st, again, breaks)
	return gain >= WorthMoving && gain > moves(st, now, again)-moves(st, now, projected)
}

// cost sums, for the courses that are not served yet, how late they are and
// plan.PastTolerance times how much of that is not tolerated, and how long food is
// kept over its likings: a minute of the one counts as one of the other.
func cost(st *run.State, t *plan.Timetable, breaks []plan.Break) (sum time.Duration) {
	for c := range t.Serves {
		if st.Courses[c].Served.IsZero() {
			late := t.Lateness(st.Plan, c)
			sum += late + plan.PastTolerance*max(0, late-st.Plan.Courses[c].LateOK)
		}
	}
	for _, b := range breaks {
		if b.Kind == plan.BreakLiking {
			sum += time.Duration(b.Minutes) * time.Minute
		}
	}
	return sum
}

// moves sums by how much a timetable moves the steps that are ahead, against the
// one in force, each by how near the earlier of its two starts is.
func moves(st *run.State, now time.Time, t *plan.Timetable) (sum time.Duration) {
	for i, is := range t.Slots {
		was := st.Timetable.Slots[i]
		if st.Steps[i].Status != plan.Ahead || is.Progress == plan.Skipped {
			continue
		}
		by := is.Start.Sub(was.Start).Abs()
		if is.Cook != was.Cook || is.Oven != was.Oven || is.Burner != was.Burner {
			by += elsewhere
		}
		first := is.Start
		if was.Start.Before(first) {
			first = was.Start
		}
		ahead := max(0, first.Sub(now))
		sum += time.Duration(float64(by) * moveShare * math.Exp2(-float64(ahead)/float64(moveHalves)))
	}
	return sum
}
