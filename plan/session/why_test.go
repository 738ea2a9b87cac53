package session

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

func TestWhy(t *testing.T) {
	t.Parallel()
	at := func(min int) time.Time { return time.Date(2026, 10, 17, 19, min, 0, 0, time.UTC) }
	p := &plan.Plan{
		Table:   at(0),
		Kitchen: plan.Kitchen{Cooks: []plan.Cook{{Name: "Ines"}, {Name: "Tomas"}}, Ovens: []plan.Oven{{Name: "top oven"}, {Name: "oven"}}},
		Courses: []plan.Course{{Name: "Main"}},
		Steps:   []plan.Step{{Do: "Flatbreads"}, {Do: "Carve"}, {Do: "Dress"}},
	}
	tests := []struct {
		name   string
		change func(t *plan.Timetable)
		want   []string
	}{
		{"nothing", func(*plan.Timetable) {}, nil},
		{"seconds", func(t *plan.Timetable) { t.Slots[0].Start = at(0).Add(20 * time.Second) }, nil},
		{"late", func(t *plan.Timetable) { t.Serves[0] = at(57) }, []string{"Main 12 min later: 19:57"}},
		{"early", func(t *plan.Timetable) { t.Serves[0] = at(40) }, []string{"Main 5 min earlier: 19:40"}},
		{"one-step", func(t *plan.Timetable) { t.Slots[0].Start = at(12) }, []string{"Flatbreads: starts 19:12 instead of 19:00"}},
		{"two-steps", func(t *plan.Timetable) { t.Slots[0].Start, t.Slots[1].Start = at(2), at(13) },
			[]string{"Carve: starts 19:13 instead of 19:10", "+1 more step moves"}},
		{"all", func(t *plan.Timetable) {
			t.Serves[0] = at(50)
			t.Slots[0].Start, t.Slots[1].Start, t.Slots[2].Start = at(5), at(11), at(21)
		}, []string{"Main 5 min later: 19:50", "Flatbreads: starts 19:05 instead of 19:00", "+2 more steps move"}},
		{"another-day", func(t *plan.Timetable) { t.Slots[0].Start = at(0).AddDate(0, 0, -1) }, []string{"Flatbreads: starts Fri 19:00 instead of 19:00"}},
		{"what-has-begun-does-not-move", func(t *plan.Timetable) { t.Slots[0].Start, t.Slots[0].Progress = at(5), plan.Begun }, nil},
		{"other-cook", func(t *plan.Timetable) { t.Slots[1].Cook = 1 }, []string{"Carve: now Tomas does it"}},
		{"other-oven", func(t *plan.Timetable) { t.Slots[0].Oven = 0 }, []string{"Flatbreads: now in the top oven"}},
		{"other-burner", func(t *plan.Timetable) { t.Slots[2].Burner = plan.Small }, []string{"Dress: now on a small burner"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			slots := func() []plan.Slot {
				return []plan.Slot{
					{Start: at(0), End: at(10), Cook: -1, Oven: 1},
					{Start: at(10), End: at(20), Cook: 0, Oven: -1},
					{Start: at(20), End: at(30), Cook: -1, Oven: -1, Burner: plan.Large},
				}
			}
			st := &run.State{Plan: p, Courses: make([]run.CourseState, 1), Timetable: &plan.Timetable{Serves: []time.Time{at(45)}, Slots: slots()}}
			next := &plan.Timetable{Serves: []time.Time{at(45)}, Slots: slots()}
			tt.change(next)
			if d := cmp.Diff(tt.want, why(st, next, at(0))); d != "" {
				t.Errorf("-want +got:\n%s", d)
			}
		})
	}
}

func TestHarm(t *testing.T) {
	t.Parallel()
	of := func(k plan.BreakKind, min int) []plan.Break {
		return []plan.Break{{Kind: k, Step: 0, Course: -1, Minutes: min}}
	}
	tests := []struct {
		name  string
		a, b  []plan.Break
		ab    int // of a against b
		other int // of b against a
	}{
		{"mended", nil, of(plan.BreakKeep, 2), less, more},
		{"a-minute-less", of(plan.BreakKeep, 2), of(plan.BreakKeep, 3), same, more},
		{"much-less", of(plan.BreakKeep, 2), of(plan.BreakKeep, 5), less, more},
		{"guests-wait-before-food-spoils", of(plan.BreakLate, 90), of(plan.BreakKeep, 2), less, more},
		{"crowded-before-raw", of(plan.BreakTool, 90), of(plan.BreakOven, 2), less, more},
		{"late-before-crowded", of(plan.BreakLate, 90), of(plan.BreakHands, 2), less, more},
		{"measureless-counts", nil, of(plan.BreakOrder, 0), less, more},
		{"later-is-a-gain-less", of(plan.BreakLate, 5), of(plan.BreakLate, 30), same, more},
		{"in-time-again", nil, of(plan.BreakLate, 2), less, more},
		{"likings-are-no-rule", of(plan.BreakLiking, 50), nil, same, same},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			if got := harm(tt.a).against(harm(tt.b)); got != tt.ab {
				t.Errorf("%v against %v is %d, want %d", tt.a, tt.b, got, tt.ab)
			}
			if got := harm(tt.b).against(harm(tt.a)); got != tt.other {
				t.Errorf("%v against %v is %d, want %d", tt.b, tt.a, got, tt.other)
			}
		})
	}
}

func TestFresh(t *testing.T) {
	t.Parallel()
	b := func(k plan.BreakKind, step, min int) plan.Break {
		return plan.Break{Kind: k, Step: step, Course: -1, Minutes: min}
	}
	known := []plan.Break{b(plan.BreakKeep, 1, 5)}
	tests := []struct {
		name string
		b    plan.Break
		want int
	}{
		{"known", b(plan.BreakKeep, 1, 5), 0},
		{"a-minute-more", b(plan.BreakKeep, 1, 6), 0},
		{"grown", b(plan.BreakKeep, 1, 7), 1},
		{"other-step", b(plan.BreakKeep, 2, 5), 1},
		{"other-rule", b(plan.BreakOven, 1, 5), 1},
		{"liking", b(plan.BreakLiking, 2, 50), 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			if got := fresh([]plan.Break{tt.b}, known); len(got) != tt.want {
				t.Errorf("%d fresh, want %d", len(got), tt.want)
			}
		})
	}
}
