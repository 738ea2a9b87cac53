package run_test

import (
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/plantest"
	"example.org/kettledrum/plan/run"
)

// weekend is a dinner begun two days ahead, by one cook who sits:
//
//	Thu 19:00 Tart     dough, keeps 3 d in the fridge
//	Fri 18:00          fill, keeps 2 d in the fridge ─ Sat 18:20 bake at 180 (set 18:05) ─ Sweet 20:00
//	Sat 18:00 Fish     marinate 30 min in the fridge ─ 18:50 dress ─ Main 19:00
//	Sat 17:30 (Main)   lay the table, 20 min
//	Sat 19:45 (Sweet)  coffee, after Main, 10 min
type weekend struct {
	*supper
	dough, fill, tart, marinate, dress, table, coffee int
}

func newWeekend() *weekend {
	b := plantest.New("2026-10-17 19:00")
	b.Cook("Ines", "-2d 19:00-21:30", "-1d 18:00-21:00", "10:00-23:00")
	b.Sits(0)
	main := b.Course("Main", 0, 40*time.Minute, 20*time.Minute)
	sweet := b.Course("Sweet", time.Hour, 30*time.Minute, 20*time.Minute)
	s := &weekend{supper: &supper{Builder: b}}
	b.Dish("Tart", sweet)
	s.dough = b.Step("Make dough", plantest.Takes(20), plantest.Chilled(72, "fridge", 1))
	s.fill = b.Step("Fill", plantest.Takes(30), plantest.Chilled(48, "fridge", 1))
	s.tart = b.Step("Bake", plantest.Takes(40), plantest.Oven(180, 2), plantest.Warm(90, -1, 70, 90, 2))
	b.Dish("Fish", main)
	s.marinate = b.Step("Marinate", plantest.Waits(30, 60), plantest.Stands("fridge", 1))
	s.dress = b.Step("Dress", plantest.Takes(10))
	s.table = b.Chore("Lay the table", main, plan.Chore{After: -1}, plantest.Takes(20))
	s.coffee = b.Chore("Make coffee", sweet, plan.Chore{After: main}, plantest.Takes(10))
	s.t.Status = plan.Whole
	s.t.Slots = []plan.Slot{
		b.Slot("-2d 19:00", "-2d 19:20", "Ines"), b.Slot("-1d 18:00", "-1d 18:30", "Ines"), b.Slot("18:20", "19:00", "oven"),
		b.Slot("18:10", "18:50"), b.Slot("18:50", "19:00", "Ines"),
		b.Slot("17:30", "17:50", "Ines"), b.Slot("19:45", "19:55", "Ines"),
	}
	s.t.Serves = []time.Time{b.At("19:00"), b.At("20:00")}
	s.t.Sets = []plan.OvenSet{
		{At: b.At("18:05"), To: 180, For: s.tart, Ready: b.At("18:17")},
		{At: b.At("19:00"), Off: true, For: -1},
	}
	return s
}

// state is the run after events, each with the time that At reads: "-2d 19:00".
func (s *weekend) state(t *testing.T, lines ...string) *run.State {
	t.Helper()
	events := []run.Event{
		{Kind: run.Opened, At: s.At("-2d 18:50"), Plan: &run.PlanCopy{Name: "weekend.yaml"}},
		{Kind: run.Adopted, At: s.At("-2d 18:50"), Timetable: &s.t},
	}
	for _, l := range lines {
		day, rest := "", l
		if before, after, ok := strings.Cut(l, "d "); ok && strings.HasPrefix(l, "-") {
			day, rest = before+"d ", after
		}
		e := s.event(rest)
		e.At = s.At(day + rest[:5])
		events = append(events, e)
	}
	st, err := run.Fold(&s.Plan, events)
	if err != nil {
		t.Fatal(err)
	}
	return st
}

var (
	thursday = []string{"-2d 19:00 started tart/make-dough", "-2d 19:20 finished tart/make-dough"}
	friday   = append(thursday[:2:2], "-1d 18:00 started tart/fill", "-1d 18:30 finished tart/fill")
)

// After each day's session there is nothing to do until the next day's, and what
// was to be done meanwhile and was not told of is all that is unconfirmed.
func TestDaysAhead(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name, now   string
		events      []string
		cues        string
		next        string
		unconfirmed string
		served      string // where it is projected
	}{
		{"before", "-2d 18:50", nil, "", "Thu 19:00 start:tart/make-dough", "", "Sat 19:00"},
		{"thursday", "-2d 19:00", nil, "act start:tart/make-dough", "Fri 18:00 start:tart/fill", "", "Sat 19:00"},
		{"begun", "-2d 19:00", thursday[:1], "", "Thu 19:20 end:tart/make-dough", "", "Sat 19:00"},
		{"done", "-2d 19:21", thursday, "", "Fri 18:00 start:tart/fill", "", "Sat 19:00"},
		{"overnight", "-1d 03:00", thursday, "", "Fri 18:00 start:tart/fill", "", "Sat 19:00"},
		{"not-told-the-end", "-1d 17:00", thursday[:1], "", "Fri 18:00 start:tart/fill", "Thu 19:20 end:tart/make-dough", "Sat 19:00"},
		{"friday-missed", "-1d 20:40", thursday, "", "Sat 17:30 start:lay-the-table", "Fri 18:00 start:tart/fill, Fri 18:30 end:tart/fill", "Sat 19:00"},
		{"nothing-told", "10:00", nil, "", "Sat 17:30 start:lay-the-table",
			"Thu 19:00 start:tart/make-dough, Thu 19:20 end:tart/make-dough, Fri 18:00 start:tart/fill, Fri 18:30 end:tart/fill", "Sat 19:00"},
		{"saturday", "12:00", friday, "", "Sat 17:30 start:lay-the-table", "", "Sat 19:00"},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			s := newWeekend()
			m := run.Conduct(s.state(t, c.events...), s.At(c.now))
			if got := strings.Join(cues(m), ", "); got != c.cues {
				t.Errorf("cues %s, want %s", got, c.cues)
			}
			if got := m.Next[0].At.Format("Mon 15:04 ") + m.Next[0].Cue.ID; got != c.next {
				t.Errorf("next %s, want %s", got, c.next)
			}
			var late []string
			for _, u := range m.Unconfirmed {
				late = append(late, u.At.Format("Mon 15:04 ")+u.Cue.ID)
			}
			if got := strings.Join(late, ", "); got != c.unconfirmed {
				t.Errorf("unconfirmed %s, want %s", got, c.unconfirmed)
			}
			if got := m.Courses[0].Projected.Format("Mon 15:04"); got != c.served {
				t.Errorf("Main at %s, want %s", got, c.served)
			}
		})
	}
}

// The words of what is written down without a dish, and of where things go.
func TestWordsOfPlaces(t *testing.T) {
	t.Parallel()
	s := newWeekend()
	text := func(now, id string, events ...string) string {
		m := run.Conduct(s.state(t, events...), s.At(now))
		for _, u := range m.Next {
			m.Cues = append(m.Cues, u.Cue)
		}
		for _, c := range m.Cues {
			if c.ID == id {
				return c.Text
			}
		}
		t.Errorf("%s: no cue %s among %v", now, id, cues(m))
		return ""
	}
	for id, want := range map[string]string{
		"end:tart/make-dough": "Make dough · Tart · done? · then into the fridge",
		"end:tart/bake":       "Bake · Tart · take out · then keep warm in the oven, 70–90 °C",
		"start:lay-the-table": "Lay the table",
		"start:fish/marinate": "Marinate · Fish · in the fridge",
	} {
		events := friday
		now := "12:00"
		switch id {
		case "end:tart/make-dough":
			now, events = "-2d 19:05", thursday[:1]
		case "end:tart/bake":
			now, events = "18:30", append(friday[:4:4], "18:20 started tart/bake")
		}
		if got := text(now, id, events...); got != want {
			t.Errorf("%s: %q, want %q", id, got, want)
		}
	}
	// Taken at once, it is not put away.
	s.t.Slots[s.dough].Start, s.t.Slots[s.dough].End = s.At("-1d 17:40"), s.At("-1d 18:00")
	if got := text("-1d 17:45", "end:tart/make-dough", "-1d 17:40 started tart/make-dough"); strings.Contains(got, "fridge") {
		t.Errorf("into the fridge for nothing: %q", got)
	}
	m := run.Conduct(newWeekend().state(t, append(friday[:4:4], "18:10 started fish/marinate")...), s.At("18:11"))
	if len(m.Going) != 1 || m.Going[0].Place != "in the fridge" {
		t.Errorf("going: %+v", m.Going)
	}
}

// A time of another day is told with that day.
func TestDayTime(t *testing.T) {
	t.Parallel()
	now := time.Date(2026, 10, 15, 22, 30, 0, 0, time.UTC) // a Thursday
	zone := time.FixedZone("there", 2*3600)                // where it is Friday
	for _, c := range []struct {
		at   time.Time
		want string
	}{
		{now.Add(time.Hour), "01:30"},
		{now.Add(-time.Hour), "Thu 23:30"},
		{now.AddDate(0, 0, 6), "Thu 00:30"},
		{now.AddDate(0, 0, 7), "Fri 23 Oct 00:30"},
		{now.AddDate(0, 0, -7), "Fri 9 Oct 00:30"},
	} {
		if got := run.DayTime(c.at, now, zone); got != c.want {
			t.Errorf("%s: %s, want %s", c.at, got, c.want)
		}
	}
}

// Serving settles the dishes of the course; of its chores only what was to be
// done by then.
func TestServingLeavesChores(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name   string
		events []string
		now    string
		table  string
		coffee string
		cues   string
	}{
		{"due-by-then", []string{"18:55 served Main"}, "18:56", "done 17:50", "ahead", ""},
		{"begun-and-due", []string{"17:40 started lay-the-table", "18:55 served Main"}, "18:56", "done 18:00", "ahead", ""},
		{"still-going", []string{"18:40 started lay-the-table", "18:55 served Main"}, "18:56", "begun", "ahead", ""},
		{"not-yet-due", []string{"17:31 served Main"}, "17:32", "ahead", "ahead", "act start:lay-the-table"},
		{"skipped", []string{"17:31 skipped lay-the-table", "18:55 served Main"}, "18:56", "skipped", "ahead", ""},
		{"coffee-after-the-sweet", []string{"18:55 served Main", "19:46 served Sweet"}, "19:47", "done 17:50", "ahead", "act start:make-coffee"},
		{"coffee-before-the-sweet", []string{"18:55 served Main", "20:01 served Sweet"}, "20:02", "done 17:50", "done 19:55", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			s := newWeekend()
			s.t.Sets = nil
			st := s.state(t, append(friday[:4:4], c.events...)...)
			for step, want := range map[int]string{s.table: c.table, s.coffee: c.coffee} {
				x := st.Steps[step]
				got := [...]string{"ahead", "begun", "done " + x.Finished.Format("15:04"), "skipped"}[x.Status]
				if got != want {
					t.Errorf("%s: %s, want %s", s.Plan.Steps[step].ID, got, want)
				}
			}
			var acts []string
			for _, cue := range cues(run.Conduct(st, s.At(c.now))) {
				if strings.HasPrefix(cue, "act start:lay") || strings.HasPrefix(cue, "act start:make") {
					acts = append(acts, cue)
				}
			}
			if got := strings.Join(acts, ", "); got != c.cues {
				t.Errorf("cues %s, want %s", got, c.cues)
			}
		})
	}
}

// What comes after a course waits until it is served; who sits works on when the
// guests are through.
func TestWorkAfterTheTable(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name, served string
		slips        time.Duration
		sits         bool
		want         string
	}{
		{"as-planned", "19:00", 0, true, "19:45"},
		{"late", "19:20", 0, true, "20:00"},
		{"late-slips-away", "19:20", 12 * time.Minute, true, "19:45"},
		{"late-slips-away-too-shortly", "19:20", 4 * time.Minute, true, "20:00"},
		{"late-does-not-sit", "19:20", 0, false, "19:45"},
		{"very-late", "19:50", 0, false, "19:51"},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			s := newWeekend()
			s.Plan.Courses[0].SlipsAway, s.Plan.Kitchen.Cooks[0].Sits = c.slips, c.sits
			if c.name == "very-late" { // not served at all yet: it drifts
				st := s.state(t, append(friday[:4:4], "19:48 finished fish/dress", "19:48 finished tart/bake")...)
				if got := hm(run.Project(st, s.At("19:40")).Start[s.coffee]); got != "19:48" {
					t.Errorf("coffee at %s, want 19:48", got)
				}
				return
			}
			st := s.state(t, append(friday[:4:4], c.served+" served Main")...)
			if got := hm(run.Project(st, s.At("19:21")).Start[s.coffee]); got != c.want {
				t.Errorf("coffee at %s, want %s", got, c.want)
			}
		})
	}
}

// Reminders come at their moments, are answered by having been seen, move with
// their step and go with it.
func TestReminders(t *testing.T) {
	t.Parallel()
	const roast = "15:20 started lamb/roast"
	for _, c := range []struct {
		name, now string
		events    []string
		cues      string
		next      string
	}{
		{"to-come", "15:21", []string{roast}, "", "16:20 1.1, 16:50 2.1, 17:20 1.2, 18:10 3.1"},
		{"not-begun", "15:00", nil, "", ""},
		{"nobody-told", "15:50", nil, "", "16:20 1.1, 16:50 2.1, 17:20 1.2, 18:10 3.1"},
		{"due", "16:20", []string{roast}, "look 1.1", "16:50 2.1, 17:20 1.2, 18:10 3.1"},
		{"due-for-long", "16:24", []string{roast}, "look 1.1", "16:50 2.1, 17:20 1.2, 18:10 3.1"},
		{"dropped", "16:25", []string{roast}, "", "16:50 2.1, 17:20 1.2, 18:10 3.1"},
		{"seen", "16:22", []string{roast, "16:21 acknowledged remind:lamb/roast:1.1"}, "", "16:50 2.1, 17:20 1.2, 18:10 3.1"},
		{"begun-late", "15:40", []string{"15:40 started lamb/roast"}, "", "16:40 1.1, 17:10 2.1, 17:40 1.2, 18:30 3.1"},
		{"prolonged", "16:21", []string{roast, "16:21 prolonged lamb/roast 30m", "16:21 acknowledged remind:lamb/roast:1.1"}, "", "17:05 2.1, 17:20 1.2, 18:20 1.3, 18:40 3.1"},
		{"seen-then-prolonged", "16:55", []string{roast, "16:51 acknowledged remind:lamb/roast:2.1", "16:52 prolonged lamb/roast 30m"}, "", "17:20 1.2, 18:20 1.3, 18:40 3.1"},
		{"done", "16:21", []string{roast, "16:20 finished lamb/roast"}, "", ""},
		{"over", "18:22", []string{roast}, "", ""},
		{"begun-again", "16:42", []string{roast, "16:21 acknowledged remind:lamb/roast:1.1", "16:22 undone 3", "15:40 started lamb/roast"}, "look 1.1", "17:10 2.1, 17:40 1.2, 18:30 3.1"},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			s := newSupper()
			s.Plan.Steps[s.roast].Reminds = []plan.Remind{
				{When: plan.Every, For: time.Hour, Text: "baste"}, {When: plan.Halfway, Text: "turn the tray"},
				{When: plan.BeforeEnd, For: 10 * time.Minute, Text: "warm the plates"},
			}
			m := run.Conduct(s.run(t, c.events...), s.At(c.now))
			var open, next []string
			for _, cue := range m.Cues {
				if id, ok := strings.CutPrefix(cue.ID, "remind:lamb/roast:"); ok {
					open = append(open, cue.Class.String()+" "+id)
					if !strings.HasSuffix(cue.Text, ": Roast · Lamb") {
						t.Errorf("text %q", cue.Text)
					}
				}
			}
			for _, u := range m.Next {
				if id, ok := strings.CutPrefix(u.Cue.ID, "remind:lamb/roast:"); ok {
					next = append(next, hm(u.At)+" "+id)
				}
			}
			if d := cmp.Diff(c.cues, strings.Join(open, ", ")); d != "" {
				t.Errorf("cues (-want +got):\n%s", d)
			}
			if d := cmp.Diff(c.next, strings.Join(next, ", ")); d != "" {
				t.Errorf("next (-want +got):\n%s", d)
			}
			for _, u := range m.Unconfirmed {
				if strings.HasPrefix(u.Cue.ID, "remind:") {
					t.Errorf("%s is unconfirmed", u.Cue.ID)
				}
			}
		})
	}
}
