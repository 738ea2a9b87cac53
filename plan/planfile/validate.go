package planfile

import (
	"fmt"
	"strings"

	"gopkg.in/yaml.v3"

	"example.org/kettledrum/plan"
)

// validate records what no single value can tell: cycles, more asked of the
// kitchen than it has, courses out of order.
// What could not be read is left alone, so that no mistake is told twice.
func (d *decoder) validate() {
	if !d.coursesBad {
		d.courseOrder()
	}
	for i := range d.p.Steps {
		s := &d.p.Steps[i]
		d.atOnce(s, d.raw[i].after)
		d.remindersCome(s, d.raw[i].f.get("remind"))
		if !d.kitchenBad {
			d.demands(s)
		}
	}
	circles := d.fails(d.cycle)
	if d.kitchenBad {
		return
	}
	d.coldPlaces()
	if !d.coursesBad {
		d.slipsAway()
	}
	if circles || d.stepsBad {
		return
	}
	d.vessels()
	if !d.coursesBad && d.table.known {
		d.meet()
	}
}

func (d *decoder) stepFails(s *plan.Step, code, text string, hints ...string) {
	d.add(plan.Problem{Code: code, Pos: s.Pos, Text: fmt.Sprintf("the step %s %s", quote(s.Do), text), Hints: hints})
}

// courseOrder checks that every course has a dish and that the courses come
// one after the other.
func (d *decoder) courseOrder() {
	cs := d.p.Courses
	dishes := make([]int, len(cs))
	for _, dish := range d.p.Dishes {
		if dish.Chore == nil {
			dishes[dish.Course]++
		}
	}
	for i, c := range cs {
		if dishes[i] == 0 && !d.dishesBad {
			d.add(plan.Problem{Code: "empty-course", Pos: c.Pos, Text: fmt.Sprintf("no dish belongs to the course %s", quote(c.Name)),
				Hints: []string{fmt.Sprintf("give a dish `course: %s`", short(c.Name))}})
		}
		if i == 0 {
			continue
		}
		before := cs[i-1]
		seatedUntil := before.Serve + before.Seated
		p := plan.Problem{Code: "course-order", Pos: c.Pos}
		clock := func(t plan.Course) string { return d.p.Table.Add(t.Serve).Format("15:04") }
		switch {
		case c.Serve <= before.Serve:
			p.Text = fmt.Sprintf("%s is served at %s, not after %s at %s", quote(c.Name), clock(c), quote(before.Name), clock(before))
			p.Hints = []string{"list the courses in the order in which they are served, each with its `serve` after the first"}
		case c.Serve+c.LateOK < seatedUntil:
			p.Text = fmt.Sprintf("%s at %s comes while the guests still sit with %s, until %s", quote(c.Name), clock(c), quote(before.Name),
				d.p.Table.Add(seatedUntil).Format("15:04"))
			p.Hints = []string{fmt.Sprintf("serve it later, or give %s a shorter `seated`", short(before.Name))}
		case c.Serve < seatedUntil:
			p.Severity = plan.Notice
			p.Text = fmt.Sprintf("%s will be late: the guests sit with %s until %s", quote(c.Name), quote(before.Name),
				d.p.Table.Add(seatedUntil).Format("15:04"))
		default:
			continue
		}
		d.add(p)
	}
}

// atOnce checks what a step that starts at once follows.
func (d *decoder) atOnce(s *plan.Step, after *yaml.Node) {
	if !s.AtOnce {
		return
	}
	if len(s.After) == 0 && (after == nil || after.Value == "none") {
		d.stepFails(s, "at-once", "has `at_once` but follows no step", "leave it out, or name a step with `after`")
	}
	for _, l := range s.After {
		if l.Min > 0 {
			d.stepFails(s, "at-once", fmt.Sprintf("cannot start at once and %s after %s", written(l.Min), quote(d.p.Steps[l.Step].Do)),
				"leave out `at_once` or the gap")
		}
	}
}

// slipsAway tells of courses that let a cook slip away where no cook sits.
func (d *decoder) slipsAway() {
	for _, c := range d.p.Kitchen.Cooks {
		if c.Sits {
			return
		}
	}
	for _, c := range d.p.Courses {
		if c.SlipsAway > 0 {
			d.add(plan.Problem{Code: "nobody-sits", Severity: plan.Notice, Pos: c.Pos,
				Text:  fmt.Sprintf("%s lets a cook slip away from the table, and no cook sits there", quote(c.Name)),
				Hints: []string{"give a cook `sits: true`, or leave `slips_away` out"}})
		}
	}
}

// remindersCome checks that each reminder comes while its step is going, at
// least where the step takes longest.
func (d *decoder) remindersCome(s *plan.Step, n *yaml.Node) {
	for i, r := range s.Reminds {
		if s.Length.Longest == 0 || r.When == plan.Halfway || r.For < s.Length.Longest {
			continue
		}
		when := "every " + written(r.For)
		if r.When == plan.BeforeEnd {
			when = written(r.For) + " before its end"
		}
		at := n
		if n.Kind == yaml.SequenceNode && len(n.Content) == len(s.Reminds) {
			at = n.Content[i]
		}
		d.fail(at, "never-comes", fmt.Sprintf("the reminder %s never comes: the step %s takes %s at most", when, quote(s.Do), written(s.Length.Longest)),
			"give it a shorter time, or leave it out")
	}
}

// cycle finds the circles of steps that follow each other and names all of each.
// Depth first, without recursion: a plan may be a chain of thousands of steps.
func (d *decoder) cycle() {
	const (
		unseen = iota
		open
		closed
	)
	steps := d.p.Steps
	state, next := make([]int, len(steps)), make([]int, len(steps))
	var path []int
	for root := range steps {
		if state[root] != unseen {
			continue
		}
		path = append(path[:0], root)
		state[root] = open
		for len(path) > 0 {
			i := path[len(path)-1]
			if next[i] == len(steps[i].After) {
				state[i] = closed
				path = path[:len(path)-1]
				continue
			}
			j := steps[i].After[next[i]].Step
			next[i]++
			switch state[j] {
			case unseen:
				state[j] = open
				path = append(path, j)
			case open:
				if !d.full() {
					d.cycleFound(path, j)
				}
			}
		}
	}
}

// cycleFound reports the cycle that closes from the end of path to step j. The
// path leads from each step to one before it in time.
func (d *decoder) cycleFound(path []int, j int) {
	start := len(path) - 1
	for path[start] != j {
		start--
	}
	const most = 30
	var names []string
	for k := len(path) - 1; k >= start; k-- {
		names = append(names, d.p.Steps[path[k]].ID)
	}
	names = append(names, names[0])
	if len(names) > most {
		names = append(append(names[:most/2:most/2], "…"), names[len(names)-most/2:]...)
	}
	last := &d.p.Steps[path[len(path)-1]]
	at := last.Pos
	for _, l := range last.After {
		if l.Step == j {
			at = l.Pos
		}
	}
	if len(path)-1 == start {
		d.add(plan.Problem{Code: "cycle", Pos: at, Text: fmt.Sprintf("%s follows itself", quote(last.Do))})
		return
	}
	d.add(plan.Problem{Code: "cycle", Pos: at, Text: "steps follow each other in a circle: " + strings.Join(names, " → "),
		Hints: []string{"each waits for the one before it, so none can start: change one `after`"}})
}
