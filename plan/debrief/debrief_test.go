package debrief_test

import (
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/debrief"
	"example.org/kettledrum/plan/mishap"
	pt "example.org/kettledrum/plan/plantest"
)

// Steps of the supper.
const (
	simmer = iota
	ladle
	bake
	carve
	wash
)

// supper is a dinner of two courses, worked out by hand: Ana sits down with the
// guests, Ben does not. The bake takes 12 minutes longer than planned, the carving 2.
//
//	        18:30      18:50 18:55  19:00       19:15 19:25 19:30      19:42     19:54
//	Ana     put on     off   ladle──┤at table ───────┤
//	Ben     put in                              wash──┤       take out │carve ───┤
//	bake    ├──────────── planned to 19:30, truly to 19:42 ────────────┤
func supper() (*pt.Builder, debrief.Dinner) {
	b := pt.New("2026-10-17 19:00")
	ana, ben := b.Cook("Ana", "18:00-23:00"), b.Cook("Ben", "18:00-23:00")
	b.Sits(ana)
	pot := b.Tool("pot", 1)
	starter := b.Course("Starter", 0, 25*time.Minute, 10*time.Minute)
	main := b.Course("Main", 45*time.Minute, 30*time.Minute, 5*time.Minute)
	b.Dish("Soup", starter)
	b.Step("Simmer the soup", pt.Takes(20), pt.Hands(plan.Near), pt.Burner(plan.Small), pt.Vessel(pot), pt.Keeps(10, 20))
	b.Step("Ladle the soup", pt.Takes(5), pt.Keeps(10, 20))
	b.Dish("Bake", main)
	l := pt.Takes(60)
	l.Shortest, l.Longest = 50*time.Minute, 80*time.Minute
	b.Step("Bake the roots", l, pt.Hands(plan.Free), pt.Oven(180, 2), pt.Keeps(10, 20))
	b.Step("Carve the roots", pt.Takes(10), pt.Keeps(10, 20))
	b.Dish("Salad", main)
	b.Step("Wash the leaves", pt.Takes(10), pt.Keeps(60, 90))

	done := func(from, to string, with ...string) plan.Slot {
		s := b.Slot(from, to, with...)
		s.Progress = plan.Done
		return s
	}
	planned := &plan.Timetable{
		Slots: []plan.Slot{
			b.Slot("18:30", "18:50", "small"), b.Slot("18:55", "19:00", "Ana"), b.Slot("18:30", "19:30", "oven"),
			b.Slot("19:35", "19:45", "Ben"), b.Slot("19:15", "19:25", "Ben"),
		},
		Serves: []time.Time{b.At("19:00"), b.At("19:45")},
	}
	was := &plan.Timetable{
		Slots: []plan.Slot{
			done("18:30", "18:50", "small"), done("18:55", "19:00", "Ana"), done("18:30", "19:42", "oven"),
			done("19:42", "19:54", "Ben"), done("19:15", "19:25", "Ben"),
		},
		Touches: []plan.Touch{
			{What: plan.TouchStart, Step: simmer, Oven: -1, At: b.At("18:30"), Cook: ana},
			{What: plan.TouchEnd, Step: simmer, Oven: -1, At: b.At("18:49"), Cook: ana},
			{What: plan.TouchStart, Step: bake, Oven: -1, At: b.At("18:30"), Cook: ben},
			{What: plan.TouchEnd, Step: bake, Oven: -1, At: b.At("19:41"), Cook: ben},
		},
		Serves: []time.Time{b.At("19:00"), b.At("19:54")},
	}
	return b, debrief.Dinner{Plan: &b.Plan, Stood: &b.Plan, Planned: planned, Was: was, From: b.At("18:28")}
}

const minute = time.Minute

// TestOf: what is said of the supper is what is worked out by hand.
func TestOf(t *testing.T) {
	t.Parallel()
	b, d := supper()
	want := debrief.Debrief{
		Courses: []debrief.Course{
			{Asked: b.At("19:00"), Served: b.At("19:00"), Last: ladle},
			{Asked: b.At("19:45"), Served: b.At("19:54"), Late: 9 * minute, Last: carve, Later: 7 * minute, Why: []debrief.Cause{
				{Step: bake, Planned: 60 * minute, Took: 72 * minute},
				{Step: carve, Planned: 10 * minute, Took: 12 * minute},
			}},
		},
		// Ana is at table, so Ben is all the hands there are, and he washes.
		Tight: &debrief.Tight{From: b.At("19:15"), To: b.At("19:20"), Work: 5 * minute, Hands: 5 * minute, Calls: []int{wash}},
		// The leaves keep an hour and never saw the heat; the roots are carved at once.
		Waited: &debrief.Waited{Step: simmer, From: b.At("18:50"), To: b.At("18:55"), By: ladle, Vessel: 0},
		Idle: []debrief.Idle{
			// 18:28–19:00 and 19:25–19:54 are 61 minutes, less 5 of ladling and two touches.
			{Total: 54 * minute, Longest: plan.Window{From: b.At("19:25"), To: b.At("19:54")}},
			// 18:28–19:54 are 86 minutes, less 10, 12 and two touches.
			{Total: 62 * minute, Longest: plan.Window{From: b.At("18:31"), To: b.At("19:15")}},
		},
		Lost: debrief.Lost{Away: []time.Duration{0, 0}},
	}
	if diff := cmp.Diff(want, debrief.Of(d)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// TestWhy: how a course came to be late, each time with the one thing otherwise.
func TestWhy(t *testing.T) {
	t.Parallel()
	steps := func(c debrief.Course) (out []int) {
		for _, w := range c.Why {
			out = append(out, w.Step)
		}
		return out
	}
	for name, c := range map[string]struct {
		change func(b *pt.Builder, d *debrief.Dinner)
		course int
		want   []int
		late   time.Duration
		held   time.Duration
	}{
		"as-it-is": {func(*pt.Builder, *debrief.Dinner) {}, 1, []int{bake, carve}, 9 * minute, 0},
		// The carving waits for Ben, whose washing ran long; the bake was done in time.
		"cook": {func(b *pt.Builder, d *debrief.Dinner) {
			d.Was.Slots[bake].End = b.At("19:30")
			d.Was.Slots[wash].End = b.At("19:41")
		}, 1, []int{wash, carve}, 9 * minute, 0},
		// Nothing held the carving up: it began late, and only it took longer.
		"nothing-before-it": {func(b *pt.Builder, d *debrief.Dinner) { d.Was.Slots[bake].End = b.At("19:30") }, 1, []int{carve}, 9 * minute, 0},
		// The guests sat with the starter, whose soup took long.
		"course-before": {func(b *pt.Builder, d *debrief.Dinner) {
			d.Was.Slots[simmer].End = b.At("19:20")
			d.Was.Slots[ladle].Start, d.Was.Slots[ladle].End = b.At("19:20"), b.At("19:25")
			d.Was.Slots[bake].End, d.Was.Slots[carve].Start, d.Was.Slots[carve].End = b.At("19:30"), b.At("19:35"), b.At("19:45")
			d.Was.Serves = []time.Time{b.At("19:25"), b.At("19:50")}
		}, 1, []int{simmer}, 5 * minute, 0},
		// The guests came nine minutes late: nobody is to blame.
		"held": {func(b *pt.Builder, d *debrief.Dinner) {
			p, err := d.Plan.With(plan.Change{Kind: plan.ServeLater, Course: "Main", By: 9 * minute})
			if err != nil {
				panic(err)
			}
			d.Stood, d.Guests = p, p
		}, 1, nil, 0, 9 * minute},
		// It was put off by nine minutes since it would be late: the guests did not ask.
		"put-off": {func(b *pt.Builder, d *debrief.Dinner) {
			p, err := d.Plan.With(plan.Change{Kind: plan.ServeLater, Course: "Main", By: 9 * minute})
			if err != nil {
				panic(err)
			}
			d.Stood = p
		}, 1, []int{bake, carve}, 0, 9 * minute},
		// The guests came four minutes late, and it was five minutes later still.
		"held-and-late": {func(b *pt.Builder, d *debrief.Dinner) {
			p, err := d.Plan.With(plan.Change{Kind: plan.ServeLater, Course: "Main", By: 4 * minute})
			if err != nil {
				panic(err)
			}
			d.Stood, d.Guests = p, p
		}, 1, []int{bake, carve}, 5 * minute, 4 * minute},
		// The carver was called away in the middle.
		"away": {func(b *pt.Builder, d *debrief.Dinner) {
			d.Was.Slots[bake].End = b.At("19:30")
			d.Was.Slots[carve].Start, d.Was.Slots[carve].Still = b.At("19:35"), 9*minute
		}, 1, []int{carve}, 9 * minute, 0},
	} {
		b, d := supper()
		c.change(b, &d)
		got := debrief.Of(d).Courses[c.course]
		if diff := cmp.Diff(c.want, steps(got)); diff != "" || got.Late != c.late || got.Held != c.held {
			t.Errorf("%s: why %v, late %s, held %s; want %v, %s, %s", name, steps(got), got.Late, got.Held, c.want, c.late, c.held)
		}
	}
}

// TestSections: what the cook reads of the supper.
func TestSections(t *testing.T) {
	t.Parallel()
	b, d := supper()
	x := debrief.Of(d)
	tried := []debrief.Tried{
		{Late: []time.Duration{0, 9 * minute}, Start: b.At("18:30")},
		{Do: "plan longer", Late: []time.Duration{0, 0}, Start: b.At("18:18")},
		{Do: "leave it", Late: []time.Duration{0, 9 * minute}, Start: b.At("18:30")},
		{Do: "break a rule", Late: []time.Duration{0, 0}, Start: b.At("18:30"), Broken: 1},
		{Do: "half of it", Late: []time.Duration{0, 4 * minute}, Start: b.At("18:30")},
	}
	var got []string
	for _, s := range x.Sections(d, tried) {
		got = append(got, s.Title)
		for _, l := range s.Lines {
			got = append(got, map[bool]string{false: "- ", true: "  "}[l.Under]+l.Text)
		}
	}
	want := []string{
		"Late, and why",
		"- Starter 19:00, on time",
		"- Main 19:54, 9 min late",
		"  Bake: Bake the roots took 1 h 12 min instead of 1 h",
		"  Bake: Carve the roots took 12 min instead of 10 min",
		"The tightest five minutes",
		"- 19:15 to 19:20: cooks at work for 5 of 5 min",
		"  1 call: Salad: Wash the leaves",
		"The longest wait of hot food",
		"- Soup: Simmer the soup: 5 min in the pot, from 18:50 until Ladle the soup began",
		"Who stood idle",
		"- Ana: 54 min of the 1 h 26 min from 18:28, the longest 29 min, 19:25 to 19:54",
		"- Ben: 1 h 2 min of the 1 h 26 min from 18:28, the longest 44 min, 18:31 to 19:15",
		"What to change",
		"- played again, every cue answered when due and no way out taken: Main 9 min late",
		"- plan longer: all on time; begins 12 min sooner, 18:18",
		"- half of it: Main 4 min late",
		"- tried, and no help: leave it; break a rule",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// TestNotServed: a dinner that is not served when it is played again is not on time, and
// what breaks rules says so.
func TestNotServed(t *testing.T) {
	t.Parallel()
	_, d := supper()
	x := debrief.Of(d)
	change := func(tried debrief.Tried) string {
		sections := x.Sections(d, []debrief.Tried{tried})
		return sections[len(sections)-1].Lines[0].Text
	}
	if got, want := change(debrief.Tried{Late: []time.Duration{0, 360 * minute}, Unserved: []int{1}}), "Main not served at all"; !strings.HasSuffix(got, want) {
		t.Errorf("%q, want %q at its end", got, want)
	}
	if got, want := change(debrief.Tried{Late: []time.Duration{0, 0}, Broken: 1}), "nothing is late; it breaks 1 rule"; !strings.HasSuffix(got, want) {
		t.Errorf("%q, want %q at its end", got, want)
	}
}

// TestBroken: an idea that helps and breaks rules says how many, as the evening itself
// does; one that breaks more than that does not count as help.
func TestBroken(t *testing.T) {
	t.Parallel()
	b, d := supper()
	x := debrief.Of(d)
	sections := x.Sections(d, []debrief.Tried{
		{Late: []time.Duration{0, 9 * minute}, Start: b.At("18:30"), Broken: 2},
		{Do: "plan longer", Late: []time.Duration{0, 0}, Start: b.At("18:18"), Broken: 1},
		{Do: "leave it", Late: []time.Duration{0, 4 * minute}, Start: b.At("18:30"), Broken: 2},
		{Do: "break a third", Late: []time.Duration{0, 0}, Start: b.At("18:30"), Broken: 3},
	})
	var got []string
	for _, l := range sections[len(sections)-1].Lines {
		got = append(got, l.Text)
	}
	want := []string{
		"played again, every cue answered when due and no way out taken: Main 9 min late; it breaks 2 rules",
		"plan longer: all on time; begins 12 min sooner, 18:18; it breaks 1 rule",
		"leave it: Main 4 min late; it breaks 2 rules",
		"tried, and no help: break a third",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// TestIdeas: of a late dinner the steps to blame are planned as long as they took, it is
// planned cautiously, and what is optional is left out; of one on time nothing is tried.
func TestIdeas(t *testing.T) {
	t.Parallel()
	_, d := supper()
	d.Plan.Dishes[2].Optional = true // the salad
	d.Plan.Steps[ladle].Optional = true
	ideas := debrief.Ideas(d, debrief.Of(d))
	var got []string
	for _, x := range ideas {
		got = append(got, x.Do)
	}
	want := []string{"", "plan Bake: Bake the roots with 1 h 12 min and Bake: Carve the roots with 12 min, as long as they took",
		"plan cautiously (--cautious)", "leave out Soup: Ladle the soup", "leave out Salad"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Fatalf("(-want +got):\n%s", diff)
	}
	if l := ideas[1].Plan.Steps[bake].Length; l.Likely != 72*minute || d.Plan.Steps[bake].Length.Likely != 60*minute {
		t.Errorf("the bake is planned with %v, and the plan it came from with %v", l, d.Plan.Steps[bake].Length)
	}
	if m := ideas[4].Drop[0]; m.Kind != mishap.Dropped || m.Dish != 2 || m.Step != -1 || !m.At.Equal(d.From) {
		t.Errorf("the salad is left out by %+v", m)
	}
	d.Was.Serves[1] = d.Planned.Serves[1]
	if ideas := debrief.Ideas(d, debrief.Of(d)); ideas != nil {
		t.Errorf("%d ideas for a dinner on time", len(ideas))
	}
	_, d = supper()
	p, err := d.Plan.With(plan.Change{Kind: plan.ServeLater, Course: "Main", By: 9 * minute})
	if err != nil {
		t.Fatal(err)
	}
	d.Stood, d.Guests = p, p
	if ideas := debrief.Ideas(d, debrief.Of(d)); ideas != nil {
		t.Errorf("%d ideas for a dinner that kept to what it was held to", len(ideas))
	}
}

// TestAgain: the same evening is what was told and how long everything took, without
// what it stood still: that is told by who was away.
func TestAgain(t *testing.T) {
	t.Parallel()
	b, d := supper()
	d.Was.Slots[carve].Still = 3 * minute
	away, takes := mishap.None(mishap.Away), mishap.None(mishap.Takes)
	away.Cook, away.At, away.By = 1, b.At("19:44"), 3*minute
	takes.Step, takes.By = bake, 72*minute
	got := map[int]time.Duration{}
	for _, m := range d.Again([]mishap.Mishap{takes, away}) {
		if m.Kind == mishap.Takes {
			if _, twice := got[m.Step]; twice {
				t.Errorf("step %d twice", m.Step)
			}
			got[m.Step] = m.By
		} else if m != away {
			t.Errorf("told %+v", m)
		}
	}
	want := map[int]time.Duration{simmer: 20 * minute, ladle: 5 * minute, bake: 72 * minute, carve: 9 * minute, wash: 10 * minute}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}
