package run_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/plantest"
	"example.org/kettledrum/plan/run"
)

// What is made may wait longer than liked: that is offered once it is made, too.
func TestKeepLongerOfWhatIsMade(t *testing.T) {
	t.Parallel()
	s := newSupper()
	st := s.run(t, s.upTo("18:55")...)
	st, err := st.Apply(run.Event{Kind: run.RemedyTaken, At: s.At("18:56"), Text: "Breads wait", Changes: []plan.Change{
		{Kind: plan.KeepLonger, Step: "flatbreads/bake", By: 5 * time.Minute},
	}})
	if err != nil {
		t.Fatal(err)
	}
	if got := st.Plan.Steps[s.bake].Keeps.For; got != 15*time.Minute {
		t.Errorf("keeps for %s, want 15m", got)
	}
	for _, c := range []plan.Change{ // what is over cannot be done otherwise
		{Kind: plan.PutOn, Step: "flatbreads/bake", Oven: "oven"}, {Kind: plan.WaitLonger, Step: "flatbreads/prove", By: time.Minute},
	} {
		if _, err := st.Apply(run.Event{Kind: run.RemedyTaken, At: s.At("18:56"), Text: "try", Changes: []plan.Change{c}}); err == nil {
			t.Errorf("%s of what is done is taken", c.Kind)
		}
	}
}

// A place that works again says nothing of another one that failed.
func TestAnotherPlaceWorksAgain(t *testing.T) {
	t.Parallel()
	event := func(kind run.Kind, what, step string) run.Event {
		e := run.Event{Kind: kind, Step: step}
		if strings.Contains(what, "oven") {
			e.Oven = what
		} else {
			e.Burner = what
		}
		return e
	}
	fails := func(what, step string) run.Event { return event(run.Failed, what, step) }
	works := func(what string) run.Event { return event(run.Works, what, "") }
	for _, c := range []struct {
		name   string
		events []run.Event
		want   string // steps whose place is still to be told
	}{
		{"other-size", []run.Event{fails("large", "a/boil"), fails("small", "b/boil"), works("small")}, "a/boil"},
		{"all", []run.Event{fails("large", "a/boil"), fails("small", "b/boil"), works("small"), works("large")}, ""},
		{"same-size", []run.Event{fails("large", "a/boil"), fails("large", "e/boil"), works("large")}, "a/boil"},
		{"a-free-one-too", []run.Event{fails("large", "a/boil"), fails("large", ""), works("large")}, "a/boil"},
		{"other-oven", []run.Event{fails("oven", ""), fails("top oven", ""), works("top oven")}, "c/bake"},
		{"burner-not-oven", []run.Event{fails("oven", ""), fails("large", "a/boil"), works("large")}, "c/bake"},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			b := plantest.New("2026-10-17 19:00")
			b.Cook("Ines", "12:00-23:00")
			top := b.Plan.Kitchen.Ovens[0]
			top.Name = "top oven"
			b.Plan.Kitchen.Ovens = append(b.Plan.Kitchen.Ovens, top)
			main := b.Course("Main", 0, 40*time.Minute, 20*time.Minute)
			tt := &plan.Timetable{Serves: []time.Time{b.At("19:00")}}
			for _, x := range []struct {
				dish, do string
				use      plantest.Option
				at       string
			}{
				{"A", "Boil", plantest.Burner(plan.Large), "large"}, {"B", "Boil", plantest.Burner(plan.Small), "small"},
				{"C", "Bake", plantest.Oven(180, 1), "oven"}, {"D", "Bake", plantest.Oven(180, 1), "top oven"},
				{"E", "Boil", plantest.Burner(plan.Large), "large"},
			} {
				b.Dish(x.dish, main)
				b.Step(x.do, plantest.Takes(60), x.use)
				tt.Slots = append(tt.Slots, b.Slot("18:00", "19:00", x.at))
			}
			st, err := run.Fold(&b.Plan, []run.Event{
				{Kind: run.Opened, At: b.At("14:00"), Plan: &run.PlanCopy{}}, {Kind: run.Adopted, At: b.At("14:00"), Timetable: tt},
			})
			for _, id := range []string{"a/boil", "b/boil", "c/bake", "d/bake", "e/boil"} {
				if err == nil {
					st, err = st.Apply(run.Event{Kind: run.Started, Step: id, At: b.At("18:00")})
				}
			}
			for k, e := range c.events {
				if e.At = b.At("18:10").Add(time.Duration(k) * time.Minute); err == nil {
					st, err = st.Apply(e)
				}
			}
			if err != nil {
				t.Fatal(err)
			}
			var got []string
			for _, cue := range run.Conduct(st, b.At("18:20")).Cues {
				if id, ok := strings.CutPrefix(cue.ID, "failed:"); ok {
					got = append(got, id)
				}
			}
			slices.Sort(got)
			if diff := cmp.Diff(c.want, strings.Join(got, " ")); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// What is told again of one absence corrects it; it stays one, and back ends it.
func TestAbsenceCorrected(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name   string
		events []string
		want   string
	}{
		{"left-sooner", []string{"18:26 away Ines", "18:24 away Ines"}, "18:24-"},
		{"left-sooner-and-back", []string{"18:26 away Ines", "18:24 away Ines", "18:30 back Ines"}, "18:24-18:30"},
		{"left-sooner-for-a-time", []string{"18:26 away Ines 10m", "18:24 away Ines 5m", "18:27 back Ines"}, "18:24-18:27"},
		{"stays-longer", []string{"18:26 away Ines 10m", "18:30 away Ines 10m"}, "18:26-18:40"},
		{"until-back-after-all", []string{"18:26 away Ines 10m", "18:30 away Ines"}, "18:26-"},
		{"another-time", []string{"18:26 away Ines 2m", "18:30 away Ines 5m"}, "18:26-18:28 18:30-18:35"},
		{"back-in-the-same-minute", []string{"18:26 away Ines 10m", "18:26 back Ines"}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			s := newSupper()
			var got []string
			for _, x := range s.run(t, s.upTo("18:22", c.events...)...).Changes {
				to := ""
				if !x.To.IsZero() {
					to = hm(x.To)
				}
				got = append(got, hm(x.From)+"-"+to)
			}
			if diff := cmp.Diff(c.want, strings.Join(got, " ")); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// What cannot have been is refused when it is told; a journal that has it opens.
func TestImpossibleIsRefusedNotUnread(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name   string
		before []string
		event  string
		refuse string
		folds  string
	}{
		{
			"started-before-what-it-follows", []string{"15:20 started lamb/season"}, "15:15 started lamb/roast",
			`"Season", which comes before, began at 15:20; "Roast" cannot have been begun by 15:15`,
			"lamb/season 15:20-15:20, lamb/roast 15:15-",
		},
		{
			"finished-before-what-it-follows", []string{"15:20 started lamb/season"}, "15:15 finished lamb/roast",
			`"Season", which comes before, began at 15:20; "Roast" cannot have been begun by 15:15`,
			"lamb/season 15:20-15:20, lamb/roast 15:15-15:15, lamb/rest 15:15-",
		},
		{
			"served-before-it-began", []string{"18:50 started lamb/carve", "18:55 skipped flatbreads/knead"}, "18:45 served Main",
			`"Carve" began at 18:50, Main cannot be on the table since 18:45`,
			"lamb/season 15:00-15:15, lamb/roast 15:20-18:20, lamb/rest 18:20-18:50, lamb/carve 18:50-18:50, " +
				"flatbreads/knead skipped 18:55, flatbreads/prove 17:15-18:40, flatbreads/bake 18:40-18:45",
		},
		{"told-beforehand", []string{"15:20 started lamb/season"}, "15:10 prolonged lamb/roast 10m", "", "lamb/season 15:20-"},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			s := newSupper()
			st := s.run(t, c.before...)
			refused := ""
			if err := st.Possible(s.event(c.event)); err != nil {
				refused = err.Error()
			}
			if diff := cmp.Diff(c.refuse, refused); diff != "" {
				t.Errorf("refused: %s", diff)
			}
			old := s.run(t, append(c.before, c.event)...)
			if diff := cmp.Diff(c.folds, strings.Join(steps(old), ", ")); diff != "" {
				t.Errorf("folded: %s", diff)
			}
			_ = run.Conduct(old, s.At("19:30"))
		})
	}
}
