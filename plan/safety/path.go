package safety

import (
	"cmp"
	"slices"
	"time"

	"example.org/kettledrum/plan"
)

// stage is where the food of a step stands.
type stage string

// Where food stands.
const (
	raw       stage = "raw"
	cooking   stage = "cooking"
	hot       stage = "hot"     // cooked, off the heat
	cooling   stage = "cooling" // hot, in the cold
	cold      stage = "cold"
	reheating stage = "reheating"
)

// point is what is known of the food of a step when the step ends.
type point struct {
	kinds   kind
	stage   stage
	cooked  bool
	chilled bool // has been cold since it was cooked
	// out is how long it has been out of the cold and off the heat since it was raw
	// or cooked, by the timetable; chill how long in the refrigerator since then.
	out, chill time.Duration
	// before is the same when the step begins, the gap before it included.
	outBefore, chillBefore time.Duration
	wasCooked, wasChilled  bool
}

// path is every step of a plan's dishes with the state of its food.
type path struct {
	p         *plan.Plan
	t         *plan.Timetable
	points    []point
	followers [][]int
	order     []int // steps by start
}

// coldFor is how long food must be in the cold to count as chilled.
const coldFor = time.Hour

// trace follows the food of every dish through the timetable.
func trace(p *plan.Plan, t *plan.Timetable) *path {
	x := &path{p: p, t: t, points: make([]point, len(p.Steps)), followers: p.Followers()}
	for i := range p.Steps {
		x.order = append(x.order, i)
	}
	slices.SortStableFunc(x.order, func(a, b int) int {
		return cmp.Or(t.Slots[a].Start.Compare(t.Slots[b].Start), t.Slots[a].End.Compare(t.Slots[b].End), cmp.Compare(a, b))
	})
	// What follows a step never begins before it ends, but in a timetable that is
	// broken: then an unseen one counts as raw.
	for _, i := range x.order {
		if !x.chore(i) {
			x.points[i] = x.follow(i)
		}
	}
	return x
}

func (x *path) chore(i int) bool { return x.p.Dishes[x.p.Steps[i].Dish].Chore != nil }

func (x *path) skipped(i int) bool { return x.t.Slots[i].Progress == plan.Skipped }

func (x *path) length(i int) time.Duration { return x.t.Slots[i].End.Sub(x.t.Slots[i].Start) }

// gap is how long what a step made stands before one that follows it.
func (x *path) gap(from, to int) time.Duration {
	return max(0, x.t.Slots[to].Start.Sub(x.t.Slots[from].End))
}

// follow computes the state of the food of a step from those before it.
func (x *path) follow(i int) point {
	s := &x.p.Steps[i]
	var b point
	b.kinds = kindsIn(s.Do)
	rawIn := false
	own := b.kinds
	var before kind
	for _, l := range s.After {
		if x.chore(l.Step) {
			continue
		}
		q := &x.points[l.Step]
		before |= q.kinds
		out, chill, chilled := q.after(&x.p.Steps[l.Step], x.gap(l.Step, i))
		if q.kinds.spoils(q.cooked) {
			b.out, b.chill = max(b.out, out), max(b.chill, chill)
			b.chilled = b.chilled || q.cooked && chilled
			rawIn = rawIn || !q.cooked
		}
		b.cooked = b.cooked || q.cooked
	}
	b.cooked = b.cooked && !rawIn
	b.kinds |= before
	if b.kinds&^(dry|dough) == 0 {
		b.kinds |= x.named(s.Dish)
	}
	if fresh := own &^ before & (rawSpoils | egg); fresh != 0 && !heats(s) {
		b.cooked = false // raw food goes in
	}
	b.outBefore, b.chillBefore, b.wasCooked, b.wasChilled = b.out, b.chill, b.cooked, b.chilled
	x.through(i, &b)
	return b
}

// named are the kinds in a dish's name, or in its ingredients where that has none.
func (x *path) named(dish int) kind {
	d := &x.p.Dishes[dish]
	k := kindsIn(d.Name)
	if k&^(dry|dough) == 0 {
		k |= foodKinds[d.Food]
	}
	if k == 0 {
		for _, line := range d.Ingredients {
			k |= kindsIn(line.Text)
		}
	}
	return k
}

var foodKinds = map[string]kind{
	"whole-red": redMeat, "whole-pork": pork, "ground-red": ground, "poultry": poultry, "ham-raw": ham, "ham-reheat": ham, "ham-reheat-other": ham,
	"egg": egg, "egg-dish": egg | custard, "leftover": casserole, "casserole": casserole, "rabbit-venison": game,
	"fish": fish, "crustacean": crustacean, "scallop": scallop, "bivalve": bivalve,
}

// through is what the step itself does to its food.
func (x *path) through(i int, b *point) {
	s := &x.p.Steps[i]
	long := x.length(i)
	if x.skipped(i) {
		long = 0
	}
	place := inCold(s)
	switch {
	case heats(s) && b.cooked && b.chilled:
		b.stage, b.chilled = reheating, false
		x.onHeat(s, long, b)
	case heats(s):
		b.stage, b.chilled = cooking, false
		x.onHeat(s, long, b)
	case place != "":
		b.stage = cold
		if b.cooked && !b.chilled {
			b.stage = cooling
		}
		if place == "fridge" && !says(s.Do, thawWords...) { // what thaws is looked at as such
			b.chill += long
		}
		b.chilled = b.chilled || long >= coldFor
	default:
		if b.kinds.spoils(b.cooked) {
			b.out += long
		}
		switch {
		case !b.cooked:
			b.stage = raw
		case b.chilled:
			b.stage = cold
		default:
			b.stage = hot
		}
	}
}

// onHeat counts the time of food on the heat. It begins anew only where the food gets
// hot: what is cooked already to the temperature of leftovers or to the boil, what is
// raw out of the danger zone, or cooked in a way that is not told; never where food is
// heated again after it was cold, for the spells add up. What gets less warm than the
// danger zone's end is in it for as long as it is on the heat.
func (x *path) onHeat(s *plan.Step, long time.Duration, b *point) {
	warm := s.Until.HasTemp && !Reaches(s.Until.Temp, plan.FromFahrenheit(HotF))
	hot := !b.cooked && !warm
	if s.Until.HasTemp {
		hot = hot || Reaches(s.Until.Temp, plan.FromFahrenheit(LeftoverF))
	} else {
		hot = hot || says(s.Do+" "+s.Until.Sign, moistWords...)
	}
	if warm && b.kinds.spoils(b.cooked) {
		b.out += long
	}
	if !b.cooked && !(s.Until.HasTemp && s.Until.Temp < warmest) {
		b.cooked, b.chill = true, 0
	}
	if hot && b.stage != reheating {
		b.out, b.chill = 0, 0
	}
}

// after is what a gap after a step does to what it made.
func (b *point) after(s *plan.Step, gap time.Duration) (out, chill time.Duration, chilled bool) {
	out, chill, chilled = b.out, b.chill, b.chilled
	switch s.Keeps.Place {
	case "fridge":
		chill += gap
		chilled = chilled || gap >= coldFor
	case "freezer":
		chilled = chilled || gap >= coldFor
	case "oven":
	default:
		out += gap
	}
	return out, chill, chilled
}

// last reports whether nothing follows a step but the table.
func (x *path) last(i int) bool { return len(x.followers[i]) == 0 }

// served is when the dish of a step is on the table.
func (x *path) served(i int) time.Time { return x.t.Serves[x.p.CourseOf(i)] }

// toTable is how long what a last step made stands before it is served.
func (x *path) toTable(i int) time.Duration { return max(0, x.served(i).Sub(x.t.Slots[i].End)) }
