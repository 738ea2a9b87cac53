package ring

import "example.org/kettledrum/plan/run"

// Open returns the cues of a moment that nobody has answered: those on the screen,
// and those that are assumed to have gone as planned because nobody said so.
func Open(s *run.State, m run.Moment) []Cue {
	var out []Cue
	add := func(c run.Cue) {
		if _, seen := s.Acked[c.ID]; !seen {
			out = append(out, Cue{ID: c.ID, Class: c.Class})
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
