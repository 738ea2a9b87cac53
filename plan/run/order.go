package run

import (
	"slices"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/network"
)

// Tags of arcs. A back arc keeps two points together (a fixed length, at once,
// a wait that ends with what follows): it holds nobody up.
//
// An arc of the order of the timetable on a resource is ordered: what happens may
// contradict it. It holds up, as a forward one.
const (
	forward = iota
	back
	ordered
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
	// begins and expected are when each step has its resources, see spans; nil without
	// the timetable's order.
	begins, expected []time.Time
	claims           []claim // memory for those on one resource
	tag              int     // of the arcs that are being added
	// fewer: there is less of the resource that is being ordered than the timetable
	// may have counted on; what overlaps in it takes turns.
	fewer bool
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
	if timetabled {
		o.spans()
	}
	o.net = network.New(2*len(s.Steps) + len(o.sets) + len(s.Courses))
	for i := range s.Steps {
		o.wait(i)
	}
	for i := range s.Steps {
		o.step(i)
	}
	o.serves()
	if timetabled {
		o.tag = ordered
		o.cooks()
		o.seats()
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
		o.links[j] = o.s.Plan.Steps[j].After
		if slices.ContainsFunc(o.links[j], func(l plan.Link) bool { return o.skipped(l.Step) }) {
			o.links[j] = add(nil, o.links[j])
		}
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
		chore := o.s.Plan.Dishes[o.s.Plan.Steps[i].Dish].Chore
		if chore != nil && chore.After >= 0 && o.s.Steps[i].Status == plan.Ahead {
			o.arc(o.serve(chore.After), o.start(i), 0)
		}
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

func (o *order) skipped(i int) bool { return o.s.Steps[i].Status == plan.Skipped }

func (o *order) arc(from, to int, d time.Duration)      { o.net.AddArc(from, to, int64(d), o.tag) }
func (o *order) together(from, to int, d time.Duration) { o.net.AddArc(from, to, int64(d), back) }
