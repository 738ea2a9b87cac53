package session

import (
	"time"

	"example.org/kettledrum/plan"
)

// harms are the minutes broken in each class, the worst class first.
type harms [3]int

// waiting is the class of guests who wait. Less of it that is not none is a gain
// like others: cost counts it.
const waiting = 2

// classOf says how bad a kind of break is: 0, food that is spoilt, raw or unsafe;
// 1, work that cannot be done as written; 2, guests who wait.
func classOf(k plan.BreakKind) int {
	switch k {
	case plan.BreakKeep, plan.BreakLength, plan.BreakOven:
		return 0
	case plan.BreakLate, plan.BreakEarly:
		return waiting
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

// How much harm there is, compared.
const (
	less = -1
	same = 0
	more = 1
)

// against compares with what would be otherwise, the worst class first: more harm
// is any minute of it, less is a class that is mended wholly, or by WorthMoving.
// So no two timetables can each be said to mend what the other breaks for less
// than that.
func (h harms) against(o harms) int {
	for i := range h {
		switch by := time.Duration(o[i]-h[i]) * time.Minute; {
		case by < 0:
			return more
		case by > 0 && h[i] == 0, by >= WorthMoving && i != waiting:
			return less
		}
	}
	return same
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
