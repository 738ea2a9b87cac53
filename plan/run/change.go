package run

import (
	"fmt"
	"slices"
	"time"

	"example.org/kettledrum/plan"
)

// A course that is held until released is taken to come OpenLead from now and up to
// OpenStep more, again and again while nobody releases it, and what is done for it in
// its last OpenLead moves along. So nobody is asked to plate for guests who are still
// talking, and once they are through that is the first thing that is asked.
const (
	OpenLead = 10 * time.Minute
	OpenStep = 5 * time.Minute
)

// NobodyStep is within how long from now somebody is taken to come back, again and
// again, while nobody at all is there.
const NobodyStep = 10 * time.Minute

// At returns the state as it is to be planned with at an instant: a course that is
// held until released has a time there, where everybody has left until they are
// back they have one too, and what is paused, or stands still since its cook left, goes on.
// Where nothing is open, it is s
// itself. It is for looking, not for applying events to.
func (s *State) At(now time.Time) *State {
	alone := s.deserted()
	away := slices.ContainsFunc(s.Changes, func(c plan.Change) bool { return c.Kind == plan.NotThere && c.To.IsZero() })
	if !away && !slices.ContainsFunc(s.Courses, func(c CourseState) bool { return c.Open }) &&
		!slices.ContainsFunc(s.Steps, func(st StepState) bool { return !st.Paused.IsZero() }) {
		return s
	}
	next := s.clone()
	next.seen = now
	for i := range next.Changes {
		if c := &next.Changes[i]; alone && c.Kind == plan.NotThere && c.To.IsZero() {
			c.To = c.From.Add((max(0, now.Sub(c.From))/NobodyStep + 1) * NobodyStep)
		}
	}
	for i := range next.Steps {
		next.resume(i, now)
	}
	for i := range next.Courses {
		c := &next.Courses[i]
		if soon := now.Add(OpenLead); c.Open && c.Served.IsZero() {
			if !c.Held.After(soon) {
				c.Held = c.Held.Add((soon.Sub(c.Held)/OpenStep + 1) * OpenStep)
			}
			c.Waits = true
		}
		c.Open = false
	}
	if err := next.rebuild(); err != nil {
		panic("run: " + err.Error()) // every change was in force already
	}
	return next
}

// pause interrupts a step that is going.
func (s *State) pause(i int, at time.Time) error {
	switch st, do := &s.Steps[i], s.Plan.Steps[i].Do; {
	case st.Status != plan.Begun:
		return fmt.Errorf("%q is not going", do)
	case !st.Paused.IsZero():
		return fmt.Errorf("%q is paused since %s already", do, s.when(st.Paused, at))
	case at.Before(st.Started):
		return fmt.Errorf("%q began at %s, it cannot be paused at %s", do, s.when(st.Started, at), s.when(at, st.Started))
	default:
		st.Paused = at
	}
	return nil
}

func (s *State) goOn(i int, at time.Time) error {
	if st := &s.Steps[i]; st.Status != plan.Begun || st.Paused.IsZero() {
		return fmt.Errorf("%q is not paused", s.Plan.Steps[i].Do)
	}
	s.resume(i, at)
	return nil
}

// deserted reports whether every cook has left until they are back.
func (s *State) deserted() bool {
	for _, k := range s.Base.Kitchen.Cooks {
		if s.leftAt(k.Name).IsZero() {
			return false
		}
	}
	return true
}

// leftAt is since when a cook is away until back, zero if there or away for a time.
func (s *State) leftAt(cook string) time.Time {
	for _, c := range s.Changes {
		if c.Kind == plan.NotThere && c.Cook == cook && c.To.IsZero() {
			return c.From
		}
	}
	return time.Time{}
}

// rebuild makes the plan as it stands, and the timetable in force fit it.
//
// Errors: a change that cannot be any more, since what it built on was undone.
func (s *State) rebuild() error {
	p := s.Base
	with := func(c plan.Change) (err error) {
		p, err = p.With(c)
		return err
	}
	for _, c := range s.Changes {
		if err := with(c); err != nil {
			return err
		}
	}
	for i := range s.Courses {
		if by := s.Courses[i].Held.Sub(p.Asked(i)); !s.Courses[i].Held.IsZero() && by > 0 {
			if err := with(plan.Change{Kind: plan.ServeLater, Course: p.Courses[i].Name, By: by}); err != nil {
				return err
			}
		}
	}
	s.Plan = p
	s.Timetable = s.fitted()
	return nil
}

// change puts a change into force.
func (s *State) change(c plan.Change) error {
	s.Changes = append(s.Changes, c)
	return s.rebuild()
}

// hold has a course wait: by so long more than it would, or until released. The
// first waits for the guests: for so long after it was asked for, whatever else it
// is late by.
func (s *State) hold(c int, at time.Time, by time.Duration) error {
	st := &s.Courses[c]
	if !st.Served.IsZero() {
		return fmt.Errorf("%s is on the table since %s already", s.Plan.Courses[c].Name, s.when(st.Served, at))
	}
	from := plan.Later(s.Plan.Asked(c), upToMinute(at))
	if s.Timetable != nil && c > 0 {
		from = plan.Later(from, s.Timetable.Serves[c])
	}
	st.Held, st.Open = from.Add(by), by == 0
	return s.rebuild()
}

// release has a course that was held come as soon as it can.
func (s *State) release(c int, at time.Time) error {
	st := &s.Courses[c]
	switch {
	case !st.Served.IsZero():
		return fmt.Errorf("%s is on the table since %s already", s.Plan.Courses[c].Name, s.when(st.Served, at))
	case st.Held.IsZero() || !st.Open && !st.Held.After(at):
		return fmt.Errorf("%s is not held", s.Plan.Courses[c].Name)
	}
	for i := range s.Steps { // what was not asked for meanwhile has not been done
		if st.Open && s.lastFor(c, i) {
			s.Steps[i].NotBefore = at
		}
	}
	st.Held, st.Open = upToMinute(at), false
	return s.rebuild()
}

// leave has a cook be away, for so long or until back. What was told before of the
// same absence, of a part of this time, is corrected: who is away already stays until
// then, who had left sooner left then.
func (s *State) leave(cook string, at time.Time, by time.Duration) error {
	c := plan.Change{Kind: plan.NotThere, Cook: cook, From: at}
	if by > 0 {
		c.To = at.Add(by)
	}
	s.Changes = slices.DeleteFunc(s.Changes, func(o plan.Change) bool {
		same := o.Kind == plan.NotThere && o.Cook == cook && (c.To.IsZero() || o.From.Before(c.To)) && (o.To.IsZero() || at.Before(o.To))
		if same {
			c.From = plan.Earlier(c.From, o.From)
		}
		return same
	})
	return s.change(c)
}

func (s *State) comeBack(cook string, at time.Time) error {
	k := s.absence(cook, at)
	if k < 0 {
		return fmt.Errorf("%s is not away", cook)
	}
	if s.Changes[k].To = at; !at.After(s.Changes[k].From) {
		s.Changes = slices.Delete(s.Changes, k, k+1)
	}
	return s.rebuild()
}

// absence is the change by which a cook is away at an instant, −1 if there.
func (s *State) absence(cook string, at time.Time) int {
	return slices.IndexFunc(s.Changes, func(c plan.Change) bool {
		return c.Kind == plan.NotThere && c.Cook == cook && !c.From.After(at) && (c.To.IsZero() || c.To.After(at))
	})
}

// fail takes an oven or a burner out of use, from now on. What stands there must
// go elsewhere, or be begun again.
func (s *State) fail(e *Event, step int) error {
	c := plan.Change{Kind: plan.BurnerFails, Burner: e.Burner}
	if e.Oven != "" {
		c = plan.Change{Kind: plan.OvenFails, Oven: e.Oven}
		if slices.ContainsFunc(s.Changes, func(o plan.Change) bool { return o.Kind == c.Kind && o.Oven == c.Oven }) {
			return fmt.Errorf("%s has failed already", e.Oven)
		}
		oven := ovenIndex(s.Plan, e.Oven)
		s.turn(OvenFact{Oven: oven, At: e.At, Off: true, For: -1, Broke: true}) // it is cooling
		for i := range s.Steps {
			if s.Steps[i].Status == plan.Begun && s.Plan.Steps[i].Oven != nil && s.Timetable != nil && s.Timetable.Slots[i].Oven == oven {
				s.displace(i, e)
			}
		}
	}
	if step >= 0 && s.Steps[step].Status == plan.Begun {
		s.displace(step, e)
	}
	return s.change(c)
}

func (s *State) displace(i int, e *Event) {
	s.Steps[i].Displaced, s.Steps[i].Failed, s.Steps[i].Back = e.At, e.Oven+e.Burner, ""
	delete(s.Acked, cueFailed+s.Plan.Steps[i].ID)
}

// works brings an oven or a burner that failed back.
func (s *State) works(e *Event) error {
	for k, c := range slices.Backward(s.Changes) {
		if e.Oven != "" && c.Kind == plan.OvenFails && c.Oven == e.Oven || e.Burner != "" && c.Kind == plan.BurnerFails && c.Burner == e.Burner {
			s.Changes = slices.Delete(s.Changes, k, k+1)
			s.replace(e.Oven + e.Burner)
			s.restore(e.Oven, e.At)
			return s.rebuild()
		}
	}
	return fmt.Errorf("%s%s has not failed", e.Oven, e.Burner)
}

// restore notes when an oven that had failed worked again: what it is to be set to is
// not to be before that.
func (s *State) restore(oven string, at time.Time) {
	for k := range s.Sets {
		if f := &s.Sets[k]; f.Broke && f.Restored.IsZero() && s.Plan.Kitchen.Ovens[f.Oven].Name == oven {
			f.Restored = at
		}
	}
}

// replace has the steps whose place failed be in it again, but for those that stood
// where nothing works yet: of burners of one size the ones that failed first.
func (s *State) replace(name string) {
	out := 0
	for _, c := range s.Changes {
		if c.Kind == plan.OvenFails && c.Oven == name || c.Kind == plan.BurnerFails && c.Burner == name {
			out++
		}
	}
	var there []int
	for i := range s.Steps {
		if !s.Steps[i].Displaced.IsZero() && s.Steps[i].Failed == name {
			there = append(there, i)
		}
	}
	slices.SortStableFunc(there, func(i, j int) int { return s.Steps[i].Displaced.Compare(s.Steps[j].Displaced) })
	for _, i := range there[min(out, len(there)):] {
		s.Steps[i].placed()
		if ovenIndex(s.Plan, name) >= 0 {
			s.Steps[i].Back = name
		}
	}
}

// placed ends that what a step stands on or in has failed.
func (st *StepState) placed() { st.Displaced, st.Failed, st.Back = time.Time{}, "", "" }

// place puts a step where it is from now on: another oven, burner, tool, cook.
func (s *State) place(i int, at time.Time, c plan.Change) error {
	switch st := &s.Steps[i]; st.Status {
	case plan.Done:
		return fmt.Errorf("%q is done since %s already, undo that first", s.Plan.Steps[i].Do, s.when(st.Finished, at))
	case plan.Skipped:
		return fmt.Errorf("%q was skipped at %s, undo that first", s.Plan.Steps[i].Do, s.when(st.Finished, at))
	}
	switch c.Kind {
	case plan.PutOn:
		s.Steps[i].placed()
	case plan.GiveTo: // how long it stood still with the cook before stays so
		s.Steps[i].Extra += sumWithin(s.stillUntil(i, at), time.Time{}, at)
	}
	return s.change(c)
}

// remedy takes what the cook gave up into account.
func (s *State) remedy(e *Event) error {
	for _, c := range e.Changes {
		var err error
		switch i := s.Plan.StepIndex(c.Step); {
		case c.Kind == plan.Drop && c.Dish != "":
			err = s.drop(c.Dish, e.At)
		case c.Kind == plan.Drop && i >= 0:
			err = s.skip(i, e.At)
		case c.Step != "" && i < 0:
			err = fmt.Errorf("unknown step %q", c.Step)
		case c.Kind == plan.KeepLonger && s.Steps[i].Status == plan.Done: // what was made may wait, now that it is
			err = s.change(c)
		case i >= 0:
			err = s.place(i, e.At, c)
		default:
			err = s.change(c)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// drop leaves out what is not done of a dish. What is done of it is for nobody
// any more, unless another dish is still to take it.
func (s *State) drop(dish string, at time.Time) error {
	d := slices.IndexFunc(s.Plan.Dishes, func(d plan.Dish) bool { return d.ID == dish && dish != "" })
	if d < 0 {
		return fmt.Errorf("unknown dish %q", dish)
	}
	if served := s.Courses[s.Plan.Dishes[d].Course].Served; !served.IsZero() {
		return fmt.Errorf("%s is on the table since %s already", s.Plan.Dishes[d].Name, s.when(served, at))
	}
	next, left := s.Plan.Followers(), false
	for _, i := range s.Plan.Dishes[d].Steps {
		st := &s.Steps[i]
		wanted := slices.ContainsFunc(next[i], func(j int) bool {
			return s.Plan.Steps[j].Dish != d && s.Steps[j].Status == plan.Ahead
		})
		left = left || st.Status == plan.Ahead || st.Status == plan.Begun
		if st.Status != plan.Skipped && !(st.Status == plan.Done && wanted) {
			st.Status, st.Finished = plan.Skipped, at
			st.placed()
		}
	}
	if !left {
		return fmt.Errorf("nothing of %s is left to be done", s.Plan.Dishes[d].Name)
	}
	for _, i := range s.Plan.Dishes[d].Steps {
		s.follow(i, at)
	}
	return nil
}

// redo has a step begin again, and with it what its dish made of it. What other
// dishes took of it before stays as it was.
func (s *State) redo(i int, at time.Time) error {
	dish := s.Plan.Steps[i].Dish
	if served := s.Courses[s.Plan.CourseOf(i)].Served; !served.IsZero() {
		return fmt.Errorf("%s is on the table since %s already", s.Plan.Courses[s.Plan.CourseOf(i)].Name, s.when(served, at))
	}
	switch st := s.Steps[i]; {
	case st.Status == plan.Ahead:
		return fmt.Errorf("%q has not begun", s.Plan.Steps[i].Do)
	case at.Before(st.Started):
		return fmt.Errorf("%q began at %s, it cannot begin again at %s", s.Plan.Steps[i].Do, s.when(st.Started, at), s.when(at, st.Started))
	}
	next, seen := s.Plan.Followers(), map[int]bool{}
	var again func(j int)
	again = func(j int) {
		if seen[j] {
			return
		}
		seen[j] = true
		if st := &s.Steps[j]; s.Plan.Steps[j].Dish == dish && (j == i || st.Status != plan.Skipped) {
			*st = StepState{NotBefore: at, Again: st.Again + 1}
			s.forget(j)
		}
		for _, k := range next[j] {
			again(k)
		}
	}
	again(i)
	s.Timetable = s.fitted()
	return nil
}

// forget takes away what was answered about step i, and what its oven was set for.
func (s *State) forget(i int) {
	id := s.Plan.Steps[i].ID
	for _, what := range []string{cueSoon, cueKeep, cueRemind, cueRead, cueProbe, cueUnmeasured, cueUnsafe} {
		for cue := range s.Acked {
			if cue == what+id || len(cue) > len(what+id) && cue[:len(what+id)+1] == what+id+":" {
				delete(s.Acked, cue)
			}
		}
	}
	for k := range s.Sets {
		if s.Sets[k].For == i {
			s.Sets[k].Spent = true
		}
	}
}
