package planfile

import (
	"fmt"
	"regexp"

	"gopkg.in/yaml.v3"

	"example.org/kettledrum/plan"
)

// aShelf is the space of one shelf, in half shelves.
const aShelf = 2

// bake reads `oven`: a temperature, or {at, in, space, door}.
func (d *decoder) bake(n *yaml.Node) *plan.Bake {
	if n == nil {
		return nil
	}
	b := &plan.Bake{In: -1, Space: aShelf}
	at := n
	if n.Kind == yaml.MappingNode {
		f, _ := d.fields(n, inBake)
		if at = f.get("at"); at == nil {
			d.fail(n, "missing", "the oven of a step needs `at`", "write it like {at: 400F, space: half}")
			return b
		}
		if in := f.get("in"); in != nil {
			b.In = d.ovenNamed(in, "`in`")
		}
		if v, ok := field(d, f, "space", space); ok {
			b.Space = v
		}
		b.Shut, _ = field(d, f, "door", oneOf([]string{"shut"}, []bool{true}))
	}
	text, ok := d.scalar(at, "`oven`")
	if !ok {
		return b
	}
	if text == "grill" {
		b.Grill, b.At, b.Lo, b.Hi = true, plan.GrillHeat, plan.GrillHeat-plan.GrillError, plan.GrillHeat+plan.GrillError
		return b
	}
	var err error
	if b.At, b.Lo, b.Hi, err = ovenTemperature(text); err != nil {
		if _, ok := nearest(text, []string{"grill"}, 3); ok {
			err = &mistake{"temperature", err.(*mistake).text, "did you mean grill?"}
		}
		d.failWith(at, err)
	}
	return b
}

func (d *decoder) ovenNamed(n *yaml.Node, what string) int {
	name, ok := d.text(n, what)
	if !ok {
		return -1
	}
	i, ok := d.ovenNo[slug(name)]
	if !ok && d.noKitchen {
		return -1
	}
	if !ok {
		d.unknown(n, "unknown-oven", "oven", name, d.ovenNames)
		return -1
	}
	return i
}

func (d *decoder) ovenNames() []string {
	var names []string
	for _, o := range d.p.Kitchen.Ovens {
		names = append(names, o.Name)
	}
	return names
}

var shelves = regexp.MustCompile(`^([0-9]+)(\.5)?(?: (?:shelf|shelves))?$`)

// space reads how much of the oven a step takes, in half shelves: "half", "a
// shelf", or a number of shelves.
func space(s string) (int, error) {
	switch s {
	case "half", "half a shelf":
		return 1, nil
	case "shelf", "a shelf":
		return 2, nil
	}
	m := shelves.FindStringSubmatch(s)
	if m != nil {
		n, err := count(0, 100)(m[1])
		if n *= 2; m[2] != "" {
			n++
		}
		if err == nil && n > 0 {
			return n, nil
		}
	}
	return 0, &mistake{"space", fmt.Sprintf("%s is no space in an oven", quote(s)), "write half, a shelf, or a number of shelves"}
}

var burnerForm = regexp.MustCompile(`^(?:([0-9]+) )?(large|small|any)$`)

// burner reads "large", "small", "any" or "2 large".
func burner(s string) (plan.BurnerUse, error) {
	b := plan.BurnerUse{Count: 1}
	m := burnerForm.FindStringSubmatch(s)
	if m == nil {
		return b, &mistake{"burner", fmt.Sprintf("%s is no burner", quote(s)), "write large, small, any, or 2 large"}
	}
	b.Size = map[string]plan.BurnerSize{"large": plan.Large, "small": plan.Small, "any": plan.AnyBurner}[m[2]]
	if m[1] != "" {
		n, err := count(1, 100)(m[1])
		if err != nil {
			return b, err
		}
		b.Count = n
	}
	return b, nil
}
