package review

import (
	"slices"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

// told says of each event of a run, by its number, whether its time is what the cook
// saw. It is not where it was said afterwards that things went as planned, for those
// times are the plan's, and not of what was written down as made ahead when the run was
// opened, which was told before that.
func told(last *run.State) map[uint64]Reason {
	why := map[uint64]Reason{}
	st := opened(last)
	var missed []run.Unconfirmed // at the first event of one moment
	var asked time.Time
	for _, e := range last.Events {
		switch {
		case e.Noted.Before(last.Events[0].Noted):
			why[e.Seq] = MadeAhead
		case e.Noted.Sub(e.At) >= run.UnconfirmedAfter && st.Timetable != nil:
			if !e.Noted.Equal(asked) {
				missed, asked = run.Conduct(st, e.Noted).Unconfirmed, e.Noted
			}
			if asPlanned(missed, &e) || asPlanned(run.Conduct(st, e.Noted).Unconfirmed, &e) {
				why[e.Seq] = Assumed
			}
		}
		st = after(st, e)
	}
	return why
}

// opened is a run before anything was told of it.
func opened(last *run.State) *run.State {
	st, err := run.Fold(last.Base, nil)
	if err != nil {
		panic("review: " + err.Error()) // of no events
	}
	return st
}

// after is a state after an event of the same run.
func after(st *run.State, e run.Event) *run.State {
	next, err := st.Apply(e)
	if err != nil {
		panic("review: " + err.Error()) // every event was applied before
	}
	return next
}

// asPlanned reports whether an event says of something unanswered that it was as
// assumed.
func asPlanned(missed []run.Unconfirmed, e *run.Event) bool {
	return slices.ContainsFunc(missed, func(u run.Unconfirmed) bool {
		return u.At.Equal(e.At) && slices.ContainsFunc(u.Cue.Answer, func(a run.Event) bool {
			return a.Kind == e.Kind && a.Step == e.Step && a.Course == e.Course && a.Oven == e.Oven
		})
	})
}

// evidence is what of a step was seen while it happened.
type evidence struct {
	start, end Reason // Judged: told
	stood      []plan.Window
	paused     time.Time // zero: it is not
	displaced  bool
}

// gather goes through what counts of a run, event by event. served says of each course
// whether its serve was told.
func gather(last *run.State, why map[uint64]Reason) (steps []evidence, served []Reason) {
	steps, served = make([]evidence, len(last.Steps)), make([]Reason, len(last.Courses))
	for i := range steps {
		steps[i].start, steps[i].end = NoStart, NoEnd
	}
	for c := range served {
		served[c] = NoEnd
	}
	st := opened(last)
	for _, e := range last.Standing() {
		was := st
		st = after(st, e)
		i := st.Plan.StepIndex(e.Step)
		switch e.Kind {
		case run.Started:
			steps[i].start = why[e.Seq]
		case run.Finished:
			steps[i].end = why[e.Seq]
			for j := range st.Steps { // what follows at once began with it, as truly as it ended
				if j != i && was.Steps[j].Status == plan.Ahead && st.Steps[j].Status != plan.Ahead && st.Plan.Steps[j].AtOnce && st.Steps[j].Started.Equal(e.At) {
					steps[j].start = why[e.Seq]
				}
			}
		case run.Reassigned: // with the cook before it stood still then, with the next it does not
			for _, w := range was.At(e.At).StandsStill(i) {
				steps[i].stood = append(steps[i].stood, plan.Window{From: w.From, To: plan.Earlier(w.To, e.At)})
			}
		case run.Served:
			served[slices.IndexFunc(st.Plan.Courses, func(c plan.Course) bool { return c.Name == e.Course })] = why[e.Seq]
		}
		for j := range st.Steps {
			steps[j].watch(&st.Steps[j], e.At)
		}
	}
	return steps, served
}

// watch sees what an event left a step in.
func (x *evidence) watch(st *run.StepState, at time.Time) {
	x.displaced = x.displaced || !st.Displaced.IsZero()
	if !x.paused.IsZero() && st.Paused.IsZero() {
		x.stood = append(x.stood, plan.Window{From: x.paused, To: at})
	}
	x.paused = st.Paused
}

// covered is how much of a stretch some windows cover together.
func covered(ws []plan.Window, from, to time.Time) (sum time.Duration) {
	ws = slices.Clone(ws)
	slices.SortFunc(ws, func(a, b plan.Window) int { return a.From.Compare(b.From) })
	for _, w := range ws {
		if a, b := plan.Later(w.From, from), plan.Earlier(w.To, to); a.Before(b) {
			sum, from = sum+b.Sub(a), b
		}
	}
	return sum
}
