package main

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

// row is one line of the timetable, with the details under it.
type row struct {
	at     time.Time
	rank   int // order within a minute
	broken bool
	who    string
	what   string
	until  time.Time // zero for a moment
	itself bool      // goes by itself until then: a touch begins it, if anything
	detail string
	work   time.Time // until when somebody works on it; zero for what nobody does
}

// Order within a minute: what ends comes before what begins.
const (
	rankEnd = iota
	rankRemind
	rankServe
	rankSet
	rankStart
)

// collect gathers the starts, ends, reminders, settings and serves in order of
// time.
func (s *sheetText) collect() []row {
	var rows []row
	type dial struct {
		oven int
		at   int64 // Unix time
	}
	starter := map[int]int{} // step → cook of its start touch
	setter := map[dial]int{} // setting → cook of its touch
	for _, x := range s.t.Touches {
		switch x.What {
		case plan.TouchStart:
			starter[x.Step] = x.Cook
		case plan.TouchEnd:
			// The touch is the step's last minute; on paper that reads as a minute
			// too early, so the row stands where the step ends.
			end := s.t.Slots[x.Step].End
			rows = append(rows, row{at: end, rank: rankEnd, who: s.hand(x.Cook), what: s.ending(x.Step), work: end})
		case plan.TouchRemind:
			rows = append(rows, row{at: x.At, rank: rankRemind, who: s.hand(x.Cook), what: s.reminder(x), work: x.At.Add(time.Minute)})
		case plan.TouchSet:
			setter[dial{x.Oven, x.At.Unix()}] = x.Cook
		}
	}
	for i, slot := range s.t.Slots {
		r := row{at: slot.Start, rank: rankStart, broken: s.isBroken(i, -1), what: s.name(i), until: slot.End, detail: s.detail(i, slot)}
		if slot.Cook >= 0 {
			r.who, r.work = s.hand(slot.Cook), slot.End
		} else if c, ok := starter[i]; ok {
			r.who, r.work, r.itself = s.hand(c), slot.Start.Add(time.Minute), true
		} else {
			r.who, r.itself = nobody, true
		}
		rows = append(rows, r)
	}
	for _, o := range s.t.Sets {
		r := row{at: o.At, rank: rankSet, what: s.setting(o)}
		if c, ok := setter[dial{o.Oven, o.At.Unix()}]; ok {
			r.who, r.work = s.hand(c), o.At.Add(time.Minute)
		} else if o.Off { // nobody is told off for it
			r.what += ", whoever is there"
		}
		rows = append(rows, r)
	}
	for c, at := range s.t.Serves {
		what := s.p.Courses[c].Name + " is on the table"
		if late := s.t.Lateness(s.p, c); late > 0 {
			what += fmt.Sprintf(", %d min late", plan.Minutes(late))
		}
		rows = append(rows, row{at: at, rank: rankServe, broken: s.isBroken(-1, c), who: onTable, what: what, detail: joined(s.places.Untaken(c))})
	}
	slices.SortStableFunc(rows, func(a, b row) int {
		return cmp.Or(a.at.Compare(b.at), cmp.Compare(a.rank, b.rank))
	})
	return rows
}

// name is the step as the cook finds it: its dish and what to do; of a chore,
// what to do.
func (s *sheetText) name(i int) string { return s.p.StepName(i) }

// ofDish puts the dish of step i in front of a text; a chore has none.
func (s *sheetText) ofDish(i int, text string) string {
	dish := s.p.Dishes[s.p.Steps[i].Dish]
	if dish.Chore != nil || dish.Name == "" {
		return text
	}
	return dish.Name + ": " + text
}

// ending says what the last minute of step i asks for.
func (s *sheetText) ending(i int) string {
	what := "end"
	switch st := &s.p.Steps[i]; {
	case st.Oven != nil && s.places.Warm(i):
		what = "done, stays in the oven"
	case st.Oven != nil:
		what = "out of the oven"
	case st.Burner != nil:
		what = "off the burner"
	}
	dish := s.p.Dishes[s.p.Steps[i].Dish]
	switch {
	case dish.Chore != nil || dish.Name == "":
		return s.name(i) + ": " + what
	case s.heated(dish) > 1:
		return s.name(i) + ", " + what
	}
	return s.ofDish(i, what)
}

// heated counts the steps of a dish that stand in an oven or on a burner.
func (s *sheetText) heated(d plan.Dish) int {
	n := 0
	for _, i := range d.Steps {
		if st := &s.p.Steps[i]; st.Oven != nil || st.Burner != nil {
			n++
		}
	}
	return n
}

// reminder says what a reminder's touch is for: "baste: Roast the pork".
func (s *sheetText) reminder(x plan.Touch) string {
	st, slot := &s.p.Steps[x.Step], s.t.Slots[x.Step]
	var texts []string
	for _, r := range run.Reminders(st, slot.Start, slot.End) {
		if r.At.Equal(x.At) {
			texts = append(texts, r.Text)
		}
	}
	if texts == nil { // moved by a minute, or of a timetable made otherwise
		for _, r := range st.Reminds {
			texts = append(texts, r.Text)
		}
	}
	return strings.Join(texts, " and ") + ": " + run.StepName(s.p, x.Step)
}

func (s *sheetText) setting(o plan.OvenSet) string {
	name := s.p.Kitchen.Ovens[o.Oven].Name
	if o.Off {
		return name + ": switch off"
	}
	text := fmt.Sprintf("%s: set to %s, ready %s", name, s.p.Units.Temp(o.To), hour(s.in(o.Ready)))
	if o.For >= 0 {
		if in := s.stillIn(o); in != "" {
			text += ", " + in
		}
	}
	return text
}

// isBroken reports whether some rule of step i or course c is broken.
func (s *sheetText) isBroken(i, c int) bool {
	return slices.ContainsFunc(s.t.Breaks, func(b plan.Break) bool {
		return b.Kind.Hard() && (i >= 0 && b.Step == i || c >= 0 && b.Course == c)
	})
}
