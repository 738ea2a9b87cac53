package run_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/plantest"
	"example.org/kettledrum/plan/run"
)

// task is one row of a published table: what it follows, how long it takes, when
// it may start first, how much slack it has.
type task struct {
	name                   string
	after                  string // names of one letter
	takes, earliest, slack int
}

// slacksOf makes a dinner of the tasks, a minute for each unit of their time and
// nothing that they compete for, and returns the slack of each. It checks that no
// task begins before those that it follows have ended.
func slacksOf(t *testing.T, tasks []task, whole int) []int {
	t.Helper()
	b := plantest.New("2026-10-17 19:00")
	b.Course("Main", 0, time.Hour, time.Hour)
	b.Dish("Project", 0)
	minute := func(n int) time.Time { return b.Plan.Table.Add(time.Duration(n-whole) * time.Minute) }
	tt := &plan.Timetable{Serves: []time.Time{b.Plan.Table}}
	for _, x := range tasks {
		var links []plan.Link
		for _, before := range x.after {
			k := strings.IndexRune("ABCDEFGHIJKLMN", before)
			links = append(links, plan.Link{Step: k})
			if end := tasks[k].earliest + tasks[k].takes; end > x.earliest {
				t.Fatalf("the table has %s start at %d, before %s ends at %d", x.name, x.earliest, tasks[k].name, end)
			}
		}
		b.Step(x.name, plantest.Takes(x.takes), plantest.Hands(plan.Free), plantest.After(links...))
		tt.Slots = append(tt.Slots, plan.Slot{Start: minute(x.earliest), End: minute(x.earliest + x.takes), Cook: -1, Oven: -1})
	}
	var out []int
	for _, s := range run.Slacks(&b.Plan, tt) {
		out = append(out, int(s/time.Minute))
	}
	return out
}

func judge(t *testing.T, tasks []task, whole int, critical string) {
	t.Helper()
	got, path := slacksOf(t, tasks, whole), ""
	for i, x := range tasks {
		if got[i] != x.slack {
			t.Errorf("%s: slack %d, want %d", x.name, got[i], x.slack)
		}
		if got[i] == 0 {
			path += x.name
		}
	}
	if path != critical {
		t.Errorf("critical %s, want %s", path, critical)
	}
}

// Outside check, seen in full in its source: the second solution table of
// chapter 8, Project Management, in the solutions to B. W. Taylor, Introduction
// to Management Science (ar.scribd.com/doc/47113515/TaylCh08, page 115): thirteen
// activities between nine events, one of them a dummy of no length (4–5), with
// ES, EF, LS, LF and slack of each. The project takes 38.
func TestPublishedTableOfEvents(t *testing.T) {
	t.Parallel()
	arcs := []struct{ from, to, time, es, slack int }{
		{1, 2, 8, 0, 1}, {1, 3, 10, 0, 0}, {1, 4, 9, 0, 6}, {2, 5, 6, 8, 1}, {2, 6, 4, 8, 8},
		{3, 5, 5, 10, 0}, {4, 5, 0, 9, 6}, {4, 7, 7, 9, 11}, {5, 7, 12, 15, 0}, {5, 8, 15, 15, 1},
		{6, 9, 18, 12, 8}, {7, 8, 4, 27, 0}, {8, 9, 7, 31, 0},
	}
	tasks := make([]task, len(arcs))
	for i, a := range arcs {
		after := ""
		for k, b := range arcs {
			if b.to == a.from {
				after += string(rune('A' + k))
			}
		}
		tasks[i] = task{fmt.Sprintf("%d–%d ", a.from, a.to), after, a.time, a.es, a.slack}
	}
	judge(t, tasks, 38, "1–3 3–5 5–7 7–8 8–9 ")
}

// Outside check, from memory: the Reliable Construction Co. of Hillier and
// Lieberman, Introduction to Operations Research, chapter on PERT/CPM. 44
// weeks; critical A-B-C-E-F-J-L-N. (That name, the fourteen activities and all
// durations but that of H were seen again in a question that quotes the book.)
func TestPublishedActivitiesOnNodes(t *testing.T) {
	t.Parallel()
	judge(t, []task{
		{"A", "", 2, 0, 0}, {"B", "A", 4, 2, 0}, {"C", "B", 10, 6, 0}, {"D", "C", 6, 16, 4},
		{"E", "C", 4, 16, 0}, {"F", "E", 5, 20, 0}, {"G", "D", 7, 22, 4}, {"H", "EG", 9, 29, 4},
		{"I", "C", 7, 16, 2}, {"J", "FI", 8, 25, 0}, {"K", "J", 4, 33, 1}, {"L", "J", 5, 33, 0},
		{"M", "H", 2, 38, 4}, {"N", "KL", 6, 38, 0},
	}, 44, "ABCEFJLN")
}
