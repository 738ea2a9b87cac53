package kept

import (
	"time"

	"example.org/kettledrum/plan"
)

// What still counts as hot off the heat; common practice.
const (
	// hotRest is the longest least rest after which a roast is still hot.
	hotRest = 30 * time.Minute
	// hotPlating is the longest last step of a dish that hands it on hot.
	hotPlating = 15 * time.Minute
	// coldKeep is how long a keep is written of food that is not meant to be
	// eaten hot.
	coldKeep = 2 * time.Hour
)

// Hot tells of each step whether what it made is hot and would suffer from standing:
// it comes off the heat, or has only rested or been plated since. What keeps for
// hours, or in a place of its own, is not.
func Hot(p *plan.Plan) []bool {
	h := heat{p: p, last: make([]bool, len(p.Steps))}
	for i, next := range p.Followers() {
		h.last[i] = len(next) == 0
	}
	out := make([]bool, len(p.Steps))
	for i := range out {
		out[i] = h.hot(i)
	}
	return out
}

type heat struct {
	p    *plan.Plan
	last []bool // nothing follows it
}

func (h *heat) hot(i int) bool {
	s := &h.p.Steps[i]
	k := &s.Keeps
	switch {
	case k.Place != "", !k.Assumed && (k.Kind == plan.Freely || k.For > coldKeep):
		return false
	case s.Oven != nil || s.Burner != nil:
		return true
	case s.Length.Elastic:
		if !s.AtOnce || s.Cold != "" || s.Length.Shortest > hotRest {
			return false
		}
	case !h.last[i] || s.Length.Planned() > hotPlating:
		return false
	}
	for _, l := range s.After {
		if h.hot(l.Step) {
			return true
		}
	}
	return false
}
