package planfile

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"example.org/kettledrum/plan"
)

// resolver finds the steps that `after` names: in the own dish first, then among
// the chores, then anywhere if there is only one of that id; `dish/step` names
// one exactly.
type resolver struct {
	d        *decoder
	own      map[string]int
	chores   map[string]int
	anywhere map[string][]int
	full     map[string]int
}

// resolver finds any step, of no dish in particular.
func (d *decoder) resolver() resolver {
	r := resolver{d: d, chores: d.choreNo, anywhere: map[string][]int{}, full: map[string]int{}}
	for i := range d.p.Steps {
		if _, id, ok := strings.Cut(d.p.Steps[i].ID, "/"); ok {
			r.anywhere[id] = append(r.anywhere[id], i)
			r.full[d.p.Steps[i].ID] = i
		}
	}
	return r
}

// links reads `after`: `none`, a reference, or a list of references, each with
// an optional gap: `[sauce, {bake: 0m-10m}]`.
func (r resolver) links(n *yaml.Node) []plan.Link {
	d := r.d
	if n.Kind == yaml.ScalarNode && n.Value == "none" {
		return nil
	}
	var out []plan.Link
	seen := map[int]bool{}
	add := func(at *yaml.Node, l plan.Link) {
		if seen[l.Step] {
			d.fail(at, "double-reference", fmt.Sprintf("the step names %s twice", quote(at.Value)))
			return
		}
		seen[l.Step] = true
		out = append(out, l)
	}
	for _, c := range d.list(n, "`after`") {
		switch c.Kind {
		case yaml.ScalarNode:
			if step, ok := r.find(c); ok {
				add(c, plan.Link{Step: step, Pos: pos(c)})
			}
		case yaml.MappingNode:
			for i := 0; i+1 < len(c.Content); i += 2 {
				key, v := c.Content[i], c.Content[i+1]
				step, ok := r.find(key)
				s, ok2 := d.scalar(v, "the gap after "+quote(key.Value))
				if !ok || !ok2 {
					continue
				}
				l := plan.Link{Step: step, Pos: pos(key)}
				var err error
				if l.Min, l.Max, l.HasMax, err = gap(s); err != nil {
					d.failWith(v, respell(s, err, func(s string) (bool, error) { _, _, _, err := gap(s); return true, err }))
					continue
				}
				if !l.HasMax {
					l.Max = 0
				}
				add(key, l)
			}
		default:
			d.fail(c, "wrong-kind", "`after` names steps, not "+kindOf(c), "write it like [sauce, {bake: 0m-10m}]")
		}
	}
	return out
}

// find returns the step that n names.
func (r resolver) find(n *yaml.Node) (int, bool) {
	d := r.d
	name, ok := d.text(n, "a reference")
	if !ok {
		return 0, false
	}
	dish, step, exact := strings.Cut(name, "/")
	if exact {
		if i, ok := r.full[slug(dish)+"/"+slug(step)]; ok {
			return i, true
		}
		d.unknownStep(n, name, func() []string { return keysOf(r.full) })
		return 0, false
	}
	id := slug(name)
	if i, ok := r.own[id]; ok {
		return i, true
	}
	if i, ok := r.chores[id]; ok {
		return i, true
	}
	switch found := r.anywhere[id]; {
	case id == "none":
		d.fail(n, "unknown-step", "`none` stands alone", "write `after: none` for a step that follows nothing")
	case len(found) == 1:
		return found[0], true
	case len(found) > 1:
		var names []string
		for _, i := range found {
			names = append(names, d.p.Steps[i].ID)
		}
		d.fail(n, "ambiguous-step", fmt.Sprintf("%s is a step of several dishes", quote(name)), "name one: "+joinNames(names))
	case strings.Contains(name, ","):
		d.fail(n, "unknown-step", fmt.Sprintf("there is no step %s", quote(name)), fmt.Sprintf("several steps stand in brackets: [%s]", short(name)))
	default:
		d.unknownStep(n, name, func() []string { return slices.Concat(keysOf(r.own), keysOf(r.chores), keysOf(r.anywhere)) })
	}
	return 0, false
}

// unknownStep reports a reference to nothing.
func (d *decoder) unknownStep(n *yaml.Node, name string, ids func() []string) {
	if d.full() {
		d.fail(n, "unknown-step", "")
		return
	}
	hint := "a step is named by its `id`, or by its `do` in lower case with hyphens"
	want := slug(name)
	if dish, step, ok := strings.Cut(name, "/"); ok {
		want = slug(dish) + "/" + slug(step)
	}
	if d.compared <= maxCompared { // sorting the ids takes longest
		if w, ok := d.nearest(want, ids(), 3); ok {
			hint = fmt.Sprintf("did you mean %s?", w)
		} else if id, ok := d.doing(want); ok {
			hint = fmt.Sprintf("that step has an `id`: write %s", id)
		}
	}
	d.fail(n, "unknown-step", fmt.Sprintf("there is no step %s", quote(name)), hint)
}

// doing returns the id of the one step whose `do` is want in lower case with hyphens,
// after its dish where want names one.
func (d *decoder) doing(want string) (id string, ok bool) {
	dish, step, named := strings.Cut(want, "/")
	if !named {
		step = want
	}
	for i := range d.p.Steps {
		s := &d.p.Steps[i]
		if slug(s.Do) != step || named && !strings.HasPrefix(s.ID, dish+"/") {
			continue
		}
		if ok {
			return "", false
		}
		id, ok = s.ID, true
	}
	return id, ok
}

// keysOf returns the keys in order, so that the nearest is always the same.
func keysOf[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }
