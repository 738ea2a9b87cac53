package main

import (
	"fmt"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/planfile"
	"example.org/kettledrum/plan/review"
)

// write puts the proposed lengths into the plan file. It does so only where each step
// is as it was when it was cooked, or has what is proposed already.
func (r *lookBack) write(c *chosen) error {
	src, err := c.planOf()
	if err != nil {
		return err
	}
	p, err := src.load(r.w, reading{})
	if err != nil {
		return err
	}
	lengths, wrong := toWrite(p, c.lookBack().changes())
	if wrong.HasErrors() {
		return r.refuse(src, wrong, "no longer the plan that was cooked: it is left as it is",
			"what is proposed is for the plan as it was; cooked once as it stands, it can be changed")
	}
	if len(lengths) == 0 {
		fmt.Fprintf(r.w.out, "%s: nothing to change\n", src.name)
		return nil
	}
	text, wrong := planfile.Retime(src.text, src.options(r.w), lengths)
	if wrong.HasErrors() {
		return r.refuse(src, wrong, "left as it is")
	}
	backup, err := replaceFile(src.path, src.text, text)
	if err != nil {
		return err
	}
	for i := range p.Steps {
		if l, ok := lengths[p.Steps[i].ID]; ok {
			writePara(r.w.out, "", fmt.Sprintf("%s: %s, was %s", p.StepName(i), planfile.WriteLength(l), planfile.WriteLength(p.Steps[i].Length)))
		}
	}
	r.w.msg.say("%s in %s; as it was: %s", count(len(lengths), "length is changed", "lengths are changed"), src.name, shownPath(backup))
	return nil
}

// refuse tells why nothing was written.
func (r *lookBack) refuse(src source, wrong plan.Problems, why string, hints ...string) error {
	fmt.Fprint(r.w.msg.w, clean(planfile.Format(src.name, src.text, wrong)))
	return fail(exitPlan, fmt.Errorf("%s is %s", src.name, why), hints...)
}

// toWrite are the lengths that the plan does not have yet, by step, and what of it is
// not as it was when it was cooked.
func toWrite(p *plan.Plan, changes []review.Habit) (map[string]plan.Length, plan.Problems) {
	lengths := map[string]plan.Length{}
	var wrong plan.Problems
	for _, h := range changes {
		i := p.StepIndex(h.Step)
		if i < 0 {
			wrong = append(wrong, plan.Problem{Code: "not-as-cooked", Pos: plan.Pos{Line: 1, Col: 1}, Text: fmt.Sprintf("there is no step %s any more", h.Step)})
			continue
		}
		step := &p.Steps[i]
		fail := func(text string) {
			wrong = append(wrong, plan.Problem{Code: "not-as-cooked", Pos: step.Pos, Text: p.StepName(i) + " " + text})
		}
		switch is := step.Length; {
		case !review.SameWork(step, &h.Cooked):
			fail("is no longer the step that was cooked: another heat, sign, or hands")
		case is == h.Proposed:
		case is != h.Is:
			fail(fmt.Sprintf("takes %s now, and took %s in the plan that was cooked", planfile.WriteLength(is), planfile.WriteLength(h.Is)))
		default:
			lengths[h.Step] = h.Proposed
		}
	}
	wrong.Sort()
	return lengths, wrong
}
