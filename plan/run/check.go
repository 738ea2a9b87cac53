package run

import (
	"fmt"
	"slices"

	"example.org/kettledrum/plan"
)

// check refuses an event that lacks what its kind needs or that names what the
// plan does not have. What the run so far says about it is take's business.
func check(p *plan.Plan, e *Event) error {
	need, ok := needs[e.Kind]
	if !ok {
		return fmt.Errorf("unknown kind of event %q", e.Kind)
	}
	if e.At.IsZero() {
		return fmt.Errorf("%s without a time", e.Kind)
	}
	if err := references(p, e); err != nil {
		return err
	}
	return need(p, e)
}

// needs says, for each kind, what is missing from an event.
var needs = map[Kind]func(p *plan.Plan, e *Event) error{
	Opened:       func(_ *plan.Plan, e *Event) error { return require(e, e.Plan != nil, "the plan") },
	Adopted:      needTimetable,
	Started:      needStep,
	Finished:     needStep,
	Prolonged:    needStepBy,
	Paused:       needStep,
	Resumed:      needStep,
	SkippedStep:  needStep,
	Added:        needTextBy,
	Reassigned:   needStepCook,
	Acknowledged: func(_ *plan.Plan, e *Event) error { return require(e, e.Cue != "", "the cue") },
	Reading: func(p *plan.Plan, e *Event) error {
		if err := needStep(p, e); err != nil {
			return err
		}
		return require(e, e.Temp != nil, "the temperature")
	},
	OvenTurned: func(_ *plan.Plan, e *Event) error { return require(e, e.Oven != "", "the oven") },
	Served:     needCourse,
	Held:       func(p *plan.Plan, e *Event) error { return notLess(e, needCourse(p, e)) },
	Released:   needCourse,
	TimerSet:   func(_ *plan.Plan, e *Event) error { return require(e, e.By > 0, "how long, more than zero") },
	Away:       func(p *plan.Plan, e *Event) error { return notLess(e, needCook(p, e)) },
	Back:       needCook,
	Failed:     needOvenOrBurner,
	Works:      needOvenOrBurner,
	Put: func(p *plan.Plan, e *Event) error {
		if err := needStep(p, e); err != nil {
			return err
		}
		return require(e, e.Oven != "" || e.Burner != "" || e.Tool != "", "where: an oven, a burner or a tool")
	},
	Redone:      needStep,
	Dropped:     func(_ *plan.Plan, e *Event) error { return require(e, e.Dish != "", "the dish") },
	RemedyTaken: needText,
	Noted:       needText,
	PlanChanged: func(_ *plan.Plan, e *Event) error { return require(e, e.Plan != nil, "the plan") },
	Undone:      func(_ *plan.Plan, e *Event) error { return require(e, e.Undoes != 0, "the event to undo") },
}

func require(e *Event, ok bool, what string) error {
	if ok {
		return nil
	}
	return fmt.Errorf("%s needs %s", e.Kind, what)
}

func needStep(_ *plan.Plan, e *Event) error   { return require(e, e.Step != "", "the step") }
func needCourse(_ *plan.Plan, e *Event) error { return require(e, e.Course != "", "the course") }
func needCook(_ *plan.Plan, e *Event) error   { return require(e, e.Cook != "", "the cook") }
func needText(_ *plan.Plan, e *Event) error   { return require(e, e.Text != "", "a text") }

func notLess(e *Event, err error) error {
	if err != nil {
		return err
	}
	return require(e, e.By >= 0, "how long, not less than nothing")
}

func needOvenOrBurner(_ *plan.Plan, e *Event) error {
	return require(e, (e.Oven != "") != (e.Burner != ""), "an oven or the size of a burner")
}

func needStepBy(p *plan.Plan, e *Event) error {
	if err := needStep(p, e); err != nil {
		return err
	}
	return require(e, e.By > 0, "how much longer, more than zero")
}

func needTextBy(p *plan.Plan, e *Event) error {
	if err := needText(p, e); err != nil {
		return err
	}
	return require(e, e.By > 0, "how long, more than zero")
}

func needStepCook(p *plan.Plan, e *Event) error {
	if err := needStep(p, e); err != nil {
		return err
	}
	return needCook(p, e)
}

// references refuses names that the plan does not have.
func references(p *plan.Plan, e *Event) error {
	switch {
	case e.Step != "" && p.StepIndex(e.Step) < 0:
		return fmt.Errorf("unknown step %q", e.Step)
	case e.Course != "" && courseIndex(p, e.Course) < 0:
		return fmt.Errorf("unknown course %q", e.Course)
	case e.Cook != "" && !slices.ContainsFunc(p.Kitchen.Cooks, func(c plan.Cook) bool { return c.Name == e.Cook }):
		return fmt.Errorf("unknown cook %q", e.Cook)
	case e.Oven != "" && ovenIndex(p, e.Oven) < 0:
		return fmt.Errorf("unknown oven %q", e.Oven)
	case e.Burner != "" && e.Burner != plan.Large.String() && e.Burner != plan.Small.String():
		return fmt.Errorf("unknown size of burner %q, should be large or small", e.Burner)
	}
	return nil
}

// needTimetable refuses a timetable that is not one of this plan: nothing in it
// may point outside.
func needTimetable(p *plan.Plan, e *Event) error {
	t := e.Timetable
	switch {
	case t == nil:
		return require(e, false, "a timetable")
	case len(t.Slots) != len(p.Steps):
		return fmt.Errorf("timetable has %d steps, the plan has %d", len(t.Slots), len(p.Steps))
	case len(t.Serves) != len(p.Courses):
		return fmt.Errorf("timetable has %d courses, the plan has %d", len(t.Serves), len(p.Courses))
	}
	k := &p.Kitchen
	for i, s := range t.Slots {
		if !within(s.Cook, len(k.Cooks)) || !within(s.Oven, len(k.Ovens)) || s.Burner < plan.AnyBurner || s.Burner > plan.Large {
			return fmt.Errorf("timetable puts step %q with a cook, an oven or a burner that the kitchen does not have", p.Steps[i].ID)
		}
	}
	for _, set := range t.Sets {
		if set.Oven < 0 || !within(set.Oven, len(k.Ovens)) || !within(set.For, len(p.Steps)) {
			return fmt.Errorf("timetable sets an oven that the kitchen does not have, or for no step of the plan")
		}
	}
	return nil
}

// within reports whether i is an index into n things, or −1 for none.
func within(i, n int) bool { return i >= -1 && i < n }

func courseIndex(p *plan.Plan, name string) int {
	return slices.IndexFunc(p.Courses, func(c plan.Course) bool { return c.Name == name })
}

func ovenIndex(p *plan.Plan, name string) int {
	return slices.IndexFunc(p.Kitchen.Ovens, func(o plan.Oven) bool { return o.Name == name })
}
