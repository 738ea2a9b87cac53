package heat

import (
	"time"

	"example.org/kettledrum/plan"
)

// size is a class of roasts, told by how long they take in the oven.
type size struct {
	upTo time.Duration
	rise plan.Celsius
	peak time.Duration
}

// sizes: what the inside goes on to rise by out of an oven of 160 to 200 °C, and
// after how long it is at its highest. The figures lie between those of a
// professional cookery course (3 °C for small cuts, 6 to 8 as a rule, 14 for very
// large ones; johnnyskitchen.us, Carryover Cooking) and of an oven maker's roasting
// guide (GE JKP46G, page 15: 5 to 10 °F in 10 to 20 minutes); the lengths that tell
// the sizes are our own judgement.
var sizes = []size{
	{20 * time.Minute, 2, 5 * time.Minute},    // steak, chop
	{50 * time.Minute, 3.5, 15 * time.Minute}, // small roast
	{150 * time.Minute, 5.5, 22 * time.Minute},
	{1<<63 - 1, 7.5, 30 * time.Minute}, // large roast, whole bird
}

// RestRise returns by how much the inside of food may be expected to rise in the
// rest after the oven, and after how long it is at its highest. It is a guide and
// no safety: what is safe is judged by a reading. Nothing for food pulled beyond
// the plateau, which is as hot inside as it gets.
func RestRise(took time.Duration, oven, pulled plan.Celsius) (plan.Celsius, time.Duration) {
	if pulled >= plateau {
		return 0, 0
	}
	i := 0
	for took > sizes[i].upTo {
		i++
	}
	rise, peak := sizes[i].rise, sizes[i].peak
	switch {
	case oven > 200:
		rise += 2
	case oven <= hotOven:
		rise = max(1, rise-2)
	}
	return rise, peak
}
