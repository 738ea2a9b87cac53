package solve

// profile is what is left of one resource at each tick, offset so that ticks
// before the origin (which a backward search may try) have a place.
type profile struct {
	left []int32
	// pair and paired say, for single-tick uses, which pair took the tick and
	// how many share it; empty until there is one.
	pair   []int32
	paired []int8
	// touched are the cells that may not be as the calendar has them: it is long,
	// and what is in use lies close together.
	touched [2]int
	// open is the calendar as given: left of an unused resource.
	open []int32
	// firstOpen is the first cell that the calendar itself opens.
	firstOpen int
}

// newProfile lays the calendar out. Cells before soft, when nothing has opened
// yet, count as open at the first capacity, so that a search running backwards
// finds a place before the windows open; what lies there is counted as broken.
func newProfile(r Resource, early, horizon, soft Tick) *profile {
	n := int(early + horizon)
	p := &profile{left: make([]int32, n), open: make([]int32, n)}
	opens, first := r.opens()
	p.firstOpen = int(opens + early)
	k := 0
	for t := range p.open {
		tick := Tick(t) - early
		for k+1 < len(r.Calendar) && r.Calendar[k+1].From <= tick {
			k++
		}
		switch {
		case tick < 0 && opens < 0, tick < soft && tick < opens:
			p.open[t] = first
		case len(r.Calendar) > 0 && r.Calendar[k].From <= tick:
			p.open[t] = r.Calendar[k].Amount
		}
	}
	copy(p.left, p.open)
	p.touched = [2]int{n, 0}
	return p
}

// opens returns the first tick at which there is any of the resource, and how
// much. What is there from the origin on was there before.
func (r Resource) opens() (Tick, int32) {
	for _, c := range r.Calendar {
		if c.Amount > 0 {
			if c.From <= 0 {
				return -Unbounded, c.Amount
			}
			return c.From, c.Amount
		}
	}
	return Unbounded, 0
}

func (p *profile) reset() {
	if a, b := p.touched[0], p.touched[1]; a < b {
		copy(p.left[a:b], p.open[a:b])
		if len(p.pair) > 0 {
			clear(p.pair[a:b])
			clear(p.paired[a:b])
		}
	}
	p.touched = [2]int{len(p.left), 0}
}

// blocked returns the last cell in [from, to) that lacks amount, or -1.
func (p *profile) blocked(from, to int, amount int32, pair int32) int {
	for t := to - 1; t >= from; t-- {
		if p.left[t] >= amount {
			continue
		}
		if pair > 0 && len(p.pair) > 0 && p.pair[t] == pair && p.paired[t] == 1 {
			continue
		}
		return t
	}
	return -1
}

// freeBefore returns the last cell before t that has the amount left, or -1.
func (p *profile) freeBefore(t int, amount int32) int {
	for t--; t >= 0 && p.left[t] < amount; t-- {
	}
	return t
}

// take occupies [from, to). give undoes exactly one take with the same arguments.
func (p *profile) take(from, to int, amount int32, pair int32) {
	if from >= to {
		return
	}
	p.touched[0], p.touched[1] = min(p.touched[0], from), max(p.touched[1], to)
	if pair > 0 && to == from+1 {
		if len(p.pair) == 0 {
			p.pair, p.paired = make([]int32, len(p.left)), make([]int8, len(p.left))
		}
		if p.pair[from] == pair && p.paired[from] == 1 {
			p.paired[from] = 2
			return
		}
		p.pair[from], p.paired[from] = pair, 1
	}
	for t := from; t < to; t++ {
		p.left[t] -= amount
	}
}

func (p *profile) give(from, to int, amount int32, pair int32) {
	if pair > 0 && to == from+1 && len(p.pair) > 0 && p.pair[from] == pair {
		if p.paired[from] == 2 {
			p.paired[from] = 1
			return
		}
		p.pair[from], p.paired[from] = 0, 0
	}
	for t := from; t < to; t++ {
		p.left[t] += amount
	}
}
