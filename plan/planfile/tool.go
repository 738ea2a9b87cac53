package planfile

import (
	"fmt"
	"slices"

	"gopkg.in/yaml.v3"

	"example.org/kettledrum/plan"
)

// tools reads `name: count` or a list of names; in place of a count may stand
// {count, wash}.
func (d *decoder) tools(n *yaml.Node) {
	if n == nil || isNothing(n) {
		return
	}
	d.counted(n, "`tools`", func(at *yaml.Node, name string, amount int) {
		t := plan.Tool{Name: name, Count: amount, Listed: true, Pos: pos(at)}
		d.named(d.toolNo, name, len(d.p.Kitchen.Tools), "tools", at)
		d.p.Kitchen.Tools = append(d.p.Kitchen.Tools, t)
		d.listed = append(d.listed, name)
	}, func(f fields) {
		wash, _ := field(d, f, "wash", Duration)
		d.p.Kitchen.Tools[len(d.p.Kitchen.Tools)-1].Wash = wash
	})
}

// counted reads names with counts: `{big pot: 1}`, `[big pot, {sheet pan: 2}]`
// or a single name. more is called after each where keys and values stand in
// place of the count; nil: they may not.
func (d *decoder) counted(n *yaml.Node, what string, each func(at *yaml.Node, name string, amount int), more func(f fields)) {
	for _, c := range d.list(n, what) {
		if c.Kind == yaml.ScalarNode {
			if name, ok := d.text(c, "a tool"); ok {
				each(c, name, 1)
			}
			continue
		}
		if c.Kind != yaml.MappingNode {
			d.fail(c, "wrong-kind", "a tool is a name, or a name and a number, not "+kindOf(c))
			continue
		}
		for i := 0; i+1 < len(c.Content); i += 2 {
			key, v := c.Content[i], c.Content[i+1]
			name, ok := d.text(key, "the name of a tool")
			if !ok {
				continue
			}
			what := "how many of " + quote(name)
			if v.Kind != yaml.MappingNode || more == nil {
				if amount, ok := value(d, v, what, count(1, 1000)); ok {
					each(key, name, amount)
				}
				continue
			}
			f, _ := d.fields(v, inTool)
			amount := 1
			if c := f.get("count"); c != nil {
				if amount, ok = value(d, c, what, count(1, 1000)); !ok {
					continue
				}
			}
			each(key, name, amount)
			more(f)
		}
	}
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
