package main

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

// leftOut is the gap from which on food goes into the fridge; for less nobody
// would carry it there and back.
const leftOut = 15 * time.Minute

// goesTo says where what step i made is kept and how long it keeps there: "into
// the fridge, at most until Sat 19:00". Empty where it stays on the counter, or
// is taken at once.
func (s *sheetText) goesTo(i int) string {
	k, slot := &s.p.Steps[i].Keeps, s.t.Slots[i]
	limit := "at most until " + s.from(slot.End.Add(k.For), slot.Start)
	switch {
	case !s.stored(i):
		return ""
	case k.Warm != nil:
		return fmt.Sprintf("then keep warm in the %s at %s, %s", s.p.Kitchen.Ovens[s.warmIn(i)].Name, s.temps(k.Warm), limit)
	}
	return fmt.Sprintf("into the %s, %s", cold(k.Place, k.Places), limit)
}

// stands says how long what step i made waits outside any place until it is
// taken, and how long it was assumed to keep where the plan does not say so. Empty
// for less than leftOut, and for what keeps as long as it likes.
func (s *sheetText) stands(i int) string {
	k, slot := &s.p.Steps[i].Keeps, s.t.Slots[i]
	taken := s.taken(i)
	gap := taken.Sub(slot.End)
	if k.Kind == plan.Freely || slot.Progress == plan.Skipped || gap < leftOut || s.stored(i) {
		return ""
	}
	text := "then waits " + plan.Spell(gap)
	if k.Assumed {
		text += ", assumed to keep " + plan.Spell(k.For)
	}
	return text
}

// stored reports whether what step i made lies in its place, an oven or a cold
// one, until the last of it is taken.
//
// What is wanted again within leftOut does not go into the fridge, if it was not
// hot and the two-hour rule (plan.KeepOtherwise) allows it all the time since the
// step began.
func (s *sheetText) stored(i int) bool {
	st, slot, taken := &s.p.Steps[i], s.t.Slots[i], s.taken(i)
	gap := taken.Sub(slot.End)
	if gap <= 0 || st.Keeps.Place == "" || slot.Progress == plan.Skipped {
		return false
	}
	cool := st.Oven == nil && st.Burner == nil
	return st.Keeps.Place != "fridge" || !cool || gap >= leftOut || taken.Sub(slot.Start) > plan.KeepOtherwise
}

// keptIn names the place out of which what step i made is taken at an instant;
// empty for the counter.
func (s *sheetText) keptIn(i int, taken time.Time) string {
	switch st := &s.p.Steps[i]; {
	case !taken.After(s.t.Slots[i].End) || !s.stored(i):
		return st.Cold // in which a wait has stood
	case st.Keeps.Warm != nil:
		return s.p.Kitchen.Ovens[s.warmIn(i)].Name
	default:
		return st.Keeps.Place
	}
}

// comesFrom says out of which places comes what step i takes: "out of the
// fridge", or, where it takes several things, "Buttermilk ice: out of the fridge".
// What others take of later stays there in part: "some out of the fridge". What is
// kept warm stays in the oven until the last that follows it begins.
func (s *sheetText) comesFrom(i int) []string {
	st, slot := &s.p.Steps[i], s.t.Slots[i]
	var out []string
	for _, l := range st.After {
		place := s.keptIn(l.Step, slot.Start)
		bakes := st.Oven != nil && slot.Oven >= 0 && place == s.p.Kitchen.Ovens[slot.Oven].Name
		warm := s.p.Steps[l.Step].Keeps.Warm != nil && s.taken(l.Step).After(slot.Start)
		if place == "" || place == st.Cold || bakes || warm { // stays where it is
			continue
		}
		text := "out of the " + place
		if s.taken(l.Step).After(slot.Start) { // another takes of it later
			text = "some " + text
		}
		if len(st.After) > 1 {
			text = s.food(l.Step, st.Dish) + ": " + text
		}
		out = append(out, text)
	}
	return out
}

// food names what step i made to somebody busy with a dish: by its dish or, of
// that same dish and of a chore, by what was done.
func (s *sheetText) food(i, dish int) string {
	d := s.p.Dishes[s.p.Steps[i].Dish]
	if s.p.Steps[i].Dish == dish || d.Chore != nil || d.Name == "" {
		return s.p.Steps[i].Do
	}
	return d.Name
}

// untaken are the steps whose food no other step takes out of where it is: that
// is done as its course is served.
func (s *sheetText) untaken(course int) []string {
	var out []string
	for i := range s.p.Steps {
		if len(s.followers[i]) > 0 || s.p.CourseOf(i) != course || s.t.Slots[i].Progress == plan.Skipped {
			continue
		}
		if place := s.keptIn(i, s.taken(i)); place != "" {
			out = append(out, s.food(i, -1)+": out of the "+place)
		}
	}
	return out
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

// stillIn names what is in the oven while it is set, but for what it is set for:
// "with Pickled beetroot still in".
func (s *sheetText) stillIn(o plan.OvenSet) string {
	var names []string
	for i, slot := range s.t.Slots {
		if i == o.For || slot.Progress == plan.Skipped {
			continue
		}
		bakes := s.p.Steps[i].Oven != nil && slot.Oven == o.Oven && slot.Start.Before(o.At) && slot.End.After(o.At)
		warm := s.p.Steps[i].Keeps.Warm != nil && s.warmIn(i) == o.Oven && !slot.End.After(o.At) && s.taken(i).After(o.At)
		if bakes || warm {
			names = append(names, s.food(i, s.p.Steps[o.For].Dish))
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
	return fmt.Sprintf(", washed by %s for %s", s.from(s.t.Slots[next].Start, slot.Start), s.food(next, s.p.Steps[i].Dish))
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
