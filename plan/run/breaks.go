package run

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"example.org/kettledrum/plan"
)

// kept is what a step made, and how long it may wait to be taken.
type kept struct {
	step  int
	taken int    // the point at which it is taken: a start, or a serve
	by    string // the ID of the step or the name of the course that takes it
	to    int    // step that takes it, -1 for a course
	long  time.Duration
	until time.Time // by then it must be taken
	liked time.Time // and by then it should; equal to until but for a liking
	gap   bool      // a stated gap, not a keep
}

// kept lists everything that does not keep freely. Waits are not in it: they
// are stretched instead.
func (pr *projected) kept() []kept {
	if pr.keeps != nil {
		return pr.keeps
	}
	out := make([]kept, 0, len(pr.s.Steps)+len(pr.s.Steps)/4)
	defer func() { pr.keeps = out }()
	for i := range pr.s.Steps {
		step := &pr.s.Plan.Steps[i]
		if pr.skipped(i) || !pr.ends(i) && (pr.follows[i] >= 0 || pr.atServe[i]) {
			continue
		}
		end := pr.at(pr.end(i))
		add := func(k kept) {
			k.step = i
			if step.Keeps.Kind != plan.Freely {
				k.long, k.liked = step.Keeps.For, end.Add(step.Keeps.For)
				if step.Keeps.Kind == plan.Liking {
					k.long = step.Keeps.AtMost
				}
				k.until = end.Add(k.long)
				out = append(out, k)
			}
		}
		for _, j := range pr.next[i] {
			k := kept{taken: pr.start(j), by: pr.s.Plan.Steps[j].ID, to: j}
			replaced := false
			for _, l := range pr.links[j] {
				if l.Step != i || !l.HasMax {
					continue
				}
				g := k
				g.step, g.long, g.until, g.gap = i, l.Max, end.Add(l.Max), true
				g.liked = g.until
				out = append(out, g)
				replaced = step.Keeps.Assumed
			}
			if !replaced {
				add(k)
			}
		}
		if c := pr.s.Plan.CourseOf(i); len(pr.next[i]) == 0 {
			add(kept{taken: pr.serve(c), by: pr.s.Plan.Courses[c].Name, to: -1})
		}
	}
	return out
}

// taker is what takes what is kept.
func (pr *projected) taker(k kept) string {
	if k.to < 0 {
		return k.by
	}
	return pr.name(k.to)
}

// clash is a bake that the oven is not ready for when it is planned.
type clash struct {
	oven, step int
	holder     int // the bake that holds the oven, -1 if it is only the setting
	planned    time.Time
	until      time.Time // the holder's end
	ready      time.Time
}

// clashes finds, for each bake to come, what keeps the oven from being ready as
// planned: another bake, or a setting that comes later than the bake can wait.
// What starts at once stays in the oven and rides the change. Less than
// UnconfirmedAfter is not told: by so much an unanswered cue alone can drift.
func (pr *projected) clashes() []clash {
	var out []clash
	for b := range pr.s.Steps {
		slot := pr.s.Timetable.Slots[b]
		if pr.s.Steps[b].Status != plan.Ahead || pr.s.Plan.Steps[b].Oven == nil || slot.Oven < 0 || pr.settled(pr.start(b)) || pr.auto(b) {
			continue
		}
		x := clash{oven: slot.Oven, step: b, holder: -1, planned: slot.Start, ready: slot.Start}
		for a := range pr.s.Steps {
			if !pr.unlike(a, b) || !pr.before(a, b) || pr.settled(pr.end(a)) {
				continue
			}
			if at := pr.at(pr.end(a)).Add(pr.changeover(a, b)); at.Sub(slot.Start) >= UnconfirmedAfter && at.After(x.ready) {
				x.holder, x.until, x.ready = a, pr.at(pr.end(a)), at
			}
		}
		for k := range pr.sets {
			set := &pr.sets[k]
			if set.For != b || set.moot || set.Off {
				continue
			}
			if at := pr.at(pr.set(k)).Add(pr.lag(k, b)); at.Sub(slot.Start) >= max(UnconfirmedAfter, slot.Slack) && at.After(x.ready) {
				x.ready = at
			}
		}
		if x.ready.After(slot.Start) {
			out = append(out, x)
		}
	}
	return out
}

// breaks tells which rules the projection does not keep, of those that an order
// cannot see to: courses, keeps, gaps, waits, a cook's free time and seat at table. A
// break that has happened is none any more; one under a minute is none yet.
func (pr *projected) breaks() []plan.Break {
	var out []plan.Break
	// What is said is put together only where something is to be said.
	counts := func(over time.Duration) bool { return over >= time.Minute }
	add := func(kind plan.BreakKind, step, course int, at time.Time, over time.Duration, text string, a ...any) {
		out = append(out, plan.Break{Kind: kind, Step: step, Course: course, At: at, Minutes: plan.Minutes(over), Text: fmt.Sprintf(text, a...)})
	}
	for c, course := range pr.s.Plan.Courses {
		if at := pr.at(pr.serve(c)); !pr.settled(pr.serve(c)) {
			if over := at.Sub(pr.s.Plan.Asked(c)) - course.LateOK; counts(over) {
				add(plan.BreakLate, -1, c, at, over, "%s at %s, %s later than it may be", course.Name, pr.when(at), plan.Spell(over))
			}
		}
	}
	for _, k := range pr.kept() {
		if at := pr.at(k.taken); !pr.settled(k.taken) {
			kind, limit := plan.BreakKeep, k.until
			switch {
			case k.gap:
				kind = plan.BreakGap
			case !at.After(k.until):
				kind, limit = plan.BreakLiking, k.liked
			}
			if over := at.Sub(limit); counts(over) {
				add(kind, k.step, -1, limit, over, "%s is kept %s too long for: %s", pr.name(k.step), plan.Spell(over), pr.taker(k))
			}
		}
	}
	for i := range pr.s.Steps {
		step, start, end := &pr.s.Plan.Steps[i], pr.at(pr.start(i)), pr.at(pr.end(i))
		if pr.skipped(i) || pr.settled(pr.end(i)) {
			continue
		}
		if l := step.Length; l.Elastic && l.Longest != plan.Forever {
			if over := end.Sub(start) - max(l.Longest, pr.s.length(i)); counts(over) {
				add(plan.BreakLength, i, -1, end, over, "%s is %s longer than it may be", pr.name(i), plan.Spell(over))
			}
		}
		if why := pr.unusable(i); why != "" {
			kind, from := plan.BreakBurner, plan.Later(start, pr.now)
			if step.Oven != nil {
				kind = plan.BreakOven
			}
			if over := end.Sub(from); counts(over) {
				add(kind, i, -1, from, over, "%s: %s", pr.name(i), why)
			}
		}
		cook := pr.s.Timetable.Slots[i].Cook
		if cook < 0 || !step.Hands.Working() {
			continue
		}
		who := &pr.s.Plan.Kitchen.Cooks[cook]
		if pr.settled(pr.start(i)) {
			if over := pr.gone(i, pr.now); counts(over) {
				add(plan.BreakHands, i, -1, plan.Later(start, pr.now), over, "%s is not there for: %s", who.Name, pr.name(i))
			}
			continue
		}
		if over := away(who, start, end); counts(over) {
			add(plan.BreakHands, i, -1, start, over, "%s is not there for: %s", who.Name, pr.name(i))
		}
		for c := range pr.s.Courses {
			if over := pr.atTable(i, c); counts(over) {
				add(plan.BreakHands, i, -1, start, over, "%s is at table with the %s during: %s", who.Name, pr.s.Plan.Courses[c].Name, pr.name(i))
			}
		}
	}
	slices.SortStableFunc(out, func(a, b plan.Break) int {
		return cmp.Or(a.At.Compare(b.At), cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.Step, b.Step), cmp.Compare(a.Course, b.Course))
	})
	return out
}

// unusable tells why a step cannot be where the timetable has it: its burner or
// oven has failed, or none is left for it. It is empty where it can.
func (pr *projected) unusable(i int) string {
	k, step, slot := &pr.s.Plan.Kitchen, &pr.s.Plan.Steps[i], pr.s.Timetable.Slots[i]
	there := [...]int{plan.Small: k.Burners.Small, plan.Large: k.Burners.Large}
	switch {
	case step.Burner != nil && slot.Burner == plan.AnyBurner:
		return "no burner for it works"
	case step.Burner != nil && there[slot.Burner] < step.Burner.Count:
		work := "none works"
		switch n := there[slot.Burner]; {
		case n == 1:
			work = "1 works"
		case n > 1:
			work = fmt.Sprintf("%d work", n)
		}
		return fmt.Sprintf("%s wanted, %s", plan.Several(step.Burner.Count, slot.Burner.String()+" burner"), work)
	case step.Oven != nil && slot.Oven < 0:
		return "no oven for it works"
	case step.Oven != nil && k.Ovens[slot.Oven].Shelves == 0:
		return "the " + k.Ovens[slot.Oven].Name + " has failed"
	case !pr.s.Steps[i].Displaced.IsZero():
		return "its place has failed, it has no other yet"
	}
	return ""
}

// atTable is how much of step i its cook is at table with a course, as projected.
func (pr *projected) atTable(i, c int) time.Duration {
	if !pr.s.Plan.Kitchen.Cooks[pr.s.Timetable.Slots[i].Cook].Sits || pr.mayLeave(i, c) {
		return 0
	}
	from, to := pr.at(pr.serve(c)), pr.at(pr.serve(c)).Add(pr.s.Plan.Courses[c].Seated)
	return plan.Earlier(pr.at(pr.end(i)), to).Sub(plan.Later(pr.at(pr.start(i)), from))
}

// away is how much of a stretch of time a cook is not there.
func away(c *plan.Cook, from, to time.Time) time.Duration {
	left := to.Sub(from)
	for _, w := range c.Free {
		a, b := w.From, w.To
		if a.Before(from) {
			a = from
		}
		if b.After(to) {
			b = to
		}
		left -= max(0, b.Sub(a))
	}
	return left
}
