package tui

import (
	"fmt"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

// What can go wrong, and how it is told: one list, with what makes sense at the
// moment.

// askWrong offers it: of an opened step what concerns it, else what concerns all.
func (m *Model) askWrong() {
	if i, ok := m.theStep(); ok {
		m.offer("What went wrong with: "+run.StepName(m.state.Plan, i), m.wrongWith(i))
		return
	}
	var of []choice
	of = append(of, m.wrongCourses()...)
	of = append(of, m.wrongCooks()...)
	of = append(of, m.wrongThings()...)
	if r, ok := m.chosen(); ok && r.stepOf() >= 0 {
		i := r.stepOf()
		for _, c := range m.wrongWith(i) {
			c.text = run.StepName(m.state.Plan, i) + ": " + c.text
			of = append(of, c)
		}
	}
	m.offer("What went wrong?", append(of, m.notPlanned()...))
}

// wrongCourses are about the course that is next: the guests, or the cook, ask it to
// wait.
func (m *Model) wrongCourses() []choice {
	for c := range m.state.Courses {
		st, name := m.state.Courses[c], m.state.Plan.Courses[c].Name
		if !st.Served.IsZero() {
			continue
		}
		wait := choice{text: "the guests are late: " + name + " must wait", ask: &prompt{
			what: forSpan, title: name + " waits", hint: "minutes; enter alone: until it is released",
			event: run.Event{Kind: run.Held, Course: name}}}
		free := choice{text: name + " need not wait any longer", events: []run.Event{{Kind: run.Released, Course: name}}}
		if !st.Open && !st.Held.After(m.now) {
			free.off = "nothing holds it back"
		}
		return []choice{wait, free}
	}
	return nil
}

func (m *Model) wrongCooks() []choice {
	var out []choice
	for _, k := range m.state.Plan.Kitchen.Cooks {
		if _, away := m.awayUntil(k.Name); away {
			out = append(out, choice{text: k.Name + " is back", events: []run.Event{{Kind: run.Back, Cook: k.Name}}})
			continue
		}
		out = append(out, choice{text: k.Name + " is away", ask: &prompt{
			what: forSpan, title: k.Name + " is away", hint: "minutes; enter alone: until back",
			event: run.Event{Kind: run.Away, Cook: k.Name}}})
	}
	return out
}

// notPlanned is something that is not in the plan and takes a cook's hands.
func (m *Model) notPlanned() []choice {
	var out []choice
	for _, k := range m.state.Plan.Kitchen.Cooks {
		c := choice{text: k.Name + " does something that is not in the plan", ask: &prompt{
			what: forSpan, title: k.Name + " does something else", hint: "minutes",
			event: run.Event{Kind: run.Added, Cook: k.Name, Text: k.Name + ": something else"}}}
		if _, away := m.awayUntil(k.Name); away {
			c.off = "away"
		}
		out = append(out, c)
	}
	return out
}

// wrongThings are ovens and burners that fail, or work again.
func (m *Model) wrongThings() []choice {
	var out []choice
	for _, o := range m.state.Plan.Kitchen.Ovens {
		if m.ovenFailed(o.Name) {
			out = append(out, choice{text: "the " + o.Name + " works again", events: []run.Event{{Kind: run.Works, Oven: o.Name}}})
		} else {
			out = append(out, choice{text: "the " + o.Name + " has failed", events: []run.Event{{Kind: run.Failed, Oven: o.Name}}})
		}
	}
	left := m.state.Plan.Kitchen.Burners
	for _, s := range []struct {
		size plan.BurnerSize
		left int
	}{{plan.Large, left.Large}, {plan.Small, left.Small}} {
		name, failed := s.size.String(), m.burnersFailed(s.size)
		if s.left+failed == 0 {
			continue
		}
		fails := choice{text: "a " + name + " burner has failed", events: []run.Event{{Kind: run.Failed, Burner: name}}}
		if s.left == 0 {
			fails.off = "none is left"
		}
		works := choice{text: "a " + name + " burner works again", events: []run.Event{{Kind: run.Works, Burner: name}}}
		if failed == 0 {
			works.off = "none has failed"
		}
		out = append(out, fails, works)
	}
	return out
}

// wrongWith is what can be done about a step: begin it again, give it to another
// cook, put it elsewhere, leave out its dish. What cannot be done now keeps its
// place, so that no number comes to mean something else.
func (m *Model) wrongWith(i int) []choice {
	p, step, st := m.state.Plan, &m.state.Plan.Steps[i], m.state.Steps[i]
	var out []choice
	one := func(text, off string, e run.Event) {
		out = append(out, choice{text: text, off: off, events: []run.Event{e}})
	}
	begun, open := "it has not begun", "it is over"
	if st.Status == plan.Begun || st.Status == plan.Done {
		begun = ""
	}
	if st.Status == plan.Ahead || st.Status == plan.Begun {
		open = ""
	}
	one("burnt, dropped or spoilt: begin it again", begun, run.Event{Kind: run.Redone, Step: step.ID})
	out[0].sure = &question{text: "Begin again: " + run.StepName(p, i) + "?", yes: "begin it again",
		hint: "what it had come to is lost; u takes it back"}
	if t := m.state.Timetable; t != nil {
		slot := &t.Slots[i]
		unless := func(is bool, why string) string {
			if open == "" && is {
				return why
			}
			return open
		}
		for c, k := range p.Kitchen.Cooks {
			if step.Hands.Working() && len(p.Kitchen.Cooks) > 1 {
				one(k.Name+" does it", unless(c == slot.Cook, "as planned"), run.Event{Kind: run.Reassigned, Step: step.ID, Cook: k.Name})
			}
		}
		for o, oven := range p.Kitchen.Ovens {
			if step.Oven != nil && len(p.Kitchen.Ovens) > 1 && oven.Shelves > 0 {
				one("it is in the "+oven.Name, unless(o == slot.Oven, "as planned"), run.Event{Kind: run.Put, Step: step.ID, Oven: oven.Name})
			}
		}
		for _, size := range []plan.BurnerSize{plan.Large, plan.Small} {
			if step.Burner != nil {
				one(fmt.Sprintf("it is on a %s burner", size), unless(size == slot.Burner && st.Displaced.IsZero(), "as planned"),
					run.Event{Kind: run.Put, Step: step.ID, Burner: size.String()})
			}
		}
	}
	if d := &p.Dishes[step.Dish]; d.Chore == nil && d.ID != "" {
		off := ""
		if !m.state.Courses[d.Course].Served.IsZero() {
			off = "its course is on the table"
		}
		one("leave out all of "+d.Name, off, run.Event{Kind: run.Dropped, Dish: d.ID})
		out[len(out)-1].sure = &question{text: "Leave out all of " + d.Name + "?", yes: "leave it out",
			hint: "the dinner goes on without the dish; u takes it back"}
	}
	return out
}
