package main

import (
	"io"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/safety"
)

// writeCautions prints what a cook should know of safety: of each what it is, what
// to do, why and where it is published; then who comes first.
func writeCautions(w io.Writer, p *plan.Plan, cautions []plan.Caution) {
	for _, c := range cautions {
		head := "caution"
		if c.Accepted != "" {
			head = "accepted"
		}
		head += " [" + c.Code + "]"
		if c.Step >= 0 {
			head += " " + p.StepName(c.Step)
		}
		writePara(w, "", head+": "+c.Text)
		if c.Accepted != "" {
			writePara(w, "  ", "accepted: "+c.Accepted)
			continue
		}
		if c.Do != "" {
			writePara(w, "  ", "do: "+c.Do)
		}
		why := "why: " + c.Why
		if c.Why == "" {
			why = "source"
		}
		writePara(w, "  ", why+" ("+c.Source+")")
	}
	if len(cautions) > 0 {
		writePara(w, "", safety.Deference)
	}
}
