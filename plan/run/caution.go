package run

import (
	"fmt"

	"example.org/kettledrum/plan"
)

const cueCaution = "caution:"

// cautions are what a cook should know of safety about the steps that are due
// within SoonAhead or going, for as long as nobody has said to have seen it. What
// the plan accepts is not among it.
func (pr *projected) cautions() []Cue {
	var out []Cue
	nth := map[string]int{}
	for _, c := range pr.s.Timetable.Cautions {
		if c.Step < 0 || c.Step >= len(pr.s.Steps) || c.Accepted != "" {
			continue
		}
		cue := pr.stepCue(Note, cueCaution+c.Code+":", c.Step)
		if nth[cue.ID]++; nth[cue.ID] > 1 { // a step with two allergens
			cue.ID = fmt.Sprintf("%s:%d", cue.ID, nth[cue.ID])
		}
		_, seen := pr.s.Acked[cue.ID]
		if seen || !pr.near(c.Step) {
			continue
		}
		cue.Due, cue.Label = pr.at(pr.start(c.Step)).Add(-SoonAhead), "seen"
		cue.Text = pr.name(c.Step) + " · " + c.Text
		if c.Do != "" {
			cue.Text += " · " + c.Do
		}
		cue.Answer = []Event{{Kind: Acknowledged, Cue: cue.ID}}
		out = append(out, cue)
	}
	sortCues(out)
	return out
}

// near reports whether a step is about to begin or going.
func (pr *projected) near(i int) bool {
	switch pr.s.Steps[i].Status {
	case plan.Begun:
		return true
	case plan.Ahead:
		return pr.at(pr.start(i)).Sub(pr.now) <= SoonAhead && !(pr.status[pr.end(i)] == assumed)
	}
	return false
}
