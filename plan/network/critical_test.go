package network_test

import (
	"slices"
	"testing"

	"example.org/kettledrum/plan/network"
)

// activity is one row of a published table: an arc from event to event.
type activity struct {
	from, to                 int
	time, es, ef, ls, lf, sl int64
}

// Outside check, seen in full in its source: the second solution table of
// chapter 8, Project Management, in the solutions to B. W. Taylor, Introduction
// to Management Science (ar.scribd.com/doc/47113515/TaylCh08, page 115): thirteen
// activities between nine events, one of them a dummy of no length (4–5), with
// ES, EF, LS, LF and slack of each. The project takes 38.
var taylor = []activity{
	{1, 2, 8, 0, 8, 1, 9, 1},
	{1, 3, 10, 0, 10, 0, 10, 0},
	{1, 4, 9, 0, 9, 6, 15, 6},
	{2, 5, 6, 8, 14, 9, 15, 1},
	{2, 6, 4, 8, 12, 16, 20, 8},
	{3, 5, 5, 10, 15, 10, 15, 0},
	{4, 5, 0, 9, 9, 15, 15, 6},
	{4, 7, 7, 9, 16, 20, 27, 11},
	{5, 7, 12, 15, 27, 15, 27, 0},
	{5, 8, 15, 15, 30, 16, 31, 1},
	{6, 9, 18, 12, 30, 20, 38, 8},
	{7, 8, 4, 27, 31, 27, 31, 0},
	{8, 9, 7, 31, 38, 31, 38, 0},
}

func TestPublishedTableOfEvents(t *testing.T) {
	t.Parallel()
	n := network.New(10) // events 1 to 9; 0 is unused
	for i, a := range taylor {
		n.AddArc(a.from, a.to, a.time, i)
	}
	early, err := n.Earliest(nil)
	if err != nil {
		t.Fatal(err)
	}
	upper := make([]int64, 10)
	for i := range upper {
		upper[i] = early[9]
	}
	late, err := n.Latest(upper)
	if err != nil {
		t.Fatal(err)
	}
	for i, a := range taylor {
		got := activity{a.from, a.to, a.time, early[a.from], early[a.from] + a.time, late[a.to] - a.time, late[a.to], n.ArcSlack(i, early, late)}
		if got != a {
			t.Errorf("activity %d–%d: got %+v, want %+v", a.from, a.to, got, a)
		}
	}
	if got, want := network.Critical(early, late), []int{1, 3, 5, 7, 8, 9}; !slices.Equal(got, want) {
		t.Errorf("critical events %v, want %v", got, want)
	}
}

// Outside check, from memory: the Reliable Construction Co. of Hillier and
// Lieberman, Introduction to Operations Research, chapter on PERT/CPM. 44
// weeks; critical A-B-C-E-F-J-L-N. (That name, the fourteen activities and all
// durations but that of H were seen again in a question that quotes the book.)
func TestPublishedActivitiesOnNodes(t *testing.T) {
	t.Parallel()
	table := []struct {
		name           string
		after          string
		weeks          int64
		es, slackWeeks int64
	}{
		{"A", "", 2, 0, 0}, {"B", "A", 4, 2, 0}, {"C", "B", 10, 6, 0}, {"D", "C", 6, 16, 4},
		{"E", "C", 4, 16, 0}, {"F", "E", 5, 20, 0}, {"G", "D", 7, 22, 4}, {"H", "EG", 9, 29, 4},
		{"I", "C", 7, 16, 2}, {"J", "FI", 8, 25, 0}, {"K", "J", 4, 33, 1}, {"L", "J", 5, 33, 0},
		{"M", "H", 2, 38, 4}, {"N", "KL", 6, 38, 0},
	}
	n := network.New(len(table) + 1)
	finish := len(table)
	for i, a := range table {
		for _, p := range a.after {
			before := int(p - 'A')
			n.AddArc(before, i, table[before].weeks, 0)
		}
		n.AddArc(i, finish, a.weeks, 0)
	}
	early, err := n.Earliest(nil)
	if err != nil {
		t.Fatal(err)
	}
	if early[finish] != 44 {
		t.Fatalf("the project takes %d weeks, want 44", early[finish])
	}
	upper := slices.Repeat([]int64{network.NoUpper}, n.Points())
	upper[finish] = 44
	late, err := n.Latest(upper)
	if err != nil {
		t.Fatal(err)
	}
	slack := network.Slack(early, late)
	var critical string
	for i, a := range table {
		if early[i] != a.es || slack[i] != a.slackWeeks {
			t.Errorf("%s: earliest %d with slack %d, want %d with %d", a.name, early[i], slack[i], a.es, a.slackWeeks)
		}
	}
	for _, p := range network.Critical(early, late)[:8] {
		critical += table[p].name
	}
	if critical != "ABCEFJLN" {
		t.Errorf("critical %s, want ABCEFJLN", critical)
	}
}

func TestSlackWithoutBounds(t *testing.T) {
	t.Parallel()
	n := network.New(2)
	arc := n.AddArc(0, 1, 3, 0)
	early, _ := n.Earliest(nil)
	late, _ := n.Latest([]int64{network.NoUpper, network.NoUpper})
	if got := n.ArcSlack(arc, early, late); got != network.NoUpper {
		t.Errorf("slack %d without a deadline, want none stated", got)
	}
	if got := network.Critical(early, late); got != nil {
		t.Errorf("critical %v without a deadline, want none", got)
	}
	late, _ = n.Latest([]int64{network.NoUpper, 1})
	if got := network.Slack(early, late); !slices.Equal(got, []int64{-2, -2}) {
		t.Errorf("slack %v, want −2: the deadline is missed by 2", got)
	}
}
