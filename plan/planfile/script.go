package planfile

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"time"

	"gopkg.in/yaml.v3"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/mishap"
)

// Mishaps reads a mishap script for a plan: what goes wrong in a rehearsal of it.
// Written is when the plan's file has its dinner, where that was moved: weekdays
// refer to it. It returns nil for the mishaps when any of the problems is an
// error; else they are in the order of the file. As with Decode, every problem
// has a position, and all are told at once.
func Mishaps(src []byte, p *plan.Plan, written time.Time) ([]mishap.Mishap, plan.Problems) {
	d := &decoder{src: newSource(src), p: p, loc: p.Table.Location(), table: dinner{at: p.Table, written: written, known: true}}
	d.names()
	var out []mishap.Mishap
	if root := d.parse(src, inScript); root != nil {
		if f, ok := d.fields(root, inScript); ok {
			out = d.mishaps(f)
		}
	}
	if d.sort(); d.problems.HasErrors() {
		return nil, d.problems
	}
	return out, d.problems
}

// names enters what a script may name of the plan.
func (d *decoder) names() {
	d.courseNo, d.cookNo, d.ovenNo, d.choreNo = map[string]int{}, map[string]int{}, map[string]int{}, map[string]int{}
	for i, c := range d.p.Courses {
		d.courseNo[slug(c.Name)] = i
	}
	for i, c := range d.p.Kitchen.Cooks {
		d.cookNo[slug(c.Name)] = i
	}
	for i, o := range d.p.Kitchen.Ovens {
		d.ovenNo[slug(o.Name)] = i
	}
	for i := range d.p.Steps {
		if d.p.Dishes[d.p.Steps[i].Dish].Chore != nil {
			d.choreNo[d.p.Steps[i].ID] = i
		}
	}
}

func (d *decoder) mishaps(f fields) []mishap.Mishap {
	n := f.get("mishaps")
	if n == nil {
		d.missing(f, "mishaps", "`mishaps` is missing: what goes wrong", mishapHint)
		return nil
	}
	if isNothing(n) {
		return nil
	}
	if n.Kind != yaml.SequenceNode {
		d.fail(n, "wrong-kind", "`mishaps` is a list of mishaps, not "+kindOf(n), mishapHint)
		return nil
	}
	steps := d.resolver()
	var out []mishap.Mishap
	for _, c := range n.Content {
		if mf, ok := d.fields(c, inMishap); ok {
			out = append(out, d.mishap(mf, steps))
		}
	}
	return out
}

const mishapHint = `start each with a dash: - {at: "17:40", step: roast, longer: 25m}`

// mishap reads one mishap.
func (d *decoder) mishap(f fields, steps resolver) mishap.Mishap {
	m := mishap.None("")
	c, whole := d.combination(f)
	if whole {
		m.Kind = c.kind
		if c.timed && f.get("at") == nil {
			d.missing(f, "at", fmt.Sprintf("a mishap with %s needs `at`: when it happens", tick(c.keys[len(c.keys)-1])), "write it like at: \"17:40\"")
		}
	}
	m.Pos = pos(f.node)
	m.At, _ = field(d, f, "at", d.table.time)
	if n := f.get("step"); n != nil {
		m.Step, _ = steps.find(n)
	}
	if n := f.get("dish"); n != nil {
		m.Dish = d.dishNamed(n)
	}
	if n := f.get("cook"); n != nil {
		m.Cook = d.cookNamed(n, "`cook`")
	}
	if n := f.get("oven"); n != nil {
		m.Oven = d.ovenNamed(n, "`oven`")
	}
	for _, key := range []string{"hold", "release"} {
		if n := f.get(key); n != nil {
			m.Course, _ = d.courseNamed(n, tick(key))
		}
	}
	m.Burner, _ = field(d, f, "burner", oneOf(burnerWords, []plan.BurnerSize{plan.Large, plan.Small}))
	for _, key := range []string{"longer", "takes", "away", "by", "silent"} {
		if v, ok := field(d, f, key, some); ok {
			m.By = v
		}
	}
	m.Temp, _ = field(d, f, "reading", inside)
	m.Again, _ = field(d, f, "burnt", oneOf(burntWords, []bool{true, false}))
	for _, key := range []string{"dropped", "back", "fails", "works"} {
		if v, ok := field(d, f, key, yesNo); ok && !v {
			d.fail(f.get(key), "value", fmt.Sprintf("%s says nothing", tick(key+": false")), "leave the mishap out")
		}
	}
	field(d, f, "guests", oneOf(guestWords, []bool{true}))
	m.Remedy, _ = field(d, f, "take_remedy", count(1, mostRemedies))
	return m
}

// combination returns what kind of mishap the keys make. Whole is false where
// they make none, which is then told.
func (d *decoder) combination(f fields) (c combination, whole bool) {
	var has []string
	for _, key := range keys[inMishap] {
		if f.get(key) != nil && key != "at" {
			has = append(has, key)
		}
	}
	if len(f.meant) > 0 {
		return c, false // a misspelt key is told already
	}
	given := func(k string) bool { return slices.Contains(has, k) }
	var lacks []string
	for _, c := range combinations {
		fits := func(k string) bool { return k == c.may || slices.Contains(c.keys, k) }
		if slices.ContainsFunc(has, func(k string) bool { return !fits(k) }) {
			continue
		}
		missing := slices.DeleteFunc(slices.Clone(c.keys), given)
		if len(missing) == 0 {
			return c, true
		}
		lacks = append(lacks, strings.Join(ticks(missing), " and "))
	}
	switch {
	case len(has) == 0:
		d.fail(f.node, "empty-mishap", "the mishap does not say what happens", "keys are "+strings.Join(keys[inMishap], ", "))
	case len(lacks) > 0:
		d.fail(f.node, "empty-mishap", fmt.Sprintf("with only %s the mishap is not whole", strings.Join(ticks(has), " and ")), "write with it "+strings.Join(lacks, ", or "))
	default:
		d.fail(f.node, "two-mishaps", fmt.Sprintf("%s do not make one mishap", strings.Join(ticks(has), " and ")), "write each mishap as an item of its own")
	}
	return c, false
}

func ticks(words []string) []string {
	out := make([]string, len(words))
	for i, w := range words {
		out[i] = tick(w)
	}
	return out
}

// dishNamed returns the dish that n names, -1 for none.
func (d *decoder) dishNamed(n *yaml.Node) int {
	name, ok := d.text(n, "`dish`")
	if !ok {
		return -1
	}
	var names []string
	for i, dish := range d.p.Dishes {
		switch {
		case dish.Chore != nil:
		case dish.ID == slug(name):
			return i
		default:
			names = append(names, dish.Name)
		}
	}
	d.unknown(n, "unknown-dish", "dish", name, func() []string { return names })
	return -1
}

var timeForm = regexp.MustCompile(`^(?:(\pL+|-\d{1,3}d|\d{4}-\d\d-\d\d)[ T]+)?(\d\d?):(\d\d)$`)

// time reads "17:40" (on the dinner's day), "Fri 18:30" (the last such day up to
// the dinner's), "-1d 18:30" or "2026-10-16 18:30".
func (t dinner) time(s string) (time.Time, error) {
	m := timeForm.FindStringSubmatch(s)
	if m == nil {
		return time.Time{}, &mistake{"time", fmt.Sprintf("%s is no time", quote(s)), "write it like 17:40, Fri 18:30, -1d 18:30 or 2026-10-16 18:30"}
	}
	day, days, err := t.day(m[1])
	if err != nil {
		return time.Time{}, err
	}
	h, min, err := clockTime(m[2], m[3])
	if err != nil {
		return time.Time{}, err
	}
	return onDay(day, days, h, min)
}

// some reads a duration of a minute or more.
func some(s string) (time.Duration, error) {
	v, err := Duration(s)
	if err == nil && v < time.Minute {
		return 0, &mistake{"duration", fmt.Sprintf("%s is less than a minute", quote(s)), "a run is told in minutes"}
	}
	return v, err
}

// inside reads what a thermometer shows in the food.
func inside(s string) (plan.Celsius, error) {
	u, err := until(s)
	if err == nil && (!u.HasTemp || u.Sign != "") {
		return 0, &mistake{"temperature", fmt.Sprintf("%s is no temperature", quote(s)), "write it like 148F or 64C"}
	}
	return u.Temp, err
}
