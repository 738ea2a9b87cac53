package ring

import (
	"strconv"
	"strings"

	"example.org/kettledrum/plan/run"
)

// Open returns the cues of a moment that nobody has answered: those on the screen,
// and those that are assumed to have gone as planned because nobody said so.
func Open(s *run.State, m run.Moment) []Cue {
	var out []Cue
	add := func(c run.Cue) {
		if _, seen := s.Acked[c.ID]; !seen {
			out = append(out, Cue{ID: lasting(c), Class: c.Class})
		}
	}
	for _, c := range m.Cues {
		add(c)
	}
	for _, u := range m.Unconfirmed {
		add(u.Cue)
	}
	return out
}

// lasting is the ID of a cue without the minutes that a cue for what is late has at
// its end. They grow while nobody answers, and it stays one cue; once it was seen,
// the next is a new one.
func lasting(c run.Cue) string {
	if i := strings.LastIndexByte(c.ID, ':'); c.Class == run.LateCue && i > 0 {
		if _, err := strconv.Atoi(c.ID[i+1:]); err == nil {
			return c.ID[:i]
		}
	}
	return c.ID
}
