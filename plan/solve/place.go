package solve

import "slices"

// placer generates timetables backwards in time: see the package comment.
type placer struct {
	p     *Problem
	n     int
	early Tick // how far before the origin a search may look
	base  *bounds
	b     *bounds
	prof  []*profile

	usesOf   [][]int // uses with an end on the activity
	staysOf  [][]int
	lagsOf   [][]int32 // arcs with an end on the activity
	succ     [][]int   // activities that a hard lag of at least zero puts after
	dueOf    []int     // first due activity after each, -1 for none
	placed   []bool
	choice   []int
	stateOf  []int
	visits   [][]visit
	settings [][]Setting
	groupBuf []group
	counting bool // calls count
	callBuf  []int32
	fresh    []bool // which stays begin a group, where an answer tells; else nil
	order    []int  // scratch: acts placed by one attempt
	hint     []Tick // ends to keep to, or nil
	stick    []bool // which activities keep to their hint where they can
	late     []bool // which activities do not care for their Before
	strict   bool   // nothing begins before its earliest start, whatever else breaks
	cap      []Tick // the latest end of each activity, so that those before it fit
	pulls    []pull // caps that this timetable would have liked
	forced   []Tick // ticks of each activity put down without room for it
	stats    Stats
}

func newPlacer(p *Problem) *placer {
	n := len(p.Acts)
	pl := &placer{p: p, n: n, early: earlier(p),
		usesOf: make([][]int, n), staysOf: make([][]int, n), lagsOf: make([][]int32, n), succ: make([][]int, n),
		placed: make([]bool, n), choice: make([]int, len(p.Uses)), stateOf: make([]int, len(p.Stays)),
		visits: make([][]visit, len(p.States)), settings: make([][]Setting, len(p.States)), dueOf: make([]int, n), forced: make([]Tick, n),
	}
	soft := Unbounded
	for _, r := range p.Resources {
		if t, _ := r.opens(); t > 0 {
			soft = min(soft, t)
		}
	}
	for _, r := range p.Resources {
		pl.prof = append(pl.prof, newProfile(r, pl.early, p.Horizon+pl.early, soft))
	}
	for k, u := range p.Uses {
		if u.From.Act >= 0 {
			pl.usesOf[u.From.Act] = append(pl.usesOf[u.From.Act], k)
		}
		if u.To.Act >= 0 && u.To.Act != u.From.Act {
			pl.usesOf[u.To.Act] = append(pl.usesOf[u.To.Act], k)
		}
	}
	for k, s := range p.Stays {
		pl.staysOf[s.Act] = append(pl.staysOf[s.Act], k)
	}
	pl.build()
	pl.findDue()
	return pl
}

// farBack is the most ticks before the origin that a search looks at.
const farBack = 60 * 24 * 60

// earlier returns how far before the origin a search may look: so far that
// everything has room one after the other.
func earlier(p *Problem) Tick {
	var sum int64
	for _, a := range p.Acts {
		sum += int64(a.Min)
	}
	return max(p.Horizon/2, Tick(min(sum, farBack)))
}

// build makes the bounds: lengths, hard lags, facts. Relaxable lags that the
// facts and the earliest starts have broken already are given up here. The
// earliest starts themselves do not bind: what begins too early pushes its
// milestone.
func (pl *placer) build() {
	p, n := pl.p, pl.n
	b := newBounds(2*n+1, -pl.early, p.Horizon)
	origin := int32(2 * n)
	b.lb[origin], b.ub[origin] = 0, 0
	for i, a := range p.Acts {
		s, e := int32(2*i), int32(2*i+1)
		if a.Fixed {
			b.fix(s, a.Start)
			if a.FixedEnd {
				b.fix(e, a.End)
				continue
			}
		}
		b.addArc(s, e, a.Min, -1)
		if a.Max < Unbounded {
			b.addArc(e, s, -a.Max, -1)
		}
	}
	b.propagate()
	mark := b.mark()
	for i, a := range p.Acts {
		if !a.Fixed {
			b.raise(int32(2*i), a.Earliest)
		}
	}
	b.propagate()
	var soft []int
	for k, l := range p.Lags {
		switch {
		case l.Soft:
		case l.Relaxable:
			soft = append(soft, k)
		default:
			pl.link(b, k)
		}
	}
	for _, k := range soft {
		pl.link(b, k)
	}
	b.undo(mark)
	for k := range b.arcs {
		if a := &b.arcs[k]; !a.off {
			b.raise(a.to, b.lb[a.from]+a.w)
			b.lower(a.from, b.ub[a.to]-a.w)
		}
	}
	b.propagate()
	b.trail = b.trail[:0]
	for k, a := range b.arcs {
		for _, q := range []int32{a.from, a.to} {
			if q < origin {
				pl.lagsOf[q/2] = append(pl.lagsOf[q/2], int32(k))
			}
		}
	}
	pl.base = b
}

// link adds lag k as an arc and propagates it. A hard lag between facts that
// they break is a fact too: it is left out.
func (pl *placer) link(b *bounds, k int) int32 {
	l := pl.p.Lags[k]
	from, to := pointIndex(l.From, pl.n), pointIndex(l.To, pl.n)
	mark := b.mark()
	a := b.addArc(from, to, l.Min, int32(k))
	if !(b.raise(to, b.lb[from]+l.Min) && b.lower(from, b.ub[to]-l.Min) && b.propagate()) {
		b.undo(mark)
		b.arcs[a].off = true
	}
	if l.Min >= 0 && !l.Relaxable && l.From.Act >= 0 && l.To.Act >= 0 && l.From.Act != l.To.Act {
		pl.succ[l.From.Act] = append(pl.succ[l.From.Act], l.To.Act)
	}
	return a
}

func (pl *placer) findDue() {
	for i := range pl.dueOf {
		pl.dueOf[i] = -2
	}
	var walk func(i int) int
	walk = func(i int) int {
		if pl.dueOf[i] != -2 {
			return pl.dueOf[i]
		}
		pl.dueOf[i] = -1
		if pl.p.Acts[i].Due {
			pl.dueOf[i] = i
			return i
		}
		best := -1
		for _, j := range pl.succ[i] {
			if d := walk(j); d >= 0 && (best < 0 || d < best) {
				best = d
			}
		}
		pl.dueOf[i] = best
		return best
	}
	for i := range pl.dueOf {
		walk(i)
	}
}

// reset forgets all placements.
func (pl *placer) reset() {
	b := pl.b
	if b == nil {
		b = &bounds{queued: make([]bool, len(pl.base.queued)), out: pl.base.out, in: pl.base.in}
		pl.b = b
	}
	b.lb = append(b.lb[:0], pl.base.lb...)
	b.ub = append(b.ub[:0], pl.base.ub...)
	b.arcs = append(b.arcs[:0], pl.base.arcs...)
	b.trail = b.trail[:0]
	b.drop()
	for _, pr := range pl.prof {
		pr.reset()
	}
	for r := range pl.visits {
		pl.visits[r], pl.settings[r] = pl.visits[r][:0], pl.settings[r][:0]
	}
	for i := range pl.placed {
		pl.placed[i] = false
	}
	for i := range pl.choice {
		pl.choice[i] = -1
	}
	for i := range pl.stateOf {
		pl.stateOf[i] = -1
	}
	clear(pl.forced)
	pl.pulls = pl.pulls[:0]
}

// facts puts down what has happened and is happening.
func (pl *placer) facts() {
	for i, a := range pl.p.Acts {
		if a.Fixed && !pl.placed[i] && pl.b.lb[2*i] == pl.b.ub[2*i] && pl.b.lb[2*i+1] == pl.b.ub[2*i+1] {
			pl.commit(i, true)
		}
	}
}

func (pl *placer) at(p Point, plus Tick) Tick {
	if p.Act < 0 {
		return plus
	}
	return pl.b.lb[pointIndex(p, pl.n)] + plus
}

// fixedIn reports whether point p is decided.
func (pl *placer) fixedIn(p Point) bool {
	q := pointIndex(p, pl.n)
	return pl.b.lb[q] == pl.b.ub[q]
}

// option returns the first option whose demands are free in cells [from, to),
// or -1.
func (pl *placer) option(opts []Option, from, to int, pair int32) int {
	return slices.IndexFunc(opts, func(o Option) bool { return pl.free(o, from, to, pair) })
}

// bestOption is option; where none is free it returns the least number of cells
// to move earlier before one may be.
func (pl *placer) bestOption(opts []Option, from, to int, pair int32) (int, int) {
	least := 1 << 30
	for k, o := range opts {
		shift := 0
		for _, d := range o {
			pr, end := pl.prof[d.Resource], d.until(from, to)
			if t := pr.blocked(from, end, d.Amount, pair); t >= 0 {
				shift = max(shift, end-1-pr.freeBefore(t, d.Amount))
			}
		}
		if shift == 0 {
			return k, 0
		}
		least = min(least, shift)
	}
	return -1, least
}

func (pl *placer) cells(u *Use) (int, int) {
	from := max(pl.at(u.From, u.FromPlus), -pl.early)
	to := min(pl.at(u.To, u.ToPlus), pl.p.Horizon+pl.early)
	return int(from + pl.early), int(max(from, to) + pl.early)
}

// commit takes the resources of activity i, whose points are decided. With
// force it takes them whether they are free or not. It reports whether all were
// free, and if not by how many ticks to move earlier; then it has taken nothing.
func (pl *placer) commit(i int, force bool) (bool, Tick) {
	if !force {
		if shift := pl.noRoom(i); shift > 0 {
			return false, shift
		}
	}
	taken := 0
	// The settings of its states are made afresh: until then they hold nobody.
	for _, k := range pl.staysOf[i] {
		for _, r := range pl.p.Stays[k].States {
			pl.unsettle(r)
		}
	}
	settle := func() {
		for _, k := range pl.staysOf[i] {
			for _, r := range pl.p.Stays[k].States {
				pl.settle(r)
			}
		}
	}
	fail := func(shift Tick) (bool, Tick) {
		pl.release(i, taken)
		settle()
		return false, max(1, shift)
	}
	for _, k := range pl.usesOf[i] {
		u := &pl.p.Uses[k]
		if pl.choice[k] >= 0 || !pl.fixedIn(u.From) || !pl.fixedIn(u.To) {
			taken++
			continue
		}
		from, to := pl.cells(u)
		o, shift := pl.bestOption(u.Options, from, to, u.Pair)
		if o < 0 {
			if u.From.Act == i && u.To.Act != i {
				shift = int(pl.p.Horizon) // held until another begins: no earlier start helps
			}
			if !force {
				return fail(Tick(shift))
			}
			o = 0
			pl.force(i, from, to)
		}
		pl.choice[k] = o
		for _, d := range u.Options[o] {
			pl.prof[d.Resource].take(from, d.until(from, to), d.Amount, u.Pair)
		}
		taken++
	}
	s, e := pl.b.lb[2*i], pl.b.lb[2*i+1]
	for _, k := range pl.staysOf[i] {
		if s == e { // it lasts no time and needs no value
			pl.stateOf[k] = pl.p.Stays[k].States[0]
			continue
		}
		least := Tick(1 << 30)
		for _, r := range pl.p.Stays[k].States {
			from, to := int(s+pl.early), int(e+pl.early)
			cell := pl.prof[pl.p.SpaceOf[r]].blocked(from, to, pl.p.Stays[k].Space, 0)
			if cell >= 0 && !force {
				least = min(least, Tick(to-cell))
				continue
			}
			ok, shift := pl.fits(r, k, s, e)
			if !ok && !force {
				least = min(least, shift)
				continue
			}
			if cell >= 0 || !ok {
				pl.force(i, from, to)
			}
			pl.insertVisit(r, visit{k, s, e})
			if !pl.settle(r) && !force {
				pl.removeVisit(r, k)
				least = min(least, 1)
				continue
			}
			pl.stateOf[k] = r
			pl.prof[pl.p.SpaceOf[r]].take(from, to, pl.p.Stays[k].Space, 0)
			break
		}
		if pl.stateOf[k] < 0 {
			return fail(least)
		}
	}
	settle()
	pl.placed[i] = true
	return true, 0
}

// noRoom returns by how many ticks activity i would have to move earlier for what
// is on its states, whatever is set there; 0 where it may fit. It is cheap, and
// most attempts to put down a stay end here.
func (pl *placer) noRoom(i int) Tick {
	s, e := pl.b.lb[2*i], pl.b.lb[2*i+1]
	if s == e {
		return 0
	}
	for _, k := range pl.staysOf[i] {
		least := Tick(1 << 30)
		for _, r := range pl.p.Stays[k].States {
			from, to := int(s+pl.early), int(e+pl.early)
			if cell := pl.prof[pl.p.SpaceOf[r]].blocked(from, to, pl.p.Stays[k].Space, 0); cell >= 0 {
				least = min(least, Tick(to-cell))
				continue
			}
			ok, shift := pl.fits(r, k, s, e)
			if ok {
				least = 0
				break
			}
			least = min(least, shift)
		}
		if least > 0 {
			return max(1, least)
		}
	}
	return 0
}

// force counts the cells [from, to) that activity i takes though they are not free.
func (pl *placer) force(i, from, to int) {
	if pl.p.Acts[i].Due {
		return // a milestone takes what there is
	}
	if judged := int(pl.p.Now + pl.early); from < judged {
		from = judged
	}
	if to > from {
		pl.forced[i] += Tick(to - from)
	}
}

// release gives back the first count uses of activity i and its stays.
func (pl *placer) release(i, count int) {
	for _, k := range pl.usesOf[i][:count] {
		if pl.choice[k] < 0 {
			continue
		}
		u := &pl.p.Uses[k]
		if !pl.fixedIn(u.From) || !pl.fixedIn(u.To) {
			continue
		}
		from, to := pl.cells(u)
		for _, d := range u.Options[pl.choice[k]] {
			pl.prof[d.Resource].give(from, d.until(from, to), d.Amount, u.Pair)
		}
		pl.choice[k] = -1
	}
	for _, k := range pl.staysOf[i] {
		if r := pl.stateOf[k]; r >= 0 && pl.b.lb[2*i] == pl.b.lb[2*i+1] {
			pl.stateOf[k] = -1
		} else if r >= 0 {
			from, to := int(pl.b.lb[2*i]+pl.early), int(pl.b.lb[2*i+1]+pl.early)
			pl.prof[pl.p.SpaceOf[r]].give(from, to, pl.p.Stays[k].Space, 0)
			pl.removeVisit(r, k)
			pl.stateOf[k] = -1
		}
	}
	pl.placed[i] = false
}

// try puts activity j down with its end at e, and with it every activity whose
// times that decides. If something is not free nothing is left changed, and the
// number of ticks to move earlier is returned.
func (pl *placer) try(j int, e Tick, force bool) (bool, Tick) {
	pl.stats.Placements++
	b := pl.b
	mark := b.mark()
	undo := func(done []int, shift Tick) (bool, Tick) {
		for _, i := range slices.Backward(done) {
			pl.release(i, len(pl.usesOf[i]))
		}
		b.undo(mark)
		return false, shift
	}
	if !b.fix(int32(2*j+1), e) || !b.propagate() {
		return undo(nil, 1)
	}
	// The start: as late as it may be.
	if s := b.ub[2*j]; !b.fix(int32(2*j), s) || !b.propagate() {
		return undo(nil, 1)
	}
	pl.order = append(pl.order[:0], j)
	for _, t := range b.trail[mark:] {
		if t.point >= int32(2*pl.n) {
			continue
		}
		i := int(t.point / 2)
		if i != j && !pl.placed[i] && b.lb[2*i] == b.ub[2*i] && b.lb[2*i+1] == b.ub[2*i+1] && !slices.Contains(pl.order, i) {
			pl.order = append(pl.order, i)
		}
	}
	for k, i := range pl.order {
		if ok, shift := pl.commit(i, force); !ok {
			if i != j {
				shift = 1
			}
			return undo(pl.order[:k], shift)
		}
	}
	return true, 0
}

// place puts activity j down as late as it may be. Where its greatest lags
// leave no room it gives them up; where there is no room at all it is put down
// all the same and counted as broken.
func (pl *placer) place(j int) {
	if pl.descend(j) || pl.stretch(j) {
		return
	}
	pl.giveUp(j)
	if pl.descend(j) {
		pl.pullTo(j)
		return
	}
	if ok, _ := pl.try(j, pl.b.ub[2*j+1], true); !ok {
		panic("solve: an activity with bounds cannot be put down")
	}
}

// pull says that activity act should end by a tick, for one before it had no room.
type pull struct {
	act int
	end Tick
}

// pullTo notes what would have to come earlier for the greatest lags around
// activity j to hold where it is now.
func (pl *placer) pullTo(j int) {
	for _, l := range pl.p.Lags {
		if l.Soft || !l.Relaxable || l.To.Act != j || l.From.Act < 0 || pl.p.Acts[l.From.Act].Due {
			continue
		}
		if f := l.From.Act; pl.placed[f] && pl.short(l) > 0 {
			pl.pulls = append(pl.pulls, pull{f, pl.b.lb[2*f+1] - pl.short(l)})
		}
	}
}

// descend tries ends from the latest to the earliest.
func (pl *placer) descend(j int) bool {
	if pl.hint != nil && pl.stick[j] {
		if e := pl.hint[j]; e <= pl.b.ub[2*j+1] && e >= pl.b.lb[2*j+1] {
			if ok, _ := pl.try(j, e, false); ok {
				return true
			}
		}
	}
	a, b := &pl.p.Acts[j], pl.b
	top := min(b.ub[2*j+1], max(pl.cap[j], b.lb[2*j+1]))
	low := b.lb[2*j+1]
	if pl.strict {
		low = max(low, a.Earliest+a.Min)
	}
	if a.Before > 0 && !pl.late[j] && pl.between(j, min(top, a.Before-1+a.Min), max(low, a.Earliest+a.Min)) {
		return true
	}
	return pl.between(j, top, low)
}

// between tries ends from top down to low.
func (pl *placer) between(j int, top, low Tick) bool {
	for e := top; e >= low; {
		ok, shift := pl.try(j, e, false)
		if ok {
			return true
		}
		e -= max(1, shift)
	}
	return false
}

// stretch tries an elastic activity whose end is decided with earlier starts.
func (pl *placer) stretch(j int) bool {
	b := pl.b
	if a := pl.p.Acts[j]; a.Min == a.Max || a.Fixed {
		return false
	}
	low := b.lb[2*j]
	if pl.strict {
		low = max(low, pl.p.Acts[j].Earliest)
	}
	for s, shift := b.ub[2*j]-1, Tick(1); s >= low; s -= max(1, shift) {
		mark := b.mark()
		shift = 1
		if b.lower(int32(2*j), s) && b.propagate() {
			var ok bool
			if ok, shift = pl.try(j, b.ub[2*j+1], false); ok {
				return true
			}
		}
		b.undo(mark)
	}
	return false
}

// giveUp relaxes what may be relaxed around some activities.
func (pl *placer) giveUp(acts ...int) {
	for _, j := range acts {
		for _, k := range pl.lagsOf[j] {
			a := &pl.b.arcs[k]
			if a.lag >= 0 && pl.p.Lags[a.lag].Relaxable {
				a.off = true
			}
		}
	}
	pl.rebuild()
}

// rebuild makes the bounds again from the lags still in force and the
// placements. Lags that the placements break are given up.
func (pl *placer) rebuild() {
	b := pl.b
	lb, ub := slices.Clone(b.lb), slices.Clone(b.ub)
	off := make([]bool, len(b.arcs))
	for k := range b.arcs {
		off[k] = b.arcs[k].off
	}
	b.trail = b.trail[:0]
	origin := int32(2 * pl.n)
	for q := range b.lb {
		i := q / 2
		if int32(q) == origin {
			continue
		}
		a := pl.p.Acts[i]
		switch {
		case pl.placed[i], a.Fixed && (q%2 == 0 || a.FixedEnd):
			b.lb[q], b.ub[q] = lb[q], ub[q]
		default:
			b.lb[q], b.ub[q] = -pl.early, pl.p.Horizon
		}
	}
	for k := range b.arcs {
		a := &b.arcs[k]
		if a.off {
			continue
		}
		mark := b.mark()
		if !(b.raise(a.to, b.lb[a.from]+a.w) && b.lower(a.from, b.ub[a.to]-a.w) && b.propagate()) {
			b.undo(mark)
			a.off = true
		}
	}
}
