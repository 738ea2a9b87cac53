package run_test

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/plantest"
	"example.org/kettledrum/plan/run"
)

// pair is two dishes of one course, served at 19:00, a step or two each.
func pair() *dinner {
	d := &dinner{Builder: plantest.New("2026-10-17 19:00")}
	d.Cook("Ines", "10:00-23:00")
	d.Cook("Tomas", "10:00-23:00")
	d.Course("Main", 0, 30*time.Minute, 20*time.Minute)
	return d
}

func (d *dinner) add(do string, length plan.Length, slot plan.Slot, options ...plantest.Option) int {
	d.t.Slots = append(d.t.Slots, slot)
	return d.Step(do, length, options...)
}

func (d *dinner) after(t *testing.T, events ...run.Event) *run.State {
	t.Helper()
	st := d.adopted(t)
	for _, e := range events {
		next, err := st.Apply(e)
		if err != nil {
			t.Fatal(err)
		}
		st = next
	}
	return st
}

// What is used by one step and wanted by the next is handed on: a step that
// runs long holds up the next user of what it holds, and nobody else.
func TestHandedOn(t *testing.T) {
	t.Parallel()
	const long = 30 // minutes more than planned
	for _, c := range []struct {
		name          string
		first, second plantest.Option
		slots         [2][]string
		small         int
		want          string // when the second may begin, planned at 18:00
	}{
		{"cook", plantest.Hands(plan.Busy), plantest.Hands(plan.Tied), [2][]string{{"Ines"}, {"Ines"}}, 1, "18:15"},
		{"another-cook", plantest.Hands(plan.Busy), plantest.Hands(plan.Busy), [2][]string{{"Ines"}, {"Tomas"}}, 1, "18:00"},
		{"burner", plantest.Burner(plan.Small), plantest.Burner(plan.Small), [2][]string{{"small"}, {"small"}}, 1, "18:15"},
		{"two-burners", plantest.Burner(plan.Small), plantest.Burner(plan.Small), [2][]string{{"small"}, {"small"}}, 2, "18:00"},
		{"another-size", plantest.Burner(plan.Small), plantest.Burner(plan.Small), [2][]string{{"large"}, {"small"}}, 1, "18:00"},
		{"tool", plantest.Uses(0), plantest.Uses(0), [2][]string{{"Ines"}, {"Tomas"}}, 1, "18:15"},
		{"another-tool", plantest.Uses(0), plantest.Uses(1), [2][]string{{"Ines"}, {"Tomas"}}, 1, "18:00"},
		{"shelf", plantest.Oven(180, 3), plantest.Oven(180, 2), [2][]string{{"oven"}, {"oven"}}, 1, "18:15"},
		{"other-shelf", plantest.Oven(180, 2), plantest.Oven(180, 2), [2][]string{{"oven"}, {"oven"}}, 1, "18:00"},
		// From 175 up to 215 °C takes 5.45 minutes (first-order model, computed).
		{"temperature", plantest.Oven(170, 1), plantest.Oven(220, 1), [2][]string{{"oven"}, {"oven"}}, 1, "18:21"},
		{"one-temperature", plantest.Oven(170, 1), plantest.Oven(175, 1), [2][]string{{"oven"}, {"oven"}}, 1, "18:00"},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			d := pair()
			d.Plan.Kitchen.Burners = plan.Burners{Small: c.small, Large: 1}
			d.Tool("board", 1)
			d.Tool("pan", 1)
			d.Dish("Beans", 0)
			first := d.add("First", plantest.Takes(30), d.Slot("17:15", "17:45", c.slots[0]...), c.first)
			d.Dish("Corn", 0)
			second := d.add("Second", plantest.Takes(30), d.Slot("18:00", "18:30", c.slots[1]...), c.second)
			d.serves()
			st := d.after(t,
				run.Event{Kind: run.Started, At: d.At("17:15"), Step: d.Plan.Steps[first].ID},
				run.Event{Kind: run.Prolonged, At: d.At("17:20"), Step: d.Plan.Steps[first].ID, By: long * time.Minute})
			if got := hm(run.Project(st, d.At("17:20")).Start[second]); got != c.want {
				t.Errorf("got %s, want %s", got, c.want)
			}
			// Done in time after all, it holds up nobody.
			st = d.after(t, run.Event{Kind: run.Finished, At: d.At("17:40"), Step: d.Plan.Steps[first].ID})
			if got := hm(run.Project(st, d.At("17:40")).Start[second]); got != "18:00" {
				t.Errorf("first is done: got %s, want 18:00", got)
			}
		})
	}
}

// What begins at once with the end of another is held up together with it, as
// long as that one has not begun; from then on it comes when it comes.
func TestAtOnceWaitsTogether(t *testing.T) {
	t.Parallel()
	d := pair()
	d.Dish("Beans", 0)
	hold := d.add("Chop", plantest.Takes(30), d.Slot("17:30", "18:00", "Ines"))
	d.Dish("Corn", 0)
	boil := d.add("Boil", plantest.Takes(20), d.Slot("17:40", "18:00"), plantest.Hands(plan.Free))
	drain := d.add("Drain", plantest.Takes(5), d.Slot("18:00", "18:05", "Ines"), plantest.AtOnce)
	d.serves()
	begun := run.Event{Kind: run.Started, At: d.At("17:30"), Step: d.Plan.Steps[hold].ID}
	longer := run.Event{Kind: run.Prolonged, At: d.At("17:35"), Step: d.Plan.Steps[hold].ID, By: 15 * time.Minute}
	p := run.Project(d.after(t, begun, longer), d.At("17:35"))
	if hm(p.Start[drain]) != "18:15" || hm(p.Start[boil]) != "17:55" {
		t.Errorf("not begun: boil at %s, drain at %s, want 17:55, 18:15", hm(p.Start[boil]), hm(p.Start[drain]))
	}
	boiling := run.Event{Kind: run.Started, At: d.At("17:40"), Step: d.Plan.Steps[boil].ID}
	p = run.Project(d.after(t, begun, longer, boiling), d.At("17:40"))
	if hm(p.Start[drain]) != "18:00" || hm(p.End[boil]) != "18:00" {
		t.Errorf("begun: boiled at %s, drained at %s, want both at 18:00", hm(p.End[boil]), hm(p.Start[drain]))
	}
}

// A step that is skipped takes no time: what follows it follows what it followed.
func TestSkippedIsPassedOver(t *testing.T) {
	t.Parallel()
	s := newSupper()
	st := s.run(t, s.upTo("17:15", "17:20 skipped lamb/rest", "18:05 prolonged lamb/roast 35m")...)
	p := run.Project(st, s.At("18:05"))
	if got := hm(p.Start[s.carve]); got != "18:55" {
		t.Errorf("carve with no rest: got %s, want 18:55, when the roast is done", got)
	}
	m := run.Conduct(st, s.At("18:50"))
	for _, c := range m.Cues {
		if c.Step == s.rest || c.Step == s.carve {
			t.Errorf("the roast is in, but asked: %s", c.Text)
		}
	}
}

// A dial that is to be turned in a bake's last minutes is turned so long before
// its end, whenever that is; one for what begins at once, when that begins.
func TestSettingMovesWithTheBake(t *testing.T) {
	t.Parallel()
	s := newSupper()
	s.t.Sets[1].At, s.t.Sets[1].Ready = s.At("18:15"), s.At("18:24")
	next := func(now string, events ...string) string {
		return hm(run.Conduct(s.run(t, s.upTo("17:15", events...)...), s.At(now)).Ovens[0].Next.At)
	}
	if got := next("18:00"); got != "18:15" {
		t.Errorf("as planned: got %s, want 18:15", got)
	}
	if got := next("18:00", "18:00 prolonged lamb/roast 10m"); got != "18:25" {
		t.Errorf("roast prolonged by ten minutes: got %s, want 18:25", got)
	}

	d := pair()
	d.Dish("Gratin", 0)
	bake := d.add("Bake", plantest.Takes(40), d.Slot("17:30", "18:10", "oven"), plantest.Oven(180, 2))
	brown := d.add("Brown", plantest.Takes(10), d.Slot("18:10", "18:20", "oven"), plantest.Oven(220, 2), plantest.AtOnce)
	d.t.Sets = []plan.OvenSet{
		{At: d.At("17:18"), To: 180, For: bake, Ready: d.At("17:30")},
		{At: d.At("18:10"), To: 220, For: brown, Ready: d.At("18:15")},
	}
	d.serves()
	early := run.Event{Kind: run.Finished, At: d.At("18:05"), Step: d.Plan.Steps[bake].ID}
	m := run.Conduct(d.after(t, early), d.At("18:06"))
	if got, want := cues(m), []string{"act set:oven:gratin/brown"}; !cmp.Equal(got, want) {
		t.Errorf("browning since 18:05: got %v, want %v", got, want)
	}
	if c := find(m, "set:oven:gratin/brown"); !c.Due.Equal(d.At("18:05")) {
		t.Errorf("due %s, want 18:05", hm(c.Due))
	}
}

// Once the dial was turned, the oven is ready by what it is, not by the plan.
func TestReadyByTheTemperature(t *testing.T) {
	t.Parallel()
	s := newSupper()
	// Turned up by hand at 18:20, it has 225 °C long before 18:38.
	st := s.run(t, s.upTo("18:19", "18:20 finished lamb/roast", "18:20 oven_set oven 228C", "18:38 oven_set oven 230C flatbreads/bake")...)
	if got := hm(run.Project(st, s.At("18:38")).Start[s.bake]); got != "18:40" {
		t.Errorf("got %s, want 18:40", got)
	}
}

// Two states made from one do not share what comes after it.
func TestApplyTwice(t *testing.T) {
	t.Parallel()
	s := newSupper()
	base := s.run(t, "14:00 timer 1m a", "14:00 timer 1m b", "14:00 timer 1m c")
	one, err := base.Apply(s.event("15:00 started lamb/season"))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := base.Apply(s.event("15:00 skipped lamb/season")); err != nil {
		t.Fatal(err)
	}
	if got := one.Events[len(one.Events)-1].Kind; got != run.Started {
		t.Errorf("the last event became %s", got)
	}
}

// A written greatest gap takes the place of a keep that is only assumed, and
// joins one that is stated.
func TestGapAndKeep(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name    string
		assumed bool
		want    map[plan.BreakKind]int
	}{
		{"assumed", true, map[plan.BreakKind]int{plan.BreakGap: 10}},
		{"stated", false, map[plan.BreakKind]int{plan.BreakGap: 10, plan.BreakKeep: 20}},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			s := newSupper()
			s.Plan.Steps[s.knead].Keeps = plan.Keep{Kind: plan.Limit, For: 10 * time.Minute, AtMost: 10 * time.Minute, Assumed: c.assumed}
			s.Plan.Steps[s.prove].After[0].Max, s.Plan.Steps[s.prove].After[0].HasMax = 20*time.Minute, true
			s.t.Slots[s.prove].Start = s.At("17:40") // kneaded at 17:10
			st := s.run(t, s.upTo("17:00", "17:10 finished flatbreads/knead")...)
			got := map[plan.BreakKind]int{}
			for _, b := range run.Conduct(st, s.At("17:10")).Breaks {
				got[b.Kind] += b.Minutes
			}
			if diff := cmp.Diff(c.want, got); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// Of a range, the cook is told what the oven is set to.
func TestPlaceTellsTheSetting(t *testing.T) {
	t.Parallel()
	s := newSupper()
	s.Plan.Steps[s.bake].Oven = &plan.Bake{In: -1, At: 226, Lo: 220, Hi: 232, Space: 2}
	m := run.Conduct(s.run(t, s.upTo("18:20")...), s.At("18:40"))
	if got, want := find(m, "start:flatbreads/bake").Text, "Put in: Bake · Flatbreads · oven at 230 °C"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// What is begun before its turn holds what it holds: the one it overtook waits.
func TestOvertaken(t *testing.T) {
	t.Parallel()
	d := pair()
	d.Dish("Beans", 0)
	first := d.add("Chop", plantest.Takes(30), d.Slot("17:15", "17:45", "Ines"))
	d.Dish("Corn", 0)
	second := d.add("Shell", plantest.Takes(30), d.Slot("18:00", "18:30", "Ines"))
	d.serves()
	st := d.after(t, run.Event{Kind: run.Started, At: d.At("17:10"), Step: d.Plan.Steps[second].ID})
	if got := hm(run.Project(st, d.At("17:10")).Start[first]); got != "17:40" {
		t.Errorf("got %s, want 17:40", got)
	}
}
