package walk

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/kept"
	"example.org/kettledrum/plan/run"
)

// walker reads off what a cue asks for.
type walker struct {
	p         *plan.Plan
	t         *plan.Timetable
	places    *kept.Places
	followers [][]int
}

// starting is what the beginning of step i asks for.
func (w *walker) starting(i int) (out []Thing) {
	st, slot := &w.p.Steps[i], w.t.Slots[i]
	for _, text := range w.places.ComesFrom(i) {
		if !strings.Contains(text, ": ") { // there is no step by its side to say it
			text = run.DishName(w.p, i) + ": " + text
		}
		out = append(out, Thing{Name: "taken: " + st.ID + ": " + text, Need: 1, Text: text})
	}
	if v := st.Vessel; v != nil && !w.continues(i) {
		out = append(out, w.tool(i, *v, true))
	}
	for _, u := range st.Uses {
		out = append(out, w.tool(i, u, false))
	}
	if b := st.Burner; b != nil {
		out = append(out, w.burner(i, b.Count))
	}
	if st.Oven != nil && slot.Oven >= 0 {
		out = append(out, w.shelf(i))
	}
	if st.Until.HasTemp {
		out = append(out, Thing{Name: "thermometer", Shared: true, Need: 1, Text: "thermometer, to read " + w.p.Units.Temp(st.Until.Temp)})
	}
	if st.Cold != "" {
		out = append(out, w.room(i, st.Cold, st.ColdPlaces))
	}
	return out
}

// ending is what the end of step i asks for: room where what it made goes, and all
// that begins with it at once.
func (w *walker) ending(i int) (out []Thing) {
	if k := w.p.Steps[i].Keeps; w.places.Stored(i) && k.Warm == nil {
		out = append(out, w.room(i, k.Place, k.Places))
	}
	for _, j := range w.followers[i] {
		if w.p.Steps[j].AtOnce {
			out = append(out, w.starting(j)...)
		}
	}
	return out
}

// serving is what a course asks for that no step takes.
func (w *walker) serving(course int) (out []Thing) {
	for _, text := range w.places.Untaken(course) {
		out = append(out, Thing{Name: "served: " + text, Need: 1, Text: text})
	}
	return out
}

// continues reports whether the food of step i is in its vessel already.
func (w *walker) continues(i int) bool {
	st := &w.p.Steps[i]
	return slices.ContainsFunc(w.p.Dishes[st.Dish].Steps, func(j int) bool {
		v := w.p.Steps[j].Vessel
		return j != i && v != nil && v.Tool == st.Vessel.Tool && w.t.Slots[j].Start.Before(w.t.Slots[i].Start) && w.t.Slots[j].Progress != plan.Skipped
	})
}

// tool is so many pieces of a tool, as the vessel of step i or beside it, and beside
// those that others have in use.
func (w *walker) tool(i int, u plan.Use, vessel bool) Thing {
	used := 0
	at := w.t.Slots[i].Start
	for d := range w.p.Dishes {
		held := 0 // a dish has its vessel once, from its first step with it to its last
		var from, to time.Time
		for _, j := range w.p.Dishes[d].Steps {
			s, slot := &w.p.Steps[j], w.t.Slots[j]
			if slot.Progress == plan.Skipped {
				continue
			}
			if v := s.Vessel; v != nil && v.Tool == u.Tool {
				if from.IsZero() || slot.Start.Before(from) {
					from = slot.Start
				}
				to, held = plan.Later(to, slot.End), max(held, v.Count)
			}
			for _, x := range s.Uses {
				if j != i && x.Tool == u.Tool && during(slot.Start, slot.End, at) {
					used += x.Count
				}
			}
		}
		if (d != w.p.Steps[i].Dish || !vessel) && held > 0 && during(from, to, at) {
			used += held
		}
	}
	return several(w.p.Kitchen.Tools[u.Tool].Name, u.Count, used)
}

// burner is so many burners of the size that step i stands on.
func (w *walker) burner(i, n int) Thing {
	size, at, used := w.t.Slots[i].Burner, w.t.Slots[i].Start, 0
	for j, slot := range w.t.Slots {
		if b := w.p.Steps[j].Burner; j != i && b != nil && slot.Burner == size && slot.Progress != plan.Skipped && during(slot.Start, slot.End, at) {
			used += b.Count
		}
	}
	name := size.String() + " burner"
	if size == plan.AnyBurner {
		name = "burner"
	}
	return several(name, n, used)
}

// shelf is the room of step i in its oven, and what is in there beside it.
func (w *walker) shelf(i int) Thing {
	st, slot := &w.p.Steps[i], w.t.Slots[i]
	text := w.p.Kitchen.Ovens[slot.Oven].Name + ": " + plan.SpellShelves(st.Oven.Space)
	var beside []string
	for _, j := range w.places.InOven(slot.Oven, slot.Start) {
		if name := w.places.Food(j, st.Dish); j != i && !slices.Contains(beside, name) {
			beside = append(beside, name)
		}
	}
	if beside != nil {
		text += ", beside " + strings.Join(beside, " and ")
	}
	return Thing{Name: "shelf: " + st.ID, Need: 1, Text: text}
}

// room is room in a cold place for what step i makes, or for what stands there.
func (w *walker) room(i int, place string, n int) Thing {
	text := "room in the " + place
	if n > 1 {
		text += fmt.Sprintf(", %d places", n)
	}
	return Thing{Name: "room: " + place + ": " + w.p.Steps[i].ID, Need: 1, Text: text}
}

// several words n pieces of something of which others are in use.
func several(name string, n, used int) Thing {
	text := name
	switch {
	case n > 1 && used > 0:
		text = fmt.Sprintf("%d more of: %s; %d in use", n, name, used)
	case n > 1:
		text = fmt.Sprintf("%d × %s", n, name)
	case used > 0:
		text = fmt.Sprintf("one more %s: %d in use", name, used)
	}
	return Thing{Name: name, Shared: true, Need: n + used, Text: text}
}

// during reports whether an instant is within [from, to).
func during(from, to, at time.Time) bool { return !at.Before(from) && at.Before(to) }
