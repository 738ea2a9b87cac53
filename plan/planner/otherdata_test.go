//go:build othersolver

package planner_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"example.org/kettledrum/plan"
)

// atLeast and atMost round up what the oven takes, to the minutes that must pass
// or those that may. The verifier allows an oven a twentieth of a degree, at most
// about a twentieth of a minute: where that would make it a minute less, or more,
// the dinner is refused.
const rounding = 1e-9 // minutes, of the arithmetic

func atLeast(m float64, err *error) int {
	m -= rounding
	if over := m - math.Floor(m); m > 0 && over < 0.05 {
		*err = fmt.Errorf("the oven takes %.3f minutes to get there: too near a whole number, take other temperatures", m)
	}
	return int(math.Ceil(m))
}

func atMost(m float64, err *error) int {
	if m -= rounding; m-math.Floor(m) > 0.95 && m > 0 {
		*err = fmt.Errorf("the oven drifts for %.3f minutes: too near a whole number, take other temperatures", m)
	}
	return int(math.Ceil(m))
}

// dzn writes MiniZinc data.
type dzn struct{ strings.Builder }

func (w *dzn) put(name string, value any) { fmt.Fprintf(w, "%s = %v;\n", name, value) }

func list[T, V any](w *dzn, name string, of []T, value func(T) V) {
	var out []string
	for _, x := range of {
		out = append(out, fmt.Sprint(value(x)))
	}
	w.put(name, "["+strings.Join(out, ", ")+"]")
}

func upTo(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

// data returns the dinner as the model wants it.
func (d *otherDinner) data() (string, error) {
	w, p := &dzn{}, d.p
	w.put("horizon", d.horizon)
	d.putCooks(w)

	w.put("courses", len(p.Courses))
	list(w, "asked", upTo(len(p.Courses)), func(c int) int { return d.minute(p.Asked(c)) })
	list(w, "late_ok", p.Courses, func(c plan.Course) int { return plan.Minutes(c.LateOK) })
	list(w, "seated", p.Courses, func(c plan.Course) int { return plan.Minutes(c.Seated) })

	d.putSteps(w)

	w.put("waits", len(d.waits))
	list(w, "made_by", d.waits, func(x otherWait) int { return x.step + 1 })
	list(w, "follower", d.waits, func(x otherWait) int { return x.follower + 1 })
	list(w, "shortest", d.waits, func(x otherWait) int { return x.shortest })
	list(w, "longest", d.waits, func(x otherWait) int { return x.longest })
	list(w, "liked", d.waits, func(x otherWait) int { return x.liked })
	list(w, "hot", d.waits, func(x otherWait) bool { return x.hot })

	w.put("large_burners", p.Kitchen.Burners.Large)
	w.put("small_burners", p.Kitchen.Burners.Small)
	w.put("pots", len(d.pots))
	list(w, "pot_step", d.pots, func(i int) int { return i + 1 })
	list(w, "pot_count", d.pots, func(i int) int { return p.Steps[i].Burner.Count })
	list(w, "wants_large", d.pots, func(i int) bool { return p.Steps[i].Burner.Size == plan.Large })

	w.put("touches", len(d.touches))
	list(w, "touch_step", d.touches, func(t otherTouch) int { return t.step + 1 })
	list(w, "touch_after", d.touches, func(t otherTouch) int { return t.after })

	if err := d.putTools(w); err != nil {
		return "", err
	}
	err := d.putOven(w)
	return w.String(), err
}

func (d *otherDinner) putCooks(w *dzn) {
	k := &d.p.Kitchen
	w.put("cooks", len(k.Cooks))
	list(w, "sits", k.Cooks, func(c plan.Cook) bool { return c.Sits })
	w.put("minds", k.Minds)
	type absence struct{ cook, gone, back int }
	var as []absence
	for c, cook := range k.Cooks {
		from := 0
		for _, free := range cook.Free {
			if at := d.minute(free.From); at > from {
				as = append(as, absence{c + 1, from, at})
			}
			from = int(free.To.Sub(d.base) / time.Minute)
		}
		if from <= d.horizon {
			as = append(as, absence{c + 1, from, d.horizon + 1})
		}
	}
	w.put("absences", len(as))
	list(w, "absent", as, func(a absence) int { return a.cook })
	list(w, "gone", as, func(a absence) int { return a.gone })
	list(w, "back", as, func(a absence) int { return a.back })
}

func (d *otherDinner) putSteps(w *dzn) {
	p := d.p
	chore := func(s plan.Step) *plan.Chore { return p.Dishes[s.Dish].Chore }
	w.put("steps", len(p.Steps))
	list(w, "dish", p.Steps, func(s plan.Step) int { return s.Dish + 1 })
	list(w, "course", p.Steps, func(s plan.Step) int { return p.Dishes[s.Dish].Course + 1 })
	list(w, "least", p.Steps, func(s plan.Step) int { return plan.Minutes(s.Length.Likely) })
	list(w, "most", p.Steps, func(s plan.Step) int {
		switch {
		case !s.Length.Elastic:
			return plan.Minutes(s.Length.Likely)
		case s.Length.Longest == plan.Forever:
			return d.horizon
		}
		return min(d.horizon, plan.Minutes(s.Length.Longest))
	})
	list(w, "earliest", p.Steps, func(s plan.Step) int {
		if c := chore(s); c != nil && c.HasAhead {
			return max(0, d.minute(p.Asked(p.Dishes[s.Dish].Course))-plan.Minutes(c.Ahead))
		}
		return 0
	})
	list(w, "after_course", p.Steps, func(s plan.Step) int {
		if c := chore(s); c != nil {
			return c.After + 1
		}
		return 0
	})
	list(w, "working", p.Steps, func(s plan.Step) bool { return s.Hands.Working() })
	list(w, "tied", p.Steps, func(s plan.Step) bool { return s.Hands == plan.Tied })
	list(w, "near", p.Steps, func(s plan.Step) bool { return s.Hands == plan.Near })
	list(w, "at_once", p.Steps, func(s plan.Step) bool { return s.AtOnce && len(s.After) > 0 })
	list(w, "by", p.Steps, func(s plan.Step) int { return s.By + 1 })
}

// putTools writes each piece of a tool that is taken. A vessel stays taken until
// the step starts that names it next; the model wants the two to follow directly.
func (d *otherDinner) putTools(w *dzn) error {
	type take struct{ tool, step, to int }
	var takes []take
	followers := d.p.Followers()
	for i, s := range d.p.Steps {
		for _, u := range s.Uses {
			takes = append(takes, slices.Repeat([]take{{u.Tool + 1, i + 1, 0}}, u.Count)...)
		}
		if s.Vessel == nil {
			continue
		}
		to := 0
		for j := i + 1; j < len(d.p.Steps); j++ {
			if v := d.p.Steps[j].Vessel; v == nil || v.Tool != s.Vessel.Tool || d.p.Steps[j].Dish != s.Dish || to > 0 {
				continue
			}
			if !slices.Equal(followers[i], []int{j}) {
				return fmt.Errorf("%s: in the model a vessel goes on to the one step that follows", s.ID)
			}
			to = j + 1
		}
		takes = append(takes, slices.Repeat([]take{{s.Vessel.Tool + 1, i + 1, to}}, s.Vessel.Count)...)
	}
	w.put("tools", len(d.p.Kitchen.Tools))
	list(w, "pieces", d.p.Kitchen.Tools, func(t plan.Tool) int { return t.Count })
	list(w, "wash", d.p.Kitchen.Tools, func(t plan.Tool) int { return plan.Minutes(t.Wash) })
	w.put("takes", len(takes))
	list(w, "tool", takes, func(t take) int { return t.tool })
	list(w, "taken_by", takes, func(t take) int { return t.step })
	list(w, "handed_to", takes, func(t take) int { return t.to })
	return nil
}

func (d *otherDinner) putOven(w *dzn) error {
	var err error
	shelves := 0
	if len(d.p.Kitchen.Ovens) > 0 {
		shelves = d.p.Kitchen.Ovens[0].Shelves
	}
	w.put("shelves", shelves)
	w.put("bakes", len(d.bakes))
	list(w, "bake_step", d.bakes, func(b otherBake) int { return b.step + 1 })
	list(w, "space", d.bakes, func(b otherBake) int { return d.p.Steps[b.step].Oven.Space })
	list(w, "class", d.bakes, func(b otherBake) int { return b.class })
	list(w, "from_cold", d.bakes, func(b otherBake) int {
		return atLeast(d.heat.between(d.heat.room, b.lo), &err)
	})
	square := func(name string, round func(float64, *error) int, of func(b, e otherBake) float64) {
		var out []string
		for _, b := range d.bakes {
			for _, e := range d.bakes {
				out = append(out, fmt.Sprint(round(of(b, e), &err)))
			}
		}
		w.put(name, fmt.Sprintf("array2d(1..%d, 1..%d, [%s])", len(d.bakes), len(d.bakes), strings.Join(out, ", ")))
	}
	square("change", atLeast, func(b, e otherBake) float64 {
		switch {
		case b.class < e.class:
			return d.heat.between(b.hi, e.lo)
		case b.class > e.class:
			return d.heat.between(b.lo, e.hi)
		}
		return 0
	})
	within := func(b, e otherBake, from, to float64) float64 {
		if b.class != e.class {
			return 0
		}
		return d.heat.between(from, to)
	}
	square("drift_up", atMost, func(b, e otherBake) float64 { return within(b, e, e.lo, b.hi) })
	square("drift_down", atMost, func(b, e otherBake) float64 { return within(b, e, e.hi, b.lo) })
	return err
}
