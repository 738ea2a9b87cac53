package run

import (
	"cmp"
	"slices"
	"time"

	"example.org/kettledrum/plan"
)

// Conduct returns everything that a screen needs to show the run at an instant.
// Without a timetable there is nothing to conduct: only the courses are filled.
func Conduct(s *State, now time.Time) Moment {
	told := s
	s = s.At(now)
	m := Moment{Now: now, Finished: finished(s)}
	if s.Timetable == nil {
		m.Projection = factsOnly(s)
		for c := range s.Courses {
			m.Courses = append(m.Courses, courseMoment(s, c, s.Plan.Asked(c), s.Plan.Asked(c)))
		}
		timers(s, now, &m)
		sortCues(m.Cues)
		return m
	}
	pr := projectAt(s, now)
	m.Projection = pr.projection()
	m.Sets = pr.toSet()
	m.Next = make([]Upcoming, 0, len(s.Steps)+len(pr.sets)+len(s.Courses))
	pr.steps(&m)
	pr.thermometer(&m)
	pr.dials(&m)
	pr.courses(&m)
	timers(s, now, &m)
	waiting(told, s, &m)
	pr.displaced(&m)
	pr.keeping(&m)
	pr.conflicts(&m)
	pr.misset(&m)
	moved(s, now, &m)
	m.Cautions = pr.cautions()
	m.Breaks = pr.breaks()
	for i := range s.Plan.Kitchen.Ovens {
		m.Ovens = append(m.Ovens, pr.oven(i))
	}

	m.Cues = slices.DeleteFunc(m.Cues, func(c Cue) bool {
		_, seen := s.Acked[c.ID]
		return seen && (c.Class == LateCue || c.Class == Soon || c.Class == Note)
	})
	sortCues(m.Cues)
	sortNext(m.Next)
	slices.SortStableFunc(m.Going, func(a, b Going) int {
		return cmp.Or(a.Start.Compare(b.Start), cmp.Compare(a.Timer, b.Timer), cmp.Compare(a.Step, b.Step))
	})
	slices.SortStableFunc(m.Unconfirmed, func(a, b Unconfirmed) int {
		return cmp.Or(a.At.Compare(b.At), cmp.Compare(rank(&a.Cue), rank(&b.Cue)), cmp.Compare(a.Cue.Step, b.Cue.Step))
	})
	return m
}

// AllAsPlanned returns the events that confirm everything unconfirmed, each at
// the time at which it is assumed to have happened.
func AllAsPlanned(m Moment) []Event {
	var out []Event
	for _, u := range m.Unconfirmed {
		for _, e := range u.Cue.Answer {
			e.At = u.At
			out = append(out, e)
		}
	}
	return out
}

// steps adds the cues, timers and outlook of all steps.
func (pr *projected) steps(m *Moment) {
	for i := range pr.s.Steps {
		switch pr.s.Steps[i].Status {
		case plan.Ahead:
			pr.ahead(i, m)
		case plan.Begun:
			pr.going(i, false, m)
		}
		pr.reminders(i, m)
	}
}

// ahead is a step that nobody has called begun.
func (pr *projected) ahead(i int, m *Moment) {
	v := pr.start(i)
	cue := pr.startCue(i)
	switch pr.status[v] {
	case open:
		cue.Due = pr.time(pr.due[v])
		m.Cues = append(m.Cues, cue)
	case assumed:
		cue.Due = pr.at(v)
		if pr.asks(v) {
			m.Unconfirmed = append(m.Unconfirmed, Unconfirmed{Cue: cue, At: cue.Due})
		}
		pr.going(i, true, m)
	default:
		cue.Due = pr.at(v)
		if pr.auto(i) && pr.s.Plan.Steps[i].Hands == plan.Free {
			return // begins by itself and asks nothing of anybody
		}
		m.Next = append(m.Next, Upcoming{Cue: cue, At: cue.Due})
		if ahead := cue.Due.Sub(pr.now); ahead <= SoonAhead && !pr.auto(i) {
			m.Cues = append(m.Cues, pr.soonCue(i, cue))
		}
	}
}

// going is a step that has begun, or is assumed to have.
func (pr *projected) going(i int, unconfirmed bool, m *Moment) {
	v := pr.end(i)
	asks := pr.ends(i)
	end := pr.ending(i)
	cue := pr.endCue(i)
	cue.Due = end
	over := !end.After(pr.now)
	switch {
	case asks && over && pr.now.Sub(end) >= UnconfirmedAfter:
		m.Unconfirmed = append(m.Unconfirmed, Unconfirmed{Cue: cue, At: end})
		return
	case asks && over:
		m.Cues = append(m.Cues, cue)
	case asks:
		m.Next = append(m.Next, Upcoming{Cue: cue, At: end})
	case pr.status[v] == assumed:
		return
	}
	m.Going = append(m.Going, Going{
		Step: i, Label: pr.name(i), Place: pr.place(i), Ends: pr.until(i),
		Start: pr.at(pr.start(i)), End: end, Over: over, Unconfirmed: unconfirmed,
	})
}

// waitEnd is when a wait is planned to end, or may at the earliest.
func (pr *projected) waitEnd(i int) time.Time {
	end := pr.at(pr.start(i)).Add(pr.s.length(i))
	if planned := pr.s.Timetable.Slots[i].End; planned.After(end) {
		return planned
	}
	return end
}

// dials adds the oven settings that are due, unanswered or to come.
func (pr *projected) dials(m *Moment) {
	for k := range pr.sets {
		v := pr.set(k)
		cue := pr.setCue(k)
		cue.Due = pr.at(v)
		switch pr.status[v] {
		case open:
			cue.Due = pr.time(pr.due[v])
			m.Cues = append(m.Cues, cue)
		case assumed:
			m.Unconfirmed = append(m.Unconfirmed, Unconfirmed{Cue: cue, At: cue.Due})
		case future:
			m.Next = append(m.Next, Upcoming{Cue: cue, At: cue.Due})
		}
	}
}

// courses adds the serves, and what will be late.
func (pr *projected) courses(m *Moment) {
	for c := range pr.s.Courses {
		v := pr.serve(c)
		cue := pr.serveCue(c)
		cue.Due = pr.at(v)
		cm := courseMoment(pr.s, c, pr.s.Timetable.Serves[c], cue.Due)
		m.Courses = append(m.Courses, cm)
		switch pr.status[v] {
		case open:
			cue.Due = pr.time(pr.due[v])
			m.Cues = append(m.Cues, cue)
		case assumed:
			m.Unconfirmed = append(m.Unconfirmed, Unconfirmed{Cue: cue, At: cue.Due})
		case future:
			m.Next = append(m.Next, Upcoming{Cue: cue, At: cue.Due})
		}
		if cm.Misses && pr.status[v] != fact {
			m.Cues = append(m.Cues, pr.lateCue(cm))
		}
	}
}

func courseMoment(s *State, c int, planned, projected time.Time) CourseMoment {
	cm := CourseMoment{
		Course: c, Asked: s.Plan.Asked(c), Planned: planned, Projected: projected, Served: s.Courses[c].Served,
	}
	at := projected
	if !cm.Served.IsZero() {
		at = cm.Served
	}
	cm.Late = max(0, at.Sub(cm.Asked))
	cm.Misses = cm.Late > s.Plan.Courses[c].LateOK
	return cm
}

// timers adds the quick timers.
func timers(s *State, now time.Time, m *Moment) {
	for _, t := range s.Timers {
		if !t.Stopped.IsZero() {
			continue
		}
		cue, over := timerCue(t), !t.Due.After(now)
		switch {
		case over && now.Sub(t.Due) >= UnconfirmedAfter:
			m.Unconfirmed = append(m.Unconfirmed, Unconfirmed{Cue: cue, At: t.Due})
			continue
		case over:
			m.Cues = append(m.Cues, cue)
		default:
			m.Next = append(m.Next, Upcoming{Cue: cue, At: t.Due})
		}
		m.Going = append(m.Going, Going{Step: -1, Timer: t.Seq, Label: timerLabel(t), Start: t.Set, End: t.Due, Over: over})
	}
}

// waiting tells which courses wait until somebody releases them.
func waiting(told, s *State, m *Moment) {
	for c, course := range told.Courses {
		if course.Open && course.Served.IsZero() {
			m.Cues = append(m.Cues, heldCue(s, c, m.Now))
		}
	}
}

// displaced asks where what stood on a burner that failed, or was in an oven that
// did, is now.
func (pr *projected) displaced(m *Moment) {
	for i, st := range pr.s.Steps {
		if !st.Displaced.IsZero() && st.Status == plan.Begun && !pr.settled(pr.end(i)) {
			m.Cues = append(m.Cues, pr.displacedCue(i))
		}
	}
}

// moved tells for a while what the last new timetable changed.
func moved(s *State, now time.Time, m *Moment) {
	if len(s.Why) == 0 || now.Sub(s.AdoptedAt) >= noteFor {
		return
	}
	for i := len(s.Events) - 1; i >= 0; i-- {
		if e := &s.Events[i]; e.Kind == Adopted && e.Timetable == s.adopted {
			m.Cues = append(m.Cues, movedCue(s, e))
			return
		}
	}
}

// sortNext puts what comes first first. What is moved about are numbers: an Upcoming
// is long.
func sortNext(next []Upcoming) {
	order := make([]int32, len(next))
	for k := range order {
		order[k] = int32(k)
	}
	slices.SortFunc(order, func(j, k int32) int {
		a, b := &next[j], &next[k]
		if c := a.At.Compare(b.At); c != 0 {
			return c
		}
		return cmp.Or(cmp.Compare(rank(&a.Cue), rank(&b.Cue)), cmp.Compare(a.Cue.ID, b.Cue.ID), cmp.Compare(j, k))
	})
	for k := range order { // round each circle of places, without a copy of all
		first := next[k]
		for at := int32(k); order[at] >= 0; {
			from := order[at]
			order[at] = -1
			if from == int32(k) {
				next[at] = first
				break
			}
			next[at], at = next[from], from
		}
	}
}

func finished(s *State) bool {
	return !slices.ContainsFunc(s.Courses, func(c CourseState) bool { return c.Served.IsZero() })
}
