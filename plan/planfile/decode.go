package planfile

import (
	"fmt"
	"strings"
	"time"
	_ "time/tzdata" // a plan's zone must be known on every machine

	"gopkg.in/yaml.v3"

	"example.org/kettledrum/plan"
)

// Options are what a plan's text leaves to its surroundings.
type Options struct {
	// Serve moves the dinner: "19:00" to Now's day in the plan's zone,
	// "2026-12-05 19:00" to that. Empty: as the plan says.
	Serve string
	Now   time.Time
	Local *time.Location // the zone of a plan that names none; nil is UTC
	// Locale, as in LANG, decides the units of a plan that names none.
	Locale string
	// Open returns the text of a file beside the plan, for a kitchen in a file of
	// its own. nil refuses such a plan.
	Open func(name string) ([]byte, error)
}

// Version is the version of the plan file's format.
const Version = 1

// maxProblems is how many problems are reported in full.
const maxProblems = 100

// maxCompared is how many words one decoding compares with misspelt ones: a file
// of nothing but misspelt words must not take long.
const maxCompared = 50_000

// decoder is one decoding: the plan as far as it is known and what was wrong.
type decoder struct {
	o        Options
	src      source
	file     string // what src is, where it is not the plan
	p        *plan.Plan
	loc      *time.Location
	problems plan.Problems
	found    int  // errors so far
	dropped  int  // problems not reported
	failed   bool // one of those is an error
	compared int

	table dinner // when the dinner is, and was before Options.Serve
	// What is not checked against the rest, for it could not be read.
	coursesBad, kitchenBad, dishesBad, stepsBad bool

	// The kitchen could not be read at all: the names of its parts are not known.
	noKitchen bool

	courseNo  map[string]int // by slug of the name
	cookNo    map[string]int
	ovenNo    map[string]int
	toolNo    map[string]int
	listed    []string // tools that the kitchen lists
	raw       []rawStep
	dishSteps []map[string]int // of each dish: step by id
	choreNo   map[string]int   // step by id
}

// Decode reads a plan. It returns nil for the plan when any of the problems is
// an error; problems that are notices come with the plan. Whatever the bytes,
// it does not panic, and every problem has a position.
func Decode(src []byte, o Options) (*plan.Plan, plan.Problems) {
	if o.Local == nil {
		o.Local = time.UTC
	}
	d := &decoder{o: o, src: newSource(src), p: &plan.Plan{}, loc: o.Local}
	if root := d.parse(src, inPlan); root != nil {
		d.plan(root)
	}
	if d.sort(); d.problems.HasErrors() {
		return nil, d.problems
	}
	return d.p, d.problems
}

// sort puts the problems into the order of the file, and says how many more there
// are.
func (d *decoder) sort() {
	d.problems.Sort()
	if d.dropped > 0 {
		last := d.problems[len(d.problems)-1]
		d.problems = append(d.problems, plan.Problem{Code: "too-many", Pos: last.Pos,
			File: last.File, Line: last.Line, Severity: severity(d.failed), Text: fmt.Sprintf("and %d more problems", d.dropped)})
	}
}

func (d *decoder) plan(root *yaml.Node) {
	f, ok := d.fields(root, inPlan)
	if !ok {
		return
	}
	d.version(f)
	d.p.Title = d.optionalText(f, "title")
	d.p.GuestsNote = d.optionalText(f, "guests_note")
	d.p.Avoid = d.texts(f, "avoid")
	d.p.Rules = "us"
	if r, ok := field(d, f, "rules", oneOf([]string{"us", "uk"}, []string{"us", "uk"})); ok {
		d.p.Rules = r
	}
	d.p.Guests, _ = field(d, f, "guests", count(1, 10000))
	d.p.Units = unitsOf(d.o.Locale)
	if u, ok := field(d, f, "units", oneOf([]string{"F", "C"}, []plan.Units{plan.Fahrenheit, plan.Metric})); ok {
		d.p.Units = u
	}
	if loc, ok := field(d, f, "zone", zone); ok {
		d.loc = loc
	}
	d.dinnerTime(f)
	dishes := d.dishNodes(f)
	d.coursesBad = d.fails(func() { d.courses(f, dishes) }) || f.meant["courses"]
	d.kitchenBad = d.fails(func() { d.kitchen(f.get("kitchen")) }) || f.meant["kitchen"]
	d.stepsBad = d.fails(func() {
		d.dishes(dishes)
		d.chores(f.get("chores"))
		d.references()
	})
	d.validate()
}

// fails tells whether read finds a mistake.
func (d *decoder) fails(read func()) bool {
	found := d.found
	read()
	return d.found > found
}

func severity(failed bool) plan.Severity {
	if failed {
		return plan.Error
	}
	return plan.Notice
}

func (d *decoder) version(f fields) {
	n := f.get("kettledrum")
	if n == nil {
		hint := fmt.Sprintf("write `kettledrum: %d` in the first line: the version of the file's format", Version)
		d.missing(f, "kettledrum", "`kettledrum` is missing", hint)
		return
	}
	if v, ok := value(d, n, "`kettledrum`", count(0, 1<<30)); ok && v != Version {
		d.fail(n, "version", fmt.Sprintf("this file is of version %d, this program reads version %d", v, Version))
	}
}

// fahrenheitLands are the countries whose ovens show °F. Source: common
// practice (Unicode CLDR, supplemental data, measurementSystem "temperature-US").
var fahrenheitLands = []string{"US", "BS", "BZ", "KY", "PR", "PW"}

// unitsOf returns the units of a locale such as "de_AT.UTF-8"; without a
// country they are Fahrenheit, as in the documentation.
func unitsOf(locale string) plan.Units {
	name, _, _ := strings.Cut(locale, ".")
	name, _, _ = strings.Cut(name, "@")
	_, land, ok := strings.Cut(strings.ReplaceAll(name, "-", "_"), "_")
	if !ok || contains(fahrenheitLands, strings.ToUpper(land)) {
		return plan.Fahrenheit
	}
	return plan.Metric
}

// courses reads the courses. Left out, there is one, under the name that the
// dishes give it.
func (d *decoder) courses(f fields, dishes []*yaml.Node) {
	d.courseNo = map[string]int{}
	n := f.get("courses")
	if n == nil {
		d.oneCourse(f.node, dishes)
		return
	}
	if n.Kind != yaml.SequenceNode || len(n.Content) == 0 {
		d.fail(n, "wrong-kind", "`courses` is a list of courses, not "+kindOf(n), "write - {name: Main, serve: 45m}")
		return
	}
	for _, c := range n.Content {
		cf, ok := d.fields(c, inCourse)
		if !ok {
			continue
		}
		name, _ := d.needText(cf, "name", inCourse)
		course := plan.Course{Name: name, Seated: plan.DefaultSeated, LateOK: plan.DefaultLateOK, Pos: pos(c)}
		if v, ok := field(d, cf, "serve", Duration); ok {
			course.Serve = v
		}
		if v, ok := field(d, cf, "seated", Duration); ok {
			course.Seated = v
		}
		if v, ok := field(d, cf, "late_ok", Duration); ok {
			course.LateOK = v
		}
		course.SlipsAway, _ = field(d, cf, "slips_away", Duration)
		d.addCourse(c, course)
	}
}

func (d *decoder) addCourse(n *yaml.Node, c plan.Course) {
	if c.Name != "" {
		if _, twice := d.courseNo[slug(c.Name)]; twice {
			d.fail(n, "double-name", fmt.Sprintf("two courses are called %s", quote(c.Name)))
		}
		d.courseNo[slug(c.Name)] = len(d.p.Courses)
	}
	d.p.Courses = append(d.p.Courses, c)
}

// oneCourse makes the course of a plan that lists none.
func (d *decoder) oneCourse(root *yaml.Node, dishes []*yaml.Node) {
	c := plan.Course{Name: "Dinner", Seated: plan.DefaultSeated, LateOK: plan.DefaultLateOK, Pos: pos(root)}
	named := false
	for _, n := range dishes {
		name := child(n, "course")
		if name == nil || name.Kind != yaml.ScalarNode || strings.TrimSpace(name.Value) == "" {
			continue
		}
		text := strings.Join(strings.Fields(name.Value), " ")
		if named && slug(text) != slug(c.Name) {
			d.fail(name, "missing", fmt.Sprintf("dishes name two courses, %s and %s, and `courses` is missing",
				quote(c.Name), quote(text)), "list both under `courses`, each with its `serve`")
			d.courseNo[slug(text)] = 0
			continue
		}
		c.Name, c.Pos, named = text, pos(name), true
	}
	d.addCourse(root, c)
}

// child returns the value of key in a mapping, without checking the mapping.
func child(n *yaml.Node, key string) *yaml.Node {
	if n.Kind != yaml.MappingNode {
		return nil
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == key {
			return n.Content[i+1]
		}
	}
	return nil
}

// nearest is the function nearest, as often as maxCompared allows.
func (d *decoder) nearest(word string, candidates []string, per int) (string, bool) {
	if d.compared > maxCompared {
		return "", false
	}
	d.compared += min(len(candidates), maxCompared)
	return nearest(word, candidates[:min(len(candidates), maxCompared)], per)
}
