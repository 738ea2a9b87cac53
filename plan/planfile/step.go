package planfile

import (
	"fmt"

	"gopkg.in/yaml.v3"

	"example.org/kettledrum/plan"
)

// rawStep is what of a step can only be told when all steps are known.
type rawStep struct {
	f     fields     // empty for the short form
	id    string     // without the dish
	after *yaml.Node // nil where the plan says nothing
}

// step reads one step or chore: keys and values, or "Boil the potatoes, 22m".
func (d *decoder) step(n *yaml.Node, in place) (plan.Step, rawStep, bool) {
	if n.Kind == yaml.ScalarNode {
		return d.shortStep(n, in)
	}
	s := plan.Step{By: -1, Pos: pos(n)}
	f, ok := d.fields(n, in)
	if !ok {
		return s, rawStep{}, false
	}
	s.Do, _ = d.needText(f, "do", in)
	s.Note = d.note(f)
	d.length(&s, f)
	s.Oven = d.bake(f.get("oven"))
	if b, ok := field(d, f, "burner", burner); ok {
		s.Burner = &b
	}
	s.Uses = d.uses(f.get("uses"))
	s.Vessel = d.vessel(f.get("vessel"), s.Uses)
	s.Until, _ = field(d, f, "until", until)
	s.AtOnce, _ = field(d, f, "at_once", yesNo)
	if s.Cold != "" && (s.Oven != nil || s.Burner != nil) {
		d.fail(f.get("waits"), "place", fmt.Sprintf("the step stands in the %s and on the heat at once", s.Cold), "make two steps of it")
	}
	s.Hands = assumedHands(&s)
	words := []string{"tied", "busy", "near", "free"}
	if h, ok := field(d, f, "hands", oneOf(words, []plan.Hands{plan.Tied, plan.Busy, plan.Near, plan.Free})); ok {
		s.Hands = h
	}
	s.By = d.by(f.get("by"))
	s.Keeps = assumedKeep(&s)
	if in == inChore {
		s.Keeps = choreKeep
	}
	if k, ok := field(d, f, "keeps", keeps); ok {
		s.Keeps = warm(k, s.Oven)
	}
	s.Reminds = d.reminds(f.get("remind"))
	s.Optional, _ = field(d, f, "optional", yesNo)
	s.Accept = d.accepts(f.get("accept"))
	raw := rawStep{f: f, after: f.get("after")}
	if id := f.get("id"); id == nil {
		raw.id = d.idOf(s.Do, f.get("do"))
	} else {
		name, _ := d.text(id, "`id`")
		raw.id = d.idOf(name, id)
	}
	return s, raw, true
}

// shortStep reads a step written as text with its time at the end.
func (d *decoder) shortStep(n *yaml.Node, in place) (plan.Step, rawStep, bool) {
	s := plan.Step{By: -1, Pos: pos(n), Hands: plan.Busy}
	text, ok := d.text(n, "a step")
	if !ok {
		return s, rawStep{}, false
	}
	do, l, err := doAndTime(text)
	if err != nil {
		d.failWith(n, err)
	}
	if do == "" {
		return s, rawStep{}, false
	}
	s.Do = do
	s.Length, s.Keeps = l, assumedKeep(&s)
	if in == inChore {
		s.Keeps = choreKeep
	}
	return s, rawStep{id: d.idOf(s.Do, n)}, true
}

// idOf makes the id of a step from its own `id` or its `do`, which is at n.
func (d *decoder) idOf(text string, n *yaml.Node) string {
	id := slug(text)
	if n == nil || text == "" {
		return id // reported as missing
	}
	if id == "" || id == "none" {
		d.fail(n, "id", fmt.Sprintf("no id can be made from %s", quote(text)), "give the step an `id` of letters and digits")
	}
	return id
}

// length reads `takes` or `waits`, of which a step has one.
func (d *decoder) length(s *plan.Step, f fields) {
	t, w := f.get("takes"), f.get("waits")
	switch {
	case t == nil && w == nil:
		if f.meant["takes"] || f.meant["waits"] {
			return
		}
		d.fail(f.node, "missing", "a step needs `takes` or `waits`", "`takes: 10m` where the food decides, `waits: 10m to 20m` where the cook does")
	case t != nil && w != nil:
		d.fail(w, "both", "a step has `takes` or `waits`, not both", "`takes` where the food decides, `waits` where the cook does")
	case t != nil:
		s.Length, _ = field(d, f, "takes", takes)
	default:
		s.Length.Elastic = true
		if w, ok := field(d, f, "waits", waits); ok {
			s.Length, s.Cold, s.ColdPlaces = w.Length, w.cold, w.places
		}
	}
}

// assumedHands returns what a step asks of a cook where the plan says nothing.
func assumedHands(s *plan.Step) plan.Hands {
	switch {
	case s.Oven != nil || s.Length.Elastic:
		return plan.Free
	case s.Burner != nil:
		return plan.Near
	}
	return plan.Busy
}

func (d *decoder) by(n *yaml.Node) int {
	if n == nil {
		return -1
	}
	c := d.cookNamed(n, "`by`")
	if c >= 0 && len(d.p.Kitchen.Cooks[c].Free) == 0 {
		d.fail(n, "never-free", fmt.Sprintf("%s is never free", d.p.Kitchen.Cooks[c].Name), "give the cook a `free`, or the step to somebody else")
	}
	return c
}

// cookNamed returns the cook that n names, -1 for none.
func (d *decoder) cookNamed(n *yaml.Node, what string) int {
	name, ok := d.text(n, what)
	if !ok {
		return -1
	}
	c, ok := d.cookNo[slug(name)]
	if !ok && d.noKitchen {
		return -1
	}
	if !ok {
		d.unknown(n, "unknown-cook", "cook", name, d.cookNames)
		return -1
	}
	return c
}

func (d *decoder) cookNames() []string {
	var names []string
	for _, c := range d.p.Kitchen.Cooks {
		names = append(names, c.Name)
	}
	return names
}
