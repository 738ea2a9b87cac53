package run

import (
	"cmp"
	"slices"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/network"
)

// Project returns when things will happen if the steps that go take as long as
// expected and everything else starts as soon as it is due and possible.
//
// What is due and unanswered is projected to now, rounded up to the minute; from
// UnconfirmedAfter on, to when it was due. Lengths are those planned with
// (plan.Length.Planned) and what prolonged them; waits end when what follows
// starts. Before the first timetable is adopted only facts have times.
// Cost: O(V + A) for V points and A arcs, see package network.
func Project(s *State, now time.Time) Projection {
	if s = s.At(now); s.Timetable == nil {
		return factsOnly(s)
	}
	return projectAt(s, now).projection()
}

// status is what is known of a time point.
type status int

const (
	future  status = iota // not yet
	open                  // due, and nobody has answered
	assumed               // nobody said so: taken to have gone as planned
	fact
)

// projected is the network with its times.
type projected struct {
	*order
	now    time.Time
	base   time.Time
	x      []int64 // nanoseconds after base
	due    []int64 // of an open point, when it came up
	status []status
	keeps  []kept // once asked for
}

func projectAt(s *State, now time.Time) *projected {
	pr := &projected{order: orderOf(s, true), now: now, base: s.Plan.Table}
	x, err := pr.times(func(n *network.Network) ([]int64, error) { return n.Earliest(pr.lower()) })
	if err != nil { // what has happened contradicts how the timetable has waits end
		pr.order = orderOf(s, false)
		if x, err = pr.net.Earliest(pr.lower()); err != nil {
			panic("run: steps follow each other in a circle: " + err.Error()) // a plan has none
		}
	}
	pr.x = x
	pr.waitForCooks()
	pr.drift()
	return pr
}

// lower returns the bound of every point: a fact, else not before planned.
func (pr *projected) lower() []int64 {
	t, b := pr.s.Timetable, make([]int64, pr.net.Points())
	for i := range pr.s.Steps {
		st, from, to := &pr.s.Steps[i], t.Slots[i].Start, t.Slots[i].End
		b[pr.start(i)], b[pr.end(i)] = pr.ticks(from), network.NoLower
		switch {
		case st.Status == plan.Skipped:
			b[pr.start(i)], b[pr.end(i)] = pr.ticks(st.Finished), pr.ticks(st.Finished)
			continue
		case st.Status != plan.Ahead:
			b[pr.start(i)] = pr.ticks(st.Started)
		case pr.auto(i):
			b[pr.start(i)] = network.NoLower
		}
		switch {
		case st.Status == plan.Done:
			b[pr.end(i)] = pr.ticks(st.Finished)
		case pr.s.Plan.Steps[i].Length.Elastic:
			b[pr.end(i)] = pr.ticks(to)
		case st.Status == plan.Begun:
			b[pr.end(i)] = pr.ticks(st.Started.Add(pr.s.length(i)))
		}
	}
	for k := range pr.sets {
		set := &pr.sets[k]
		b[pr.set(k)] = pr.ticks(set.At)
		switch {
		case !set.told.IsZero():
			b[pr.set(k)] = pr.ticks(set.told)
		case set.For >= 0 && pr.s.Steps[set.For].Status == plan.Begun:
			b[pr.set(k)] = min(pr.ticks(set.At), pr.ticks(pr.s.Steps[set.For].Started))
		}
	}
	for c := range pr.s.Courses {
		b[pr.serve(c)] = pr.ticks(t.Serves[c])
		if served := pr.s.Courses[c].Served; !served.IsZero() {
			b[pr.serve(c)] = pr.ticks(served)
		}
	}
	return b
}

// drift moves to now what is due and unanswered, and says what each point is.
func (pr *projected) drift() {
	now, minute := pr.ticks(pr.now), pr.ticks(upToMinute(pr.now))
	var asked []int
	for v := range pr.x {
		if pr.x[v] <= now && pr.asks(v) {
			asked = append(asked, v)
		}
	}
	slices.SortStableFunc(asked, func(a, b int) int { return cmp.Compare(pr.x[a], pr.x[b]) })
	pr.due = make([]int64, len(pr.x))
	drifts := make([]bool, len(pr.x))
	for _, v := range asked {
		if pr.x[v] > now || now-pr.x[v] >= int64(UnconfirmedAfter) {
			continue
		}
		pr.due[v], drifts[v] = pr.x[v], true
		if _, err := pr.net.Raise(pr.x, v, minute); err != nil {
			panic("run: " + err.Error()) // every point had a time
		}
	}
	pr.waitForCooks()
	held := pr.held(drifts)
	pr.status = make([]status, len(pr.x))
	for v := range pr.x {
		switch {
		case pr.isFact(v):
			pr.status[v] = fact
		case held[v]:
		case drifts[v]:
			pr.status[v] = open
		case pr.x[v] <= now:
			pr.status[v] = assumed
		}
	}
	for i := range pr.s.Steps { // a wait is over when what ends it has come
		ender := -1
		switch {
		case pr.follows[i] >= 0:
			ender = pr.start(pr.follows[i])
		case pr.atServe[i]:
			ender = pr.serve(pr.s.Plan.CourseOf(i))
		}
		if v := pr.end(i); ender >= 0 && pr.status[v] == assumed && !pr.settled(ender) {
			pr.status[v] = future
		}
	}
}

// held says which points wait for one that drifts.
func (pr *projected) held(drifts []bool) []bool {
	held := make([]bool, len(drifts))
	reach := slices.Clone(drifts)
	for again := true; again; {
		again = false
		for _, a := range pr.net.Arcs() {
			if a.Tag != back && reach[a.From] && !held[a.To] && pr.x[a.From]+a.Weight >= pr.x[a.To] {
				held[a.To], reach[a.To], again = true, true, true
			}
		}
	}
	return held
}

// asks reports whether somebody is asked to say that point v has come.
func (pr *projected) asks(v int) bool {
	i, n := v/2, 2*len(pr.s.Steps)
	switch {
	case v >= pr.serve(0):
		return pr.s.Courses[v-pr.serve(0)].Served.IsZero()
	case v >= n:
		return pr.sets[v-n].told.IsZero() && !pr.sets[v-n].moot
	case v == pr.start(i):
		return pr.s.Steps[i].Status == plan.Ahead && !pr.auto(i)
	}
	return pr.s.Steps[i].Status == plan.Begun && pr.ends(i)
}

func (pr *projected) isFact(v int) bool {
	i, n := v/2, 2*len(pr.s.Steps)
	switch {
	case v >= pr.serve(0):
		return !pr.s.Courses[v-pr.serve(0)].Served.IsZero()
	case v >= n:
		return !pr.sets[v-n].told.IsZero() || pr.sets[v-n].moot
	case v == pr.start(i):
		return pr.s.Steps[i].Status != plan.Ahead
	}
	return pr.s.Steps[i].Status == plan.Done || pr.skipped(i)
}

func (pr *projected) projection() Projection {
	n := len(pr.s.Steps)
	out := Projection{Start: make([]time.Time, n), End: make([]time.Time, n), Serves: make([]time.Time, len(pr.s.Courses))}
	for i := range n {
		out.Start[i], out.End[i] = pr.at(pr.start(i)), pr.at(pr.end(i))
	}
	for c := range out.Serves {
		out.Serves[c] = pr.at(pr.serve(c))
	}
	return out
}

func factsOnly(s *State) Projection {
	out := Projection{Start: make([]time.Time, len(s.Steps)), End: make([]time.Time, len(s.Steps))}
	for i, st := range s.Steps {
		out.Start[i], out.End[i] = st.Started, st.Finished
	}
	for _, c := range s.Courses {
		out.Serves = append(out.Serves, c.Served)
	}
	return out
}

func (pr *projected) at(v int) time.Time        { return pr.time(pr.x[v]) }
func (pr *projected) time(tick int64) time.Time { return pr.base.Add(time.Duration(tick)) }
func (pr *projected) ticks(t time.Time) int64   { return int64(t.Sub(pr.base)) }
func (pr *projected) isAssumed(v int) bool      { return pr.status[v] == assumed }
func (pr *projected) settled(v int) bool        { return pr.status[v] >= assumed }

// upToMinute rounds up to the minute.
func upToMinute(t time.Time) time.Time {
	if whole := t.Truncate(time.Minute); whole.Before(t) {
		return whole.Add(time.Minute)
	}
	return t
}
