package run

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.org/kettledrum/plan"
)

// take puts a checked event into the state, which is not shared yet.
func (s *State) take(e *Event) error {
	step := s.Plan.StepIndex(e.Step) // −1 without
	switch e.Kind {
	case Opened:
		if slices.ContainsFunc(s.Events, func(o Event) bool { return o.Kind == Opened }) {
			return fmt.Errorf("the run is open already")
		}
	case Adopted:
		s.adopted, s.Why, s.AdoptedAt = e.Timetable, e.Why, e.At
		s.Timetable = s.fitted()
	case Started:
		return s.start(step, e.At)
	case Finished:
		return s.finish(step, e.At)
	case Prolonged:
		return s.prolong(step, e.At, e.By)
	case SkippedStep:
		return s.skip(step, e.At)
	case Acknowledged:
		return s.acknowledge(e.Cue, e.At)
	case Reading:
		return s.read(step, e.At, plan.Celsius(*e.Temp))
	case OvenTurned:
		fact := OvenFact{Oven: ovenIndex(s.Plan, e.Oven), At: e.At, Off: e.Temp == nil, For: step}
		if e.Temp != nil {
			fact.To = plan.Celsius(*e.Temp)
		}
		s.turn(fact)
	case TimerSet:
		s.Timers = append(s.Timers, Timer{Seq: e.Seq, Label: e.Text, Set: e.At, Due: e.At.Add(e.By)})
	case Added: // whoever does it does nothing else meanwhile
		s.Timers = append(s.Timers, Timer{Seq: e.Seq, Label: e.Text, Set: e.At, Due: e.At.Add(e.By)})
		if e.Cook != "" {
			return s.leave(e.Cook, e.At, e.By)
		}
	case Served:
		return s.serve(courseIndex(s.Plan, e.Course), e.At)
	case Paused:
		return s.pause(step, e.At)
	case Resumed:
		return s.goOn(step, e.At)
	case Held:
		return s.hold(courseIndex(s.Plan, e.Course), e.At, e.By)
	case Released:
		return s.release(courseIndex(s.Plan, e.Course), e.At)
	case Away:
		return s.leave(e.Cook, e.At, e.By)
	case Back:
		return s.comeBack(e.Cook, e.At)
	case Failed:
		return s.fail(e, step)
	case Works:
		return s.works(e)
	case Reassigned:
		return s.place(step, e.At, plan.Change{Kind: plan.GiveTo, Step: e.Step, Cook: e.Cook})
	case Put:
		return s.place(step, e.At, plan.Change{Kind: plan.PutOn, Step: e.Step, Oven: e.Oven, Burner: e.Burner, Tool: e.Tool})
	case Redone:
		return s.redo(step, e.At)
	case Dropped:
		return s.drop(e.Dish, e.At)
	case RemedyTaken:
		return s.remedy(e)
	case Noted: // kept in Events
	default:
		return fmt.Errorf("%s: %w", e.Kind, ErrNotYet)
	}
	return nil
}

// turn puts in what an oven's dial did.
func (s *State) turn(fact OvenFact) {
	s.Sets = append(s.Sets, fact)
	slices.SortStableFunc(s.Sets, func(a, b OvenFact) int { return a.At.Compare(b.At) })
}

func (s *State) start(i int, at time.Time) error {
	switch st := &s.Steps[i]; st.Status {
	case plan.Begun:
		return fmt.Errorf("%q is going since %s already", s.Plan.Steps[i].Do, s.when(st.Started, at))
	case plan.Done:
		return fmt.Errorf("%q is done since %s already, undo that first", s.Plan.Steps[i].Do, s.when(st.Finished, at))
	case plan.Skipped:
		return fmt.Errorf("%q was skipped at %s, undo that first", s.Plan.Steps[i].Do, s.when(st.Finished, at))
	}
	s.begin(i, at)
	return nil
}

// begin starts a step that is ahead. What it follows is over by then: a wait
// ends with it, and what nobody called done was.
func (s *State) begin(i int, at time.Time) {
	s.Steps[i].Status, s.Steps[i].Started = plan.Begun, at
	s.remindAgain(i)
	for _, l := range s.Plan.Steps[i].After {
		s.imply(l.Step, at)
	}
}

// imply makes a step done that must be, since something after it has begun or
// its course was served at that time: at its expected end, if that is earlier.
func (s *State) imply(i int, by time.Time) {
	st := &s.Steps[i]
	if st.Status == plan.Done || st.Status == plan.Skipped {
		return
	}
	if st.Status == plan.Ahead {
		s.begin(i, s.impliedStart(i, by))
	}
	end := by
	if due := st.Started.Add(s.length(i)); !s.Plan.Steps[i].Length.Elastic && due.Before(by) {
		end = due
	}
	s.end(i, plan.Later(end, st.Started))
}

// impliedStart is when a step began of which only a later time is told: as
// planned, if that was before and not before what it follows was done; else
// then.
func (s *State) impliedStart(i int, by time.Time) time.Time {
	if s.Timetable == nil {
		return by
	}
	at := s.Timetable.Slots[i].Start
	for _, l := range s.Plan.Steps[i].After {
		switch pred := &s.Steps[l.Step]; pred.Status {
		case plan.Done:
			at = plan.Later(at, pred.Finished)
		case plan.Begun:
			at = plan.Later(at, pred.Started)
		}
	}
	if at.After(by) {
		return by
	}
	return at
}

func (s *State) finish(i int, at time.Time) error {
	st, do := &s.Steps[i], s.Plan.Steps[i].Do
	switch {
	case st.Status == plan.Done:
		return fmt.Errorf("%q is done since %s already", do, s.when(st.Finished, at))
	case st.Status == plan.Skipped:
		return fmt.Errorf("%q was skipped at %s, undo that first", do, s.when(st.Finished, at))
	case st.Status == plan.Begun && at.Before(st.Started):
		return fmt.Errorf("%q began at %s, it cannot be done at %s", do, s.when(st.Started, at), s.when(at, st.Started))
	case st.Status == plan.Ahead:
		s.begin(i, s.impliedStart(i, at))
	}
	s.end(i, at)
	return nil
}

// end makes a step that is going done, and starts what follows at once.
func (s *State) end(i int, at time.Time) {
	s.resume(i, at)
	s.Steps[i].Status, s.Steps[i].Finished = plan.Done, at
	s.follow(i, at)
}

// follow starts each step that follows i at once and has nothing else to wait for.
func (s *State) follow(i int, at time.Time) {
	for j := range s.Plan.Steps {
		step := &s.Plan.Steps[j]
		if !step.AtOnce || s.Steps[j].Status != plan.Ahead {
			continue
		}
		mine, open, done := false, false, false
		for _, l := range step.After {
			mine = mine || l.Step == i
			switch s.Steps[l.Step].Status {
			case plan.Done:
				done = true
			case plan.Skipped:
			default:
				open = true
			}
		}
		if mine && done && !open {
			s.begin(j, at)
		}
	}
}

func (s *State) prolong(i int, at time.Time, by time.Duration) error {
	st, step := &s.Steps[i], &s.Plan.Steps[i]
	switch st.Status {
	case plan.Done:
		return fmt.Errorf("%q is done since %s already, undo that first", step.Do, s.when(st.Finished, at))
	case plan.Skipped:
		return fmt.Errorf("%q was skipped at %s, undo that first", step.Do, s.when(st.Finished, at))
	case plan.Ahead:
		if s.beforehand(i, at) { // it will take longer
			st.Extra += by
			return nil
		}
		s.begin(i, s.impliedStart(i, at))
	}
	// Counted from the end as expected, or from now where that has passed.
	end := st.Started.Add(s.length(i))
	if step.Length.Elastic && s.Timetable != nil && s.Timetable.Slots[i].End.After(end) {
		end = s.Timetable.Slots[i].End
	}
	if at.After(end) {
		end = at
	}
	st.Extra += end.Add(by).Sub(st.Started) - s.length(i)
	return nil
}

// beforehand reports whether step i is not to have begun yet at a time.
func (s *State) beforehand(i int, at time.Time) bool {
	return s.Timetable == nil || s.Timetable.Slots[i].Start.After(at)
}

func (s *State) skip(i int, at time.Time) error {
	switch st := &s.Steps[i]; st.Status {
	case plan.Done:
		return fmt.Errorf("%q is done since %s already, it cannot be skipped", s.Plan.Steps[i].Do, s.when(st.Finished, at))
	case plan.Skipped:
		return fmt.Errorf("%q was skipped at %s already", s.Plan.Steps[i].Do, s.when(st.Finished, at))
	}
	s.Steps[i].Status, s.Steps[i].Finished = plan.Skipped, at
	s.follow(i, at)
	return nil
}

func (s *State) acknowledge(cue string, at time.Time) error {
	if seq, ok := strings.CutPrefix(cue, cueTimer); ok {
		n, err := strconv.ParseUint(seq, 10, 64)
		k := slices.IndexFunc(s.Timers, func(t Timer) bool { return t.Seq == n })
		if err != nil || k < 0 {
			return fmt.Errorf("unknown timer %q", seq)
		}
		if s.Timers[k].Stopped.IsZero() {
			s.Timers[k].Stopped = at
		}
	}
	s.Acked[cue] = at
	return nil
}

// serve puts a course on the table. What is still going for it is over then, and
// so is what was to be begun by then and nobody told of; the rest is left out.
// Chores are no food: one that was to be done by then is; what is still going
// goes on, and what is still to be done goes on being offered.
func (s *State) serve(c int, at time.Time) error {
	if served := s.Courses[c].Served; !served.IsZero() {
		return fmt.Errorf("%s is on the table since %s already", s.Plan.Courses[c].Name, s.when(served, at))
	}
	s.Courses[c].Served = at
	// Waits come last: what follows one tells when it was over.
	for _, waits := range []bool{false, true} {
		for i := range s.Steps {
			switch {
			case s.Plan.CourseOf(i) != c || s.Plan.Steps[i].Length.Elastic != waits:
			case s.Steps[i].Status == plan.Done || s.Steps[i].Status == plan.Skipped:
			case s.Plan.Dishes[s.Plan.Steps[i].Dish].Chore != nil:
				if s.dueBy(i, at) {
					s.imply(i, at)
				}
			case s.Steps[i].Status == plan.Begun, s.Timetable != nil && s.Timetable.Slots[i].Start.Before(at):
				s.imply(i, at)
			default:
				s.Steps[i].Status, s.Steps[i].Finished = plan.Skipped, at
			}
		}
	}
	return nil
}

// dueBy reports whether a step was to be done by a time.
func (s *State) dueBy(i int, at time.Time) bool {
	began := s.Steps[i].Started
	if s.Steps[i].Status == plan.Ahead {
		if s.Timetable == nil {
			return false
		}
		began = s.Timetable.Slots[i].Start
	}
	return !began.Add(s.length(i)).After(at)
}

// Expected returns how long step i is expected to take, of a wait the least: as
// planned, with what prolonged it, and for how long it stands still.
func (s *State) Expected(i int) time.Duration { return s.length(i) }

func (s *State) length(i int) time.Duration {
	return s.Plan.Steps[i].Length.Planned() + s.Steps[i].Extra + s.still(i)
}

// when tells a time in the plan's zone, as read at now.
func (s *State) when(t, now time.Time) string { return DayTime(t, now, s.Plan.Table.Location()) }
