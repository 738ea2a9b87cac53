package run_test

import (
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

func find(m run.Moment, id string) run.Cue {
	for _, c := range m.Cues {
		if c.ID == id {
			return c
		}
	}
	return run.Cue{ID: "none of that name", Class: -1}
}

// A roast that runs long holds the oven: the flatbreads move by the oven's
// changeover, and the conflict is told while there is time.
func TestProlongedRoastMovesFlatbreads(t *testing.T) {
	t.Parallel()
	s := newSupper()
	now := s.At("18:05")
	m := run.Conduct(s.run(t, s.upTo("17:15", "18:05 prolonged lamb/roast 35m")...), now)
	p := m.Projection
	for _, c := range []struct {
		name string
		got  time.Time
		want string
	}{
		{"roast ends", p.End[s.roast], "18:55"},
		{"rest starts", p.Start[s.rest], "18:55"},
		{"rest ends with the carving", p.End[s.rest], "19:15"}, // at least 20 minutes
		{"carving", p.Start[s.carve], "19:15"},
		{"flatbreads go in", p.Start[s.bake], "19:04"}, // set at 18:55, nine minutes as planned
		{"proving stretches", p.End[s.prove], "19:04"},
		{"Main", p.Serves[0], "19:25"},
		{"Sweet, when the guests are through", p.Serves[1], "20:05"},
		{"pears", p.Start[s.poach], "19:10"},
		{"pears cool until then", p.End[s.cooling], "20:05"},
	} {
		if got := hm(c.got); got != c.want {
			t.Errorf("%s: got %s, want %s", c.name, got, c.want)
		}
	}
	want := []string{"late conflict:oven:flatbreads/bake:25", "late late:Main:25"}
	if diff := cmp.Diff(want, cues(m)); diff != "" {
		t.Error(diff)
	}
	text := "Oven: Roast · Lamb needs 165 °C until 18:55, Bake · Flatbreads wants 230 °C at 18:40: ready 19:04"
	if diff := cmp.Diff(text, find(m, "conflict:oven:flatbreads/bake:25").Text); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff("Main will be 25 min late: 19:25 instead of 19:00", find(m, "late:Main:25").Text); diff != "" {
		t.Error(diff)
	}
	if m.Courses[0].Late != 25*time.Minute || !m.Courses[0].Misses || m.Courses[1].Misses {
		t.Errorf("courses: %+v", m.Courses)
	}
	kinds := map[plan.BreakKind]int{}
	for _, b := range m.Breaks {
		kinds[b.Kind] += b.Minutes
	}
	if diff := cmp.Diff(map[plan.BreakKind]int{plan.BreakLate: 5}, kinds); diff != "" {
		t.Errorf("breaks %v: %s", m.Breaks, diff)
	}
}

// A late cue that was seen is gone, until the course gets later still.
func TestSeenLateComesBack(t *testing.T) {
	t.Parallel()
	s := newSupper()
	seen := []string{"18:05 prolonged lamb/roast 35m", "18:06 acknowledged late:Main:25", "18:06 acknowledged conflict:oven:flatbreads/bake:25"}
	if got := cues(run.Conduct(s.run(t, s.upTo("17:15", seen...)...), s.At("18:06"))); len(got) > 0 {
		t.Errorf("seen, but still there: %v", got)
	}
	later := append(seen, "18:10 prolonged lamb/roast 10m")
	want := []string{"late conflict:oven:flatbreads/bake:35", "late late:Main:35", "late late:Sweet:30"}
	if diff := cmp.Diff(want, cues(run.Conduct(s.run(t, s.upTo("17:15", later...)...), s.At("18:10")))); diff != "" {
		t.Error(diff)
	}
}

// More time said after the time ran out counts from when it is said.
func TestProlongedAfterTheEnd(t *testing.T) {
	t.Parallel()
	s := newSupper()
	st := s.run(t, s.upTo("17:15", "18:23 prolonged lamb/roast 10m")...)
	if got := hm(run.Project(st, s.At("18:23")).End[s.roast]); got != "18:33" {
		t.Errorf("got %s, want 18:33", got)
	}
	again, err := st.Apply(s.event("18:24 prolonged lamb/roast 5m"))
	if err != nil {
		t.Fatal(err)
	}
	if got := hm(run.Project(again, s.At("18:24")).End[s.roast]); got != "18:38" {
		t.Errorf("again: got %s, want 18:38", got)
	}
}

// A wait that is prolonged lasts at least that much longer than planned.
func TestProlongedWait(t *testing.T) {
	t.Parallel()
	s := newSupper()
	st := s.run(t, s.upTo("18:40", "18:45 prolonged lamb/rest 5m")...)
	p := run.Project(st, s.At("18:45"))
	if got := hm(p.Start[s.carve]); got != "18:55" {
		t.Errorf("carve: got %s, want 18:55", got)
	}
}

func TestKeepAboutToBreak(t *testing.T) {
	t.Parallel()
	s := newSupper()
	s.Plan.Steps[s.season].Keeps = plan.Keep{Kind: plan.Limit, For: 6 * time.Minute, AtMost: 6 * time.Minute}
	st := func(more ...string) *run.State { return s.run(t, s.upTo("15:15", more...)...) }
	if got := cues(run.Conduct(st(), s.At("15:18"))); strings.Contains(strings.Join(got, " "), "keep:") {
		t.Errorf("the roast is about to take it in time, but: %v", got)
	}
	m := run.Conduct(st(), s.At("15:20:30"))
	want := []string{"late keep:lamb/season:lamb/roast", "act start:lamb/roast"}
	if diff := cmp.Diff(want, cues(m)); diff != "" {
		t.Error(diff)
	}
	text := "Season · Lamb · keeps 6 min, until 15:21 · waiting for: Roast · Lamb"
	if diff := cmp.Diff(text, find(m, "keep:lamb/season:lamb/roast").Text); diff != "" {
		t.Error(diff)
	}
	if got := cues(run.Conduct(st("15:20 started lamb/roast"), s.At("15:20:30"))); len(got) > 0 {
		t.Errorf("taken, but: %v", got)
	}
}

// What no oven is hot for in time is told before the start is due.
func TestSetTooLate(t *testing.T) {
	t.Parallel()
	s := newSupper()
	more := s.upTo("18:19", "18:20 finished lamb/roast", "18:37 oven_set oven 230C flatbreads/bake")
	m := run.Conduct(s.run(t, more...), s.At("18:37"))
	// From 165 to 225 °C takes 9 minutes: ready at 18:46.
	if got := hm(m.Projection.Start[s.bake]); got != "18:46" {
		t.Errorf("bake: got %s, want 18:46", got)
	}
	text := "Oven: ready late, Bake · Flatbreads wants 230 °C at 18:40: ready 18:46"
	if diff := cmp.Diff(text, find(m, "conflict:oven:flatbreads/bake:5").Text); diff != "" {
		t.Error(diff)
	}
}

// A cook who is gone by then cannot do a step that has moved.
func TestCookGone(t *testing.T) {
	t.Parallel()
	s := newSupper()
	s.Plan.Kitchen.Cooks[0].Free[0].To = s.At("19:05")
	m := run.Conduct(s.run(t, s.upTo("17:15", "18:05 prolonged lamb/roast 25m")...), s.At("18:05"))
	for _, b := range m.Breaks {
		if b.Kind == plan.BreakHands && b.Step == s.carve && b.Minutes == 10 {
			return
		}
	}
	t.Errorf("carving from 19:05 to 19:15 breaks nothing: %v", m.Breaks)
}

// A timetable that has a step before one it follows makes no circle of the
// order: what the plan says goes.
func TestBrokenOrder(t *testing.T) {
	t.Parallel()
	s := newSupper()
	s.t.Slots[s.season], s.t.Slots[s.carve] = s.t.Slots[s.carve], s.t.Slots[s.season]
	p := run.Project(s.run(t), s.At("14:00"))
	for i, step := range s.Plan.Steps {
		for _, l := range step.After {
			if p.Start[i].Before(p.End[l.Step]) {
				t.Errorf("%s at %s before %s ends at %s", step.ID, hm(p.Start[i]), s.Plan.Steps[l.Step].ID, hm(p.End[l.Step]))
			}
		}
	}
	// The order of the oven contradicts nothing: it stays.
	if !p.Start[s.bake].After(p.End[s.roast]) {
		t.Errorf("the flatbreads go in at %s, the lamb comes out at %s", hm(p.Start[s.bake]), hm(p.End[s.roast]))
	}
}

// A roast that ran long held the dial: the setting that it was in the way of is asked for
// when the roast is out, and not taken to have been done while it was in.
func TestDialWaitsForWhatRanLong(t *testing.T) {
	t.Parallel()
	s := newSupper()
	m := run.Conduct(s.run(t, s.upTo("17:15", "18:20 prolonged lamb/roast 12m", "18:32 finished lamb/roast")...), s.At("18:32"))
	if len(m.Unconfirmed) > 0 {
		t.Errorf("taken to have been: %v", unconfirmed(m))
	}
	if c := find(m, "set:oven:flatbreads/bake"); c.Class != run.Act || hm(c.Due) != "18:32" {
		t.Errorf("the setting: %v, due %s", c.Class, hm(c.Due))
	}
	if got := hm(m.Projection.Start[s.bake]); got != "18:41" { // nine minutes as planned
		t.Errorf("the flatbreads go in at %s, want 18:41", got)
	}
}
