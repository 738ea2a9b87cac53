package risk

import (
	"cmp"
	"slices"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/network"
	"example.org/kettledrum/plan/run"
)

// compile makes the nodes and arcs of a dispatcher of the network of a timetable.
//
//  1. Points that keep a fixed distance are one node: a wait ends when what follows
//     starts, or with the serve. The two ends of an uncertain step are not: how long
//     it takes is known only in the evening.
//  2. What starts at once starts with the end of what it follows, come what may. What
//     it needs has to be free by then as far as one can tell: what it would wait for
//     is for the step before it to wait for, by as much less as that takes.
//  3. Nodes are put in order. On a circle, what goes by an expected end gives way:
//     that end comes after the node itself.
func compile(d *Dispatcher, p *plan.Plan, t *plan.Timetable, f *run.Fixed) {
	b := &builder{d: d, p: p, t: t, f: f}
	b.join()
	b.waits()
	b.inOrder()
}

type builder struct {
	d *Dispatcher
	p *plan.Plan
	t *plan.Timetable
	f *run.Fixed

	ref   []ref // of each point: its node, before they are put in order
	lower []int64
	due   []int64 // when each node comes by the timetable
	in    [][]arc // of each node
	ends  []int   // of each node, the step of which it is the uncertain end; −1

	rounds int // of open
}

// uncertain returns the step of which a point is the end, if the food decides how
// long it takes; else −1.
func (b *builder) uncertain(point int) int {
	if i := point / 2; i < len(b.p.Steps) && point == b.f.End(i) && !b.p.Steps[i].Length.Elastic {
		return i
	}
	return -1
}

// starts returns the step of which a point is the start, else −1.
func (b *builder) starts(point int) int {
	if i := point / 2; i < len(b.p.Steps) && point == b.f.Start(i) {
		return i
	}
	return -1
}

// long reports whether an arc is the length of an uncertain step, or holds its end to it.
func (b *builder) long(a network.Arc) bool {
	i := a.From / 2
	return i < len(b.p.Steps) && a.From/2 == a.To/2 && !b.p.Steps[i].Length.Elastic
}

// leads returns the uncertain step that step i starts with the end of; −1 for none.
func (b *builder) leads(i int) int {
	if l := b.f.Leads[i]; l >= 0 && !b.p.Steps[l].Length.Elastic {
		return l
	}
	return -1
}

// pulls reports whether an arc moves the end of an uncertain step to the start of what
// follows it at once.
func (b *builder) pulls(a network.Arc) bool {
	i, l := b.starts(a.From), b.uncertain(a.To)
	return i >= 0 && l >= 0 && b.leads(i) == l
}

// join makes one node of points that keep their distance.
func (b *builder) join() {
	points := len(b.f.Lower)
	parent, off := make([]int, points), make([]int64, points) // x[v] = x[parent] + off
	for v := range parent {
		parent[v] = v
	}
	var find func(v int) (int, int64)
	find = func(v int) (int, int64) {
		if parent[v] == v {
			return v, 0
		}
		r, o := find(parent[v])
		parent[v], off[v] = r, off[v]+o
		return r, off[v]
	}
	type pair struct{ from, to int }
	least := map[pair]int64{}
	for _, a := range b.f.Arcs {
		if b.long(a) || b.pulls(a) {
			continue
		}
		k := pair{a.From, a.To}
		if w, ok := least[k]; !ok || a.Weight > w {
			least[k] = a.Weight
		}
	}
	for _, a := range b.f.Arcs { // in their order, so that the same plan gives the same nodes
		w, ok := least[pair{a.From, a.To}]
		back, both := least[pair{a.To, a.From}]
		if !ok || !both || w != -back || b.uncertain(a.From) >= 0 || b.uncertain(a.To) >= 0 {
			continue
		}
		u, uo := find(a.From)
		v, vo := find(a.To)
		if u != v { // x[to] = x[from] + w
			parent[v], off[v] = u, uo+w-vo
		}
	}
	number := map[int]int32{}
	b.ref = make([]ref, points)
	for v := range b.ref {
		root, o := find(v)
		n, ok := number[root]
		if !ok {
			n = int32(len(number))
			number[root] = n
			b.lower = append(b.lower, never)
			b.due = append(b.due, b.planned(root))
		}
		b.ref[v] = ref{n, o}
		if l := b.f.Lower[v]; l != network.NoLower && b.uncertain(v) < 0 {
			b.lower[n] = max(b.lower[n], l-o)
		}
	}
	b.in = make([][]arc, len(b.lower))
}

// planned is when a point comes by the timetable.
func (b *builder) planned(point int) int64 {
	var at time.Time
	switch i, k := point/2, point-b.f.Set(0); {
	case k < 0 && point == b.f.Start(i):
		at = b.t.Slots[i].Start
	case k < 0:
		at = b.t.Slots[i].End
	case k < len(b.t.Sets):
		at = b.t.Sets[k].At
	default:
		at = b.t.Serves[k-len(b.t.Sets)]
	}
	return int64(at.Sub(b.p.Table))
}

// waits gives each node the arcs into it.
func (b *builder) waits() {
	for _, a := range b.f.Arcs {
		if b.long(a) || b.pulls(a) {
			continue
		}
		if u, v := b.ref[a.From], b.ref[a.To]; u.node == v.node {
			continue // kept by being one
		}
		if i := b.uncertain(a.To); i >= 0 { // what is made finds room where it is kept
			b.early(network.Arc{From: a.From, To: b.f.Start(i), Weight: a.Weight - b.d.planned[i]}, i)
			continue
		}
		i := b.starts(a.To)
		if i >= 0 && b.leads(i) >= 0 && !b.follows(i, a.From) {
			b.early(a, i)
			continue
		}
		b.wait(a, a.Weight)
	}
	for v := range b.in { // of several arcs from one node the longest counts
		slices.SortStableFunc(b.in[v], func(x, y arc) int {
			return cmp.Or(cmp.Compare(x.from, y.from), cmp.Compare(x.kind, y.kind), cmp.Compare(y.weight, x.weight))
		})
		b.in[v] = slices.CompactFunc(b.in[v], func(x, y arc) bool {
			return x.from == y.from && x.kind == plain && y.kind == plain
		})
	}
}

// follows reports whether a point is of a step that step i follows.
func (b *builder) follows(i, point int) bool {
	return slices.ContainsFunc(b.p.Steps[i].After, func(l plan.Link) bool {
		return point == b.f.End(l.Step) || point == b.f.Start(l.Step) && b.p.Steps[l.Step].Length.Elastic
	})
}

// early has the step that leads to step i wait for what that needs.
func (b *builder) early(a network.Arc, i int) {
	for w := a.Weight; ; {
		l := b.leads(i)
		if l < 0 {
			a.To = b.f.Start(i)
			if b.ref[a.From].node != b.ref[a.To].node {
				b.wait(a, w)
			}
			return
		}
		if a.From == b.f.End(l) {
			return
		}
		w -= b.d.planned[l]
		i = l
	}
}

// wait adds that a.To comes no earlier than w after a.From.
func (b *builder) wait(a network.Arc, w int64) {
	u, v := b.ref[a.From], b.ref[a.To]
	x := arc{from: u.node, weight: w + u.off - v.off, step: -1, bake: -1, set: -1, unless: ref{node: -1}}
	if i := b.uncertain(a.From); i >= 0 {
		x.step = int32(i)
		if w < 0 {
			x.kind = ahead
		} else {
			x.step = -1 // the end's own node tells
		}
	} else if i := b.starts(a.From); i >= 0 && b.p.Steps[i].Length.Elastic && w >= b.d.planned[i] {
		x.step = int32(i) // the least that a wait lasts
	}
	for k := range b.d.sets {
		if i := b.starts(a.To); a.From == b.f.Set(k) && i >= 0 {
			x.kind, x.set, x.bake, x.offset = ovenly, int32(k), int32(i), u.off-v.off
			if f := b.d.sets[k].For; f >= 0 && f != i && !b.p.Steps[f].AtOnce {
				x.unless = b.ref[b.f.Start(f)]
			}
		}
	}
	b.in[v.node] = append(b.in[v.node], x)
}

// inOrder numbers the nodes so that each comes after those that it waits for.
func (b *builder) inOrder() {
	n := len(b.in)
	b.ends = make([]int, n)
	for v := range b.ends {
		b.ends[v] = -1
	}
	for i := range b.p.Steps {
		if b.uncertain(b.f.End(i)) >= 0 {
			b.ends[b.ref[b.f.End(i)].node] = i
		}
	}
	place, order := make([]int32, n), make([]int, 0, n)
	for v := range place {
		place[v] = -1
	}
	ready := func(v int) bool {
		if b.ends[v] >= 0 {
			return place[b.begins(v).node] >= 0
		}
		return !slices.ContainsFunc(b.in[v], func(a arc) bool { return place[a.from] < 0 })
	}
	next := func(late bool) bool {
		for v := range n {
			if place[v] >= 0 || !ready(v) || !late && slices.ContainsFunc(b.in[v], func(a arc) bool { return a.unless.node >= 0 && place[a.unless.node] < 0 }) {
				continue
			}
			place[v] = int32(len(order))
			order = append(order, v)
			return true
		}
		return false
	}
	for len(order) < n {
		// What an arc counts until is to be known; where it comes later, it counts.
		if !next(false) && !next(true) {
			b.open(place)
		}
	}
	d := b.d
	d.nodes = make([]node, n)
	for at, v := range order {
		x := node{lower: b.lower[v], from: int32(len(d.arcs)), step: -1, set: -1}
		if b.ends[v] >= 0 {
			x.step, x.begins = int32(b.ends[v]), moved(b.begins(v), place)
		} else {
			for _, a := range b.in[v] {
				a.from = place[a.from]
				if a.unless.node >= 0 {
					if a.unless = moved(a.unless, place); a.unless.node >= int32(at) {
						a.unless.node = -1
					}
				}
				d.arcs = append(d.arcs, a)
			}
		}
		x.until = int32(len(d.arcs))
		d.nodes[at] = x
	}
	for i := range b.p.Steps {
		d.startOf = append(d.startOf, moved(b.ref[b.f.Start(i)], place))
		d.endOf = append(d.endOf, moved(b.ref[b.f.End(i)], place))
	}
	for k := range d.sets {
		d.setOf = append(d.setOf, moved(b.ref[b.f.Set(k)], place))
		d.nodes[d.setOf[k].node].set = int32(k)
	}
	for c := range b.p.Courses {
		d.serveOf = append(d.serveOf, moved(b.ref[b.f.Serve(c)], place))
	}
}

func moved(r ref, place []int32) ref { return ref{place[r.node], r.off} }

// open takes arcs out of the circles among the nodes that have no place yet. A node
// that is to come some time before another one, which itself comes after it, goes by
// what that one waits for beside it: what is made finds room where something else
// makes way for it, with the very step that takes both. Where nothing of that kind is
// left, what leads from later in the timetable goes.
func (b *builder) open(place []int32) {
	stuck := func(v int) bool { return place[v] < 0 }
	if b.rounds++; b.rounds <= len(b.in) {
		for v := range b.in {
			for k, a := range b.in[v] {
				if stuck(v) && a.weight < 0 && b.reaches(v, int(a.from), place) {
					b.in[v] = slices.Delete(b.in[v], k, k+1)
					b.instead(v, a)
					return
				}
			}
		}
	}
	for v := range b.in {
		if stuck(v) {
			b.in[v] = slices.DeleteFunc(b.in[v], func(a arc) bool {
				return stuck(int(a.from)) && cmp.Or(cmp.Compare(b.due[a.from], b.due[v]), cmp.Compare(int(a.from), v)) >= 0
			})
		}
	}
}

// reaches reports whether node v leads to node u, among those without a place.
func (b *builder) reaches(v, u int, place []int32) bool {
	seen := make([]bool, len(b.in))
	var from func(u int) bool // backward
	from = func(u int) bool {
		if u == v {
			return true
		}
		if seen[u] || place[u] >= 0 {
			return false
		}
		seen[u] = true
		if b.ends[u] >= 0 {
			return from(int(b.begins(u).node))
		}
		return slices.ContainsFunc(b.in[u], func(a arc) bool { return from(int(a.from)) })
	}
	return from(u)
}

// instead has node v wait for what node a.from waits for, but for v itself and the
// step that begins with it.
func (b *builder) instead(v int, a arc) {
	u := int(a.from)
	if i := b.ends[u]; i >= 0 {
		if r := b.begins(u); int(r.node) != v {
			b.in[v] = append(b.in[v], arc{from: r.node, step: -1, bake: -1, set: -1, unless: ref{node: -1}, weight: r.off + b.d.planned[i] + a.weight})
		}
		return
	}
	if b.lower[u] != never {
		b.lower[v] = max(b.lower[v], b.lower[u]+a.weight)
	}
	for _, x := range b.in[u] {
		i := b.ends[x.from]
		if int(x.from) == v || i >= 0 && int(b.begins(int(x.from)).node) == v {
			continue
		}
		x.weight += a.weight
		x.offset += a.weight
		if i >= 0 && x.weight < 0 {
			x.kind, x.step = ahead, int32(i)
		}
		b.in[v] = append(b.in[v], x)
	}
}

// begins is where the step starts whose uncertain end node v is.
func (b *builder) begins(v int) ref { return b.ref[b.f.Start(b.ends[v])] }
