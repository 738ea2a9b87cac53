package main

import (
	"fmt"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/mishap"
	"example.org/kettledrum/plan/planfile"
)

// script reads what goes wrong, nil where nothing does. Its problems go to standard
// error like those of a plan.
func (r *rehearsal) script(src source, p *plan.Plan) ([]mishap.Mishap, error) {
	if r.mishaps == "" {
		return nil, nil
	}
	text, err := readFile(r.mishaps, "the mishap script")
	if err != nil {
		return nil, err
	}
	asWritten, _, err := src.decode(r.w, reading{})
	if err != nil {
		return nil, err
	}
	script, ps := planfile.Mishaps(text, p, asWritten.Table)
	if ps.HasErrors() {
		fmt.Fprint(r.w.msg.w, clean(planfile.Format(r.mishaps, text, ps)))
		return nil, fail(exitPlan, fmt.Errorf("%s cannot be used: %s", r.mishaps, wrong(errorsIn(ps))))
	}
	if script == nil {
		script = []mishap.Mishap{}
	}
	return script, nil
}
