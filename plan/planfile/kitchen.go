package planfile

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"gopkg.in/yaml.v3"

	"example.org/kettledrum/plan"
)

// kitchen reads `kitchen`. Each part that the plan leaves out is as in
// plan.Default…; n is nil where all of it is left out.
func (d *decoder) kitchen(n *yaml.Node) {
	d.cookNo, d.ovenNo, d.toolNo = map[string]int{}, map[string]int{}, map[string]int{}
	k := &d.p.Kitchen
	k.Minds, k.Room = plan.DefaultMinds, plan.DefaultRoom
	k.Burners = plan.Burners{Large: plan.DefaultLarge, Small: plan.DefaultSmall}
	f := fields{}
	if n != nil && n.Kind == yaml.ScalarNode && !isNothing(n) {
		src := d.src
		defer func() { d.src, d.file = src, "" }() // problems of the file are marked as such
		n = d.kitchenFile(n)
		d.noKitchen = n == nil
	}
	if n != nil && !isNothing(n) {
		var ok bool
		f, ok = d.fields(n, inKitchen)
		d.noKitchen = !ok
	}
	d.cooks(f.get("cooks"))
	d.ovens(f.get("ovens"))
	d.burners(f.get("burners"))
	d.tools(f.get("tools"))
	d.cold(f.get("cold"))
	if v, ok := field(d, f, "room", room); ok {
		k.Room = v
		for _, o := range k.Ovens {
			if o.Preheat.To <= v || o.Cools.To <= v {
				d.fail(f.get("room"), "range", fmt.Sprintf("the room is as warm as what %s heats or cools to", quote(o.Name)))
			}
		}
	}
	if v, ok := field(d, f, "minds", count(1, 100)); ok {
		k.Minds = v
	}
}

// kitchenFile returns the root of the file that n names, and has problems found
// from now on said of that file; nil where it cannot be read.
func (d *decoder) kitchenFile(n *yaml.Node) *yaml.Node {
	name, ok := d.text(n, "`kitchen`")
	switch {
	case !ok:
		return nil
	case !strings.HasSuffix(name, ".yaml") && !strings.HasSuffix(name, ".yml"):
		d.fail(n, "wrong-kind", fmt.Sprintf("`kitchen` is keys and values or the name of a file, not %s", quote(name)),
			"name a file like my-kitchen.yaml", "keys are "+strings.Join(keys[inKitchen], ", "))
		return nil
	case strings.ContainsAny(name, `/\`):
		d.fail(n, "kitchen-file", fmt.Sprintf("%s is not beside the plan", quote(name)), "put the file into the plan's folder and name it without one")
		return nil
	case d.o.Open == nil:
		d.fail(n, "kitchen-file", fmt.Sprintf("the kitchen is in a file of its own, %s, which cannot be opened here", quote(name)), "write the kitchen out below `kitchen:`")
		return nil
	}
	text, err := d.o.Open(name)
	if err != nil {
		d.fail(n, "kitchen-file", fmt.Sprintf("the kitchen's file cannot be read: %s", short(err.Error())), "it stands beside the plan")
		return nil
	}
	d.file, d.src = name, newSource(text)
	return d.parse(text, inKitchen)
}

// room reads the temperature of a kitchen.
func room(s string) (plan.Celsius, error) {
	r, err := temperature(s, foodSlip)
	switch {
	case err != nil:
		return 0, err
	case r.Lo != r.Hi:
		return 0, &mistake{"temperature", fmt.Sprintf("%s is a range", quote(s)), "write one temperature"}
	case r.Lo < roomLowest || r.Lo > roomHighest:
		return 0, &mistake{"temperature", fmt.Sprintf("no kitchen has %s", quote(s)), fmt.Sprintf("between %s and %s; is the unit right?", both(roomLowest), both(roomHighest))}
	}
	return r.Lo, nil
}

// cold reads the cold places that count.
func (d *decoder) cold(n *yaml.Node) {
	if n == nil || isNothing(n) {
		return
	}
	f, _ := d.fields(n, inCold)
	for _, name := range coldNames {
		if v, ok := field(d, f, name, count(0, 1000)); ok {
			d.p.Kitchen.Cold = append(d.p.Kitchen.Cold, plan.Cold{Name: name, Places: v, Pos: pos(f.get(name))})
		}
	}
}

// people and ovens may be a number, a list of names, or written out. each is
// called for every one, with its fields where they are written out.
func (d *decoder) several(n *yaml.Node, what, one string, in place, most int, each func(name string, f fields, at *yaml.Node)) {
	switch {
	case n == nil:
		each(one, fields{}, nil)
	case n.Kind == yaml.ScalarNode:
		v, ok := value(d, n, "`"+what+"`", count(0, most))
		for i := 1; ok && i <= v; i++ {
			name := one
			if v > 1 {
				name = fmt.Sprintf("%s %d", one, i)
			}
			each(name, fields{}, n)
		}
	case n.Kind == yaml.MappingNode:
		d.fail(n, "wrong-kind", fmt.Sprintf("`%s` is a list, not keys and values", what), "start each with a dash")
	default:
		for _, c := range n.Content {
			if c.Kind == yaml.ScalarNode {
				if name, ok := d.text(c, "a name"); ok {
					each(name, fields{}, c)
				}
				continue
			}
			if f, ok := d.fields(c, in); ok {
				if name, ok := d.needText(f, "name", in); ok {
					each(name, f, c)
				}
			}
		}
	}
}

// named enters a name that must be the only one of its kind.
func (d *decoder) named(no map[string]int, name string, index int, what string, at *yaml.Node) {
	if _, twice := no[slug(name)]; twice && at != nil {
		d.fail(at, "double-name", fmt.Sprintf("two %s are called %s", what, quote(name)))
	}
	no[slug(name)] = index
}

func (d *decoder) cooks(n *yaml.Node) {
	k, found := &d.p.Kitchen, d.found
	d.several(n, "cooks", "Cook", inCook, 100, func(name string, f fields, at *yaml.Node) {
		d.named(d.cookNo, name, len(k.Cooks), "cooks", at)
		c := plan.Cook{Name: name, Free: d.freeByDefault()}
		if at != nil {
			c.Pos = pos(at)
		}
		if free := f.get("free"); free != nil {
			c.Free = d.windows(free)
		}
		c.Sits, _ = field(d, f, "sits", yesNo)
		k.Cooks = append(k.Cooks, c)
	})
	if n != nil && len(k.Cooks) == 0 && d.found == found {
		d.fail(n, "missing", "a kitchen needs a cook", "leave `cooks` out for one cook who is there all the time")
	}
}

// freeByDefault is from plan.DefaultLead before the first serve to the last, as
// late as that may be: a cook who left on the dot could not be late at all.
func (d *decoder) freeByDefault() []plan.Window {
	first, last := time.Duration(1<<62), time.Duration(0)
	for _, c := range d.p.Courses {
		first, last = min(first, c.Serve), max(last, c.Serve+c.LateOK)
	}
	if len(d.p.Courses) == 0 {
		first = 0
	}
	t := d.p.Table
	return []plan.Window{{From: t.Add(first - plan.DefaultLead), To: t.Add(last)}}
}

// windows reads when a cook is free: in order of time, overlapping ones as one.
func (d *decoder) windows(n *yaml.Node) []plan.Window {
	var out []plan.Window
	for _, c := range d.list(n, "`free`") {
		w, ok := value(d, c, "a stretch of time", d.table.window)
		if !ok {
			continue
		}
		out = append(out, w)
	}
	slices.SortFunc(out, func(a, b plan.Window) int { return a.From.Compare(b.From) })
	merged := out[:0]
	for _, w := range out {
		if i := len(merged) - 1; i >= 0 && !w.From.After(merged[i].To) {
			if w.To.After(merged[i].To) {
				merged[i].To = w.To
			}
			continue
		}
		merged = append(merged, w)
	}
	return merged
}

func (d *decoder) burners(n *yaml.Node) {
	if n == nil {
		return
	}
	if n.Kind == yaml.ScalarNode {
		d.fail(n, "wrong-kind", "`burners` tells large from small", "write {large: 2, small: 2}")
		return
	}
	f, ok := d.fields(n, inBurners)
	if !ok {
		return
	}
	d.p.Kitchen.Burners.Large, _ = field(d, f, "large", count(0, 100))
	d.p.Kitchen.Burners.Small, _ = field(d, f, "small", count(0, 100))
}
