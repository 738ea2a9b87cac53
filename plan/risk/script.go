package risk

import (
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/mishap"
)

// Script is one run of a sampler for a session to play: of each step that is not as
// planned, how long it truly takes.
func Script(p *plan.Plan, took []int64) []mishap.Mishap {
	var out []mishap.Mishap
	for i := range p.Steps {
		l := p.Steps[i].Length
		if by := time.Duration(took[i]); !l.Elastic && by != l.Planned() {
			m := mishap.None(mishap.Takes)
			m.Step, m.By = i, by
			out = append(out, m)
		}
	}
	return out
}
