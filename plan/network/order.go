package network

import "slices"

// side is a network seen in one direction of time, with the order in which its
// points are visited and the working memory of propagation. Seen backward, all
// arcs are turned round and all times negated, so that one algorithm does for
// earliest and latest times.
type side struct {
	arcs  []Arc // turned round if backward
	first []int // arcs leaving point i are out[first[i]:first[i+1]]
	out   []int

	// order lists the points component by component: no arc leads from a later
	// component to an earlier one, so an acyclic network is done in one pass.
	order []int
	place []int // place[order[k]] = k
	begin []int // order[begin[k]:until[k]] is the component that holds order[k]
	until []int

	dirty  []bool // points whose leaving arcs are to be looked at
	parent []int  // the arc that last moved a point, -1
	moves  []move // in this call, oldest first
	mark   []int  // which walk of cycle came by
}

// move is what undoes one move of a point.
type move struct {
	point int
	from  int64
}

func newSide(points int, arcs []Arc, backward bool) *side {
	ints := make([]int, 9*points+1+len(arcs)) // one piece of memory for all
	part := func(n int) []int {
		out := ints[:n:n]
		ints = ints[n:]
		return out
	}
	s := &side{
		arcs:   arcs,
		first:  part(points + 1),
		out:    part(len(arcs)),
		order:  part(points)[:0],
		place:  part(points),
		until:  part(points),
		begin:  part(points),
		parent: part(points),
		mark:   part(points),
		dirty:  make([]bool, points),
	}
	if backward {
		s.arcs = make([]Arc, len(arcs))
		for i, a := range arcs {
			s.arcs[i] = Arc{From: a.To, To: a.From, Weight: a.Weight, Tag: a.Tag}
		}
	}
	for _, a := range s.arcs {
		s.first[a.From+1]++
	}
	for i := range points {
		s.first[i+1] += s.first[i]
	}
	fill := part(points)
	copy(fill, s.first)
	for i, a := range s.arcs {
		s.out[fill[a.From]] = i
		fill[a.From]++
	}
	for i := range s.parent {
		s.parent[i] = -1
	}
	s.sort(points)
	return s
}

// sort finds the strongly connected components, in an order in which no arc
// leads back. Inside a component the points follow their arcs of weight 0 and
// more as far as these close no cycle: the other arcs, greatest distances, seldom
// bind, so few passes do.
//
// Cost: O(V + A). Source: Tarjan, Depth-first search and linear graph
// algorithms, SIAM J. Comput. 1 (1972).
func (s *side) sort(points int) {
	t := tarjan{side: s, seen: make([]bool, points)}
	ints := make([]int, 5*points)
	for k, part := range []*[]int{&t.rank, &t.index, &t.low, &t.stack, &t.closed} {
		*part = ints[k*points : (k+1)*points : (k+1)*points]
	}
	t.stack, t.closed = t.stack[:0], t.closed[:0]
	t.ranks()
	clear(t.seen) // from now on: open
	for v := range points {
		if t.index[v] == 0 {
			t.visit(v)
		}
	}
	for end := points; end > 0; { // Tarjan closes the last component first
		from := end - 1
		for t.index[t.closed[from]] != root {
			from--
		}
		component := t.closed[from:end]
		end = from
		if len(component) > 1 {
			slices.SortFunc(component, func(a, b int) int { return t.rank[a] - t.rank[b] })
		}
		start := len(s.order)
		for _, v := range component {
			s.place[v] = len(s.order)
			s.begin[s.place[v]], s.until[s.place[v]] = start, start+len(component)
			s.order = append(s.order, v)
		}
	}
}

// tarjan is the working memory of sort.
type tarjan struct {
	*side
	rank       []int
	seen       []bool // of ranks: visited; of visit: on the stack
	counter    int
	index, low []int // index 0: not visited
	stack      []int
	closed     []int // the points component by component, the first of each has index root
}

// root marks, as its index, the first point of a component that is closed.
const root = -1

// ranks numbers the points in reverse postorder of a depth-first search along
// the arcs of weight 0 and more.
func (t *tarjan) ranks() {
	next := len(t.rank)
	for v := range t.rank {
		if !t.seen[v] {
			next = t.rankFrom(v, next)
		}
	}
}

// rankFrom numbers v and what is reached from it, counting down from next.
func (t *tarjan) rankFrom(v, next int) int {
	t.seen[v] = true
	for _, a := range t.out[t.first[v]:t.first[v+1]] {
		if w := t.arcs[a].To; t.arcs[a].Weight >= 0 && !t.seen[w] {
			next = t.rankFrom(w, next)
		}
	}
	next--
	t.rank[v] = next
	return next
}

func (t *tarjan) visit(v int) {
	t.counter++
	t.index[v], t.low[v] = t.counter, t.counter
	t.stack, t.seen[v] = append(t.stack, v), true
	for _, a := range t.out[t.first[v]:t.first[v+1]] {
		w := t.arcs[a].To
		switch {
		case t.index[w] == 0:
			t.visit(w)
			t.low[v] = min(t.low[v], t.low[w])
		case t.seen[w]:
			t.low[v] = min(t.low[v], t.index[w])
		}
	}
	if t.low[v] != t.index[v] {
		return
	}
	first := len(t.closed)
	for {
		w := t.stack[len(t.stack)-1]
		t.stack, t.seen[w] = t.stack[:len(t.stack)-1], false
		t.closed = append(t.closed, w)
		if w == v {
			break
		}
	}
	t.index[t.closed[first]] = root
}
