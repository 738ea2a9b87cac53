package kept

import (
	"time"

	"example.org/kettledrum/plan"
)

// LeftOut is the gap from which on food goes into the fridge; for less nobody
// would carry it there and back.
const LeftOut = 15 * time.Minute

// Places tells of a plan and a timetable of it what lies where.
type Places struct {
	p         *plan.Plan
	t         *plan.Timetable
	followers [][]int
}

// Of returns what lies where by a timetable.
func Of(p *plan.Plan, t *plan.Timetable) *Places { return &Places{p, t, p.Followers()} }

// Stored reports whether what step i made lies in its place, an oven or a cold
// one, until the last of it is taken.
//
// What is wanted again within LeftOut does not go into the fridge, if it was not
// hot and the two-hour rule (plan.KeepOtherwise) allows it all the time since the
// step began.
func (x *Places) Stored(i int) bool {
	st, slot, taken := &x.p.Steps[i], x.t.Slots[i], x.Taken(i)
	gap := taken.Sub(slot.End)
	if gap <= 0 || st.Keeps.Place == "" || slot.Progress == plan.Skipped {
		return false
	}
	cool := st.Oven == nil && st.Burner == nil
	return st.Keeps.Place != "fridge" || !cool || gap >= LeftOut || taken.Sub(slot.Start) > plan.KeepOtherwise
}

// In names the place out of which what step i made is taken at an instant;
// empty for the counter.
func (x *Places) In(i int, taken time.Time) string {
	switch st := &x.p.Steps[i]; {
	case !taken.After(x.t.Slots[i].End) || !x.Stored(i):
		return st.Cold // in which a wait has stood
	case st.Keeps.Warm != nil:
		return x.p.Kitchen.Ovens[x.WarmIn(i)].Name
	default:
		return st.Keeps.Place
	}
}

// ComesFrom says out of which places comes what step i takes: "out of the
// fridge", or, where it takes several things, "Buttermilk ice: out of the fridge".
// What others take of later stays there in part: "some out of the fridge". What is
// kept warm stays in the oven until the last that follows it begins.
func (x *Places) ComesFrom(i int) []string {
	st, slot := &x.p.Steps[i], x.t.Slots[i]
	var out []string
	for _, l := range st.After {
		place := x.In(l.Step, slot.Start)
		bakes := st.Oven != nil && slot.Oven >= 0 && place == x.p.Kitchen.Ovens[slot.Oven].Name
		warm := x.p.Steps[l.Step].Keeps.Warm != nil && x.Taken(l.Step).After(slot.Start)
		if place == "" || place == st.Cold || bakes || warm { // stays where it is
			continue
		}
		text := "out of the " + place
		if x.Taken(l.Step).After(slot.Start) { // another takes of it later
			text = "some " + text
		}
		if len(st.After) > 1 {
			text = x.Food(l.Step, st.Dish) + ": " + text
		}
		out = append(out, text)
	}
	return out
}

// Food names what step i made to somebody busy with a dish: by its dish or, of
// that same dish and of a chore, by what was done.
func (x *Places) Food(i, dish int) string {
	d := x.p.Dishes[x.p.Steps[i].Dish]
	if x.p.Steps[i].Dish == dish || d.Chore != nil || d.Name == "" {
		return x.p.Steps[i].Do
	}
	return d.Name
}

// Untaken are the steps whose food no other step takes out of where it is: that
// is done as its course is served.
func (x *Places) Untaken(course int) []string {
	var out []string
	for i := range x.p.Steps {
		if len(x.followers[i]) > 0 || x.p.CourseOf(i) != course || x.t.Slots[i].Progress == plan.Skipped {
			continue
		}
		if place := x.In(i, x.Taken(i)); place != "" {
			out = append(out, x.Food(i, -1)+": out of the "+place)
		}
	}
	return out
}

// Taken returns when the last that takes what step i made begins; of a dish's
// last step, when its course is on the table.
func (x *Places) Taken(i int) time.Time {
	if len(x.followers[i]) == 0 {
		if x.p.Dishes[x.p.Steps[i].Dish].Chore != nil {
			return x.t.Slots[i].End
		}
		return x.t.Serves[x.p.CourseOf(i)]
	}
	var last time.Time
	for _, j := range x.followers[i] {
		if at := x.t.Slots[j].Start; at.After(last) {
			last = at
		}
	}
	return last
}

// Warm reports whether step i stays in the oven that it baked in.
func (x *Places) Warm(i int) bool {
	return x.p.Steps[i].Keeps.Warm != nil && x.WarmIn(i) == x.t.Slots[i].Oven && x.Taken(i).After(x.t.Slots[i].End)
}

// WarmIn returns the oven that keeps warm what step i made: the one that the
// keep names, else the one it baked in, else the first.
func (x *Places) WarmIn(i int) int {
	if in := x.p.Steps[i].Keeps.Warm.In; in >= 0 {
		return in
	}
	return max(0, x.t.Slots[i].Oven)
}

// InOven returns the steps whose food is in an oven at an instant, since before it:
// what bakes there and what is kept warm.
func (x *Places) InOven(oven int, at time.Time) []int {
	var out []int
	for i, slot := range x.t.Slots {
		if slot.Progress == plan.Skipped {
			continue
		}
		bakes := x.p.Steps[i].Oven != nil && slot.Oven == oven && slot.Start.Before(at) && slot.End.After(at)
		warm := x.p.Steps[i].Keeps.Warm != nil && x.WarmIn(i) == oven && !slot.End.After(at) && x.Taken(i).After(at)
		if bakes || warm {
			out = append(out, i)
		}
	}
	return out
}
