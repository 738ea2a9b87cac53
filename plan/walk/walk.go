package walk

import (
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/kept"
	"example.org/kettledrum/plan/run"
)

// Stop is a cue of the cook-day and what it asks for.
type Stop struct {
	At     time.Time
	Text   string // as the cook-day says it
	Things []Thing
}

// Thing is something to be there.
type Thing struct {
	// Name is what it is; the same Name is the same thing at another stop.
	Name string
	// Need is how many pieces of it must be there by then: those of this stop and
	// those in use meanwhile.
	Need int
	// Shared: it is a tool, a burner, the thermometer, which other stops may ask for too;
	// else it is of this stop alone: a shelf, a place, what is taken out of one.
	Shared bool
	Text   string // what to look for: "big pot", "a 2nd saucepan: 1 is in use"
}

// Of returns the stops of a dinner whose steps go as the timetable has them, one for
// each cue that needs hands, in the order in which they come up. Cues of other kinds
// (standbys, notes) are left out; each is taken when it is due.
func Of(p *plan.Plan, t *plan.Timetable, cues []run.Cue) []Stop {
	w := walker{p: p, t: t, places: kept.Of(p, t), followers: p.Followers()}
	var out []Stop
	for _, c := range cues {
		if c.Class > run.Act || len(c.Answer) == 0 {
			continue
		}
		s := Stop{At: c.Due, Text: c.Text}
		switch e := c.Answer[0]; e.Kind {
		case run.Started:
			s.Things = w.starting(p.StepIndex(e.Step))
		case run.Finished:
			s.Things = w.ending(p.StepIndex(e.Step))
		case run.Served:
			for i := range p.Courses {
				if p.Courses[i].Name == e.Course {
					s.Things = w.serving(i)
				}
			}
		}
		out = append(out, s)
	}
	return out
}
