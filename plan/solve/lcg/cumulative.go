package lcg

// Task occupies Amount of a resource in [From, To), where Present holds.
type Task struct {
	From, To View
	Least    int32 // To − From is at least this in every solution
	Amount   int32
	Present  Lit
	// Group, where positive: two tasks of one group on the same unit count as one,
	// three as two. Such tasks last one unit and ask for the same amount.
	Group int32
}

// cumulative keeps a resource within its capacity by the time table: a task
// surely occupies [ub(From), lb(To)).
//
//	Σ amounts surely in use at t + amount of another task > capacity ⇒ that task is not at t
//
// The profile is kept up as bounds move, a cell per unit of time. A run costs
// O(cells changed + Σ Least of the tasks looked at). An explanation names the
// moment t: the task would be at t, and enough others surely are. Source: Schutt,
// Feydy, Stuckey, Wallace, Explaining the cumulative propagator (2011), §4,
// pointwise. A wall, a stretch that tasks of given times leave no room in, is passed in
// one leap, however long it is: see wall.go.
type cumulative struct {
	capacity int32
	tasks    []Task
	prop     int32
	low      int32   // time of the first cell
	use      []int32 // amount surely in use, by cell
	peak     []int32 // at least the greatest use in each block of cells
	stale    []bool  // peak may be too great
	from, to []int32 // what of each task is in use, cells; empty where from ≥ to
	grouped  map[[2]int32]int32
	walls    []wall // by time

	dirty []int32
	isIn  []bool
	hull  [2]int32 // cells in which more has come into use
	grown []int32  // tasks whose bounds have risen since the last run
	spare []int32
	parts []part
}

// How a bound was set: the second number of a reason is the moment; of a leap on the
// wall w, or back over it ^w.
const (
	leap = 1 + iota
	pushFrom
	pushTo
	absent
)

var (
	noHull     = [2]int32{1 << 30, -1 << 30}
	everything = [2]int32{-1 << 30, 1 << 30}
)

// Cumulative adds a resource, before the search: what is surely in use then is so
// whatever is decided. Tasks that ask for nothing or last no time may be left out.
func (s *Solver) Cumulative(capacity int32, tasks []Task) {
	s.cancel(0)
	p := &cumulative{capacity: capacity, tasks: tasks, grouped: map[[2]int32]int32{}}
	n := len(tasks)
	p.from, p.to, p.isIn = make([]int32, n), make([]int32, n), make([]bool, n)
	low, high := int32(1<<30), int32(-1<<30)
	for _, t := range tasks {
		low, high = min(low, s.lower(t.From)), max(high, s.upper(t.To))
	}
	if n == 0 {
		return
	}
	p.low = low
	p.use = make([]int32, max(0, high-low)+1)
	p.peak, p.stale = make([]int32, len(p.use)/block+1), make([]bool, len(p.use)/block+1)
	p.prop = s.Post(p, 1)
	for i, t := range tasks {
		for _, v := range []Var{t.From.V, t.From.V ^ 1, t.To.V, t.To.V ^ 1} {
			s.Watch(v, p.prop, int32(i))
		}
		if t.Present.V >= 0 {
			s.Watch(t.Present.V, p.prop, int32(i))
		}
		p.Touch(int32(i), false)
	}
	p.hull = everything
	p.build(s)
}

// Touch implements Propagator.
func (p *cumulative) Touch(i int32, undone bool) {
	if !p.isIn[i] {
		p.isIn[i] = true
		p.dirty = append(p.dirty, i)
	}
	if !undone {
		p.grown = append(p.grown, i)
	}
}

// sync brings the profile up to date and returns a cell above the capacity, -1.
func (p *cumulative) sync(s *Solver) int32 {
	for _, i := range p.dirty {
		p.isIn[i] = false
		t := &p.tasks[i]
		a, b := int32(0), int32(0)
		if s.Holds(t.Present) {
			a, b = s.upper(t.From)-p.low, s.lower(t.To)-p.low
		}
		if a >= b {
			a, b = 0, 0
		}
		x, y := p.from[i], p.to[i]
		if a == x && b == y {
			continue
		}
		p.from[i], p.to[i] = a, b
		if t.Group > 0 {
			p.group(t, x, y, -1)
			p.group(t, a, b, 1)
			continue
		}
		if b <= x || y <= a { // nothing in common
			p.add(x, y, -t.Amount)
			p.add(a, b, t.Amount)
			continue
		}
		p.shift(a, x, t.Amount)
		p.shift(y, b, t.Amount)
	}
	p.dirty = p.dirty[:0]
	over := int32(-1)
	for _, i := range p.grown {
		a, b := p.from[i], p.to[i]
		if a >= b {
			continue
		}
		p.hull[0], p.hull[1] = min(p.hull[0], a), max(p.hull[1], b)
		for c := a; c < b && over < 0; {
			if k := c / block; p.roomy(k, 0) {
				c = (k + 1) * block
			} else if p.use[c] > p.capacity {
				over = c
			} else {
				c++
			}
		}
	}
	return over
}

// block is the number of cells that are looked at as one where there is room.
const block = 32

func (p *cumulative) add(a, b, amount int32) {
	for c := a; c < b; c++ {
		p.use[c] += amount
	}
	if a >= b {
		return
	}
	for k := a / block; k <= (b-1)/block; k++ {
		if amount < 0 {
			p.stale[k] = true
			continue
		}
		for _, u := range p.use[max(a, k*block):min(b, (k+1)*block)] {
			p.peak[k] = max(p.peak[k], u)
		}
	}
}

// roomy reports whether a block has room for an amount in every cell.
func (p *cumulative) roomy(k, amount int32) bool {
	if p.peak[k]+amount > p.capacity && p.stale[k] {
		p.stale[k] = false
		p.peak[k] = 0
		for _, u := range p.use[k*block : min(int(k+1)*block, len(p.use))] {
			p.peak[k] = max(p.peak[k], u)
		}
	}
	return p.peak[k]+amount <= p.capacity
}

// last returns the last cell of [a, b) in which task i cannot be, -1 for none.
func (p *cumulative) last(i, a, b int32) int32 {
	for c := b - 1; c >= a; {
		if c >= p.from[i] && c < p.to[i] { // its own
			c = p.from[i] - 1
			continue
		}
		if k := c / block; p.roomy(k, p.tasks[i].Amount) {
			c = k*block - 1
			continue
		}
		if p.blocked(i, c) {
			return c
		}
		c--
	}
	return -1
}

// first returns the first such cell.
func (p *cumulative) first(i, a, b int32) int32 {
	for c := a; c < b; {
		if c >= p.from[i] && c < p.to[i] {
			c = p.to[i]
			continue
		}
		if k := c / block; p.roomy(k, p.tasks[i].Amount) {
			c = (k + 1) * block
			continue
		}
		if p.blocked(i, c) {
			return c
		}
		c++
	}
	return -1
}

// shift adds amount on [a, b), or takes it off [b, a).
func (p *cumulative) shift(a, b, amount int32) {
	p.add(a, b, amount)
	p.add(b, a, -amount)
}

func (p *cumulative) group(t *Task, a, b, by int32) {
	for c := a; c < b; c++ {
		k := [2]int32{t.Group, c}
		n := p.grouped[k]
		p.grouped[k] = n + by
		p.add(c, c+1, ((n+by+1)/2-(n+1)/2)*t.Amount)
	}
}

// Propagate implements Propagator.
func (p *cumulative) Propagate(s *Solver) bool {
	over := p.sync(s)
	todo := p.grown
	p.grown, p.spare = p.spare[:0], todo
	hull := p.hull
	if over < 0 {
		p.hull = noHull
		for i := range p.tasks {
			t := &p.tasks[i]
			if s.lower(t.From)-p.low < hull[1] && s.upper(t.To)-p.low > hull[0] && !p.push(s, int32(i)) {
				p.hull = everything
				return false
			}
		}
		for _, i := range todo {
			if !p.push(s, i) {
				p.hull = everything
				return false
			}
		}
		return true
	}
	p.hull = everything
	return s.Conflict(p.cover(s, over+p.low, -1, p.capacity, s.scratch[:0]))
}

// blocked reports whether task i cannot be in cell c, which is not its own.
func (p *cumulative) blocked(i, c int32) bool {
	t := &p.tasks[i]
	if p.use[c]+t.Amount <= p.capacity {
		return false
	}
	return t.Group == 0 || p.grouped[[2]int32{t.Group, c}]&1 == 0
}

// push moves task i off the cells where it has no room.
func (p *cumulative) push(s *Solver, i int32) bool {
	t := &p.tasks[i]
	if s.Fails(t.Present) {
		return true
	}
	if !s.Holds(t.Present) {
		if c := p.first(i, s.upper(t.From)-p.low, s.lower(t.To)-p.low); c >= 0 {
			return s.Set(t.Present.Not(), p.prop, i<<3|absent, c+p.low)
		}
		return true
	}
	for {
		a := s.lower(t.From) - p.low
		c := p.last(i, a, min(a+t.Least, int32(len(p.use))))
		if c < 0 {
			break
		}
		if w := p.wall(s, i, c); w >= 0 {
			if !s.Set(t.From.AtLeast(p.walls[w].to), p.prop, i<<3|leap, w) {
				return false
			}
			continue
		}
		if !s.Set(t.From.AtLeast(c+p.low+1), p.prop, i<<3|pushFrom, c+p.low) {
			return false
		}
	}
	for {
		b := s.upper(t.To) - p.low
		c := p.first(i, max(0, b-t.Least), b)
		if c < 0 {
			return true
		}
		if w := p.wall(s, i, c); w >= 0 {
			if !s.Set(t.To.AtMost(p.walls[w].from), p.prop, i<<3|leap, ^w) {
				return false
			}
			continue
		}
		if !s.Set(t.To.AtMost(c+p.low), p.prop, i<<3|pushTo, c+p.low) {
			return false
		}
	}
}

// Explain implements Propagator.
func (p *cumulative) Explain(s *Solver, _ Lit, a, at int32, out []Lit) []Lit {
	i := a >> 3
	t := &p.tasks[i]
	switch a & 7 {
	case leap:
		return p.leapt(s, i, at, out)
	case pushFrom:
		out = append(out, t.From.AtLeast(at+1-t.Least))
	case pushTo:
		out = append(out, t.To.AtMost(at+t.Least))
	case absent:
		out = append(out, t.From.AtMost(at), t.To.AtLeast(at+1))
	}
	if a&7 != absent && t.Present.V >= 0 {
		out = append(out, t.Present)
	}
	return p.cover(s, at, i, p.capacity-t.Amount, out)
}

// part is what one task, or two that count as one, adds to a cover.
type part struct {
	tasks  [2]int32 // the second is -1 for none
	amount int32
	newest int32 // the youngest entry of the trail that it rests on
}

// cover appends why more than most is surely in use at a moment, by others than
// task but: as few tasks as may be, those of old bounds first.
func (p *cumulative) cover(s *Solver, at, but, most int32, out []Lit) []Lit {
	list := p.parts[:0]
	var sum int32
	for i := range p.tasks {
		t := &p.tasks[i]
		if int32(i) == but || s.upper(t.From) > at || s.lower(t.To) <= at || !s.Holds(t.Present) {
			continue
		}
		if t.Group > 0 {
			list = p.join(s, list, int32(i), at, but >= 0 && p.tasks[but].Group == t.Group)
			continue
		}
		list = append(list, part{[2]int32{int32(i), -1}, t.Amount, p.newest(s, t, at)})
	}
	keep := list[:0]
	for _, q := range list {
		if q.amount > 0 {
			keep = append(keep, q)
			sum += q.amount
		}
	}
	list = keep
	for spare := sum - most - 1; spare > 0; { // leave out what is not needed, the newest first
		drop := -1
		for k, q := range list {
			if q.amount <= spare && q.newest >= 0 && (drop < 0 || q.newest > list[drop].newest) {
				drop = k
			}
		}
		if drop < 0 {
			break
		}
		spare -= list[drop].amount
		list = append(list[:drop], list[drop+1:]...)
	}
	for _, q := range list {
		for _, i := range q.tasks {
			if i < 0 {
				continue
			}
			t := &p.tasks[i]
			out = append(out, t.From.AtMost(at), t.To.AtLeast(at+1))
			if t.Present.V >= 0 {
				out = append(out, t.Present)
			}
		}
	}
	p.parts = list[:0]
	return out
}

// join adds a task of a group to the parts: the first of a group counts alone,
// the next two as one; where the first place is taken, by mine, two by two.
func (p *cumulative) join(s *Solver, list []part, i, at int32, mine bool) []part {
	t := &p.tasks[i]
	e := p.newest(s, t, at)
	first := true
	for k := range list {
		q := &list[k]
		if p.tasks[q.tasks[0]].Group != t.Group {
			continue
		}
		first = false
		if q.amount == 0 {
			q.tasks[1], q.amount, q.newest = i, t.Amount, max(q.newest, e)
			return list
		}
	}
	q := part{[2]int32{i, -1}, t.Amount, e}
	if !first || mine {
		q.amount = 0 // counts once the second is there
	}
	return append(list, q)
}

// newest returns the youngest entry of the trail that task t being at a moment
// rests on.
func (p *cumulative) newest(s *Solver, t *Task, at int32) int32 {
	e := max(s.entryOf(t.From.AtMost(at)), s.entryOf(t.To.AtLeast(at+1)))
	if t.Present.V >= 0 {
		e = max(e, s.entryOf(t.Present))
	}
	return e
}
