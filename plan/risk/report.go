package risk

import (
	"cmp"
	"math"
	"slices"
	"time"
)

// Chance is an estimated probability with its standard error.
type Chance struct{ P, SE float64 }

// chance is that of something that was so in hits of n runs: √(p(1−p)/n).
func chance(hits, n int) Chance {
	if n == 0 {
		return Chance{}
	}
	p := float64(hits) / float64(n)
	return Chance{p, math.Sqrt(p * (1 - p) / float64(n))}
}

// Report is what a simulation tells.
type Report struct {
	Dinner *Dinner
	Seed   uint64
	Asked  int // how many runs were asked for
	Runs   int // how many there are
	// OnTime: every course is; Within: every course is within its tolerance.
	OnTime, Within Chance
	Courses        []Course
	Steps          []Step  // critical ones, the most critical first
	Starts         []Start // one for each of StartLevels
}

// Course is how one course may come.
type Course struct {
	OnTime, Within Chance
	// At is when it is on the table in as many runs as each of TimeLevels says.
	At [len(TimeLevels)]At
	// Bins are the runs by how late it came, from the first on, all Width wide. What
	// is further out counts in the last.
	Bins []Bin
}

// TimeLevels are the shares of runs by which a course is told to be on the table;
// StartLevels the chances for which a start is sought.
var (
	TimeLevels  = [...]float64{0.50, 0.80, 0.95}
	StartLevels = [...]float64{0.80, 0.90, 0.95}
)

// At is a quantile of when a course comes, with its standard error.
type At struct{ Time, SE time.Duration } // after it was asked for

// Bin is how many runs lie in a stretch of lateness.
type Bin struct {
	From, Width time.Duration // after it was asked for
	Runs        int
}

// Step is one step's part in what is late.
type Step struct {
	Step int
	// Critical is the chance that it lies on a path that makes some course late.
	Critical Chance
	// Minute is by how much the chance that every course is on time grows with a
	// minute of slack after the step: by simulating the runs with the step slackTried
	// shorter and what follows as planned. 0 of a wait, which gives way by itself.
	Minute Chance
}

// Start is the start of the cook-day that is early enough.
type Start struct {
	Level   float64
	Earlier time.Duration // than the timetable's
	OK      bool          // there is one
	SE      time.Duration
}

// Report sums up the runs, of which all was asked: Thin and Starts.
func (r *Runs) Report() *Report {
	out := &Report{Dinner: r.Dinner, Seed: r.Seed, Asked: r.Asked, Runs: r.N}
	if r.N == 0 {
		return out
	}
	within := 0
	for n := range r.N {
		if !slices.ContainsFunc(r.courses(), func(c int) bool { return r.misses(c, n) }) {
			within++
		}
	}
	onTime := 0
	for _, ok := range r.AllOnTime() {
		if ok {
			onTime++
		}
	}
	out.OnTime, out.Within = chance(onTime, r.N), chance(within, r.N)
	for _, c := range r.courses() {
		out.Courses = append(out.Courses, r.course(c))
	}
	for i, n := range r.Critical {
		if n > 0 {
			saved := chance(r.Saved[i], r.N)
			minute := slackTried.Minutes()
			out.Steps = append(out.Steps, Step{i, chance(n, r.N), Chance{saved.P / minute, saved.SE / minute}})
		}
	}
	slices.SortStableFunc(out.Steps, func(a, b Step) int { return cmp.Compare(b.Critical.P, a.Critical.P) })
	need := slices.Clone(r.Earlier)
	slices.Sort(need)
	for _, level := range StartLevels {
		at, se := quantile(need, level)
		s := Start{Level: level, OK: at < notEarlier}
		if s.OK {
			s.Earlier, s.SE = time.Duration(at)*time.Minute, time.Duration(se*float64(time.Minute))
		}
		out.Starts = append(out.Starts, s)
	}
	return out
}

func (r *Runs) courses() []int {
	out := make([]int, len(r.Late))
	for c := range out {
		out[c] = c
	}
	return out
}

// misses reports whether a course misses its tolerance in a run.
func (r *Runs) misses(c, n int) bool {
	return time.Duration(r.Late[c][n])*time.Second > r.Dinner.Plan.Courses[c].LateOK
}

func (r *Runs) course(c int) Course {
	late := slices.Clone(r.Late[c])
	slices.Sort(late)
	onTime, within := 0, 0
	for n, by := range late {
		if time.Duration(by)*time.Second < LateFrom {
			onTime = n + 1
		}
		if time.Duration(by)*time.Second <= r.Dinner.Plan.Courses[c].LateOK {
			within = n + 1
		}
	}
	out := Course{OnTime: chance(onTime, r.N), Within: chance(within, r.N), Bins: bins(late)}
	for k, level := range TimeLevels {
		at, se := quantile(late, level)
		out.At[k] = At{time.Duration(at) * time.Second, time.Duration(se * float64(time.Second))}
	}
	return out
}

// quantile returns the smallest value that at least a share of all do not exceed, and
// its standard error: half of what lies between the values √(np(1−p)) places before
// and after it. That is free of any assumption about the distribution.
// Source: David and Nagaraja, Order Statistics, 2003, section 7.1 (from memory).
//
// Shape: sorted, not empty. 0 < p < 1.
func quantile[T int16 | int32](sorted []T, p float64) (at T, se float64) {
	n := float64(len(sorted))
	place := func(k float64) T { return sorted[min(max(int(math.Ceil(k))-1, 0), len(sorted)-1)] }
	off := math.Sqrt(n * p * (1 - p))
	return place(n * p), float64(place(n*p+off)-place(n*p-off)) / 2
}

// widths are those that a histogram's bins may have; mostBins how many there are.
var widths = []time.Duration{1 * time.Minute, 2 * time.Minute, 5 * time.Minute, 10 * time.Minute, 15 * time.Minute, 30 * time.Minute, time.Hour}

const mostBins = 12

// bins sorts how late a course came into stretches: as narrow as the 99th percentile
// allows.
func bins(sorted []int32) []Bin {
	first := time.Duration(sorted[0]) * time.Second
	far, _ := quantile(sorted, 0.99)
	last := time.Duration(far) * time.Second
	width := widths[len(widths)-1]
	for _, w := range widths {
		if last.Truncate(w)-floor(first, w) < mostBins*w {
			width = w
			break
		}
	}
	out := []Bin{}
	from := floor(first, width)
	for _, by := range sorted {
		at := time.Duration(by) * time.Second
		for len(out) == 0 || at >= from+width && len(out) < mostBins {
			if len(out) > 0 {
				from += width
			}
			out = append(out, Bin{From: from, Width: width})
		}
		out[len(out)-1].Runs++
	}
	return out
}

// floor rounds down to a multiple of w, below 0 too.
func floor(d, w time.Duration) time.Duration {
	if t := d.Truncate(w); t <= d {
		return t
	}
	return d.Truncate(w) - w
}
