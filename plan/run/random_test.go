package run_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/heat"
	"example.org/kettledrum/plan/plantest"
	"example.org/kettledrum/plan/run"
)

// dinner is a random plan with a timetable that keeps its order: steps are put
// in one after the other, each as soon as what it follows, its cook, its oven,
// its burner and its tool allow, with a pause now and then.
type dinner struct {
	*plantest.Builder
	t plan.Timetable
}

func drawDinner(t *rapid.T, most int) *dinner {
	b := plantest.New("2026-10-17 19:00")
	d := &dinner{Builder: b}
	cooks := rapid.IntRange(1, 2).Draw(t, "cooks")
	for c := range cooks {
		b.Cook(fmt.Sprintf("Cook %d", c+1), "00:00-23:59")
	}
	board, pan := b.Tool("board", 1), b.Tool("pan", 1)
	wash := time.Duration(rapid.SampledFrom([]int{0, 7}).Draw(t, "wash")) * time.Minute
	b.Wash(board, int(wash/time.Minute))
	b.Wash(pan, int(wash/time.Minute))
	b.Cold("fridge", 1)
	b.Plan.Kitchen.Burners = plan.Burners{Small: 1} // with a second one a late pot would take that
	courses := rapid.IntRange(1, 3).Draw(t, "courses")
	for c := range courses {
		b.Course(fmt.Sprintf("Course %d", c+1), time.Duration(c)*45*time.Minute, 30*time.Minute, 20*time.Minute)
	}
	oven := heat.Of(b.Plan.Kitchen.Ovens[0], b.Plan.Kitchen.Room)
	first := b.At("08:00")
	free := map[string]time.Time{} // when each resource is
	had := map[string]int{}        // which dish had each tool last
	since := func(r string) time.Time {
		if at, ok := free[r]; ok {
			return at
		}
		return first
	}
	later := func(a, b time.Time) time.Time {
		if a.After(b) {
			return a
		}
		return b
	}
	clean := func(tool string, dish int) time.Time { // when a dish can have it
		if last, ok := had[tool]; ok && last != dish {
			return since(tool).Add(wash)
		}
		return since(tool)
	}
	var bakes []int // so far
	for k := range rapid.IntRange(1, most).Draw(t, "dishes") {
		b.Dish(fmt.Sprintf("Dish %d", k+1), rapid.IntRange(0, courses-1).Draw(t, "course"))
		most, kinds := 6, []string{"work", "wait", "bake", "pot", "board", "pan", "chill", "at once"}
		if rapid.IntRange(0, 4).Draw(t, "chore") == 0 {
			b.Plan.Dishes[k].Chore, b.Plan.Dishes[k].Name = &plan.Chore{After: -1}, ""
			most, kinds = 1, []string{"work", "board"}
		}
		chilled := -1 // the step before keeps in the fridge
		at := first.Add(time.Duration(rapid.IntRange(0, 60).Draw(t, "from")) * time.Minute)
		busy := false // the step before has a length that the food decides
		for j := range rapid.IntRange(1, most).Draw(t, "steps") {
			do := fmt.Sprintf("Step %d", j+1)
			minutes := rapid.IntRange(1, 60).Draw(t, "takes")
			length := time.Duration(minutes) * time.Minute
			slot := plan.Slot{Start: at.Add(time.Duration(rapid.IntRange(0, 15).Draw(t, "pause")) * time.Minute), Cook: -1, Oven: -1}
			kind := rapid.SampledFrom(kinds).Draw(t, "kind")
			switch kind {
			case "work", "board", "pan", "chill":
				var o []plantest.Option
				slot.Cook = rapid.IntRange(0, cooks-1).Draw(t, "cook")
				who := b.Plan.Kitchen.Cooks[slot.Cook].Name
				slot.Start = later(slot.Start, since(who))
				switch kind {
				case "board":
					o = append(o, plantest.Uses(board))
					slot.Start = later(slot.Start, clean("board", k))
					free["board"], had["board"] = slot.Start.Add(length), k
				case "pan": // the dish has it from now to the end of the last such step
					o = append(o, plantest.Vessel(pan))
					slot.Start = later(slot.Start, clean("pan", k))
					free["pan"], had["pan"] = slot.Start.Add(length), k
				case "chill": // until the next step starts
					o = append(o, plantest.Chilled(1000, "fridge", 1))
					slot.Start = later(slot.Start, since("fridge").Add(-length))
				}
				free[who] = slot.Start.Add(length)
				b.Step(do, plantest.Takes(minutes), o...)
			case "pot":
				slot.Burner = plan.Small
				slot.Start = later(slot.Start, since("small"))
				free["small"] = slot.Start.Add(length)
				b.Step(do, plantest.Takes(minutes), plantest.Burner(plan.Small), plantest.Remind(plan.Every, rapid.IntRange(1, 40).Draw(t, "every")))
			case "bake":
				slot.Oven = 0
				temp := plan.Celsius(rapid.SampledFrom([]int{150, 180, 220}).Draw(t, "temperature"))
				i := b.Step(do, plantest.Takes(minutes), plantest.Oven(temp, 4), plantest.Remind(plan.Halfway, 0), plantest.Remind(plan.BeforeEnd, 5))
				bake := b.Plan.Steps[i].Oven
				lag := oven.Between(b.Plan.Kitchen.Room, b.Plan.Kitchen.Room, bake.Lo, bake.Hi)
				if len(bakes) > 0 {
					before := b.Plan.Steps[bakes[len(bakes)-1]].Oven
					lag = oven.Between(before.Lo, before.Hi, bake.Lo, bake.Hi)
				}
				lag = time.Duration(plan.Minutes(lag)) * time.Minute
				slot.Start = later(slot.Start, since("oven").Add(lag))
				for _, a := range bakes { // through a short one between, the oven is no faster
					before := b.Plan.Steps[a].Oven
					change := oven.Between(before.Lo, before.Hi, bake.Lo, bake.Hi)
					slot.Start = later(slot.Start, d.t.Slots[a].End.Add(time.Duration(plan.Minutes(change))*time.Minute))
				}
				bakes = append(bakes, i)
				d.t.Sets = append(d.t.Sets, plan.OvenSet{At: slot.Start.Add(-lag), To: temp, For: i, Ready: slot.Start})
				free["oven"] = slot.Start.Add(length)
			case "at once":
				if busy {
					slot.Start = at
					b.Step(do, plantest.Takes(minutes), plantest.Hands(plan.Free), plantest.AtOnce)
					break
				}
				fallthrough
			case "wait":
				kind = "wait"
				slot.Start = at
				b.Step(do, plantest.Waits(minutes, -1), plantest.Limit(0))
			}
			if i := len(b.Plan.Steps) - 1; (kind == "pot" || kind == "bake") && rapid.Bool().Draw(t, "probed") {
				b.Plan.Steps[i].Until = plan.Until{Temp: plan.Celsius(rapid.IntRange(40, 90).Draw(t, "until")), HasTemp: true}
				b.Plan.Dishes[k].Food = rapid.SampledFrom([]string{"", "poultry"}).Draw(t, "food")
			}
			slot.End = slot.Start.Add(length)
			busy = kind != "wait"
			if chilled >= 0 {
				free["fridge"], chilled = slot.Start, -1
			}
			if kind == "chill" {
				chilled = len(d.t.Slots)
			}
			if n := len(d.t.Slots); j > 0 && b.Plan.Steps[n-1].Length.Elastic { // it stretches
				d.t.Slots[n-1].End = slot.Start
			}
			d.t.Slots = append(d.t.Slots, slot)
			at = slot.End
		}
		if chilled >= 0 { // who knows until when
			b.Plan.Steps[chilled].Keeps = plan.Keep{}
		}
	}
	d.serves()
	return d
}

// serves puts the courses on the table when all is done, and stretches the last waits.
func (d *dinner) serves() {
	for c := range d.Plan.Courses {
		serve := d.Plan.Asked(c)
		if c > 0 {
			if after := d.t.Serves[c-1].Add(d.Plan.Courses[c-1].Seated); after.After(serve) {
				serve = after
			}
		}
		for i, s := range d.t.Slots {
			if d.Plan.CourseOf(i) == c && s.End.After(serve) {
				serve = s.End
			}
		}
		d.t.Serves = append(d.t.Serves, serve)
		for i := range d.t.Slots {
			dish := d.Plan.Dishes[d.Plan.Steps[i].Dish]
			if dish.Course == c && dish.Steps[len(dish.Steps)-1] == i && d.Plan.Steps[i].Length.Elastic {
				d.t.Slots[i].End = serve
			}
		}
	}
}

func (d *dinner) adopted(t interface {
	Helper()
	Fatal(...any)
}) *run.State {
	t.Helper()
	st, err := run.Fold(&d.Plan, []run.Event{
		{Kind: run.Opened, At: d.At("07:00"), Plan: &run.PlanCopy{}},
		{Kind: run.Adopted, At: d.At("07:00"), Timetable: &d.t},
	})
	if err != nil {
		t.Fatal(err)
	}
	return st
}

// Before anything has begun, what is projected is the timetable.
func TestUntouchedRunIsTheTimetable(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		d := drawDinner(t, 6)
		p := run.Project(d.adopted(t), d.At("07:30"))
		for i, slot := range d.t.Slots {
			if !p.Start[i].Equal(slot.Start) || !p.End[i].Equal(slot.End) {
				t.Errorf("%s: projected %s-%s, planned %s-%s", d.Plan.Steps[i].ID,
					hm(p.Start[i]), hm(p.End[i]), hm(slot.Start), hm(slot.End))
			}
		}
		if diff := cmp.Diff(d.t.Serves, p.Serves); diff != "" {
			t.Errorf("serves: %s", diff)
		}
	})
}

// walk draws events that the run accepts, each told when it is due or a while
// later, undos among them.
func walk(t *rapid.T, d *dinner, st *run.State) *run.State {
	now := d.At("07:30")
	for range rapid.IntRange(0, 40).Draw(t, "events") {
		now = now.Add(time.Duration(rapid.IntRange(0, 1800).Draw(t, "seconds")) * time.Second)
		var choices []run.Event
		m := run.Conduct(st, now)
		for _, c := range m.Cues {
			choices = append(choices, c.Answer...)
		}
		for _, u := range m.Unconfirmed {
			choices = append(choices, u.Cue.Answer...)
		}
		for _, g := range m.Going {
			if g.Step >= 0 {
				choices = append(choices, run.Event{Kind: run.Prolonged, Step: d.Plan.Steps[g.Step].ID, By: 7 * time.Minute})
				temp := float64(rapid.IntRange(0, 90).Draw(t, "reading"))
				choices = append(choices, run.Event{Kind: run.Reading, Step: d.Plan.Steps[g.Step].ID, Temp: &temp})
			}
		}
		for _, u := range m.Next {
			choices = append(choices, u.Cue.Answer...)
		}
		if rapid.Bool().Draw(t, "mishap") {
			choices = mishaps(t, d, st)
		}
		if e, ok := st.LastUndoable(); ok {
			choices = append(choices, run.Event{Kind: run.Undone, Undoes: e.Seq})
		}
		if n := len(st.Events); n > 0 && st.Events[n-1].Kind == run.Undone {
			choices = append(choices, run.Event{Kind: run.Undone, Undoes: st.Events[n-1].Seq})
		}
		e := choices[rapid.IntRange(0, len(choices)-1).Draw(t, "event")]
		e.At = now
		if rapid.IntRange(0, 3).Draw(t, "told late") == 0 { // "it was four minutes ago"
			e.At = now.Add(-time.Duration(rapid.IntRange(1, 900).Draw(t, "ago")) * time.Second)
		}
		e.Noted = now
		if st.Possible(e) != nil {
			continue
		}
		next, err := st.Apply(e)
		if err != nil {
			continue // refused: the run stays as it is
		}
		st = next
	}
	return st
}

// mishaps are events that nobody planned, of every kind; some are refused.
func mishaps(t *rapid.T, d *dinner, st *run.State) []run.Event {
	p := &d.Plan
	step := p.Steps[rapid.IntRange(0, len(p.Steps)-1).Draw(t, "step")]
	dish := p.Dishes[rapid.IntRange(0, len(p.Dishes)-1).Draw(t, "of dish")].ID
	course := p.Courses[rapid.IntRange(0, len(p.Courses)-1).Draw(t, "of course")].Name
	cook := p.Kitchen.Cooks[rapid.IntRange(0, len(p.Kitchen.Cooks)-1).Draw(t, "who")].Name
	by := time.Duration(rapid.IntRange(0, 40).Draw(t, "by")) * time.Minute
	oven := p.Kitchen.Ovens[0].Name
	out := []run.Event{
		{Kind: run.TimerSet, By: 5 * time.Minute}, {Kind: run.SkippedStep, Step: step.ID},
		{Kind: run.Held, Course: course, By: by}, {Kind: run.Held, Course: course}, {Kind: run.Released, Course: course},
		{Kind: run.Away, Cook: cook, By: by}, {Kind: run.Back, Cook: cook},
		{Kind: run.Failed, Oven: oven}, {Kind: run.Works, Oven: oven},
		{Kind: run.Failed, Burner: "small", Step: step.ID}, {Kind: run.Works, Burner: "small"},
		{Kind: run.Put, Step: step.ID, Burner: "large"}, {Kind: run.Put, Step: step.ID, Oven: oven}, {Kind: run.Put, Step: step.ID, Tool: "pan"},
		{Kind: run.Reassigned, Step: step.ID, Cook: cook}, {Kind: run.Noted, Text: "salty"},
		{Kind: run.Paused, Step: step.ID}, {Kind: run.Resumed, Step: step.ID},
		{Kind: run.Redone, Step: step.ID}, {Kind: run.Dropped, Dish: dish},
		{Kind: run.RemedyTaken, Text: "late", Changes: []plan.Change{
			{Kind: plan.TolerateLate, Course: course, By: by}, {Kind: plan.LeaveTable, Course: course, By: by},
		}},
		{Kind: run.RemedyTaken, Text: "less", Changes: []plan.Change{{Kind: plan.Drop, Step: step.ID}}},
		{Kind: run.RemedyTaken, Text: "longer", Changes: []plan.Change{{Kind: plan.WaitLonger, Step: step.ID, By: by}}},
		{Kind: run.Adopted, Timetable: st.Timetable, Why: []string{"moved"}, Cause: st.Events[len(st.Events)-1].Seq},
	}
	if e, ok := st.LastUndoable(); ok {
		out = append(out, run.Event{Kind: run.Undone, Undoes: e.Seq})
	}
	if first := 2; len(st.Events) > first { // the run stays opened, with a timetable
		out = append(out, run.Event{Kind: run.Undone, Undoes: st.Events[rapid.IntRange(first, len(st.Events)-1).Draw(t, "undo")].Seq})
	}
	return out
}

// known is what is known of a run, whatever led there.
func known(st *run.State) any {
	return []any{st.Steps, st.Courses, st.Sets, st.Timers, st.Acked, st.Why, st.Changes, st.Plan, st.Timetable}
}

// Folding all events is applying them one by one, and undone ones might never
// have been.
func TestFoldIsApplyWithoutTheUndone(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		d := drawDinner(t, 4)
		st := walk(t, d, d.adopted(t))
		folded, err := run.Fold(&d.Plan, st.Events)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(known(st), known(folded)); diff != "" {
			t.Errorf("folded is not applied: %s", diff)
		}
		// An undo counts unless a later one that counts takes it back.
		gone := map[uint64]bool{}
		for i := len(st.Events) - 1; i >= 0; i-- {
			if e := st.Events[i]; e.Kind == run.Undone && !gone[e.Seq] {
				gone[e.Undoes] = true
			}
		}
		var left []run.Event
		for _, e := range st.Events {
			if e.Kind == run.Adopted && gone[e.Cause] { // a cause is older than what it causes
				gone[e.Seq] = true
			}
			if !gone[e.Seq] && e.Kind != run.Undone {
				left = append(left, e)
			}
		}
		without, err := run.Fold(&d.Plan, left)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(known(st), known(without)); diff != "" {
			t.Errorf("undone events left something behind: %s", diff)
		}
	})
}

// Whatever has happened: facts stay facts, the order of the plan holds, nothing
// open is projected before now, and the same question has the same answer.
func TestProjectionHolds(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		d := drawDinner(t, 5)
		st := walk(t, d, d.adopted(t))
		now := d.At("07:30")
		if n := len(st.Events); n > 0 {
			now = st.Events[n-1].At.Add(time.Duration(rapid.IntRange(0, 3600).Draw(t, "on")) * time.Second)
		}
		m := run.Conduct(st, now)
		p := m.Projection
		listed := map[string]bool{}
		for _, u := range m.Unconfirmed {
			listed[u.Cue.ID] = true
			if late := now.Sub(u.At); late < run.UnconfirmedAfter {
				t.Errorf("%s is unconfirmed after %v", u.Cue.ID, late)
			}
		}
		for _, c := range m.Cues {
			if listed[c.ID] {
				t.Errorf("%s is both open and unconfirmed", c.ID)
			}
			if late := now.Sub(c.Due); (c.Class == run.Act || c.Class == run.Look) && (late < 0 || late >= run.UnconfirmedAfter) {
				t.Errorf("%s is open, due %s at %s", c.ID, hm(c.Due), hm(now))
			}
		}
		for _, u := range m.Next {
			if u.At.Before(now) {
				t.Errorf("%s is to come at %s, it is %s", u.Cue.ID, hm(u.At), hm(now))
			}
		}
		for i, x := range st.Steps {
			step := &d.Plan.Steps[i]
			switch {
			case x.Status == plan.Skipped:
				continue
			case x.Status != plan.Ahead && !p.Start[i].Equal(x.Started):
				t.Errorf("%s began at %s, projected %s", step.ID, hm(x.Started), hm(p.Start[i]))
			case x.Status == plan.Done && !p.End[i].Equal(x.Finished):
				t.Errorf("%s ended at %s, projected %s", step.ID, hm(x.Finished), hm(p.End[i]))
			}
			if x.Status == plan.Done {
				continue
			}
			if long := step.Length.Planned() + x.Extra; p.End[i].Sub(p.Start[i]) < long {
				t.Errorf("%s takes %v at least, projected %s-%s", step.ID, long, hm(p.Start[i]), hm(p.End[i]))
			}
			for _, l := range step.After {
				pred := st.Steps[l.Step].Status
				if x.Status == plan.Ahead && pred != plan.Skipped && p.Start[i].Before(p.End[l.Step]) {
					t.Errorf("%s at %s before %s ends at %s", step.ID, hm(p.Start[i]), d.Plan.Steps[l.Step].ID, hm(p.End[l.Step]))
				}
			}
		}
		if diff := cmp.Diff(m, run.Conduct(st, now), cmpopts.EquateEmpty()); diff != "" {
			t.Errorf("asked again: %s", diff)
		}
	})
}

// All as planned leaves nothing unconfirmed of that time; seldom, a setting that is
// then known has the oven ready sooner than was planned, and what waited for it is
// due earlier and asked for in a second list. Never in a third.
func TestAllAsPlannedSettles(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		d := drawDinner(t, 5)
		st := walk(t, d, d.adopted(t))
		now := st.Events[len(st.Events)-1].At.Add(time.Duration(rapid.IntRange(0, 4*3600).Draw(t, "away")) * time.Second)
		before := run.Conduct(st, now)
		for m, lists := before, 0; len(m.Unconfirmed) > 0 && lists < 2; lists++ {
			for _, e := range run.AllAsPlanned(m) {
				next, err := st.Apply(e)
				if err != nil {
					t.Fatalf("%s %s%s at %s: %v, of %v", e.Kind, e.Step, e.Course, hm(e.At), err, unconfirmed(m))
				}
				st = next
			}
			m = run.Conduct(st, now)
		}
		if after := run.Conduct(st, now); len(after.Unconfirmed) > 0 {
			t.Errorf("still unconfirmed: %v, of %v", unconfirmed(after), unconfirmed(before))
		}
	})
}
