package session

import (
	"fmt"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

// why says in at most three lines what a timetable changes against the one in
// force, as read at now: which course moves most, which step moves most, how many
// more do.
func why(st *run.State, t *plan.Timetable, now time.Time) (lines []string) {
	at := func(i time.Time) string { return run.DayTime(i, now, st.Plan.Table.Location()) }

	course, by := -1, time.Duration(0)
	for c, serve := range t.Serves {
		if d := serve.Sub(st.Timetable.Serves[c]); st.Courses[c].Served.IsZero() && minutes(d.Abs()) > 0 && d.Abs() > by.Abs() {
			course, by = c, d
		}
	}
	if course >= 0 {
		word := "later"
		if by < 0 {
			word = "earlier"
		}
		lines = append(lines, fmt.Sprintf("%s %d min %s: %s", st.Plan.Courses[course].Name, minutes(by.Abs()), word, at(t.Serves[course])))
	}

	step, most, moves := -1, time.Duration(-1), 0
	for i := range t.Slots {
		was, is := st.Timetable.Slots[i], t.Slots[i]
		d := is.Start.Sub(was.Start).Abs()
		if is.Progress != plan.Ahead || minutes(d) == 0 && is.Cook == was.Cook && is.Oven == was.Oven && is.Burner == was.Burner {
			continue
		}
		if moves++; d > most {
			step, most = i, d
		}
	}
	if step < 0 {
		return lines
	}
	lines = append(lines, moveOf(st, step, t.Slots[step], at))
	switch {
	case moves == 2:
		lines = append(lines, "+1 more step moves")
	case moves > 2:
		lines = append(lines, fmt.Sprintf("+%d more steps move", moves-1))
	}
	return lines
}

// moveOf says what changes for one step: its start, or else who does it or where.
func moveOf(st *run.State, i int, is plan.Slot, at func(time.Time) string) string {
	was, do, k := st.Timetable.Slots[i], st.Plan.Steps[i].Do, &st.Plan.Kitchen
	switch {
	case at(is.Start) != at(was.Start):
		return fmt.Sprintf("%s: starts %s instead of %s", do, at(is.Start), at(was.Start))
	case is.Cook != was.Cook && is.Cook >= 0:
		return fmt.Sprintf("%s: now %s does it", do, k.Cooks[is.Cook].Name)
	case is.Oven != was.Oven && is.Oven >= 0:
		return fmt.Sprintf("%s: now in the %s", do, k.Ovens[is.Oven].Name)
	}
	switch {
	case is.Burner == was.Burner:
		return do + ": now in no oven"
	case is.Burner == plan.AnyBurner:
		return do + ": now on no burner"
	}
	return fmt.Sprintf("%s: now on a %s burner", do, is.Burner)
}
