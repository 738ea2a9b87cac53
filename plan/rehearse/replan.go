package rehearse

import (
	"slices"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/remedy"
	"example.org/kettledrum/plan/run"
)

// Replan is another timetable that was adopted.
type Replan struct {
	At  time.Time
	Why []string
	// Plan is the plan as it stood.
	Plan *plan.Plan
	// Cause is what was told that led to it; nil where only time passed.
	Cause *run.Event
	// Was is the timetable that was in force before, Is the new one.
	Was, Is *plan.Timetable
	Moved   []int // steps that were not done and go at other times, or with others, or elsewhere
	Late    []int // courses, not served, that come later than asked
	// Remedies are offered from then on, where the watcher wants to know them; none
	// where nothing is late or breaks.
	Remedies []remedy.Remedy
}

// adopted tells the watcher of the timetables adopted since it was last called.
func (p *Player) adopted() {
	st := p.s.State()
	for ; p.read < len(st.Events); p.read++ {
		switch e := &st.Events[p.read]; e.Kind {
		case run.Adopted:
			if p.watch.Replan != nil {
				p.watch.Replan(p.replan(st, e))
			}
			p.table = e.Timetable
		case run.Undone:
			p.table = st.Timetable
		}
	}
}

func (p *Player) replan(st *run.State, e *run.Event) Replan {
	r := Replan{At: e.At, Plan: st.Plan, Why: e.Why, Was: p.table, Is: e.Timetable}
	if k := slices.IndexFunc(st.Events, func(o run.Event) bool { return o.Seq == e.Cause }); k >= 0 {
		r.Cause = &st.Events[k]
	}
	for i, is := range e.Timetable.Slots {
		was := p.table.Slots[i]
		over := is.Progress == plan.Done || is.Progress == plan.Skipped
		begun := is.Progress == plan.Begun
		switch {
		case over && is.Progress == was.Progress, is.Progress == plan.Done:
		case apart(is.End, was.End), !begun && (apart(is.Start, was.Start) || is.Cook != was.Cook || is.Oven != was.Oven || is.Burner != was.Burner):
			r.Moved = append(r.Moved, i)
		}
	}
	for c, at := range e.Timetable.Serves {
		if st.Courses[c].Served.IsZero() && at.Sub(st.Plan.Asked(c)) >= time.Minute {
			r.Late = append(r.Late, c)
		}
	}
	if p.watch.Remedies {
		r.Remedies = p.s.Remedies(p.ctx)
	}
	return r
}

// apart reports whether two instants are a minute or more apart.
func apart(a, b time.Time) bool { return a.Sub(b).Abs() >= time.Minute }
