package session

import (
	"cmp"
	"time"

	"example.org/kettledrum/plan"
)

// harms are the minutes broken in each class, the worst class first.
type harms [3]int

// classOf says how bad a kind of break is: 0, food that is spoilt, raw or unsafe;
// 1, work that cannot be done as written; 2, guests who wait.
func classOf(k plan.BreakKind) int {
	switch k {
	case plan.BreakKeep, plan.BreakLength, plan.BreakOven:
		return 0
	case plan.BreakLate, plan.BreakEarly:
		return 2
	}
	return 1
}

// harm sums the minutes of the breaks of rules; one that measures nothing counts
// as a minute.
func harm(breaks []plan.Break) (h harms) {
	for _, b := range breaks {
		if b.Kind.Hard() {
			h[classOf(b.Kind)] += max(1, b.Minutes)
		}
	}
	return h
}

// compare orders by the worst class first: -1 for less harm than o.
func (h harms) compare(o harms) int {
	for i := range h {
		if c := cmp.Compare(h[i], o[i]); c != 0 {
			return c
		}
	}
	return 0
}

// fresh returns the breaks of rules that are not among the known ones, or that
// have grown.
func fresh(breaks, known []plan.Break) (out []plan.Break) {
	type rule struct {
		kind         plan.BreakKind
		step, course int
	}
	had := map[rule]int{}
	for _, b := range known {
		had[rule{b.Kind, b.Step, b.Course}] += b.Minutes
	}
	has := map[rule]int{}
	for _, b := range breaks {
		r := rule{b.Kind, b.Step, b.Course}
		has[r] += b.Minutes
		if b.Kind.Hard() && has[r] > had[r]+plan.Minutes(Tolerance) {
			out = append(out, b)
		}
	}
	return out
}

// minutes returns d in whole minutes, rounded to the nearest: for a reader.
func minutes(d time.Duration) int { return int(d.Round(time.Minute) / time.Minute) }
