package safety

import (
	"fmt"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/source"
)

// stuffedWait is how long a stuffed bird may wait for the oven: just before roasting,
// as far as a kitchen can.
const stuffedWait = 30 * time.Minute

// birds looks for stuffed birds, rinsed ones, and meat that is cooked in part.
func (f *finder) birds() {
	f.dishes(func(d *plan.Dish, steps []int) {
		for _, i := range steps {
			s, b := &f.p.Steps[i], &f.points[i]
			if kindsIn(s.Do)&poultry != 0 && says(s.Do, "rinse", "wash") && !b.cooked {
				f.add("wash-poultry", i, "raw poultry is rinsed", "do not rinse it; pat it dry with paper")
			}
			if b.kinds&poultry != 0 && !b.cooked && says(s.Do, "stuff", "stuffed", "stuffing", "fill the bird") && f.cookedFrom(i, 0) {
				f.stuffed(i)
			}
			if f.partial(i) {
				f.add("partial-cook", i, "it is cooked in part, then stands cold until it is cooked through", "cook it through at once, or brown it just before")
			}
		}
	})
}

// stuffed is about a bird that is filled, unless its roast says to measure the
// stuffing and comes at once.
func (f *finder) stuffed(i int) {
	least := f.degrees(165)
	for _, j := range f.followers[i] {
		s := &f.p.Steps[j]
		if !heats(s) {
			continue
		}
		if wait := f.gap(i, j); wait > stuffedWait {
			f.add("stuffing", i, fmt.Sprintf("the stuffed bird waits %s for the oven", plan.Spell(wait)), "stuff it just before it is roasted", cite("common practice", "", source.Memory))
			return
		}
		if s.Until.HasTemp && Reaches(s.Until.Temp, plan.FromFahrenheit(165)) && says(s.Until.Sign+" "+s.Do, "stuffing") {
			return
		}
	}
	f.add("stuffing", i, "the stuffing must get as hot as the bird: "+least+" in its middle",
		"measure there too; a stuffed bird takes 15 to 30 minutes longer. Stuffing baked in a dish is simpler")
}

// partial reports whether a step cooks meat in part and then lets it get cold.
func (f *finder) partial(i int) bool {
	s, b := &f.p.Steps[i], &f.points[i]
	if b.stage != cooking || b.kinds&meats == 0 ||
		!says(s.Do, "part cook", "partly cook", "half cook", "par cook", "parcook", "parboil", "precook", "brown", "sear", "rare") {
		return false
	}
	for _, j := range f.followers[i] {
		again := f.cookedFrom(j, 0)
		if again && (s.Keeps.Place == "fridge" && f.gap(i, j) >= coldFor || inCold(&f.p.Steps[j]) != "" && f.length(j) >= coldFor) {
			return true
		}
	}
	return false
}
