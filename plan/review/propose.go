package review

import (
	"math"
	"slices"
	"time"

	"example.org/kettledrum/plan"
)

// PlanCounts is how many evenings the plan's own word counts for: one evening moves a
// length by a quarter of what it was off, three by half. Common practice: no kitchen was
// measured for it.
const PlanCounts = 3

// once is how far one evening may be from the plan, or from the middle of three
// evenings and more, and still count in full: twice as long, half as long. Who
// forgets to tell that a step is done makes an hour of ten minutes. Common practice.
const once = 2.0

// Propose returns the length that a plan should state for a step after it took so long
// on some evenings, in any order; the prior is what the plan says. Without evenings,
// and of an elastic length, it is the prior.
//
//	r[i] = ln(took[i] / likely), within ln 2 of 0, from three evenings on of their median
//	z    = n / (n + k), k = PlanCounts
//	s    = exp(z · mean r)
//	likely' = s · likely
//	longest' = s · longest · max(1, x/(s · longest))^z, x the longest of likely·exp(r[i])
//	shortest' likewise, with the shortest and min
//
// So the range keeps its proportions, and is stretched, by the same weight, towards an
// evening that fell outside of it; it is never narrowed, and where the likely point stays
// it is only stretched. A length without a range gets one from the second evening on: one
// alone tells of no spread. Each point is rounded as grain says, and stays as it is where
// that is all the difference. Unit: whole minutes.
//
// Source of z: Bühlmann, Experience Rating and Credibility, ASTIN Bulletin 4(3), 1967,
// 199–207: the best linear estimate from n observations and a prior; it is the mean of
// the posterior where both are normal. Ratios, since a step that runs long does so in
// proportion: common practice.
func Propose(prior plan.Length, took []time.Duration) plan.Length {
	n := len(took)
	if n == 0 || prior.Elastic || prior.Likely <= 0 {
		return prior
	}
	r := make([]float64, n)
	for i, t := range took {
		r[i] = math.Log(float64(t) / float64(prior.Likely))
	}
	slices.Sort(r)
	middle := 0.0
	if n >= 3 {
		middle = median(r)
	}
	mean := 0.0
	for i := range r {
		r[i] = min(max(r[i], middle-math.Log(once)), middle+math.Log(once))
		mean += r[i] / float64(n)
	}
	z := float64(n) / float64(n+PlanCounts)
	s := math.Exp(z * mean)
	least, most := float64(prior.Likely)*math.Exp(r[0]), float64(prior.Likely)*math.Exp(r[n-1])
	likely := rounded(s*float64(prior.Likely), prior.Likely)
	if likely == prior.Likely {
		s = 1
	}
	lo, hi := s*float64(prior.Shortest), s*float64(prior.Longest)
	if lo > least {
		lo *= math.Pow(least/lo, z)
	}
	if hi < most {
		hi *= math.Pow(most/hi, z)
	}
	out := plan.Length{
		Shortest: rounded(lo, prior.Shortest),
		Likely:   likely,
		Longest:  rounded(hi, prior.Longest),
	}
	out.Shortest, out.Longest = min(out.Shortest, out.Likely), max(out.Longest, out.Likely)
	if n == 1 && prior.Shortest == prior.Longest {
		out.Shortest, out.Longest = out.Likely, out.Likely
	}
	return out
}

// median returns the middle of some values, by size; of two middles what lies between.
func median[T float64 | time.Duration](sorted []T) T {
	n := len(sorted)
	return (sorted[(n-1)/2] + sorted[n/2]) / 2
}

// Median returns the middle of some lengths, at least one, in any order.
func Median(took []time.Duration) time.Duration {
	return median(slices.Sorted(slices.Values(took)))
}

// rounded returns a length in nanoseconds to the grain of its size, at least a minute;
// was, where it differs from that by less than half a grain.
func rounded(d float64, was time.Duration) time.Duration {
	g := grain(time.Duration(d))
	if math.Abs(d-float64(was)) < float64(g)/2 {
		return was
	}
	return max(time.Minute, time.Duration(d).Round(g))
}

// grain is to how much a length is stated: minutes up to an hour, five minutes up to
// four, quarters of an hour beyond. Common practice.
func grain(d time.Duration) time.Duration {
	switch {
	case d < time.Hour:
		return time.Minute
	case d < 4*time.Hour:
		return 5 * time.Minute
	}
	return 15 * time.Minute
}
