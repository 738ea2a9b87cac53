package planfile

import (
	"fmt"
	"slices"
	"strings"

	"example.org/kettledrum/plan"
)

// demands checks what a step asks of the kitchen against what there is.
func (d *decoder) demands(s *plan.Step) {
	k := &d.p.Kitchen
	for _, u := range s.Uses {
		if t := k.Tools[u.Tool]; u.Count > t.Count {
			hint := "list more under `tools`, or use fewer"
			d.stepFails(s, "demand", fmt.Sprintf("uses %d of %s, the kitchen has %d", u.Count, quote(t.Name), t.Count), hint)
		}
	}
	if b := s.Burner; b != nil {
		have, what := k.Burners.Large, "large burners"
		if b.Size != plan.Large { // a large burner can do a small one's work
			have, what = have+k.Burners.Small, "burners"
		}
		if b.Count == 1 {
			what = strings.TrimSuffix(what, "s")
		}
		if b.Count > have {
			d.stepFails(s, "demand", fmt.Sprintf("uses %d %s, the kitchen has %d", b.Count, what, have))
		}
	}
	if v := s.Vessel; v != nil {
		if t := k.Tools[v.Tool]; v.Count > t.Count {
			d.stepFails(s, "demand", fmt.Sprintf("holds its food in %d of %s, the kitchen has %d", v.Count, quote(t.Name), t.Count))
		}
	}
	d.ovenDemand(s, s.Oven, "takes %s in the oven, which has %s")
	d.ovenDemand(s, s.Keeps.Warm, "keeps what it made on %s in the oven, which has %s")
}

// ovenDemand checks the space that a step, or what it made, takes in an oven.
func (d *decoder) ovenDemand(s *plan.Step, b *plan.Bake, text string) {
	k := &d.p.Kitchen
	if b == nil {
		return
	}
	if len(k.Ovens) == 0 {
		d.stepFails(s, "demand", "uses an oven, the kitchen has none")
		return
	}
	most := 0
	for i, o := range k.Ovens {
		if b.In < 0 || b.In == i {
			most = max(most, o.Shelves)
		}
	}
	if b.Space > most {
		d.stepFails(s, "demand", fmt.Sprintf(text, halves(b.Space), halves(most)))
	}
}

// halves shows half shelves as shelves.
func halves(n int) string {
	switch {
	case n == 2:
		return "1 shelf"
	case n%2 == 0:
		return fmt.Sprintf("%d shelves", n/2)
	case n == 1:
		return "half a shelf"
	}
	return fmt.Sprintf("%d.5 shelves", n/2)
}

// coldPlaces checks what is kept cold against the places there are, where the
// kitchen counts them. A place that is not counted is told of once.
func (d *decoder) coldPlaces() {
	cold := d.p.Kitchen.Cold
	told := map[string]bool{}
	ask := func(s *plan.Step, name string, places int) {
		if name == "" || name == "oven" || len(cold) == 0 {
			return
		}
		i := slices.IndexFunc(cold, func(c plan.Cold) bool { return c.Name == name })
		switch {
		case i < 0 && !told[name]:
			told[name] = true
			d.add(plan.Problem{Code: "unlisted-cold", Severity: plan.Notice, Pos: s.Pos,
				Text:  fmt.Sprintf("the kitchen counts its cold places and does not list the %s: it is assumed to have room for all", name),
				Hints: []string{fmt.Sprintf("list it under `cold`: {%s: 4}", name)}})
		case i >= 0 && places > cold[i].Places:
			d.stepFails(s, "demand", fmt.Sprintf("takes %d of the places in the %s, which has %d", places, name, cold[i].Places))
		}
	}
	for i := range d.p.Steps {
		s := &d.p.Steps[i]
		ask(s, s.Cold, s.ColdPlaces)
		ask(s, s.Keeps.Place, s.Keeps.Places)
	}
}

// maxVisited is how many steps the search for vessels looks at: a plan made to
// be slow must not take long. No dinner comes near it.
const maxVisited = 1_000_000

// vessels checks that a tool exists as often as the branches of a dish that are
// brought together have food in it: each of them keeps its piece until then.
func (d *decoder) vessels() {
	steps, visited := d.p.Steps, 0
	same := func(i, j int) bool {
		return steps[i].Dish == steps[j].Dish && steps[i].Vessel != nil && steps[j].Vessel != nil && steps[i].Vessel.Tool == steps[j].Vessel.Tool
	}
	// before returns the last steps before i that have food in the vessel of v.
	before := func(i, v int) []int {
		var found []int
		seen := map[int]bool{i: true}
		for todo := []int{i}; len(todo) > 0; {
			j := todo[len(todo)-1]
			todo = todo[:len(todo)-1]
			for _, l := range steps[j].After {
				visited++
				switch {
				case seen[l.Step] || visited > maxVisited:
				case same(v, l.Step):
					found = append(found, l.Step)
				default:
					todo = append(todo, l.Step)
				}
				seen[l.Step] = true
			}
		}
		slices.Sort(found)
		return found
	}
	for i := range steps {
		if steps[i].Vessel == nil || len(steps[i].After) == 0 {
			continue
		}
		held := before(i, i)
		// What another of them goes on with is not held on its own.
		earlier := map[int]bool{}
		for todo := slices.Clone(held); len(held) > 1 && len(todo) > 0 && visited <= maxVisited; {
			j := todo[len(todo)-1]
			todo = todo[:len(todo)-1]
			for _, b := range before(j, i) {
				if !earlier[b] {
					earlier[b] = true
					todo = append(todo, b)
				}
			}
		}
		held = slices.DeleteFunc(held, func(j int) bool { return earlier[j] })
		tool := d.p.Kitchen.Tools[steps[i].Vessel.Tool]
		if len(held) <= tool.Count {
			continue
		}
		var names []string
		for _, j := range held {
			names = append(names, quote(steps[j].Do))
		}
		d.stepFails(&steps[i], "vessel", fmt.Sprintf("brings together what stands in %d of %s, from %s; the kitchen has %d",
			len(held), quote(tool.Name), joinNames(names), tool.Count), "list more under `tools`, or give a branch another vessel")
	}
}
