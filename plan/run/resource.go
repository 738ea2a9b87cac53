package run

import (
	"cmp"
	"math"
	"slices"
	"time"

	"example.org/kettledrum/plan"
)

// cooks adds an arc from each step that works a cook to that cook's next.
func (o *order) cooks() {
	last := make(map[int]int)
	defer func(was bool) { o.fewer = was }(o.fewer)
	for _, j := range o.byTime(func(i int) bool {
		return o.s.Plan.Steps[i].Hands.Working() && o.s.Timetable.Slots[i].Cook >= 0
	}) {
		cook := o.s.Timetable.Slots[j].Cook
		if i, ok := last[cook]; ok {
			o.fewer = o.s.Steps[i].Given || o.s.Steps[j].Given
			o.hand(i, j)
		}
		last[cook] = j
	}
}

// units hands each burner, each piece of a tool, each cold place and each half
// shelf from one user to the next: a partial-order schedule. Source: Policella, Cesta, Oddi and
// Smith, From precedence constraint posting to partial order schedules, AI
// Communications 20 (2007), from memory.
func (o *order) units() {
	k, steps, slots := &o.s.Plan.Kitchen, o.s.Plan.Steps, o.s.Timetable.Slots
	counts := [...]int{plan.Small: k.Burners.Small, plan.Large: k.Burners.Large}
	had := [...]int{plan.Small: o.s.Base.Kitchen.Burners.Small, plan.Large: o.s.Base.Kitchen.Burners.Large}
	for size := plan.Small; size <= plan.Large; size++ {
		o.fewer = counts[size] < had[size]
		o.resource(counts[size], o.used(func(i int) int {
			if steps[i].Burner == nil || slots[i].Burner != size {
				return 0
			}
			return steps[i].Burner.Count
		}))
	}
	o.fewer = false
	for tool := range k.Tools {
		o.resource(k.Tools[tool].Count, o.ofTool(tool))
	}
	for _, cold := range k.Cold {
		o.resource(cold.Places, o.ofCold(cold.Name))
	}
	for oven := range k.Ovens {
		o.resource(k.Ovens[oven].Shelves, o.used(func(i int) int {
			if steps[i].Oven == nil || slots[i].Oven != oven {
				return 0
			}
			return steps[i].Oven.Space
		}))
	}
}

// resource gives the units of one resource to its claims in the order of time:
// to each those that were handed to it, then those that have been free for longest
// or are free first, so that nothing waits for what it need not.
func (o *order) resource(units int, claims []claim) {
	if len(claims) < 2 || units == 0 {
		return
	}
	slices.SortStableFunc(claims, func(a, b claim) int {
		return cmp.Or(a.begin.Compare(b.begin), a.over.Compare(b.over), cmp.Compare(a.step, b.step))
	})
	held := make([]*claim, units) // by whom last
	free := make([]int64, units)  // since when, or handed
	pick := make([]int, units)
	for u := range pick {
		pick[u] = u
	}
	for k := range claims {
		c := &claims[k]
		for u, h := range held {
			switch {
			case h == nil:
				free[u] = math.MinInt64 + 1
			case h.taker == c.step:
				free[u] = math.MinInt64
			default:
				free[u] = h.over.UnixNano()
			}
		}
		for at := 1; at < units; at++ { // by insertion: nearly in order from the claim before
			for b := at; b > 0 && free[pick[b]] < free[pick[b-1]]; b-- {
				pick[b], pick[b-1] = pick[b-1], pick[b]
			}
		}
		for _, u := range pick[:min(c.count, units)] {
			if held[u] != nil {
				o.pass(held[u], c)
			}
			held[u] = c
		}
	}
}

// hand adds that step j takes over from step i, unless the timetable has them
// overlap all the same or it is no longer so.
func (o *order) hand(i, j int) { o.handAfter(i, j, 0) }

func (o *order) handAfter(i, j int, lag time.Duration) {
	from, to := &o.s.Steps[i], &o.s.Steps[j]
	over := from.Status == plan.Done && !from.Finished.Add(lag).After(o.s.Timetable.Slots[j].Start)
	if i == j || over || to.Status != plan.Ahead {
		return
	}
	if o.auto(j) && o.leads(j) < 0 {
		return // what it follows is going: it starts with that one's end, come what may
	}
	t := o.s.Timetable
	if from.Status == plan.Begun || o.fewer || !t.Slots[i].End.After(t.Slots[j].Start) {
		o.arc(o.end(i), o.start(j), lag)
	}
}

// spans finds, of each step, when it takes its place in the order of its resources:
// as planned, or when it began, if that was earlier. What began late goes before what
// was to follow it all the same. And when it lets go of them: a fact, else as expected.
func (o *order) spans() {
	o.begins, o.expected = make([]time.Time, len(o.s.Steps)), make([]time.Time, len(o.s.Steps))
	for i := range o.s.Steps {
		st, slot := &o.s.Steps[i], &o.s.Timetable.Slots[i]
		o.begins[i], o.expected[i] = slot.Start, slot.End
		if st.Status != plan.Ahead && st.Started.Before(slot.Start) {
			o.begins[i] = st.Started
		}
		switch st.Status {
		case plan.Done:
			o.expected[i] = st.Finished
		case plan.Begun:
			end := st.Started.Add(o.s.length(i))
			if !o.s.Plan.Steps[i].Length.Elastic || !slot.End.After(end) {
				o.expected[i] = end
			}
		}
	}
}

// byTime returns the steps that are not skipped and that want says, by start.
func (o *order) byTime(want func(i int) bool) []int {
	var out []int
	for i := range o.s.Steps {
		if !o.skipped(i) && want(i) {
			out = append(out, i)
		}
	}
	slices.SortStableFunc(out, func(a, b int) int {
		return cmp.Or(o.begins[a].Compare(o.begins[b]), o.expected[a].Compare(o.expected[b]), cmp.Compare(a, b))
	})
	return out
}
