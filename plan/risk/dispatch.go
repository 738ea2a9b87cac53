package risk

import (
	"math"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/heat"
	"example.org/kettledrum/plan/run"
)

// never is a time before all others.
const never = math.MinInt64

// Dispatcher cooks a dinner by its timetable, as often as one likes: everything
// as soon as it is due and possible, in the order that the timetable gives each
// resource. It is compiled once and then read only; each goroutine has an Evening
// of its own to run it in.
type Dispatcher struct {
	plan  *plan.Plan
	nodes []node // in an order in which each comes after all that it waits for
	arcs  []arc  // those into a node stand together

	startOf, endOf []ref   // where each step's start and end are
	setOf          []ref   // where each oven setting is
	serveOf        []ref   // where each course's serve is
	planned        []int64 // the length of each step that is planned with

	ovens []heat.Oven
	sets  []plan.OvenSet
}

// ref is a time point: so much after a node.
type ref struct {
	node int32
	off  int64
}

// node is a time, or several that keep a fixed distance from each other: where a
// wait ends when the next step starts, both are one node.
type node struct {
	lower       int64 // not before that, as planned; never where nothing is
	from, until int32 // its arcs
	step        int32 // of an uncertain step's end, the step; else −1
	begins      ref   // of such a node, the step's start
	set         int32 // of an oven setting, its number; else −1
}

type kind uint8

const (
	plain  kind = iota
	ahead       // goes by when a step is expected to end: see Evening.ahead
	ovenly      // from an oven setting to a bake: the lag is what the oven takes
)

// arc is what a node waits for.
type arc struct {
	from   int32
	kind   kind
	step   int32 // the step that the arc passes through, −1 for none
	bake   int32 // of an ovenly arc, the step that bakes
	set    int32 // of an ovenly arc, the setting
	weight int64 // at least so long after from
	offset int64 // of an ovenly arc: what weight adds to the oven's time
	// unless: an ovenly arc to a bake for which the oven was not set counts only until
	// that for which it was has gone in. node −1: for ever.
	unless ref
}

// Evening is one run of a dispatcher: its times, in nanoseconds after the plan's
// table. It is worked in again and again, by one goroutine.
type Evening struct {
	d     *Dispatcher
	x     []int64 // of each node
	bind  []int32 // of each node, the arc that it waited for last; −1: it came as planned
	took  []int64 // of each step, how long it takes
	temp  []plan.Celsius
	dials []dial // of each oven, how it was turned last
}

type dial struct {
	at   int64
	temp plan.Celsius // of the oven then
	to   plan.Celsius
	off  bool
}

// Compile prepares the timetable of a plan in which nothing has happened.
// Cost: O(P + A·log A) for P points and A arcs of the network that run.FixedOf has.
func Compile(p *plan.Plan, t *plan.Timetable) *Dispatcher {
	d := &Dispatcher{plan: p, sets: t.Sets}
	for i := range p.Steps {
		d.planned = append(d.planned, int64(p.Steps[i].Length.Planned()))
	}
	for _, o := range p.Kitchen.Ovens {
		d.ovens = append(d.ovens, heat.Of(o, p.Kitchen.Room))
	}
	compile(d, p, t, run.FixedOf(p, t))
	return d
}

// Evening returns a place to run the dispatcher in.
func (d *Dispatcher) Evening() *Evening {
	return &Evening{
		d: d, x: make([]int64, len(d.nodes)), bind: make([]int32, len(d.nodes)),
		temp: make([]plan.Celsius, len(d.sets)), dials: make([]dial, len(d.ovens)),
	}
}

// Run cooks one evening in which each step takes as long as took says; what it says
// of waits is not looked at. Without an allocation.
//
//	x[v] = max(lower[v], x[u] + w over all that v waits for)
//
// Shape: took has one entry for each step, in nanoseconds. It is read again by
// Critical. Cost: O(nodes + arcs).
func (e *Evening) Run(took []int64) { e.run(took, nil) }

// run is Run with what each node's lower bound is moved by; nil: nothing.
func (e *Evening) run(took, shift []int64) {
	d := e.d
	e.took = took
	for o := range e.dials {
		e.dials[o] = dial{at: never, temp: d.ovens[o].Room, off: true}
	}
	for v := range d.nodes {
		n := &d.nodes[v]
		if n.step >= 0 {
			e.x[v], e.bind[v] = e.x[n.begins.node]+n.begins.off+took[n.step], -1
			continue
		}
		t, bind, looks := n.lower, int32(-1), false
		if shift != nil && t != never {
			t += shift[v]
		}
		for a := n.from; a < n.until; a++ {
			arc := &d.arcs[a]
			w := arc.weight
			switch arc.kind {
			case ahead:
				looks = true
				continue
			case ovenly:
				w = arc.offset + int64(run.SetLag(d.plan, d.sets[arc.set], d.plan.Steps[arc.bake].Oven, e.temp[arc.set]))
			}
			at := e.x[arc.from] + w
			if arc.kind == ovenly && arc.unless.node >= 0 {
				at = min(at, e.at(arc.unless)+arc.offset)
			}
			if at > t {
				t, bind = at, a
			}
		}
		if looks {
			t, bind = e.ahead(n, t, bind)
		}
		e.x[v], e.bind[v] = t, bind
		if n.set >= 0 {
			e.turn(n.set, t)
		}
	}
}

// ahead is when a node comes that is due some time before a step ends: when an oven
// may be set anew in the last minutes of a bake, or a step may begin so that what
// follows it at once finds its burner free. Then it goes by when the step is expected
// to end. Where the step turns out shorter, the node comes when it is done; where it
// turns out longer, that shows only when its time is up, and the node may have come.
func (e *Evening) ahead(n *node, t int64, bind int32) (int64, int32) {
	d := e.d
	for again := true; again; {
		again = false
		for a := n.from; a < n.until; a++ {
			arc := &d.arcs[a]
			if arc.kind != ahead {
				continue
			}
			begins := d.nodes[arc.from].begins
			ends := e.x[arc.from]
			expected := e.x[begins.node] + begins.off + d.planned[arc.step]
			at := expected + arc.weight
			switch {
			case ends <= expected:
				at = min(at, ends)
			case t >= expected:
				at = ends + arc.weight
			}
			if at > t {
				t, bind, again = at, a, true
			}
		}
	}
	return t, bind
}

// turn turns the dial of an oven.
func (e *Evening) turn(k int32, at int64) {
	set := &e.d.sets[k]
	was := &e.dials[set.Oven]
	temp := was.temp
	if was.at != never && at > was.at {
		temp = e.d.ovens[set.Oven].After(was.temp, was.to, was.off, time.Duration(at-was.at))
	}
	e.temp[k] = temp
	*was = dial{at: at, temp: temp, to: set.To, off: set.Off}
}

func (e *Evening) at(r ref) int64 { return e.x[r.node] + r.off }

// Serve returns when course c was served, in nanoseconds after the plan's table.
func (e *Evening) Serve(c int) int64 { return e.at(e.d.serveOf[c]) }

// Start returns when step i began, likewise.
func (e *Evening) Start(i int) int64 { return e.at(e.d.startOf[i]) }

// End returns when step i was over, likewise.
func (e *Evening) End(i int) int64 { return e.at(e.d.endOf[i]) }

// Critical calls each for every step on the path that made course c come when it
// did: back from the serve, along what was waited for last, to what came as planned.
func (e *Evening) Critical(c int, each func(step int)) {
	d := e.d
	for v := d.serveOf[c].node; ; {
		n := &d.nodes[v]
		if n.step >= 0 {
			each(int(n.step))
			v = n.begins.node
			continue
		}
		a := e.bind[v]
		if a < 0 {
			return
		}
		if s := d.arcs[a].step; s >= 0 && d.arcs[a].kind == plain {
			each(int(s))
		}
		v = d.arcs[a].from
	}
}

// SetAt returns when oven setting k was done, likewise.
func (e *Evening) SetAt(k int) int64 { return e.at(e.d.setOf[k]) }
