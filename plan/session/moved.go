package session

import (
	"slices"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

// moved returns the timetable in force with everything at the times of the
// projection: the same cooks, ovens, burners and touches.
func moved(st *run.State, pr run.Projection, now time.Time) *plan.Timetable {
	old := st.Timetable
	t := &plan.Timetable{
		Serves: slices.Clone(pr.Serves), Slots: slices.Clone(old.Slots),
		LatestStart: old.LatestStart, Cautions: old.Cautions,
	}
	for i := range t.Slots {
		slot := &t.Slots[i]
		slot.Progress, slot.Extra, slot.Still = st.Steps[i].Status, max(0, st.Steps[i].Extra), 0
		for _, w := range st.StandsStill(i) {
			slot.Still += w.To.Sub(w.From)
		}
		if slot.Progress == plan.Skipped {
			continue
		}
		slot.Start, slot.End = pr.Start[i], pr.End[i]
		if slot.Progress == plan.Ahead && slot.Start.Before(now) { // unconfirmed
			slot.Progress = plan.Begun
			if !slot.End.After(now) {
				slot.Progress = plan.Done
			}
		}
	}
	t.Sets = movedSets(st, t, now)
	t.Touches = movedTouches(st, t)
	if later := run.Slacks(st.Plan, t); len(later) == len(t.Slots) {
		for i := range t.Slots {
			t.Slots[i].Slack = later[i]
		}
	}
	return t
}

// movedTouches moves each touch with its step or its oven setting.
func movedTouches(st *run.State, t *plan.Timetable) []plan.Touch {
	out := make([]plan.Touch, 0, len(st.Timetable.Touches))
	for _, touch := range st.Timetable.Touches {
		slot := t.Slots[touch.Step]
		switch touch.What {
		case plan.TouchStart:
			touch.At = slot.Start.Truncate(time.Minute)
		case plan.TouchEnd:
			touch.At = slot.End.Add(time.Minute - 1).Truncate(time.Minute).Add(-time.Minute)
		case plan.TouchSet:
			k := slices.IndexFunc(t.Sets, func(s plan.OvenSet) bool {
				return s.Oven == touch.Oven && s.For == touch.Step && !s.Off
			})
			if k < 0 {
				continue
			}
			touch.At = t.Sets[k].At.Truncate(time.Minute)
		case plan.TouchRemind:
			at, comes := movedReminder(&st.Plan.Steps[touch.Step], st.Timetable.Slots[touch.Step], slot, touch.At)
			if !comes {
				continue
			}
			touch.At = at
		}
		if slot.Progress != plan.Skipped {
			out = append(out, touch)
		}
	}
	slices.SortStableFunc(out, func(a, b plan.Touch) int { return a.At.Compare(b.At) })
	return out
}

// movedReminder returns when the reminder of a step that was to come at a time
// comes with the step moved, if it still does. One that no rule of the step tells
// of moves with its start.
func movedReminder(step *plan.Step, was, is plan.Slot, at time.Time) (time.Time, bool) {
	old := run.Reminders(step, was.Start, was.End)
	k := slices.IndexFunc(old, func(r run.Reminder) bool { return r.At.Truncate(time.Minute).Equal(at.Truncate(time.Minute)) })
	if k < 0 {
		return at.Add(is.Start.Sub(was.Start)).Truncate(time.Minute), true
	}
	for _, r := range run.Reminders(step, is.Start, is.End) {
		if r.ID == old[k].ID {
			return r.At.Truncate(time.Minute), true
		}
	}
	return time.Time{}, false
}

// movedSets returns the settings of the ovens: those that somebody told of as
// they were, the others moved with the step that they are for.
func movedSets(st *run.State, t *plan.Timetable, now time.Time) []plan.OvenSet {
	var out []plan.OvenSet
	told := slices.DeleteFunc(slices.Clone(st.Sets), func(f run.OvenFact) bool { return f.Spent })
	for _, set := range st.Timetable.Sets {
		k := slices.IndexFunc(told, func(f run.OvenFact) bool {
			return f.Oven == set.Oven && f.Off == set.Off && f.For == set.For && !st.Overturned(f, set) && (!f.Off || run.Nearest(st.Timetable.Sets, f, set))
		})
		at := set.At
		switch {
		case k >= 0:
			at, set.To, set.Done = told[k].At, told[k].To, true
			told = slices.Delete(told, k, k+1)
		case set.Off:
			at = at.Add(emptied(st.Timetable, t, set))
		default:
			slot := t.Slots[set.For]
			if slot.Progress == plan.Skipped {
				continue
			}
			at = at.Add(slot.Start.Sub(st.Timetable.Slots[set.For].Start))
			if slot.Progress == plan.Ahead && at.Before(now) && now.Sub(at) < run.UnconfirmedAfter {
				at = now // not done, and nobody has been asked too long ago
			}
		}
		set.Ready = set.Ready.Add(at.Sub(set.At))
		set.At = at
		out = append(out, set)
	}
	for _, f := range st.Sets {
		if f.Spent { // for what began again since
			told = append(told, f)
		}
	}
	for _, f := range told { // turned though nobody asked for it
		set := plan.OvenSet{Oven: f.Oven, At: f.At, To: f.To, Off: f.Off, For: f.For, Done: true, Ready: f.At}
		if set.For < 0 && !set.Off {
			set.For = slices.IndexFunc(t.Slots, func(s plan.Slot) bool { return s.Oven == f.Oven })
		}
		if set.For >= 0 || set.Off {
			out = append(out, set)
		}
	}
	slices.SortStableFunc(out, func(a, b plan.OvenSet) int { return a.At.Compare(b.At) })
	return out
}

// emptied returns by how much the end of the last bake moves before which, as
// planned, an oven is switched off.
func emptied(old, t *plan.Timetable, off plan.OvenSet) time.Duration {
	last := -1
	for i, s := range old.Slots {
		if s.Oven == off.Oven && !s.End.After(off.At) && t.Slots[i].Progress != plan.Skipped &&
			(last < 0 || s.End.After(old.Slots[last].End)) {
			last = i
		}
	}
	if last < 0 {
		return 0
	}
	return t.Slots[last].End.Sub(old.Slots[last].End)
}
