package session

import (
	"time"

	"example.org/kettledrum/plan"
)

// harms are the minutes broken in each class, the worst class first.
type harms [plan.Harms]int

// harm sums the minutes of the breaks of rules; one that measures nothing counts
// as a minute.
func harm(breaks []plan.Break) (h harms) {
	for _, b := range breaks {
		if b.Kind.Hard() {
			h[b.Kind.Harm()] += max(1, b.Minutes)
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
// than that. Less waiting of guests that is not none is a gain like others: cost
// counts it.
func (h harms) against(o harms) int {
	for i := range h {
		switch by := time.Duration(o[i]-h[i]) * time.Minute; {
		case by < 0:
			return more
		case by > 0 && h[i] == 0, by >= WorthMoving && plan.Harm(i) != plan.HarmGuests:
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
