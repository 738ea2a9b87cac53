package main

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/kept"
	"example.org/kettledrum/plan/run"
)

// goesTo says where what step i made is kept and how long it keeps there: "into
// the fridge, at most until Sat 19:00". Empty where it stays on the counter, or
// is taken at once.
func (s *sheetText) goesTo(i int) string {
	k, slot := &s.p.Steps[i].Keeps, s.t.Slots[i]
	limit := "at most until " + s.from(slot.End.Add(k.For), slot.Start)
	switch {
	case !s.places.Stored(i):
		return ""
	case k.Warm != nil:
		return fmt.Sprintf("then keep warm in the %s at %s, %s", s.p.Kitchen.Ovens[s.places.WarmIn(i)].Name, s.temps(k.Warm), limit)
	}
	return fmt.Sprintf("into the %s, %s", cold(k.Place, k.Places), limit)
}

// stands says how long what step i made waits outside any place until it is
// taken, and how long it was assumed to keep where the plan does not say so. Empty
// for less than kept.LeftOut, and for what keeps as long as it likes.
func (s *sheetText) stands(i int) string {
	k, slot := &s.p.Steps[i].Keeps, s.t.Slots[i]
	taken := s.places.Taken(i)
	gap := taken.Sub(slot.End)
	if k.Kind == plan.Freely || slot.Progress == plan.Skipped || gap < kept.LeftOut || s.places.Stored(i) {
		return ""
	}
	text := "then waits " + plan.Spell(gap)
	if k.Assumed {
		text += ", assumed to keep " + plan.Spell(k.For)
	}
	return text
}

// stillIn names what is in the oven while it is set, but for what it is set for:
// "with Pickled beetroot still in".
func (s *sheetText) stillIn(o plan.OvenSet) string {
	var names []string
	for _, i := range s.places.InOven(o.Oven, o.At) {
		if i != o.For {
			names = append(names, s.places.Food(i, s.p.Steps[o.For].Dish))
		}
	}
	slices.Sort(names)
	names = slices.Compact(names)
	if names == nil {
		return ""
	}
	return "with " + strings.Join(names, " and ") + " still in"
}

// wash says by when a tool that step i uses is to be washed, because another dish
// takes it next and there are not enough for all.
func (s *sheetText) wash(i int, u plan.Use) string {
	tool, slot := s.p.Kitchen.Tools[u.Tool], s.t.Slots[i]
	if tool.Wash <= 0 {
		return ""
	}
	next, wanted := -1, map[int]int{} // dish → pieces
	for j := range s.p.Steps {
		n := s.uses(j, u.Tool)
		if n == 0 {
			continue
		}
		dish := s.p.Steps[j].Dish
		wanted[dish] = max(wanted[dish], n)
		if at := s.t.Slots[j].Start; !at.Before(slot.End) && (next < 0 || at.Before(s.t.Slots[next].Start)) {
			next = j
		}
	}
	sum := 0
	for _, n := range wanted {
		sum += n
	}
	if sum <= tool.Count || next < 0 || s.p.Steps[next].Dish == s.p.Steps[i].Dish {
		return ""
	}
	return fmt.Sprintf(", washed by %s for %s", s.from(s.t.Slots[next].Start, slot.Start), s.places.Food(next, s.p.Steps[i].Dish))
}

// uses counts the pieces of a tool that step i has in use, its vessel included.
func (s *sheetText) uses(i, tool int) int {
	st, n := &s.p.Steps[i], 0
	if s.t.Slots[i].Progress == plan.Skipped {
		return 0
	}
	if st.Vessel != nil && st.Vessel.Tool == tool {
		n = st.Vessel.Count
	}
	for _, u := range st.Uses {
		if u.Tool == tool {
			n += u.Count
		}
	}
	return n
}

// from prints an instant as read at another: with the day where that differs.
func (s *sheetText) from(t, at time.Time) string { return run.DayTime(t, at, s.p.Table.Location()) }

// cold prints a cold place: "fridge", "fridge (2 places)".
func cold(place string, n int) string {
	if n > 1 {
		return fmt.Sprintf("%s (%d places)", place, n)
	}
	return place
}
