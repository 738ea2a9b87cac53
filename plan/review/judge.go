package review

import (
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

// shortest is the least that counts as a length: who tells within a minute that a step
// began and that it is done tells of it afterwards.
const shortest = time.Minute

// Of looks back at a run. Written is the plan as the file had it: st.Base, but for
// plan.Plan.Cautious, with the same steps.
// Cost: O(E·(S + V + A)) for E events of S steps, and a look of the conductor (package
// run) for each moment at which something was told five minutes late or more.
func Of(st *run.State, written *plan.Plan) *Evening {
	seen, served := gather(st, told(st))
	ev := &Evening{Plan: written, Table: st.Base.Table, Steps: make([]Step, len(st.Steps)), Courses: make([]Course, len(st.Courses))}
	first := firstTimetable(st)
	for i := range ev.Steps {
		x := &ev.Steps[i]
		x.Planned = st.Base.Steps[i].Length.Planned()
		if first != nil {
			x.PlannedStart, x.PlannedEnd = first.Slots[i].Start, first.Slots[i].End
		}
		x.judge(st, i, &seen[i])
	}
	for c := range ev.Courses {
		x := &ev.Courses[c]
		x.Asked, x.Served, x.Told = st.Base.Asked(c), st.Courses[c].Served, served[c] == Judged
		if x.Planned = x.Asked; first != nil {
			x.Planned = first.Serves[c]
		}
		if !x.Served.IsZero() {
			x.Late = max(0, x.Served.Sub(x.Asked))
			x.Missed = x.Late > st.Base.Courses[c].LateOK
		}
	}
	ev.notes(st)
	return ev
}

// judge fills in what came of step i.
func (x *Step) judge(st *run.State, i int, seen *evidence) {
	is, step := &st.Steps[i], &st.Base.Steps[i]
	switch is.Status {
	case plan.Begun:
		x.Start = is.Started
	case plan.Done:
		x.Start, x.End = is.Started, is.Finished
		x.Stood = covered(append(seen.stood, st.StandsStill(i)...), x.Start, x.End)
	}
	switch {
	case is.Status == plan.Skipped:
		x.Why = LeftOut
	case step.Length.Elastic:
		x.Why = Waits
	case is.Again > 0:
		x.Why = Again
	case seen.displaced:
		x.Why = Displaced
	case st.Plan.Steps[i].Length != step.Length:
		x.Why = Otherwise
	case seen.start == NoStart && seen.end == NoEnd, is.Status == plan.Ahead:
		x.Why = Untold
	case is.Status != plan.Done:
		x.Why = NoEnd
	case seen.end != Judged:
		x.Why = seen.end
	case seen.start != Judged:
		x.Why = seen.start
	case x.End.Sub(x.Start)-x.Stood < shortest:
		x.Why = AtOnce
	default:
		x.Took = x.End.Sub(x.Start) - x.Stood
	}
}

// firstTimetable is the one that the dinner began with, nil where there was none.
func firstTimetable(st *run.State) *plan.Timetable {
	for _, e := range st.Events {
		if e.Kind == run.Adopted {
			return e.Timetable
		}
	}
	return nil
}

// notes puts beside each step what was noted of it, and what the cook was asked and
// answered.
func (ev *Evening) notes(st *run.State) {
	for _, e := range st.Standing() {
		n := Note{At: e.At, Kind: e.Kind, Text: e.Text, By: e.By}
		switch i := st.Base.StepIndex(e.Step); {
		case e.Text == "" || e.Kind != run.Noted && e.Kind != run.Acknowledged && e.Kind != run.Added:
		case i >= 0:
			ev.Steps[i].Notes = append(ev.Steps[i].Notes, n)
		default:
			ev.Notes = append(ev.Notes, n)
		}
	}
}
