package planner

import (
	"slices"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/heat"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/solve"
)

// facts is what is known of a run under way, in ticks. The zero value is a
// dinner that has not begun.
type facts struct {
	live    bool
	now     tick      // the first whole minute that can still be planned
	at      time.Time // the instant: what was told in this minute has happened
	steps   []fact
	courses []tick           // when served, -1
	sets    [][]plan.OvenSet // of each oven, before now, by time
	origin  time.Time
}

// fact is what is known of one step.
type fact struct {
	progress   plan.Progress
	start, end tick // of a begun step end is expected
	cook, oven int
	burner     plan.BurnerSize
	extra      tick          // how much longer than planned, as told beforehand
	still      []plan.Window // it stands still then, or stood
}

func (f *facts) of(i int) fact {
	if !f.live {
		return fact{cook: -1, oven: -1}
	}
	return f.steps[i]
}

func (f *facts) served(c int) (tick, bool) {
	if !f.live || f.courses[c] < 0 {
		return 0, false
	}
	return f.courses[c], true
}

// factsOf gathers what is known at now. What was due and went unanswered for
// long is taken to have gone as planned: the projection says so.
func factsOf(s *run.State, now time.Time) facts {
	p := s.Plan
	origin := originOf(p)
	minute := func(t time.Time) tick { return tick(plan.Minutes(t.Sub(origin))) }
	// What begins in this minute begins now, not when it is over.
	f := facts{live: true, now: tick(now.Sub(origin) / time.Minute), at: now, origin: origin, sets: make([][]plan.OvenSet, len(p.Kitchen.Ovens))}
	proj := run.Project(s, now)
	for i, st := range s.Steps {
		x := fact{progress: st.Status, still: s.StandsStill(i), cook: -1, oven: -1, extra: max(0, tick(plan.Minutes(st.Extra)))}
		if s.Timetable != nil {
			slot := s.Timetable.Slots[i]
			x.cook, x.oven, x.burner = slot.Cook, slot.Oven, slot.Burner
		}
		if st.Status == plan.Begun && !st.Displaced.IsZero() { // it may go on wherever there is room
			x.oven, x.burner = -1, plan.AnyBurner
		}
		switch st.Status {
		case plan.Ahead:
			if s.Timetable != nil && proj.Start[i].Before(now.Truncate(time.Minute)) {
				x.progress = plan.Begun
				x.start, x.end = minute(proj.Start[i]), minute(proj.End[i])
				if x.end < f.now {
					x.progress = plan.Done
				}
			}
		case plan.Begun:
			x.start, x.end = minute(st.Started), max(f.now, minute(proj.End[i]))
			if proj.End[i].Before(now.Truncate(time.Minute)) {
				x.progress, x.end = plan.Done, minute(proj.End[i])
			}
		case plan.Done:
			x.start, x.end = minute(st.Started), minute(st.Finished)
		case plan.Skipped:
			x.start, x.end = minute(st.Finished), minute(st.Finished)
		}
		x.end = max(x.end, x.start)
		f.steps = append(f.steps, x)
	}
	for _, c := range s.Courses {
		t := tick(-1)
		if !c.Served.IsZero() {
			t = minute(c.Served)
		}
		f.courses = append(f.courses, t)
	}
	f.pastSets(s, now, minute)
	return f
}

// pastSets lists what each oven was set to before now: as told, else as planned
// where that is long past.
func (f *facts) pastSets(s *run.State, now time.Time, minute func(time.Time) tick) {
	told := map[[2]int]bool{}
	for _, t := range s.Sets {
		if !t.Spent {
			told[[2]int{t.Oven, t.For}] = true
		}
		if t.For < 0 && !t.Off { // for nothing in particular: a setting is for some step
			t.For = f.someIn(t.Oven)
		}
		if t.At.After(f.at) && t.At.Sub(now) < time.Minute {
			f.at = t.At // told for the end of this minute, it has happened
		}
		f.sets[t.Oven] = append(f.sets[t.Oven], plan.OvenSet{Oven: t.Oven, At: t.At, To: t.To, Off: t.Off, For: t.For, Done: true, Ready: t.At})
	}
	if s.Timetable != nil {
		for _, t := range s.Timetable.Sets {
			late := now.Sub(t.At)
			if t.Off && f.inside(t.Oven, minute(t.At)) {
				continue // it goes off when what is inside comes out
			}
			if late > 0 && !told[[2]int{t.Oven, t.For}] && (t.Off || late > run.UnconfirmedAfter) {
				t.Done = true
				f.sets[t.Oven] = append(f.sets[t.Oven], t)
			}
		}
	}
	for o := range f.sets {
		sortSets(f.sets[o])
	}
}

// someIn returns the first step in oven o, -1 for none.
func (f *facts) someIn(o int) int {
	return slices.IndexFunc(f.steps, func(x fact) bool { return x.oven == o })
}

// inside reports whether something that is not done is in oven o at t and after.
func (f *facts) inside(o int, t tick) bool {
	for _, x := range f.steps {
		if x.oven == o && x.progress == plan.Begun && x.start <= t && t < x.end {
			return true
		}
	}
	return false
}

// ovenNow fills in what oven o is at now.
func (f *facts) ovenNow(p *plan.Plan, o int, h heat.Oven, st *solve.State) {
	at := f.at
	temp, set, on := simulate(h, f.sets[o], at)
	for _, s := range f.sets[o] {
		if b := bakeOf(p, s.For); !s.At.After(at) {
			st.NowClass = 0
			if b != nil && b.Grill {
				st.NowClass = 1
			}
		}
	}
	st.Initial, st.SetFrom, st.IsSet, st.Now = float64(temp), f.now, on, float64(set)
}

// bakeOf returns what step i bakes, nil for nothing.
func bakeOf(p *plan.Plan, i int) *plan.Bake {
	if i < 0 {
		return nil
	}
	return p.Steps[i].Oven
}

// simulate returns the temperature of an oven at a moment, what it is set to
// and whether it is on, after the given settings.
func simulate(h heat.Oven, sets []plan.OvenSet, at time.Time) (temp, set plan.Celsius, on bool) {
	temp = h.Room
	var since time.Time
	for _, s := range sets {
		if s.At.After(at) {
			break
		}
		if !since.IsZero() {
			temp = h.After(temp, set, !on, s.At.Sub(since))
		}
		since, set, on = s.At, s.To, !s.Off
	}
	if !since.IsZero() {
		temp = h.After(temp, set, !on, at.Sub(since))
	}
	return temp, set, on
}
