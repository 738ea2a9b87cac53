package main

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

// detail says where step i happens, what it needs, how long it can wait and
// where what it made is kept.
func (s *sheetText) detail(i int, slot plan.Slot) string {
	st := &s.p.Steps[i]
	var parts []string
	if from := s.comesFrom(i); from != "" {
		parts = append(parts, "out of the "+from)
	}
	if st.Oven != nil && slot.Oven >= 0 {
		parts = append(parts, fmt.Sprintf("%s %s, %s", s.p.Kitchen.Ovens[slot.Oven].Name, s.heat(i), shelves(st.Oven.Space)))
		if st.Oven.Shut {
			parts = append(parts, "keep its door shut")
		}
	}
	if st.Burner != nil {
		parts = append(parts, burners(slot.Burner, st.Burner.Count))
	}
	if st.Vessel != nil {
		parts = append(parts, "in the "+s.tool(*st.Vessel))
	}
	if st.Cold != "" {
		parts = append(parts, "in the "+cold(st.Cold, st.ColdPlaces))
	}
	for _, u := range st.Uses {
		parts = append(parts, s.tool(u))
	}
	if until := until(st.Until, s.p.Units); until != "" {
		parts = append(parts, until)
	}
	if st.Hands == plan.Tied {
		parts = append(parts, "cannot be left")
	}
	if slot.Slack >= time.Minute && !s.beyond(slot) {
		parts = append(parts, "can wait "+span(slot.Slack))
	}
	if goes := s.goesTo(i); goes != "" {
		parts = append(parts, goes)
	}
	// A part is not broken over two lines where it can be helped.
	for i := range parts {
		parts[i] = strings.ReplaceAll(parts[i], " ", noBreak)
	}
	return strings.Join(parts, "; ")
}

// beyond reports whether a step of a day ahead, started as late as the courses
// allow, would lie after the session that it is in: then that says nothing.
func (s *sheetText) beyond(slot plan.Slot) bool {
	if !slot.Start.Before(dayBegins(s.p)) {
		return false
	}
	late := slot.End.Add(slot.Slack)
	for _, c := range s.p.Kitchen.Cooks {
		for _, w := range c.Free {
			if !slot.Start.Before(w.From) && slot.Start.Before(w.To) && !late.After(w.To) {
				return false
			}
		}
	}
	return true
}

// heat says at what the oven is while step i is in it: as its dial is set, or
// what the step accepts where the timetable sets no dial for it.
func (s *sheetText) heat(i int) string {
	if s.p.Steps[i].Oven.Grill {
		return "grill"
	}
	var heats []string
	for _, to := range dials(s.t, i) {
		heats = append(heats, s.p.Units.Temp(to))
	}
	if heats == nil {
		return s.temps(s.p.Steps[i].Oven)
	}
	return strings.Join(slices.Compact(heats), ", then ")
}

// dials returns at what the oven is set when step i begins and, in order, to
// what it is set meanwhile: anything that the step accepts. It is empty where
// the oven is off.
func dials(t *plan.Timetable, i int) []plan.Celsius {
	slot := t.Slots[i]
	var all []plan.Celsius
	for _, o := range t.Sets {
		if o.Oven != slot.Oven || !o.At.Before(slot.End) {
			continue
		}
		if !o.At.After(slot.Start) {
			all = nil
		}
		if !o.Off {
			all = append(all, o.To)
		}
	}
	return all
}

// goesTo says where what step i made is kept until it is taken: "into the
// fridge, keeps until Sat 19:00". Empty where it stays on the counter, or is
// taken at once.
func (s *sheetText) goesTo(i int) string {
	k, slot := &s.p.Steps[i].Keeps, s.t.Slots[i]
	taken := s.taken(i)
	switch {
	case !taken.After(slot.End):
		return ""
	case k.Warm != nil:
		return fmt.Sprintf("then keep warm in the %s at %s until %s", s.p.Kitchen.Ovens[s.warmIn(i)].Name,
			s.temps(k.Warm), s.from(taken, slot.Start))
	case k.Place != "":
		return fmt.Sprintf("into the %s, keeps until %s", cold(k.Place, k.Places), s.from(slot.End.Add(k.For), slot.Start))
	}
	return ""
}

// comesFrom names the cold places that what step i takes was kept in.
func (s *sheetText) comesFrom(i int) string {
	for _, l := range s.p.Steps[i].After {
		before := &s.p.Steps[l.Step]
		if s.t.Slots[i].Start.After(s.t.Slots[l.Step].End) && before.Keeps.Place != "" && before.Keeps.Warm == nil {
			return before.Keeps.Place
		}
		if before.Cold != "" && s.p.Steps[i].Cold == "" {
			return before.Cold
		}
	}
	return ""
}

// taken returns when the last that takes what step i made begins; of a dish's
// last step, when its course is on the table.
func (s *sheetText) taken(i int) time.Time {
	if len(s.followers[i]) == 0 {
		if s.p.Dishes[s.p.Steps[i].Dish].Chore != nil {
			return s.t.Slots[i].End
		}
		return s.t.Serves[s.p.CourseOf(i)]
	}
	var last time.Time
	for _, j := range s.followers[i] {
		if at := s.t.Slots[j].Start; at.After(last) {
			last = at
		}
	}
	return last
}

// keptWarm reports whether step i stays in the oven that it baked in.
func (s *sheetText) keptWarm(i int) bool {
	return s.p.Steps[i].Keeps.Warm != nil && s.warmIn(i) == s.t.Slots[i].Oven && s.taken(i).After(s.t.Slots[i].End)
}

// warmIn returns the oven that keeps warm what step i made: the one that the
// keep names, else the one it baked in, else the first.
func (s *sheetText) warmIn(i int) int {
	if in := s.p.Steps[i].Keeps.Warm.In; in >= 0 {
		return in
	}
	return max(0, s.t.Slots[i].Oven)
}

// temps prints the temperatures that b accepts: "170 °F to 200 °F"; of a single
// one, as asked.
func (s *sheetText) temps(b *plan.Bake) string {
	if b.Hi-b.Lo <= 2*plan.DialError {
		return s.p.Units.Temp(b.At)
	}
	return s.p.Units.Temp(b.Lo) + " to " + s.p.Units.Temp(b.Hi)
}

// from prints an instant as read at another: with the day where that differs.
func (s *sheetText) from(t, at time.Time) string { return run.DayTime(t, at, s.p.Table.Location()) }

// tool prints what a step uses: "sheet pan", "2 × sheet pan".
func (s *sheetText) tool(u plan.Use) string {
	name := s.p.Kitchen.Tools[u.Tool].Name
	if u.Count > 1 {
		return fmt.Sprintf("%d × %s", u.Count, name)
	}
	return name
}

// cold prints a cold place: "fridge", "fridge (2 places)".
func cold(place string, n int) string {
	if n > 1 {
		return fmt.Sprintf("%s (%d places)", place, n)
	}
	return place
}
