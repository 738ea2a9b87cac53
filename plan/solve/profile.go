package solve

// profile is what is left of one resource at each tick, offset so that ticks
// before the origin (which a backward search may try) have a place.
type profile struct {
	left []int32
	// pair and paired say, for single-tick uses, which pair took the tick and
	// how many share it.
	pair   []int32
	paired []int8
	// open is the calendar as given: left of an unused resource.
	open []int32
	// firstOpen is the first cell that the calendar itself opens.
	firstOpen int
}

// newProfile lays the calendar out. Ticks before the first positive capacity
// count as open at that capacity, so that a search running backwards finds a
// place before the window opens; what lies there is counted as broken.
func newProfile(r Resource, early, horizon Tick) *profile {
	n := int(early + horizon)
	p := &profile{left: make([]int32, n), open: make([]int32, n), pair: make([]int32, n), paired: make([]int8, n)}
	first := int32(0)
	for i := len(r.Calendar) - 1; i >= 0; i-- {
		if r.Calendar[i].Amount > 0 {
			first = r.Calendar[i].Amount
		}
	}
	opened := false
	k := 0
	for t := range p.open {
		tick := Tick(t) - early
		for k+1 < len(r.Calendar) && r.Calendar[k+1].From <= tick {
			k++
		}
		amount := int32(0)
		if len(r.Calendar) > 0 && r.Calendar[k].From <= tick {
			amount = r.Calendar[k].Amount
		}
		if amount > 0 && !opened {
			opened, p.firstOpen = true, t
		}
		if !opened {
			amount = first
		}
		p.open[t] = amount
	}
	copy(p.left, p.open)
	return p
}

func (p *profile) reset() {
	copy(p.left, p.open)
	clear(p.pair)
	clear(p.paired)
}

// blocked returns the last cell in [from, to) that lacks amount, or -1.
func (p *profile) blocked(from, to int, amount int32, pair int32) int {
	for t := to - 1; t >= from; t-- {
		if p.left[t] >= amount {
			continue
		}
		if pair > 0 && p.pair[t] == pair && p.paired[t] == 1 {
			continue
		}
		return t
	}
	return -1
}

// take occupies [from, to). give undoes exactly one take with the same arguments.
func (p *profile) take(from, to int, amount int32, pair int32) {
	if pair > 0 && to == from+1 {
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
	if pair > 0 && to == from+1 && p.pair[from] == pair {
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
