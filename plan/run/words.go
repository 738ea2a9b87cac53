package run

import (
	"fmt"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"example.org/kettledrum/plan"
)

// StepName is what a step is called: what the cook wrote, and the dish unless
// that says it. A chore has none.
func StepName(p *plan.Plan, i int) string {
	step := &p.Steps[i]
	dish := p.Dishes[step.Dish].Name
	if dish == "" || says(step.Do, dish) {
		return step.Do
	}
	return step.Do + " · " + dish
}

// says reports whether a text has a word in it, in capitals or not. It is asked for
// every name that is shown, and makes no copy in lower case.
func says(text, word string) bool {
	for i := range text {
		if hasPrefixFold(text[i:], word) {
			return true
		}
	}
	return false
}

func hasPrefixFold(text, word string) bool {
	for _, w := range word {
		r, n := utf8.DecodeRuneInString(text)
		if n == 0 || unicode.ToLower(r) != unicode.ToLower(w) {
			return false
		}
		text = text[n:]
	}
	return true
}

// DishName is what a step is for: its dish; of a chore, what the cook wrote.
func DishName(p *plan.Plan, i int) string {
	if name := p.Dishes[p.Steps[i].Dish].Name; name != "" {
		return name
	}
	return p.Steps[i].Do
}

// DayTime tells a time of day in a zone, "19:00"; of another day than now with
// the day of the week, "Thu 19:00", and, where that could be another week's, with
// the date, "Thu 8 Oct 19:00".
func DayTime(t, now time.Time, zone *time.Location) string {
	t, now = t.In(zone), now.In(zone)
	switch days := Days(t, now); {
	case days == 0:
		return t.Format("15:04")
	case -week < days && days < week:
		return t.Format("Mon 15:04")
	}
	return t.Format("Mon 2 Jan 15:04")
}

// week is in days.
const week = 7

// Days is how many days of the calendar lie from the day of now to that of t,
// each in its own zone; below 0 where t is earlier.
func Days(t, now time.Time) int {
	midnight := func(t time.Time) time.Time { return time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, time.UTC) }
	return int(midnight(t).Sub(midnight(now)) / (24 * time.Hour))
}

// when tells a time as read at the moment.
func (pr *projected) when(t time.Time) string { return pr.s.when(t, pr.now) }

func (pr *projected) name(i int) string { return pr.s.names[i] }

// with is the name and the place of a step.
func (pr *projected) with(i int) string {
	if place := pr.place(i); place != "" {
		return pr.name(i) + " · " + place
	}
	return pr.name(i)
}

// place is where a step happens, or who does it where there are several: "oven
// at 325 °F", "in the fridge", "large burner", "Ines". It may be empty.
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
	if step.Cold != "" {
		parts = append(parts, "in the "+step.Cold)
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
func (pr *projected) bakes(i int) string { return HeatOf(pr.s.Plan.Steps[i].Oven, pr.s.Plan.Units) }

// HeatOf is the temperature that a bake, or what keeps warm, accepts: "325 °F",
// "170–200 °F", "the grill".
func HeatOf(b *plan.Bake, u plan.Units) string {
	switch {
	case b.Grill:
		return "the grill"
	case b.Hi-b.Lo <= 2*plan.DialError+0.01: // a single one
		return u.Temp(b.At)
	}
	lo, _, _ := strings.Cut(u.Temp(b.Lo), " ")
	return lo + "–" + u.Temp(b.Hi)
}

// putAway is where what step i made waits until it is taken: "into the fridge",
// "keep warm in the oven, 170–200 °F". Empty where it stays on the counter, or is
// taken before it is worth the way.
func (pr *projected) putAway(i int) string {
	k := &pr.s.Plan.Steps[i].Keeps
	if k.Place == "" {
		return ""
	}
	taken := pr.serve(pr.s.Plan.CourseOf(i))
	if last := pr.takenBy(i); last >= 0 {
		taken = pr.start(last)
	}
	waits := time.Duration(pr.x[taken] - pr.x[pr.end(i)])
	switch {
	case k.Warm == nil && waits >= coldFrom:
		return "into the " + k.Place
	case k.Warm != nil && waits > 0:
		return "keep warm in the " + pr.warmIn(i) + ", " + HeatOf(k.Warm, pr.s.Plan.Units)
	}
	return ""
}

// coldFrom is how long something must wait to be put into a cold place.
const coldFrom = 10 * time.Minute

// warmIn is the name of the oven in which what step i made keeps warm: the one
// asked for, else the one it was baked in.
func (pr *projected) warmIn(i int) string {
	oven := pr.s.Plan.Steps[i].Keeps.Warm.In
	if oven < 0 {
		oven = max(0, pr.s.Timetable.Slots[i].Oven)
	}
	return pr.s.Plan.Kitchen.Ovens[oven].Name
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

// until is what ends a step: "until 190 °F, deep amber"; once
// it was read, how far it is: "148 of 190 °F, deep amber". It may be empty.
func (pr *projected) until(i int) string {
	if heats(&pr.s.Plan.Steps[i]) && len(pr.s.Steps[i].Inside.Readings) > 0 {
		return strings.Join(append([]string{pr.ofTarget(i)}, pr.signs(i)[1:]...), ", ")
	}
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
	return pr.s.Plan.Steps[i].Until.Signs(pr.s.Plan.Units)
}

func timerLabel(t Timer) string {
	if t.Label == "" {
		return "Timer"
	}
	return t.Label
}

// title turns the first letter into a capital.
func title(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}
