package run

import (
	"cmp"
	"slices"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/heat"
	"example.org/kettledrum/plan/network"
)

// Tags of arcs. A back arc keeps two points together (a fixed length, at once,
// a wait that ends with what follows): it holds nobody up.
const (
	forward = iota
	back
)

// order is the run as a network of difference constraints, in nanoseconds: the
// order of the timetable in force on every resource, with the facts of the run.
//
// Points: start and end of each step that is not skipped, each oven setting of
// the timetable, the serve of each course. Presence, minding and touches are
// not in it: they are no order.
type order struct {
	s          *State
	timetabled bool // with the order of the timetable
	// net holds the arcs; points of what is a fact get none but themselves.
	net *network.Network
	// links are the steps each one follows, those of a skipped one in its place;
	// next are the ones that follow it.
	links [][]plan.Link
	next  [][]int
	// follows is, of a wait that ends when another step starts, that step;
	// atServe says of a wait that it ends with its course's serve.
	follows []int
	atServe []bool
	sets    []setting
}

func (o *order) start(i int) int { return 2 * i }
func (o *order) end(i int) int   { return 2*i + 1 }
func (o *order) set(k int) int   { return 2*len(o.s.Steps) + k }
func (o *order) serve(c int) int { return 2*len(o.s.Steps) + len(o.sets) + c }

// orderOf builds the network. Without the timetable's order only what the plan
// itself says is in it: what each step follows, which is never a circle.
func orderOf(s *State, timetabled bool) *order {
	o := &order{s: s, timetabled: timetabled, follows: make([]int, len(s.Steps)), atServe: make([]bool, len(s.Steps))}
	o.resolve()
	o.sets = settings(s)
	o.net = network.New(2*len(s.Steps) + len(o.sets) + len(s.Courses))
	for i := range s.Steps {
		o.wait(i)
	}
	for i := range s.Steps {
		o.step(i)
	}
	o.serves()
	if timetabled {
		o.cooks()
		o.units()
		o.ovens()
		o.settings()
	}
	return o
}

// resolve finds links and next: a skipped step hands its place to those it follows.
func (o *order) resolve() {
	o.links = make([][]plan.Link, len(o.s.Steps))
	o.next = make([][]int, len(o.s.Steps))
	var add func(to []plan.Link, of []plan.Link) []plan.Link
	add = func(to []plan.Link, of []plan.Link) []plan.Link {
		for _, l := range of {
			if o.skipped(l.Step) {
				to = add(to, o.s.Plan.Steps[l.Step].After)
			} else {
				to = append(to, l)
			}
		}
		return to
	}
	for j := range o.s.Steps {
		if o.skipped(j) {
			continue
		}
		o.links[j] = add(nil, o.s.Plan.Steps[j].After)
		for _, l := range o.links[j] {
			o.next[l.Step] = append(o.next[l.Step], j)
		}
	}
}

// wait finds what ends an elastic step: in the timetable nothing lies between.
func (o *order) wait(i int) {
	o.follows[i] = -1
	if !o.s.Plan.Steps[i].Length.Elastic || o.skipped(i) || !o.timetabled {
		return
	}
	slot := o.s.Timetable.Slots[i]
	first := slot.End
	for _, j := range o.next[i] {
		starts := o.s.Timetable.Slots[j].Start.Add(-o.gap(i, j))
		if !o.s.Plan.Steps[j].AtOnce && !starts.After(first) && (o.follows[i] < 0 || starts.Before(first)) {
			o.follows[i], first = j, starts
		}
	}
	c := o.s.Plan.CourseOf(i)
	o.atServe[i] = len(o.next[i]) == 0 && !slot.End.Before(o.s.Timetable.Serves[c])
}

// gap is the least gap between step i and its follower j.
func (o *order) gap(i, j int) time.Duration {
	var g time.Duration
	for _, l := range o.links[j] {
		if l.Step == i {
			g = max(g, l.Min)
		}
	}
	return g
}

// ends reports whether the end of step i asks for the cook: always of a step
// whose length the food decides; of a wait, if nothing else tells that it is over.
func (o *order) ends(i int) bool {
	step := &o.s.Plan.Steps[i]
	if !step.Length.Elastic {
		return true
	}
	if o.follows[i] >= 0 || o.atServe[i] {
		return false
	}
	return step.Oven != nil || step.Burner != nil || o.hasAtOnce(i)
}

func (o *order) hasAtOnce(i int) bool {
	return slices.ContainsFunc(o.next[i], func(j int) bool { return o.s.Plan.Steps[j].AtOnce })
}

// step adds the arcs of one step: its length, and what it follows.
func (o *order) step(i int) {
	if o.skipped(i) {
		return
	}
	st, step := &o.s.Steps[i], &o.s.Plan.Steps[i]
	long := o.s.length(i)
	if st.Status == plan.Ahead || (st.Status == plan.Begun && step.Length.Elastic) {
		o.arc(o.start(i), o.end(i), long)
		if !step.Length.Elastic {
			o.together(o.end(i), o.start(i), -long)
		}
	}
	if st.Status == plan.Begun || st.Status == plan.Done {
		return // its start is a fact
	}
	for _, l := range o.links[i] {
		pred, wait := l.Step, o.follows[l.Step] == i
		if o.s.Plan.Steps[pred].Length.Elastic && !o.ends(pred) {
			o.arc(o.start(pred), o.start(i), o.s.length(pred)+l.Min)
		}
		switch {
		case wait && o.s.Steps[pred].Status != plan.Done:
			o.together(o.end(pred), o.start(i), l.Min)
			o.together(o.start(i), o.end(pred), -l.Min)
		case o.s.Plan.Steps[pred].Length.Elastic && !o.ends(pred):
			o.together(o.end(pred), o.start(i), l.Min) // ends by itself, as planned
		default:
			o.arc(o.end(pred), o.start(i), l.Min)
		}
	}
	if last := o.leads(i); last >= 0 {
		o.together(o.start(i), o.end(last), 0)
	}
}

// leads returns the step that is to end the moment step i starts: of those that
// an at_once step follows the one planned to end last, if its end can still be
// moved; else −1.
func (o *order) leads(i int) int {
	if !o.auto(i) || !o.timetabled {
		return -1
	}
	last := -1
	for _, l := range o.links[i] {
		switch st := o.s.Steps[l.Step].Status; {
		case st == plan.Begun && !o.s.Plan.Steps[l.Step].Length.Elastic, st == plan.Done:
			return -1
		case last < 0 || o.s.Timetable.Slots[l.Step].End.After(o.s.Timetable.Slots[last].End):
			last = l.Step
		}
	}
	return last
}

// auto reports whether step i starts without a word when what it follows ends.
func (o *order) auto(i int) bool { return o.s.Plan.Steps[i].AtOnce && len(o.links[i]) > 0 }

// serves adds the arcs of the courses.
func (o *order) serves() {
	open := func(c int) bool { return o.s.Courses[c].Served.IsZero() }
	for c := range o.s.Courses {
		if c > 0 && open(c) {
			o.arc(o.serve(c-1), o.serve(c), o.s.Plan.Courses[c-1].Seated)
		}
	}
	for i := range o.s.Steps {
		if o.skipped(i) || !open(o.s.Plan.CourseOf(i)) {
			continue
		}
		serve := o.serve(o.s.Plan.CourseOf(i))
		switch {
		case !o.atServe[i]:
			o.arc(o.end(i), serve, 0)
		case o.s.Steps[i].Status != plan.Done:
			o.arc(o.start(i), serve, o.s.length(i))
			o.together(o.end(i), serve, 0)
			o.together(serve, o.end(i), 0)
		}
	}
}

// cooks adds an arc from each step that works a cook to that cook's next.
func (o *order) cooks() {
	last := make(map[int]int)
	for _, j := range o.byTime(func(i int) bool {
		return o.s.Plan.Steps[i].Hands.Working() && o.s.Timetable.Slots[i].Cook >= 0
	}) {
		cook := o.s.Timetable.Slots[j].Cook
		if i, ok := last[cook]; ok {
			o.hand(i, j)
		}
		last[cook] = j
	}
}

// units hands each burner, each piece of a tool and each half shelf from one
// user to the next: a partial-order schedule. Source: Policella, Cesta, Oddi and
// Smith, From precedence constraint posting to partial order schedules, AI
// Communications 20 (2007), from memory.
func (o *order) units() {
	k, steps, slots := &o.s.Plan.Kitchen, o.s.Plan.Steps, o.s.Timetable.Slots
	counts := [...]int{plan.Small: k.Burners.Small, plan.Large: k.Burners.Large}
	for size := plan.Small; size <= plan.Large; size++ {
		o.resource(counts[size], func(i int) int {
			if steps[i].Burner == nil || slots[i].Burner != size {
				return 0
			}
			return steps[i].Burner.Count
		})
	}
	for tool := range k.Tools {
		o.resource(k.Tools[tool].Count, func(i int) (n int) {
			for _, u := range steps[i].Uses {
				if u.Tool == tool {
					n += u.Count
				}
			}
			return n
		})
	}
	for oven := range k.Ovens {
		o.resource(k.Ovens[oven].Shelves, func(i int) int {
			if steps[i].Oven == nil || slots[i].Oven != oven {
				return 0
			}
			return steps[i].Oven.Space
		})
	}
}

// resource gives the units of one resource to its users in the order of time:
// to each those that were used last of the ones that are free by then, else the
// ones free first.
func (o *order) resource(units int, demand func(i int) int) {
	users := o.byTime(func(i int) bool { return demand(i) > 0 })
	if len(users) < 2 || units == 0 {
		return
	}
	held := make([]int, units) // by whom last
	for u := range held {
		held[u] = -1
	}
	free := func(u int) time.Time {
		if held[u] < 0 {
			return time.Time{}
		}
		return o.expected(held[u])
	}
	pick := make([]int, units)
	for u := range pick {
		pick[u] = u
	}
	for _, j := range users {
		at := o.begins(j)
		slices.SortStableFunc(pick, func(a, b int) int {
			fa, fb := free(a), free(b)
			la, lb := fa.After(at), fb.After(at)
			switch {
			case la != lb && lb:
				return -1
			case la != lb:
				return 1
			case la:
				return fa.Compare(fb)
			}
			return fb.Compare(fa)
		})
		for _, u := range pick[:min(demand(j), units)] {
			if held[u] >= 0 {
				o.hand(held[u], j)
			}
			held[u] = j
		}
	}
}

// hand adds that step j takes over from step i, unless the timetable has them
// overlap all the same or it is no longer so.
func (o *order) hand(i, j int) { o.handAfter(i, j, 0) }

func (o *order) handAfter(i, j int, lag time.Duration) {
	from, to := &o.s.Steps[i], &o.s.Steps[j]
	if i == j || from.Status == plan.Done || to.Status != plan.Ahead {
		return
	}
	if o.auto(j) && o.leads(j) < 0 {
		return // what it follows is going: it starts with that one's end, come what may
	}
	t := o.s.Timetable
	if from.Status == plan.Begun || !t.Slots[i].End.After(t.Slots[j].Start) {
		o.arc(o.end(i), o.start(j), lag)
	}
}

// begins is when a step takes its place in the order of its resources: as
// planned, or when it began, if that was earlier. What began late goes before
// what was to follow it all the same.
func (o *order) begins(i int) time.Time {
	planned := o.s.Timetable.Slots[i].Start
	if st := &o.s.Steps[i]; st.Status != plan.Ahead && st.Started.Before(planned) {
		return st.Started
	}
	return planned
}

// expected is when a step lets go of its resources: a fact, else as expected.
func (o *order) expected(i int) time.Time {
	st, planned := &o.s.Steps[i], o.s.Timetable.Slots[i].End
	switch st.Status {
	case plan.Done:
		return st.Finished
	case plan.Begun:
		end := st.Started.Add(o.s.length(i))
		if o.s.Plan.Steps[i].Length.Elastic && planned.After(end) {
			return planned
		}
		return end
	}
	return planned
}

// byTime returns the steps that are not skipped and that want says, by start.
func (o *order) byTime(want func(i int) bool) []int {
	var out []int
	for i := range o.s.Steps {
		if !o.skipped(i) && want(i) {
			out = append(out, i)
		}
	}
	slices.SortStableFunc(out, func(a, b int) int {
		return cmp.Or(o.begins(a).Compare(o.begins(b)), o.expected(a).Compare(o.expected(b)), cmp.Compare(a, b))
	})
	return out
}

// ovens adds the changeover between bakes that no temperature suits both of.
func (o *order) ovens() {
	for a := range o.s.Steps {
		for b := range o.s.Steps {
			if o.unlike(a, b) && o.before(a, b) && !o.auto(b) {
				o.handAfter(a, b, o.changeover(a, b))
			}
		}
	}
}

// before says which of two bakes the timetable has first.
func (o *order) before(a, b int) bool {
	return cmp.Or(o.begins(a).Compare(o.begins(b)), cmp.Compare(a, b)) < 0
}

// unlike reports whether two steps bake in the same oven, and no temperature suits both.
func (o *order) unlike(a, b int) bool {
	x, y := o.s.Plan.Steps[a].Oven, o.s.Plan.Steps[b].Oven
	oven := o.s.Timetable.Slots[a].Oven
	return a != b && x != nil && y != nil && oven >= 0 && oven == o.s.Timetable.Slots[b].Oven &&
		!o.skipped(a) && !o.skipped(b) && (x.Hi < y.Lo || y.Hi < x.Lo)
}

func (o *order) changeover(a, b int) time.Duration {
	x, y := o.s.Plan.Steps[a].Oven, o.s.Plan.Steps[b].Oven
	d := ovenOf(o.s.Plan, o.s.Timetable.Slots[a].Oven).Between(x.Lo, x.Hi, y.Lo, y.Hi)
	if d == heat.Never {
		return 0 // no order helps, the timetable is broken there
	}
	return wholeMinutes(d)
}

func (o *order) skipped(i int) bool { return o.s.Steps[i].Status == plan.Skipped }

func (o *order) arc(from, to int, d time.Duration)      { o.net.AddArc(from, to, int64(d), forward) }
func (o *order) together(from, to int, d time.Duration) { o.net.AddArc(from, to, int64(d), back) }

func ovenOf(p *plan.Plan, i int) heat.Oven { return heat.Of(p.Kitchen.Ovens[i], p.Kitchen.Room) }

func wholeMinutes(d time.Duration) time.Duration { return time.Duration(plan.Minutes(d)) * time.Minute }
