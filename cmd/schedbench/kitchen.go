package main

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/planfile"
)

// How scarce time is in a kitchen: the cooks' hours as a multiple of what the
// work seems to need, what lies between two courses, and how late they may be.
var tightness = []struct {
	least, most float64
	gap, late   int // minutes
}{
	{2.4, 3.0, 60, 30}, // 0: roomy
	{1.4, 1.8, 45, 20}, // 1: usual
	{0.8, 1.3, 30, 15}, // 2: nearly or not at all enough
}

const (
	tableAt   = 19 * 60 // the first course, in minutes after midnight
	seated    = 25      // minutes
	earliest  = 6 * 60  // no cook comes before
	overhead  = 1.25    // touches, minding and waiting for each other, of the work
	ovenShare = 1.5     // bakes that are in an oven together, on average

	mostCourses = 6 // more would keep the guests up all night
)

// sizes of a kitchen grow with the dinner. Ten dishes have two cooks, an oven of
// two shelves, four burners and three courses; thirty-four (200 steps) have
// three cooks, two ovens, six burners and four courses.
type sizes struct{ dishes, cooks, ovens, burners, courses int }

func sizesOf(steps int) sizes {
	dishes := (steps + stepsADish - 1) / stepsADish
	s := sizes{
		dishes:  dishes,
		cooks:   max(2, (dishes+5)/11),
		ovens:   max(1, (dishes+5)/15),
		courses: min(dishes, 3+dishes/20, mostCourses),
	}
	s.burners = 2 + 2*s.ovens
	return s
}

// dinner makes the plan file of a kitchen. The same arguments make the same
// file.
func dinner(steps, tight int, seed uint64) []byte {
	r := rand.New(rand.NewPCG(seed, uint64(steps)<<8|uint64(tight)))
	size, t := sizesOf(steps), tightness[tight]
	dishes, load := dishesOf(r, steps, size)

	need := max(overhead*float64(load.work)/float64(size.cooks), float64(load.bake)/(ovenShare*float64(size.ovens)))
	for c, chain := range load.chain {
		need = max(need, float64(chain-c*t.gap))
	}
	hours := need * (t.least + (t.most-t.least)*r.Float64())
	from := max(earliest, tableAt-int(hours))
	until := tableAt + (size.courses-1)*t.gap + t.late + seated

	var b strings.Builder
	say := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	say("# schedbench -kitchen -steps %d -tight %d -seed %d -n 1 -print", steps, tight, seed)
	say("kettledrum: 1\ntitle: Kitchen %d\nguests: 8\ntable: 2026-10-17 %s\nzone: UTC\nunits: C\nkitchen:\n  cooks:", seed, clock(tableAt))
	for c := range size.cooks {
		sits := ""
		if c == 0 {
			sits = ", sits: true"
		}
		say("    - {name: Cook %d, free: [2026-10-17 %s-%s]%s}", c+1, clock(from), clock(until), sits)
	}
	say("  ovens:")
	for o := range size.ovens {
		say("    - {name: oven %d, shelves: 2, preheat: 12m to 180C, cools: 14m from 220C to 180C}", o+1)
	}
	say("  burners: {large: %d, small: %d}", size.burners/2, size.burners/2)
	say("  tools: {pot: %d, blender: {count: %d, wash: 5m}, carving board: %d}", size.burners/2, size.ovens, size.ovens)
	say("  cold: {fridge: %d}", max(4, size.dishes))
	say("courses:")
	for c := range size.courses {
		say("  - {name: Course %d, serve: %dm, seated: %dm, late_ok: %dm, slips_away: 4m}", c+1, c*t.gap, seated, t.late)
	}
	say("dishes:")
	for d, dish := range dishes {
		say("  - name: Dish %d\n    course: Course %d\n    steps:", d+1, courseOf(d, size)+1)
		for _, s := range dish {
			say("      - %s", s.line)
		}
	}
	return []byte(b.String())
}

// load is what a dinner asks for, in minutes.
type load struct {
	work, bake int
	chain      []int // of each course: the longest dish, step after step
}

// dishesOf draws the dishes; the last one ends where the steps are used up.
func dishesOf(r *rand.Rand, steps int, size sizes) (dishes [][]made, l load) {
	l.chain = make([]int, size.courses)
	first, middle, last := &deck{all: starters}, &deck{all: mains}, &deck{all: sweets}
	for d := range size.dishes {
		c := courseOf(d, size)
		from := middle
		switch {
		case c == 0 && size.courses > 1:
			from = first
		case c == size.courses-1 && c > 0:
			from = last
		}
		dish := from.deal(r)(r)
		dish = dish[:min(len(dish), steps-d*stepsADish)]
		chain := 0
		for _, s := range dish {
			l.work += s.work
			l.bake += s.bake
			chain += s.long
		}
		l.chain[c] = max(l.chain[c], chain)
		dishes = append(dishes, dish)
	}
	return dishes, l
}

// courseOf deals the dishes out to the courses in turn of the table: of ten,
// three, four and three.
func courseOf(dish int, s sizes) int { return min(s.courses-1, (dish*s.courses+1)/s.dishes) }

// clock formats minutes after midnight; past it, the next day's.
func clock(minutes int) string { return fmt.Sprintf("%02d:%02d", minutes/60%24, minutes%60) }

// kitchenPlan makes a kitchen and reads its plan file, as the product would.
func kitchenPlan(steps, tight int, seed uint64) (*plan.Plan, error) {
	p, problems := planfile.Decode(dinner(steps, tight, seed), planfile.Options{
		Local: time.UTC, Now: time.Date(2026, 10, 1, 12, 0, 0, 0, time.UTC),
	})
	if p == nil || problems.HasErrors() {
		return nil, fmt.Errorf("kitchen of %d steps, tight %d, seed %d: %w", steps, tight, seed, problems)
	}
	return p, nil
}
