package safety

import (
	"fmt"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/source"
)

// times looks for food that is out of the cold and off the heat for too long, all
// spells added up.
func (f *finder) times() {
	limit := outOfControl(f.p.Kitchen.Room.Fahrenheit())
	told := map[int]bool{} // dishes
	for _, i := range f.order {
		d := f.p.Steps[i].Dish
		b := &f.points[i]
		if f.chore(i) || f.skipped(i) || told[d] || !b.kinds.spoils(b.cooked) && !b.kinds.spoils(b.wasCooked) {
			continue
		}
		limit, from := limit, dangerZone
		if f.p.Rules == "uk" && b.kinds&rice != 0 && b.cooked {
			limit, from = min(limit, ukRiceOut), fsa(source.Memory)
		}
		out, where := f.longest(i)
		if may := f.mayStand(i); out <= limit && may > limit {
			told[d] = true
			f.add("two-hours", i, fmt.Sprintf("may stand out of the cold for %s by the plan; at most %s%s", plan.Spell(may), plan.Spell(limit), f.inTheWarm()),
				"write no more, or keep it in the refrigerator or hot", from)
		}
		if out <= limit || told[d] || f.counted(i, limit) {
			continue
		}
		told[d] = true
		f.add("two-hours", i, fmt.Sprintf("%s out of the cold and off the heat in all, %s; at most %s%s", plan.Spell(out), where, plan.Spell(limit), f.inTheWarm()),
			"keep it in the refrigerator or hot in between, or serve it sooner; what was out longer is thrown away", from)
	}
	for c := range f.p.Courses {
		if f.p.Courses[c].Seated > limit {
			f.table(c, limit)
		}
	}
}

func (f *finder) inTheWarm() string {
	if outOfControl(f.p.Kitchen.Room.Fahrenheit()) == OutInTheWarm {
		return " where it is above " + f.degrees(WarmF)
	}
	return ""
}

// longest returns how long the food of a step has been out when it is next heated,
// chilled or served, and which of these that is.
func (f *finder) longest(i int) (out time.Duration, where string) {
	b, s := &f.points[i], &f.p.Steps[i]
	out, where = max(b.out, b.outBefore), "by its end"
	if !b.kinds.spoils(b.cooked) || s.Keeps.Place == "oven" || s.Keeps.Place == "fridge" || s.Keeps.Place == "freezer" {
		return out, where
	}
	if f.last(i) {
		return out + f.toTable(i), "when it is served"
	}
	for _, j := range f.followers[i] {
		if o := b.out + f.gap(i, j); o > out && !f.skipped(j) {
			out, where = o, "until "+f.p.NameBeside(j, i)
		}
	}
	return out, where
}

// mayStand returns how long the plan lets the food of a step stand on the counter, in
// a wait or afterwards, as far as it says so.
func (f *finder) mayStand(i int) time.Duration {
	s, b := &f.p.Steps[i], &f.points[i]
	most := time.Duration(0)
	if s.Length.Elastic && inCold(s) == "" && s.Length.Longest != plan.Forever {
		most = s.Length.Longest
	}
	if k := s.Keeps; b.kinds.spoils(b.cooked) && k.Place == "" && !k.Assumed && k.Kind != plan.Freely && !f.last(i) {
		most = max(most, k.For)
	}
	return most
}

// counted reports whether what came before a step in another dish was out too long
// already: then that is told there.
func (f *finder) counted(i int, limit time.Duration) bool {
	for _, l := range f.p.Steps[i].After {
		if out, _ := f.longest(l.Step); out > limit && !f.chore(l.Step) {
			return true
		}
	}
	return false
}

// table is about a course at which the guests sit longer than food may stand.
func (f *finder) table(c int, limit time.Duration) {
	f.dishes(func(d *plan.Dish, steps []int) {
		last := steps[len(steps)-1]
		b := &f.points[last]
		if d.Course != c || !b.kinds.spoils(b.cooked) {
			return
		}
		f.add("two-hours", last, fmt.Sprintf("it stands on the table for %s; at most %s", plan.Spell(f.p.Courses[c].Seated), plan.Spell(limit)),
			"bring it in parts, or take it back to the cold or the heat in between")
	})
}

// long writes a time of days and hours: "3 days", "2 days 6 h".
func long(d time.Duration) string {
	n := int(d / day)
	switch rest := d % day; {
	case n == 0:
		return plan.Spell(d)
	case rest == 0:
		return count(n, "day")
	case rest < time.Hour:
		return count(n, "day") + " " + plan.Spell(rest)
	default:
		return count(n, "day") + " " + plan.Spell(rest.Truncate(time.Hour))
	}
}

func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// span writes a range of days: "3 to 4 days".
func span(low, high time.Duration) string {
	if low == high || low%day != 0 || high%day != 0 {
		return long(high)
	}
	return fmt.Sprintf("%d to %d days", low/day, high/day)
}
