package planner

import (
	"cmp"
	"slices"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/solve"
	"example.org/kettledrum/plan/verify"
)

// read turns an answer into a timetable, verified.
func (j *job) read(r *solve.Result) *plan.Timetable {
	t := &plan.Timetable{}
	for i := range j.p.Steps {
		f := j.facts.of(i)
		slot := plan.Slot{
			Start: j.time(r.Start[i]), End: j.time(r.End[i]),
			Cook: -1, Oven: -1, Progress: f.progress,
			Extra: time.Duration(f.extra) * time.Minute,
		}
		for _, w := range f.still {
			slot.Still += w.To.Sub(w.From)
		}
		if f.progress != plan.Skipped {
			if u := j.working[i]; u >= 0 && r.Choice[u] >= 0 {
				slot.Cook = j.cookOf(u, r.Choice[u])
			}
			if u := j.burnerOf[i]; u >= 0 && r.Choice[u] >= 0 {
				slot.Burner = plan.Small
				if j.prob.Uses[u].Options[r.Choice[u]][0].Resource == j.large {
					slot.Burner = plan.Large
				}
			}
			if j.stayOf[i] >= 0 {
				slot.Oven = r.StateOf[j.stayOf[i]]
			}
		}
		t.Slots = append(t.Slots, slot)
	}
	for _, i := range j.due {
		t.Serves = append(t.Serves, j.time(r.Start[i]))
	}
	for _, u := range j.touches {
		if r.Choice[u.use] >= 0 {
			at := t.Slots[u.step].Start
			if j.prob.Uses[u.use].From.End {
				at = t.Slots[u.step].End
			}
			at = at.Add(time.Duration(j.prob.Uses[u.use].FromPlus) * time.Minute)
			t.Touches = append(t.Touches, plan.Touch{What: u.what, Step: u.step, Oven: -1, At: at, Cook: r.Choice[u.use]})
		}
	}
	j.readSets(t, r)
	var since time.Time
	if j.facts.live {
		since = j.time(j.facts.now)
	}
	touches := touchTimes{j.p, t, since}
	touches.reminders()
	touches.hands()
	t.LatestStart = j.firstStart(t)
	if day := j.time(j.prob.Day); !t.LatestStart.Before(day) && r.LatestProven {
		t.LatestStart = j.time(r.Latest)
	}
	for i, s := range run.Slacks(j.p, t) {
		t.Slots[i].Slack = s
	}
	t.Breaks = verify.Check(j.p, t, since)
	t.Status = verify.Status(j.p, t, t.Breaks)
	return t
}

func (j *job) cookOf(use, option int) int {
	return slices.Index(j.hands, j.prob.Uses[use].Options[option][0].Resource)
}

// readSets adds the oven settings, each with the moment it is ready, the touch
// that makes it, and the switching off where the oven then stands idle.
func (j *job) readSets(t *plan.Timetable, r *solve.Result) {
	for o := range j.p.Kitchen.Ovens {
		var sets []plan.OvenSet
		if j.facts.live {
			sets = slices.Clone(j.facts.sets[o])
		}
		for _, s := range r.Settings {
			if s.State != o {
				continue
			}
			step := j.stepOf(j.prob.Stays[s.Stay].Act)
			// Milliseconds: a just-in-time setting rounded to seconds misses its range.
			at := j.origin.Add(time.Duration(s.At * float64(time.Minute))).Truncate(time.Millisecond)
			if j.isSet(o, plan.Celsius(s.Value), at) {
				continue
			}
			sets = append(sets, plan.OvenSet{Oven: o, At: at, To: plan.Celsius(s.Value), For: step})
			if s.Choice >= 0 {
				t.Touches = append(t.Touches, plan.Touch{What: plan.TouchSet, Step: step, Oven: o, At: j.time(s.Tick), Cook: s.Choice})
			}
		}
		sortSets(sets)
		sets = j.switchOff(t, r, o, sets)
		for k := range sets {
			if s := &sets[k]; !s.Off && s.For >= 0 {
				temp, _, _ := simulate(j.ovens[o], sets[:k], s.At)
				b := j.wants(t, s)
				var wait time.Duration
				switch {
				case temp < b.Lo:
					wait = j.ovens[o].Heating(temp, b.Lo)
				case temp > b.Hi:
					wait = j.ovens[o].Cooling(temp, b.Hi)
				}
				s.Ready = j.time(j.tick(s.At.Add(wait)))
			}
		}
		t.Sets = append(t.Sets, sets...)
	}
	sortSets(t.Sets)
}

// isSet reports whether oven o stands at a temperature already as it is to be set to
// it in this very minute: who turned the dial too late is not asked to do it again.
func (j *job) isSet(o int, to plan.Celsius, at time.Time) bool {
	if !j.facts.live || at.Sub(j.facts.at) >= time.Minute {
		return false
	}
	_, set, on := simulate(j.ovens[o], j.facts.sets[o], j.facts.at)
	return on && run.SameDial(set, to)
}

// stepOf returns the step of an activity: of a warm keep the one that is kept.
func (j *job) stepOf(act int) int {
	if i, ok := j.warmOf[act]; ok {
		return i
	}
	return act
}

func (j *job) stayOfAct(act int) int {
	return slices.IndexFunc(j.prob.Stays, func(s solve.Stay) bool { return s.Act == act })
}

// wants returns the range that a setting is for: that of the bake, or after it
// that of the warm keep.
func (j *job) wants(t *plan.Timetable, s *plan.OvenSet) *plan.Bake {
	step := &j.p.Steps[s.For]
	if step.Oven == nil || step.Keeps.Warm != nil && !s.At.Before(t.Slots[s.For].End) {
		return step.Keeps.Warm
	}
	return step.Oven
}

// switchOff adds an Off after each bake that nothing follows for long.
func (j *job) switchOff(t *plan.Timetable, r *solve.Result, o int, sets []plan.OvenSet) []plan.OvenSet {
	var spans []plan.Window
	for _, a := range sortedKeys(j.warmOf) {
		if k := j.stayOfAct(a); r.StateOf[k] == o && r.End[a] > r.Start[a] {
			spans = append(spans, plan.Window{From: j.time(r.Start[a]), To: j.time(r.End[a])})
		}
	}
	for i := range t.Slots {
		if t.Slots[i].Oven == o && t.Slots[i].Progress != plan.Skipped {
			spans = append(spans, plan.Window{From: t.Slots[i].Start, To: t.Slots[i].End})
		}
	}
	slices.SortFunc(spans, func(a, b plan.Window) int { return a.From.Compare(b.From) })
	var out []plan.OvenSet
	var end time.Time
	for k, s := range spans {
		if s.To.After(end) {
			end = s.To
		}
		if k+1 < len(spans) && spans[k+1].From.Sub(end) <= idleOven*time.Minute {
			continue
		}
		if !j.facts.live || !end.Before(j.time(j.facts.now)) {
			out = append(out, plan.OvenSet{Oven: o, At: end, Off: true, For: -1, Ready: end})
		}
	}
	out = append(sets, out...)
	sortSets(out)
	return out
}

// firstStart returns the start of the first step that has not begun.
func (j *job) firstStart(t *plan.Timetable) time.Time {
	var first time.Time
	for _, s := range t.Slots {
		if s.Progress == plan.Ahead && (first.IsZero() || s.Start.Before(first)) {
			first = s.Start
		}
	}
	return first
}

func sortSets(s []plan.OvenSet) {
	slices.SortStableFunc(s, func(a, b plan.OvenSet) int {
		return cmp.Or(a.At.Compare(b.At), cmp.Compare(a.Oven, b.Oven))
	})
}
