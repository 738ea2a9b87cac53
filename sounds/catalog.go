package sounds

import (
	"time"

	"example.org/kettledrum/plan/run"
)

// Signal says how a class of cue is heard.
type Signal struct {
	Rings bool
	// Every is how long an unanswered cue waits before it rings again; zero is
	// once only.
	Every time.Duration
}

// catalog has one row a class. The more harm a missed cue does, the sooner it
// comes again; what can be missed without harm stays quiet, for a bell that
// rings often is no longer heard. Intervals: our own judgement.
var catalog = [...]Signal{
	run.Danger:  {Rings: true, Every: 30 * time.Second},
	run.LateCue: {Rings: true, Every: 2 * time.Minute},
	run.Look:    {Rings: true, Every: time.Minute},
	run.Act:     {Rings: true, Every: 2 * time.Minute},
	run.Soon:    {},
	run.Note:    {},
}

// Of returns how cues of class c are heard. A class that the catalog does not
// know is silent.
func Of(c run.Class) Signal {
	if c < 0 || int(c) >= len(catalog) {
		return Signal{}
	}
	return catalog[c]
}
