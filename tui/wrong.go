package tui

import (
	"fmt"
	"slices"

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
	m.offer("What went wrong?", of)
}

// wrongCourses are the courses that the guests, or the cook, ask to wait.
func (m *Model) wrongCourses() []choice {
	for c := range m.state.Courses {
		st, name := m.state.Courses[c], m.state.Plan.Courses[c].Name
		if !st.Served.IsZero() {
			continue
		}
		out := []choice{{text: name + " must wait", ask: &prompt{
			what: forSpan, title: name + " waits", hint: "minutes; nothing: until it is released",
			event: run.Event{Kind: run.Held, Course: name}}}}
		if st.Open || st.Held.After(m.now) {
			out = append(out, choice{text: name + " need not wait any longer", events: []run.Event{{Kind: run.Released, Course: name}}})
		}
		return out // only the next one
	}
	return nil
}

func (m *Model) wrongCooks() []choice {
	var out []choice
	for _, k := range m.state.Plan.Kitchen.Cooks {
		if m.away(k.Name) {
			out = append(out, choice{text: k.Name + " is back", events: []run.Event{{Kind: run.Back, Cook: k.Name}}})
			continue
		}
		out = append(out, choice{text: k.Name + " is away", ask: &prompt{
			what: forSpan, title: k.Name + " is away", hint: "minutes; nothing: until back",
			event: run.Event{Kind: run.Away, Cook: k.Name}}})
	}
	return out
}

// away reports whether a cook is away now, as told.
func (m *Model) away(cook string) bool {
	return slices.ContainsFunc(m.state.Changes, func(c plan.Change) bool {
		return c.Kind == plan.NotThere && c.Cook == cook && !c.From.After(m.now) && (c.To.IsZero() || c.To.After(m.now))
	})
}

// wrongThings are ovens and burners that fail, or work again.
func (m *Model) wrongThings() []choice {
	var out []choice
	failed := func(kind plan.ChangeKind, name string) bool {
		return slices.ContainsFunc(m.state.Changes, func(c plan.Change) bool {
			return c.Kind == kind && (c.Oven == name || c.Burner == name)
		})
	}
	for _, o := range m.state.Plan.Kitchen.Ovens {
		if failed(plan.OvenFails, o.Name) {
			out = append(out, choice{text: "the " + o.Name + " works again", events: []run.Event{{Kind: run.Works, Oven: o.Name}}})
		} else {
			out = append(out, choice{text: "the " + o.Name + " has failed", events: []run.Event{{Kind: run.Failed, Oven: o.Name}}})
		}
	}
	b := m.state.Plan.Kitchen.Burners
	for _, s := range []struct {
		name string
		left int
	}{{plan.Large.String(), b.Large}, {plan.Small.String(), b.Small}} {
		if failed(plan.BurnerFails, s.name) {
			out = append(out, choice{text: "a " + s.name + " burner works again", events: []run.Event{{Kind: run.Works, Burner: s.name}}})
		}
		if s.left > 0 {
			out = append(out, choice{text: "a " + s.name + " burner has failed", events: []run.Event{{Kind: run.Failed, Burner: s.name}}})
		}
	}
	return out
}

// wrongWith is what can be done about a step: begin it again, give it to another
// cook, put it elsewhere, leave out its dish.
func (m *Model) wrongWith(i int) []choice {
	p, step, st := m.state.Plan, &m.state.Plan.Steps[i], m.state.Steps[i]
	var out []choice
	one := func(text string, e run.Event) { out = append(out, choice{text: text, events: []run.Event{e}}) }
	if st.Status == plan.Begun || st.Status == plan.Done {
		one("burnt, dropped or spoilt: begin it again", run.Event{Kind: run.Redone, Step: step.ID})
	}
	if st.Status == plan.Ahead || st.Status == plan.Begun {
		cook := -1
		if m.state.Timetable != nil {
			cook = m.state.Timetable.Slots[i].Cook
		}
		for c, k := range p.Kitchen.Cooks {
			if step.Hands.Working() && c != cook {
				one(k.Name+" does it", run.Event{Kind: run.Reassigned, Step: step.ID, Cook: k.Name})
			}
		}
		for o, oven := range p.Kitchen.Ovens {
			if step.Oven != nil && m.state.Timetable != nil && o != m.state.Timetable.Slots[i].Oven && oven.Shelves > 0 {
				one("it is in the "+oven.Name, run.Event{Kind: run.Put, Step: step.ID, Oven: oven.Name})
			}
		}
		for _, size := range []plan.BurnerSize{plan.Large, plan.Small} {
			if step.Burner != nil && m.state.Timetable != nil && (size != m.state.Timetable.Slots[i].Burner || !st.Displaced.IsZero()) {
				one(fmt.Sprintf("it is on a %s burner", size), run.Event{Kind: run.Put, Step: step.ID, Burner: size.String()})
			}
		}
	}
	if d := &p.Dishes[step.Dish]; d.Chore == nil && d.ID != "" && m.state.Courses[d.Course].Served.IsZero() {
		one("leave out all of "+d.Name, run.Event{Kind: run.Dropped, Dish: d.ID})
	}
	return out
}
