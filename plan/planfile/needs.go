package planfile

import (
	"fmt"
	"regexp"
	"slices"

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
			b.In = d.ovenNamed(in)
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

func (d *decoder) ovenNamed(n *yaml.Node) int {
	name, ok := d.text(n, "`in`")
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

// uses reads the tools of a step. A tool that the kitchen does not list exists
// once; where its name is close to a listed one it is rather misspelt.
func (d *decoder) uses(n *yaml.Node) []plan.Use {
	if n == nil {
		return nil
	}
	var out []plan.Use
	d.counted(n, "`uses`", func(at *yaml.Node, name string, amount int) {
		i, ok := d.tool(at, name)
		switch {
		case !ok:
		case slices.ContainsFunc(out, func(u plan.Use) bool { return u.Tool == i }):
			d.fail(at, "double-name", fmt.Sprintf("the step names %s twice", quote(name)), fmt.Sprintf("write how many: {%s: 2}", short(name)))
		default:
			out = append(out, plan.Use{Tool: i, Count: amount})
		}
	}, nil)
	return out
}

// vessel reads the one tool that holds the food.
func (d *decoder) vessel(n *yaml.Node, uses []plan.Use) *plan.Use {
	if n == nil {
		return nil
	}
	name, ok := d.text(n, "`vessel`")
	if !ok {
		return nil
	}
	i, ok := d.tool(n, name)
	if !ok {
		return nil
	}
	if slices.ContainsFunc(uses, func(u plan.Use) bool { return u.Tool == i }) {
		d.fail(n, "double-name", fmt.Sprintf("the step names %s as vessel and in `uses`", quote(name)), "leave it out of `uses`: a vessel is in use as well")
		return nil
	}
	return &plan.Use{Tool: i, Count: 1}
}

// tool returns the tool of that name.
func (d *decoder) tool(n *yaml.Node, name string) (int, bool) {
	if i, ok := d.toolNo[slug(name)]; ok {
		return i, true
	}
	return d.unlistedTool(n, name)
}

func (d *decoder) unlistedTool(n *yaml.Node, name string) (int, bool) {
	if w, ok := d.nearest(name, d.listed, 4); ok {
		d.fail(n, "unknown-tool", fmt.Sprintf("the kitchen has no %s", quote(name)),
			fmt.Sprintf("did you mean %s?", w), fmt.Sprintf("if it is another tool, list it under `tools`: {%s: 1}", short(name)))
		return 0, false
	}
	if d.noKitchen {
		return 0, false
	}
	i := len(d.p.Kitchen.Tools)
	d.p.Kitchen.Tools = append(d.p.Kitchen.Tools, plan.Tool{Name: name, Count: 1, Pos: pos(n)})
	d.toolNo[slug(name)] = i
	d.add(plan.Problem{Code: "unlisted-tool", Severity: plan.Notice, Pos: pos(n),
		Text:  fmt.Sprintf("the kitchen does not list %s: there is one, it is assumed", quote(name)),
		Hints: []string{fmt.Sprintf("list it under `tools` if there are more: {%s: 2}", short(name))}})
	return i, true
}
