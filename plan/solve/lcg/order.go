package lcg

// order chooses what to decide: the bound that learnt clauses spoke of most,
// lately (variable state independent decaying sum, over bounds instead of
// booleans).
type order struct {
	of     map[Lit]int32 // atom of a literal over an even variable
	atoms  []Lit
	act    []float64
	inc    float64
	heap   []int32   // of atoms, greatest activity first
	at     []int32   // place of each atom in the heap, -1 for none
	popped [][]int32 // of each decision level: atoms off the heap that are decided since
}

const decay = 1 / 0.95

func even(l Lit) Lit {
	if l.V&1 == 0 {
		return l
	}
	return l.Not()
}

func (o *order) bump(l Lit) {
	if o.of == nil {
		o.of, o.inc = map[Lit]int32{}, 1
	}
	l = even(l)
	a, ok := o.of[l]
	if !ok {
		a = int32(len(o.atoms))
		o.of[l] = a
		o.atoms, o.act, o.at = append(o.atoms, l), append(o.act, 0), append(o.at, -1)
		o.insert(a)
	}
	o.act[a] += o.inc
	if o.act[a] > 1e100 {
		for k := range o.act {
			o.act[k] *= 1e-100
		}
		o.inc *= 1e-100
	}
	if o.at[a] >= 0 {
		o.up(int(o.at[a]))
	}
}

func (o *order) decay() { o.inc *= decay }

// next returns the undecided atom of greatest activity.
func (o *order) next(s *Solver) (Lit, bool) {
	for len(o.heap) > 0 {
		a := o.pop()
		l := o.atoms[a]
		switch {
		case s.Holds(l):
			o.decided(a, s.levelOf(l))
		case s.Fails(l):
			o.decided(a, s.levelOf(l.Not()))
		default:
			o.decided(a, int32(len(s.level))+1)
			return l, true
		}
	}
	return Lit{}, false
}

// decided notes the level on which an atom off the heap was decided: there is no use
// for it before that is undone, however often the search comes back above it.
func (o *order) decided(a, level int32) {
	for int(level) >= len(o.popped) {
		o.popped = append(o.popped, nil)
	}
	o.popped[level] = append(o.popped[level], a)
}

// restore puts back what was decided above a level.
func (o *order) restore(level int) {
	for k := level + 1; k < len(o.popped); k++ {
		for _, a := range o.popped[k] {
			o.insert(a)
		}
		o.popped[k] = o.popped[k][:0]
	}
}

// rebuild forgets the atoms that no learnt clause speaks of any more.
func (o *order) rebuild(s *Solver) {
	if len(o.atoms) < 4*s.learnts {
		return
	}
	used := make(map[Lit]bool, len(o.atoms)/2)
	for k := range s.clauses {
		for _, l := range s.clauses[k].lits {
			used[even(l)] = true
		}
	}
	old := *o
	*o = order{of: make(map[Lit]int32, len(used)), inc: old.inc}
	for a, l := range old.atoms {
		if used[l] {
			o.of[l] = int32(len(o.atoms))
			o.atoms, o.act, o.at = append(o.atoms, l), append(o.act, old.act[a]), append(o.at, -1)
			o.insert(int32(len(o.atoms) - 1))
		}
	}
}

func (o *order) before(a, b int32) bool {
	return o.act[a] > o.act[b] || o.act[a] == o.act[b] && a < b
}

func (o *order) insert(a int32) {
	if o.at[a] >= 0 {
		return
	}
	o.heap = append(o.heap, a)
	o.at[a] = int32(len(o.heap) - 1)
	o.up(len(o.heap) - 1)
}

func (o *order) up(i int) {
	a := o.heap[i]
	for i > 0 {
		p := (i - 1) / 2
		if !o.before(a, o.heap[p]) {
			break
		}
		o.heap[i] = o.heap[p]
		o.at[o.heap[i]] = int32(i)
		i = p
	}
	o.heap[i] = a
	o.at[a] = int32(i)
}

func (o *order) pop() int32 {
	top, n := o.heap[0], len(o.heap)-1
	o.at[top] = -1
	a := o.heap[n]
	o.heap = o.heap[:n]
	if n == 0 {
		return top
	}
	i := 0
	for {
		c := 2*i + 1
		if c >= n {
			break
		}
		if c+1 < n && o.before(o.heap[c+1], o.heap[c]) {
			c++
		}
		if !o.before(o.heap[c], a) {
			break
		}
		o.heap[i] = o.heap[c]
		o.at[o.heap[i]] = int32(i)
		i = c
	}
	o.heap[i] = a
	o.at[a] = int32(i)
	return top
}
