package planfile

import (
	"fmt"
	"strings"

	"gopkg.in/yaml.v3"

	"example.org/kettledrum/plan"
)

// dishNodes returns the items of `dishes`.
func (d *decoder) dishNodes(f fields) []*yaml.Node {
	n := f.get("dishes")
	if n == nil {
		d.missing(f, "dishes", "`dishes` is missing: what there is to eat", "write - {name: …, steps: […]} below `dishes:`")
		return nil
	}
	if n.Kind != yaml.SequenceNode || len(n.Content) == 0 {
		d.fail(n, "wrong-kind", "`dishes` is a list of dishes, not "+kindOf(n), "start each dish with a dash: `- name: Lamb shoulder`")
		return nil
	}
	return n.Content
}

// dishes reads all dishes with their steps, then the references between steps,
// which may lead forward.
func (d *decoder) dishes(nodes []*yaml.Node) {
	d.dishesBad = len(nodes) == 0
	ids := map[string]bool{}
	for _, n := range nodes {
		f, ok := d.fields(n, inDish)
		if !ok {
			d.dishesBad = true
			continue
		}
		dish := plan.Dish{Pos: pos(n), Course: d.courseOf(f), Note: d.note(f)}
		dish.Optional, _ = field(d, f, "optional", yesNo)
		dish.Food, _ = field(d, f, "food", food)
		dish.Makes = d.makes(f)
		if dish.Name, ok = d.needText(f, "name", inDish); ok {
			dish.ID = slug(dish.Name)
			switch {
			case dish.ID == "":
				d.fail(f.get("name"), "name", fmt.Sprintf("%s has no letter", quote(dish.Name)), "give the dish a name")
			case ids[dish.ID]:
				d.fail(f.get("name"), "double-name", fmt.Sprintf("two dishes are called %s", quote(dish.Name)), "give each a name of its own")
			}
			ids[dish.ID] = true
		}
		d.steps(&dish, f)
		dish.Ingredients = d.ingredients(f.get("ingredients"))
		d.p.Dishes = append(d.p.Dishes, dish)
	}
}

// makes reads `makes`, or `serves`, which is the same.
func (d *decoder) makes(f fields) int {
	m, s := f.get("makes"), f.get("serves")
	if m != nil && s != nil {
		d.fail(s, "both", "a dish has `makes` or `serves`, not both", "they say the same")
	}
	key := "makes"
	if m == nil {
		key = "serves"
	}
	v, _ := field(d, f, key, count(1, 10000))
	return v
}

// food reads the id of a food in the table of safe temperatures.
func food(s string) (string, error) {
	if contains(foods, s) {
		return s, nil
	}
	hint := "it has " + strings.Join(foods, ", ")
	if w, ok := nearest(slug(s), foods, 3); ok {
		hint = fmt.Sprintf("did you mean %s?", w)
	}
	return "", &mistake{"unknown-food", fmt.Sprintf("%s is not in the table of safe temperatures", quote(s)), hint}
}

// courseOf returns the course of a dish; left out, it is the only one.
func (d *decoder) courseOf(f fields) int {
	n := f.get("course")
	if n == nil {
		if len(d.p.Courses) > 1 {
			d.dishesBad = true
			d.missing(f, "course", "a dish needs its `course`, for there are several", "courses are "+joinNames(d.courseNames()))
		}
		return 0
	}
	c, ok := d.courseNamed(n, "`course`")
	if !ok {
		d.dishesBad = true
	}
	return c
}

func (d *decoder) courseNames() []string {
	var names []string
	for _, c := range d.p.Courses {
		names = append(names, c.Name)
	}
	return names
}

// unknown reports a name that the plan does not have.
func (d *decoder) unknown(n *yaml.Node, code, what, name string, names func() []string) {
	if d.full() {
		d.fail(n, code, "")
		return
	}
	have := names()
	hint := "there is none"
	if len(have) > 0 {
		hint = "the plan has " + joinNames(have)
	}
	if w, ok := d.nearest(name, have, 3); ok {
		hint = fmt.Sprintf("did you mean %s?", w)
	}
	d.fail(n, code, fmt.Sprintf("there is no %s %s", what, quote(name)), hint)
}

// joinNames lists at most a handful of names.
func joinNames(names []string) string {
	const most = 8
	out := ""
	for i, s := range names {
		if i == most {
			return out + fmt.Sprintf(" and %d more", len(names)-most)
		}
		if i > 0 {
			out += ", "
		}
		out += short(s)
	}
	return out
}

// steps reads the steps of a dish.
func (d *decoder) steps(dish *plan.Dish, f fields) {
	n := f.get("steps")
	byID := map[string]int{}
	d.dishSteps = append(d.dishSteps, byID)
	if n == nil || isNothing(n) || n.Kind == yaml.SequenceNode && len(n.Content) == 0 {
		if f.meant["steps"] {
			return
		}
		d.fail(f.node, "empty-dish", fmt.Sprintf("the dish %s has no steps", quote(dish.Name)), "write them below `steps:`, each with a dash")
		return
	}
	if n.Kind != yaml.SequenceNode {
		d.fail(n, "wrong-kind", "`steps` is a list of steps, not "+kindOf(n), "start each step with a dash: `- Boil the potatoes, 22m`")
		return
	}
	for i := 0; i < len(n.Content); i++ {
		c := n.Content[i]
		if n.Style&yaml.FlowStyle != 0 && i+1 < len(n.Content) && isTime(n.Content[i+1]) && c.Kind == yaml.ScalarNode {
			d.fail(c, "broken-text", fmt.Sprintf("in brackets the comma ends the step after %s", quote(c.Value)),
				"put the step in quotes: "+quotes(c.Value+", "+n.Content[i+1].Value))
			i++
			continue
		}
		at := len(d.p.Steps)
		step, raw, ok := d.step(c, inStep)
		if !ok {
			continue
		}
		step.Dish = len(d.p.Dishes)
		if first, twice := byID[raw.id]; twice && raw.id != "" {
			d.fail(c, "double-id", fmt.Sprintf("two steps of %s are called `%s`", dish.Name, raw.id),
				fmt.Sprintf("the other is in line %d; give each an `id` of its own", d.p.Steps[first].Pos.Line))
		}
		byID[raw.id] = at
		step.ID = dish.ID + "/" + raw.id
		dish.Steps = append(dish.Steps, at)
		d.p.Steps = append(d.p.Steps, step)
		d.raw = append(d.raw, raw)
	}
}

// isTime tells a time that stands alone.
func isTime(n *yaml.Node) bool {
	if n.Kind != yaml.ScalarNode || n.Style != 0 {
		return false
	}
	_, err := takes(n.Value)
	return err == nil
}

// references turns what each step says it follows into links.
func (d *decoder) references() {
	all := d.resolver()
	for _, dish := range d.p.Dishes {
		if dish.Chore != nil {
			continue // a chore follows nothing but courses
		}
		for k, i := range dish.Steps {
			s, raw := &d.p.Steps[i], d.raw[i]
			if raw.after == nil {
				if k > 0 {
					s.After = []plan.Link{{Step: dish.Steps[k-1], Pos: s.Pos}}
				}
				continue
			}
			r := all
			r.own = d.dishSteps[s.Dish]
			s.After = r.links(raw.after)
		}
	}
}
