package main

import (
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

// The check lets the schedule worked out by hand pass, and bites on each rule.
func TestCheck(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name, file string
		start      []int
		makespan   int
		want       string
	}{
		{"work", "work1.sm", []int{0, 0, 3, 3, 5, 6}, 6, ""},
		{"lags", "LAGS1.SCH", []int{0, 0, 4, 7}, 7, ""},
		{"overlap", "LAGS10.SCH", []int{0, 0, 2, 7}, 7, ""},
		{"capacity", "work1.sm", []int{0, 0, 2, 3, 4, 6}, 6, "3 of resource 1 in use at 2, there are 2"},
		{"too-soon", "work1.sm", []int{0, 0, 3, 3, 4, 6}, 6, "job 2 starts at 3 and job 4 at 4, want a lag of 2 at least"},
		{"too-late", "LAGS1.SCH", []int{0, 0, 6, 9}, 9, "job 2 starts at 6 and job 1 at 0, want a lag of -5 at least"},
		{"too-much", "LAGS3.SCH", []int{0, 0, 2}, 2, "3 of resource 2 in use at 0, there are 2"},
		{"before", "LAGS1.SCH", []int{0, -1, 4, 7}, 7, "job 1 starts at -1, before 0"},
		{"source", "LAGS1.SCH", []int{1, 1, 5, 8}, 8, "the source starts at 1, want 0"},
		{"makespan", "LAGS1.SCH", []int{0, 0, 4, 7}, 6, "the sink starts at 7, the makespan is said to be 6"},
		{"missing", "LAGS1.SCH", []int{0, 0, 4}, 7, "3 starts for 4 jobs"},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			p, err := readProject("testdata/projects/" + c.file)
			if err != nil {
				t.Fatal(err)
			}
			got := ""
			if err := check(p, c.start, c.makespan); err != nil {
				got = err.Error()
			}
			if got != c.want {
				t.Errorf("got  %q\nwant %q", got, c.want)
			}
		})
	}
}

// Schedules found on the way are checked as well as the last.
func TestCheckOnTheWay(t *testing.T) {
	t.Parallel()
	p, err := readProject("testdata/projects/LAGS1.SCH")
	if err != nil {
		t.Fatal(err)
	}
	good, bad := found{start: []int{0, 0, 5, 8}, makespan: 8}, found{start: []int{0, 0, 3, 8}, makespan: 8}
	last := []int{0, 0, 4, 7}
	for _, c := range []struct {
		name string
		a    answer
		ok   bool
	}{
		{"good", answer{start: last, makespan: 7, found: []found{good}}, true},
		{"bad-on-the-way", answer{start: last, makespan: 7, found: []found{bad, good}}, false},
		{"bad-at-last", answer{start: bad.start, makespan: 8, found: []found{good}}, false},
		{"none", answer{}, true},
	} {
		if err := checkAnswer(p, &c.a); (err == nil) != c.ok {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

// What cannot be true together is said; what may be better is not.
func TestContradictions(t *testing.T) {
	t.Parallel()
	proven, open, none := known{best: 10, proven: true, lower: 10}, known{best: 10, lower: 7}, known{infeasible: true, proven: true}
	for _, c := range []struct {
		name string
		a    answer
		k    known
		want string
	}{
		{"as-known", answer{status: optimal, makespan: 10, bound: 10}, proven, ""},
		{"not-there-yet", answer{status: feasible, makespan: 12, bound: 9}, proven, ""},
		{"nothing-yet", answer{status: unknown, bound: 9}, proven, ""},
		{"beaten", answer{status: optimal, makespan: 8, bound: 8}, open, ""},
		{"as-infeasible", answer{status: infeasible}, none, ""},
		{"unknown-instance", answer{status: optimal, makespan: 3, bound: 3}, known{}, ""},
		{"below-proven", answer{status: feasible, makespan: 9, bound: 9}, proven, "a schedule of 9, the lower bound is 10"},
		{"below-lower", answer{status: feasible, makespan: 6, bound: 2}, open, "a schedule of 6, the lower bound is 7"},
		{"false-optimum", answer{status: optimal, makespan: 11, bound: 11}, open, "a bound of 11, a schedule of 10 is known; 11 called optimal, a schedule of 10 is known"},
		{"false-bound", answer{status: unknown, bound: 11}, proven, "a bound of 11, a schedule of 10 is known"},
		{"not-infeasible", answer{status: infeasible}, open, "called infeasible, a schedule of 10 is known"},
		{"not-feasible", answer{status: feasible, makespan: 4}, none, "a schedule of 4, none is known to exist"},
		{"itself", answer{status: feasible, makespan: 12, bound: 13}, known{}, "a makespan of 12 below its own bound 13"},
		{"not-closed", answer{status: optimal, makespan: 12, bound: 11}, known{}, "called optimal at 12 with a bound of 11"},
		{"changed-mind", answer{status: infeasible, found: []found{{makespan: 5}}}, known{}, "called infeasible after a schedule of 5"},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			if got := strings.Join(contradictions(&c.a, c.k), "; "); got != c.want {
				t.Errorf("got  %q\nwant %q", got, c.want)
			}
		})
	}
}

// Three answers by hand. Best 100 each; the first is found at 4 ms as 120, at
// 60 ms as 110 and proved as 100 after 400 ms; the second at 30 ms as 108; the
// third never. So: first (20 + 8)/2, at 10 ms 20 of one, at 100 ms (10 + 8)/2, at
// 1 s and at the end (0 + 8)/2.
func TestSummary(t *testing.T) {
	t.Parallel()
	at := func(m, makespan int) found {
		return found{after: time.Duration(m) * time.Millisecond, makespan: makespan}
	}
	k := known{best: 100}
	var s summary
	s.add(&answer{status: optimal, makespan: 100, total: 400 * time.Millisecond, found: []found{at(4, 120), at(60, 110), at(390, 100)}}, k, false)
	s.add(&answer{status: feasible, makespan: 108, total: 5 * time.Second, found: []found{at(30, 108)}}, k, true)
	s.add(&answer{status: unknown, total: 5 * time.Second}, k, false)
	s.add(&answer{status: infeasible, total: 2 * time.Millisecond}, known{infeasible: true, proven: true}, false)
	var b strings.Builder
	if err := s.print(&b, "set", true); err != nil {
		t.Fatal(err)
	}
	want := `set: proved 2 of 4; proof ms median 2.00, p95 400.00, max 400.00
  mean gap to the best known, % (answers, of 3 with a best makespan):  first 14.00 (2)  10ms 20.00 (1)  100ms 9.00 (2)  1s 4.00 (2)  end 4.00 (2)
  contradictions 1; better than an unproven best 0
`
	if d := cmp.Diff(want, b.String()); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
}

// The nearest rank: the least number that so many per cent do not exceed.
func TestPercentile(t *testing.T) {
	t.Parallel()
	x := []float64{5, 1, 4, 2, 3}
	for percent, want := range map[int]float64{1: 1, 20: 1, 21: 2, 50: 3, 95: 5, 100: 5} {
		if got := percentile(x, percent); got != want {
			t.Errorf("percentile %d is %v, want %v", percent, got, want)
		}
	}
	if got := percentile(nil, 50); got != 0 {
		t.Errorf("percentile of nothing is %v", got)
	}
}
