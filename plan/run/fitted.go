package run

import (
	"slices"
	"time"

	"example.org/kettledrum/plan"
)

// fitted is the adopted timetable with what was told since: a course comes no
// earlier than it is held, a step is with the cook and on the burner or in the
// oven that it was given, and what begins again does not do so in the past. It is
// the adopted one itself where nothing of that was told. What else must move is
// for the next timetable.
func (s *State) fitted() *plan.Timetable {
	if s.adopted == nil || s.adopted.Slots == nil {
		return s.adopted
	}
	t := *s.adopted
	t.Slots, t.Serves, t.Sets = slices.Clone(t.Slots), slices.Clone(t.Serves), slices.Clone(t.Sets)
	changed := s.fitSlots(&t)
	for c := range t.Serves {
		if at := s.heldTo(c); s.Courses[c].Served.IsZero() && t.Serves[c].Before(at) {
			if s.Courses[c].Waits {
				s.fitLast(&t, c, at.Sub(t.Serves[c]))
			}
			t.Serves[c], changed = at, true
		}
	}
	if !changed {
		return s.adopted
	}
	s.stretch(&t)
	return &t
}

// fitLast moves what is done for a course in its last minutes by as much as the course.
func (s *State) fitLast(t *plan.Timetable, c int, by time.Duration) {
	for i := range t.Slots {
		if slot := &t.Slots[i]; s.lastFor(c, i) {
			slot.Start, slot.End = slot.Start.Add(by), slot.End.Add(by)
		}
	}
}

// lastFor reports whether step i, not begun, is for course c by the adopted timetable in
// the last OpenLead before it.
func (s *State) lastFor(c, i int) bool {
	if s.adopted == nil || s.Plan.CourseOf(i) != c || s.Steps[i].Status != plan.Ahead {
		return false
	}
	start, serve := s.adopted.Slots[i].Start, s.adopted.Serves[c]
	return !start.Before(serve.Add(-OpenLead)) && !start.After(serve)
}

// stretch has each wait last until what ended it in the adopted timetable: the
// start of a step, or the serve.
func (s *State) stretch(t *plan.Timetable) {
	next := s.Plan.Followers()
	for i := range t.Slots {
		if !s.Plan.Steps[i].Length.Elastic {
			continue
		}
		was, ends := s.adopted.Slots[i], time.Time{}
		for _, j := range next[i] {
			if from := s.adopted.Slots[j].Start; s.Steps[j].Status != plan.Skipped && !from.After(was.End) && (ends.IsZero() || t.Slots[j].Start.Before(ends)) {
				ends = t.Slots[j].Start
			}
		}
		if c := s.Plan.CourseOf(i); len(next[i]) == 0 && !was.End.Before(s.adopted.Serves[c]) {
			ends = t.Serves[c]
		}
		t.Slots[i].End = plan.Later(t.Slots[i].End, ends)
	}
}

// heldTo is when a course may come at the earliest since it is held, or one before
// it; zero if none is.
func (s *State) heldTo(c int) time.Time {
	for _, st := range s.Courses[:c+1] {
		if !st.Held.IsZero() {
			return s.Plan.Asked(c)
		}
	}
	return time.Time{}
}

func (s *State) fitSlots(t *plan.Timetable) (changed bool) {
	for i := range t.Slots {
		slot, step := &t.Slots[i], &s.Plan.Steps[i]
		was, base := *slot, &s.Base.Steps[i]
		if step.By != base.By {
			slot.Cook = step.By
		} else if s.lost(i, slot) {
			slot.Cook = s.standIn(t, i)
		}
		s.Steps[i].Given = slot.Cook != was.Cook
		if step.Oven != base.Oven && step.Oven.In >= 0 && step.Oven.In != base.Oven.In {
			slot.Oven = step.Oven.In
		}
		if back := s.Steps[i].Back; back != "" && slot.Oven < 0 {
			slot.Oven = ovenIndex(s.Plan, back)
		}
		if step.Burner != base.Burner {
			slot.Burner = step.Burner.Size
		}
		changed = changed || *slot != was
	}
	for again := true; again; { // what begins again, one after the other
		again = false
		for i := range t.Slots {
			if s.Steps[i].NotBefore.IsZero() {
				continue
			}
			slot, step := &t.Slots[i], &s.Plan.Steps[i]
			from := plan.Later(slot.Start, upToMinute(s.Steps[i].NotBefore))
			for _, l := range step.After {
				if !s.Steps[l.Step].NotBefore.IsZero() {
					from = plan.Later(from, t.Slots[l.Step].End.Add(l.Min))
				}
			}
			if by := from.Sub(slot.Start); by > 0 {
				slot.Start, slot.End = from, plan.Later(slot.End, from.Add(step.Length.Planned()))
				s.fitSets(t, i, by)
				changed, again = true, true
			}
		}
	}
	return changed
}

// lost reports whether the cook of a step left, until they are back, before it began.
func (s *State) lost(i int, slot *plan.Slot) bool {
	if slot.Cook < 0 || !s.Plan.Steps[i].Hands.Working() {
		return false
	}
	left := s.leftAt(s.Plan.Kitchen.Cooks[slot.Cook].Name)
	return !left.IsZero() && (s.Steps[i].Started.IsZero() || s.Steps[i].Started.After(left))
}

// standIn is who does step i now that its cook has left: of those who may and are
// there whoever has the least else to do meanwhile. With nobody it is the cook who
// left.
func (s *State) standIn(t *plan.Timetable, i int) int {
	slot, best, least := &t.Slots[i], t.Slots[i].Cook, time.Duration(0)
	for cook := range s.Plan.Kitchen.Cooks {
		k := &s.Plan.Kitchen.Cooks[cook]
		if !s.leftAt(k.Name).IsZero() || s.Plan.Steps[i].By >= 0 {
			continue
		}
		busy := away(k, slot.Start, slot.End)
		for j := range t.Slots {
			if o := &t.Slots[j]; j != i && o.Cook == cook && s.Plan.Steps[j].Hands.Working() {
				busy += max(0, plan.Earlier(o.End, slot.End).Sub(plan.Later(o.Start, slot.Start)))
			}
		}
		if best == slot.Cook || busy < least {
			best, least = cook, busy
		}
	}
	return best
}

// fitSets moves what the oven was to be set to for step i.
func (s *State) fitSets(t *plan.Timetable, i int, by time.Duration) {
	for k := range t.Sets {
		if set := &t.Sets[k]; set.For == i && !set.Off {
			set.At, set.Ready, set.Done = set.At.Add(by), set.Ready.Add(by), false
		}
	}
	slices.SortStableFunc(t.Sets, func(a, b plan.OvenSet) int { return a.At.Compare(b.At) })
}
