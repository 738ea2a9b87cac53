package planfile

import (
	"fmt"
	"slices"

	"gopkg.in/yaml.v3"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/ingredient"
)

// ingredients reads what the last dish read takes: lines as they are spoken, each
// of which is right, or keys and values.
func (d *decoder) ingredients(n *yaml.Node) []plan.Ingredient {
	if n == nil || isNothing(n) {
		return nil
	}
	items := []*yaml.Node{n}
	if n.Kind == yaml.SequenceNode {
		items = n.Content
	}
	var out []plan.Ingredient
	for k, c := range items {
		if k > 0 && n.Style&yaml.FlowStyle != 0 && c.Kind == yaml.ScalarNode && c.Style == 0 && ingredient.OnlyDone(c.Value) {
			before := items[k-1].Value
			d.fail(c, "broken-text", fmt.Sprintf("in brackets the comma ends the ingredient after %s", quote(before)),
				"put it in quotes: "+quotes(before+", "+c.Value))
			continue
		}
		if c.Kind == yaml.MappingNode && n.Kind == yaml.SequenceNode && structured(c) {
			if i, ok := d.ingredient(c); ok {
				out = append(out, i)
			}
			continue
		}
		if s, ok := d.colonLine(c); ok && n.Kind == yaml.SequenceNode {
			out = append(out, plan.Ingredient{Text: s, Step: -1, Pos: pos(c)})
			continue
		}
		if s, ok := d.text(c, "an item of `ingredients`"); ok {
			out = append(out, plan.Ingredient{Text: s, Step: -1, Pos: pos(c)})
		}
	}
	return out
}

// structured tells an ingredient in keys and values from a line with a colon in it
// that was not quoted.
func structured(n *yaml.Node) bool {
	for i := 0; i+1 < len(n.Content); i += 2 {
		if contains(keys[inIngr], n.Content[i].Value) {
			return true
		}
	}
	return false
}

// colonLine reads a line with a colon in it, "Flour: 500 g" or "For the sauce:",
// which YAML takes for a key and its value.
func (d *decoder) colonLine(n *yaml.Node) (string, bool) {
	if n.Kind != yaml.MappingNode || len(n.Content) != 2 || n.Content[0].Kind != yaml.ScalarNode || n.Content[1].Kind != yaml.ScalarNode {
		return "", false
	}
	key, v := n.Content[0], n.Content[1]
	if _, misspelt := d.nearest(key.Value, keys[inIngr], 3); misspelt || key.Tag == "!!merge" {
		return "", false
	}
	name, ok := d.text(key, "an item of `ingredients`")
	if !ok || isNothing(v) {
		return name + ":", ok
	}
	amount, ok := d.text(v, "an item of `ingredients`")
	return name + ": " + amount, ok
}

// ingredient reads one in keys and values.
func (d *decoder) ingredient(n *yaml.Node) (plan.Ingredient, bool) {
	f, ok := d.fields(n, inIngr)
	if !ok {
		return plan.Ingredient{}, false
	}
	i := plan.Ingredient{Step: -1, Pos: pos(n), Amount: d.optionalText(f, "amount"), Note: d.optionalText(f, "note")}
	if i.What, ok = d.needText(f, "what", inIngr); !ok {
		return i, false
	}
	i.Text = i.What
	if i.Amount != "" {
		i.Text = i.Amount + " " + i.Text
	}
	if i.Note != "" {
		i.Text += ", " + i.Note
	}
	i.Frozen, _ = field(d, f, "frozen", yesNo)
	i.Fresh, _ = field(d, f, "fresh", Duration)
	if scales, ok := field(d, f, "scales", yesNo); ok {
		i.Fixed = !scales
	}
	if ref := f.get("for"); ref != nil {
		i.Step = d.ownStep(ref)
	}
	return i, true
}

// ownStep finds a step of the dish whose steps were read last.
func (d *decoder) ownStep(n *yaml.Node) int {
	name, ok := d.text(n, "`for`")
	if !ok {
		return -1
	}
	own := d.dishSteps[len(d.dishSteps)-1]
	if step, ok := own[slug(name)]; ok {
		return step
	}
	d.unknown(n, "unknown-step", "step of this dish", name, func() []string {
		var ids []string
		for id := range own {
			ids = append(ids, id)
		}
		slices.Sort(ids)
		return ids
	})
	return -1
}
