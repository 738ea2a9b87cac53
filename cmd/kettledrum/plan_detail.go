package main

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/charmbracelet/x/ansi"

	"example.org/kettledrum/plan"
)

// detail says where step i happens, what it needs, how late it may start, and
// where what it made is kept or how long it waits.
func (s *sheetText) detail(i int, slot plan.Slot) string {
	st := &s.p.Steps[i]
	var parts []string
	parts = append(parts, s.places.ComesFrom(i)...)
	if st.Oven != nil && slot.Oven >= 0 {
		parts = append(parts, fmt.Sprintf("%s %s, %s", s.p.Kitchen.Ovens[slot.Oven].Name, s.heat(i), plan.SpellShelves(st.Oven.Space)))
		if st.Oven.Shut {
			parts = append(parts, "keep its door shut")
		}
	}
	if st.Burner != nil {
		parts = append(parts, burners(slot.Burner, st.Burner.Count))
	}
	if st.Vessel != nil {
		parts = append(parts, "in the "+s.tool(*st.Vessel)+s.wash(i, *st.Vessel))
	}
	if st.Cold != "" {
		parts = append(parts, "in the "+cold(st.Cold, st.ColdPlaces))
	}
	for _, u := range st.Uses {
		parts = append(parts, s.tool(u)+s.wash(i, u))
	}
	if until := until(st.Until, s.p.Units); until != "" {
		parts = append(parts, until)
	}
	if st.Hands == plan.Tied {
		parts = append(parts, "cannot be left")
	}
	if slot.Slack >= time.Minute && !s.beyond(slot) {
		parts = append(parts, "may start "+plan.Spell(slot.Slack)+" late")
	}
	for _, kept := range []string{s.goesTo(i), s.stands(i)} {
		if kept != "" {
			parts = append(parts, kept)
		}
	}
	return joined(parts)
}

// joined puts the parts of a detail in a row. None is broken over two lines where
// it can be helped, one of more than a line at its commas only.
func joined(parts []string) string {
	for i := range parts {
		parts[i] = strings.ReplaceAll(parts[i], " ", noBreak)
		if ansi.StringWidth(parts[i]) > textWidth-detailIndent {
			parts[i] = strings.ReplaceAll(parts[i], ","+noBreak, ", ")
		}
	}
	return strings.Join(parts, "; ")
}

// detailIndent is how far details are indented at most: below what a row says.
const detailIndent = 2 + timeWidth + 2 + whoMost + 2 + 2

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

// temps prints the temperatures that b accepts: "170 °F to 200 °F"; of a single
// one, as asked.
func (s *sheetText) temps(b *plan.Bake) string {
	if b.Hi-b.Lo <= 2*plan.DialError {
		return s.p.Units.Temp(b.At)
	}
	return s.p.Units.Temp(b.Lo) + " to " + s.p.Units.Temp(b.Hi)
}

// tool prints what a step uses: "sheet pan", "2 × sheet pan".
func (s *sheetText) tool(u plan.Use) string {
	name := s.p.Kitchen.Tools[u.Tool].Name
	if u.Count > 1 {
		return fmt.Sprintf("%d × %s", u.Count, name)
	}
	return name
}
