package run

import (
	"fmt"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"example.org/kettledrum/plan"
)

// name is what a step is called: what the cook wrote, and the dish unless that
// says it.
func (pr *projected) name(i int) string {
	step := &pr.s.Plan.Steps[i]
	dish := pr.s.Plan.Dishes[step.Dish].Name
	if dish == "" || strings.Contains(strings.ToLower(step.Do), strings.ToLower(dish)) {
		return step.Do
	}
	return step.Do + " · " + dish
}

// with is the name and the place of a step.
func (pr *projected) with(i int) string {
	if place := pr.place(i); place != "" {
		return pr.name(i) + " · " + place
	}
	return pr.name(i)
}

// place is where a step happens, or who does it where there are several: "oven
// at 325 °F", "large burner", "Ines". It may be empty.
func (pr *projected) place(i int) string {
	p, slot := pr.s.Plan, pr.s.Timetable.Slots[i]
	step := &p.Steps[i]
	var parts []string
	if slot.Cook >= 0 && len(p.Kitchen.Cooks) > 1 {
		parts = append(parts, p.Kitchen.Cooks[slot.Cook].Name)
	}
	if step.Oven != nil && slot.Oven >= 0 {
		parts = append(parts, p.Kitchen.Ovens[slot.Oven].Name+" at "+p.Units.Temp(pr.dial(i)))
	}
	switch {
	case step.Burner == nil || slot.Burner == plan.AnyBurner:
	case step.Burner.Count > 1:
		parts = append(parts, fmt.Sprintf("%d %s burners", step.Burner.Count, slot.Burner))
	default:
		parts = append(parts, slot.Burner.String()+" burner")
	}
	return strings.Join(parts, " · ")
}

// bakes is the temperature that a step asks for: "325 °F", "450–475 °F".
func (pr *projected) bakes(i int) string {
	b, u := pr.s.Plan.Steps[i].Oven, pr.s.Plan.Units
	if b.Hi-b.Lo <= 2*plan.DialError+0.01 { // a single one
		return u.Temp(b.At)
	}
	lo, _, _ := strings.Cut(u.Temp(b.Lo), " ")
	return lo + "–" + u.Temp(b.Hi)
}

// dial is what the oven is set to when a step goes in, if that suits it; else
// what it asks for.
func (pr *projected) dial(i int) plan.Celsius {
	b, slot := pr.s.Plan.Steps[i].Oven, pr.s.Timetable.Slots[i]
	at := b.At
	for _, set := range pr.s.Timetable.Sets {
		if set.Oven == slot.Oven && !set.Off && !set.At.After(slot.Start) && b.Lo <= set.To && set.To <= b.Hi {
			at = set.To
		}
	}
	return at
}

// until is what ends a step: "until 190 °F, deep amber". It may be empty.
func (pr *projected) until(i int) string {
	if signs := pr.signs(i); len(signs) > 0 {
		return "until " + strings.Join(signs, ", ")
	}
	return ""
}

// look is what to look for when a step's time ran out.
func (pr *projected) look(i int) string {
	signs := pr.signs(i)
	switch {
	case len(signs) > 0:
		return "look: " + strings.Join(signs, "? ") + "?"
	case pr.s.Plan.Steps[i].Hands.Working():
		return "done?"
	case pr.s.Plan.Steps[i].Oven != nil:
		return "take out"
	}
	return "time is up"
}

func (pr *projected) signs(i int) []string {
	var out []string
	u := pr.s.Plan.Steps[i].Until
	if u.HasTemp {
		out = append(out, pr.s.Plan.Units.Temp(u.Temp))
	}
	if u.Sign != "" {
		out = append(out, u.Sign)
	}
	return out
}

func timerLabel(t Timer) string {
	if t.Label == "" {
		return "Timer"
	}
	return t.Label
}

// span tells a length as a cook says it, rounded up to the minute: "12 min",
// "1 h 5 min".
func span(d time.Duration) string {
	m := plan.Minutes(d)
	switch {
	case m < 60:
		return fmt.Sprintf("%d min", m)
	case m%60 == 0:
		return fmt.Sprintf("%d h", m/60)
	}
	return fmt.Sprintf("%d h %d min", m/60, m%60)
}

// title turns the first letter into a capital.
func title(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}
