package risk_test

import (
	"context"
	"math"
	"runtime"
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"example.org/kettledrum/plan/risk"
)

// counted leaves out what a report was made of.
var counted = cmpopts.IgnoreFields(risk.Report{}, "Dinner")

// The same seed gives the same report on any number of cores.
func TestSameOnAnyNumberOfCores(t *testing.T) { // not parallel: it changes the number
	p, table := example(t, "harvest")
	was := runtime.GOMAXPROCS(0)
	defer runtime.GOMAXPROCS(was)
	var first *risk.Report
	for _, cores := range []int{1, 2, 5} {
		runtime.GOMAXPROCS(cores)
		r := risk.New(p, table).Simulate(t.Context(), risk.Options{Runs: 1100, Seed: 1, Thin: true, Starts: true}).Report()
		if first == nil {
			first = r
		}
		if d := cmp.Diff(first, r, counted); d != "" {
			t.Errorf("%d cores (-1 +%d):\n%s", cores, cores, d)
		}
	}
	other := risk.New(p, table).Simulate(t.Context(), risk.Options{Runs: 1100, Seed: 2, Thin: true, Starts: true}).Report()
	if cmp.Equal(first.Courses, other.Courses) {
		t.Error("another seed gives the same report")
	}
}

// Stopped, a simulation has the first runs, and tells of them what it would have told
// had so many been asked for.
func TestStopped(t *testing.T) {
	t.Parallel()
	p, table := example(t, "weeknight")
	d := risk.New(p, table)
	ctx, cancel := context.WithCancel(t.Context())
	stopped := d.Simulate(ctx, risk.Options{Runs: 100_000, Seed: 1, Thin: true, Starts: true, Done: func(n int) {
		if n >= 1000 {
			cancel()
		}
	}})
	if stopped.N < 250 || stopped.N >= 100_000 {
		t.Fatalf("%d runs", stopped.N)
	}
	got, want := stopped.Report(), d.Simulate(t.Context(), risk.Options{Runs: stopped.N, Seed: 1, Thin: true, Starts: true}).Report()
	if got.Asked != 100_000 {
		t.Errorf("asked for %d", got.Asked)
	}
	want.Asked = got.Asked
	if d := cmp.Diff(want, got, counted); d != "" {
		t.Errorf("(-asked for +stopped):\n%s", d)
	}
	cancel()
	if none := d.Simulate(ctx, risk.Options{Runs: 1000, Seed: 1, Thin: true, Starts: true}).Report(); none.Runs != 0 {
		t.Errorf("stopped before it began: %d runs", none.Runs)
	}
}

// What a report counts adds up.
func TestReportAddsUp(t *testing.T) {
	t.Parallel()
	p, table := example(t, "harvest")
	const n = 2000
	runs := risk.New(p, table).Simulate(t.Context(), risk.Options{Runs: n, Seed: 1, Thin: true, Starts: true})
	r := runs.Report()
	late := 1 - r.OnTime.P
	for c, x := range r.Courses {
		sum := 0
		for _, b := range x.Bins {
			sum += b.Runs
		}
		if sum != n {
			t.Errorf("%s: %d runs in the histogram, want %d", p.Courses[c].Name, sum, n)
		}
		if x.OnTime.P < r.OnTime.P || x.Within.P < r.Within.P || x.Within.P < x.OnTime.P {
			t.Errorf("%s: on time %v, within %v; all of them %v, %v", p.Courses[c].Name, x.OnTime.P, x.Within.P, r.OnTime.P, r.Within.P)
		}
		if !(x.At[0].Time <= x.At[1].Time && x.At[1].Time <= x.At[2].Time) {
			t.Errorf("%s: %v", p.Courses[c].Name, x.At)
		}
		by := 0
		for _, l := range runs.Late[c] {
			if time.Duration(l)*time.Second <= x.At[1].Time {
				by++
			}
		}
		if share := float64(by) / n; share < 0.80 {
			t.Errorf("%s: %.3f by the time of 80 %%", p.Courses[c].Name, share)
		}
	}
	for _, s := range r.Steps {
		if s.Critical.P > late+1e-9 || s.Minute.P*5 > s.Critical.P+1e-9 || s.Minute.P < 0 {
			t.Errorf("%s: critical in %v, a minute buys %v, late in %v", p.Steps[s.Step].ID, s.Critical.P, s.Minute.P, late)
		}
	}
	for k, s := range r.Starts[1:] {
		if s.OK && s.Earlier < r.Starts[k].Earlier {
			t.Errorf("starts %v", r.Starts)
		}
	}
}

// An evening is cooked without an allocation.
func TestNoAllocations(t *testing.T) {
	p, table := example(t, "weeknight")
	d := risk.New(p, table)
	e, source, took := d.Dispatcher.Evening(), d.Sampler.Source(), make([]int64, len(p.Steps))
	n := 0
	if got := testing.AllocsPerRun(100, func() { source.Draw(1, n, took); e.Run(took); n++ }); got != 0 {
		t.Errorf("%v allocations an evening", got)
	}
}

// Beginning earlier by what the report says makes so many of the evenings on time.
func TestStartIsEarlyEnough(t *testing.T) {
	t.Parallel()
	p, table := project(t, task{length: points(10, 15, 26)}, task{length: points(20, 30, 60), after: []int{0}})
	p.Courses[0].Serve = 2 * time.Hour // nothing waits for it but the guests
	table.Serves[0] = p.Asked(0)
	for i := range table.Slots { // planned for the likely lengths, to end when asked for
		table.Slots[i].Start = p.Asked(0).Add([]time.Duration{-45 * time.Minute, -30 * time.Minute}[i])
		table.Slots[i].End = table.Slots[i].Start.Add(p.Steps[i].Length.Likely)
	}
	d := risk.New(p, table)
	// The second begins 15 minutes after the first, or when that is done; begun e minutes
	// earlier both are on time below 46 + e.
	source, took, needs := d.Sampler.Source(), make([]int64, 2), []float64{}
	for n := range runs {
		source.Draw(1, n, took)
		sum := max(15*time.Minute, time.Duration(took[0])) + time.Duration(took[1])
		needs = append(needs, max(0, math.Floor(sum.Minutes()-46+1e-9)+1))
	}
	slices.Sort(needs)
	for _, s := range d.Simulate(t.Context(), risk.Options{Runs: runs, Seed: 1, Thin: true, Starts: true}).Report().Starts {
		if want := needs[int(math.Ceil(s.Level*runs))-1]; !s.OK || s.Earlier.Minutes() != want {
			t.Errorf("%v: %v earlier, want %v min", s.Level, s.Earlier, want)
		}
	}
}
