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
	s := &side{
		arcs:   arcs,
		first:  make([]int, points+1),
		out:    make([]int, len(arcs)),
		order:  make([]int, 0, points),
		place:  make([]int, points),
		until:  make([]int, points),
		begin:  make([]int, points),
		dirty:  make([]bool, points),
		parent: make([]int, points),
		mark:   make([]int, points),
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
	fill := append([]int(nil), s.first...)
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
	rank := s.rank(points)
	t := tarjan{side: s, index: make([]int, points), low: make([]int, points), open: make([]bool, points)}
	for v := range points {
		if t.index[v] == 0 {
			t.visit(v)
		}
	}
	for c := len(t.components) - 1; c >= 0; c-- { // Tarjan closes the last component first
		component := t.components[c]
		slices.SortFunc(component, func(a, b int) int { return rank[a] - rank[b] })
		start := len(s.order)
		for _, v := range component {
			s.place[v] = len(s.order)
			s.begin[s.place[v]], s.until[s.place[v]] = start, start+len(component)
			s.order = append(s.order, v)
		}
	}
}

// rank numbers the points in reverse postorder of a depth-first search along
// the arcs of weight 0 and more.
func (s *side) rank(points int) []int {
	rank := make([]int, points)
	seen := make([]bool, points)
	next := points
	var visit func(v int)
	visit = func(v int) {
		seen[v] = true
		for _, a := range s.out[s.first[v]:s.first[v+1]] {
			if w := s.arcs[a].To; s.arcs[a].Weight >= 0 && !seen[w] {
				visit(w)
			}
		}
		next--
		rank[v] = next
	}
	for v := range points {
		if !seen[v] {
			visit(v)
		}
	}
	return rank
}

type tarjan struct {
	*side
	counter    int
	index, low []int // index 0: not visited
	open       []bool
	stack      []int
	components [][]int
}

func (t *tarjan) visit(v int) {
	t.counter++
	t.index[v], t.low[v] = t.counter, t.counter
	t.stack, t.open[v] = append(t.stack, v), true
	for _, a := range t.out[t.first[v]:t.first[v+1]] {
		w := t.arcs[a].To
		switch {
		case t.index[w] == 0:
			t.visit(w)
			t.low[v] = min(t.low[v], t.low[w])
		case t.open[w]:
			t.low[v] = min(t.low[v], t.index[w])
		}
	}
	if t.low[v] != t.index[v] {
		return
	}
	var component []int
	for {
		w := t.stack[len(t.stack)-1]
		t.stack, t.open[w] = t.stack[:len(t.stack)-1], false
		component = append(component, w)
		if w == v {
			break
		}
	}
	t.components = append(t.components, component)
}
