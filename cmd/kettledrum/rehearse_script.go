package main

import (
	"fmt"
	"time"

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

// farOff is how long after the last course, as planned, a mishap is noted: dinners that
// a script makes late are in reach of one that is nearer.
const farOff = time.Hour

// tellOutside notes which mishaps of the script the rehearsal does not come to: most
// likely the dinner was moved, and the script with it or without it.
func (x *staged) tellOutside() {
	loc := x.p.Table.Location()
	from, last := x.from.In(loc), x.t.LastServe().In(loc)
	for _, m := range x.script {
		outside := ""
		switch {
		case m.At.IsZero():
			continue
		case m.At.Before(x.from):
			outside = "never happens: the rehearsal begins later, " + ago(from)
		case m.At.After(last.Add(farOff)):
			outside = "happens only if the dinner is that late: the last course is to be on the table " + ago(last)
		default:
			continue
		}
		x.r.w.msg.say("note: %s:%d: %s at %s %s", x.r.mishaps, m.Pos.Line, m.Text(x.p), ago(m.At.In(loc)), outside)
	}
}
