package heat

import (
	"slices"
	"time"

	"example.org/kettledrum/plan"
)

const (
	// window is how many readings a line is laid through: older ones tell of an
	// oven and a surface that are no more.
	window = 5
	// awake is by how much the inside must have warmed before the line holds.
	awake plan.Celsius = 8
	// falls is by how much a reading must be below an earlier one for one of the two
	// to be wrong: the door was open, the probe was moved.
	falls plan.Celsius = 2
	// cold is the temperature of food from the fridge, taken where no reading tells
	// it; firstShare is the share of the plan in which a reading still does.
	cold       plan.Celsius = 5
	firstShare float64      = 0.15
)

// usable returns the last readings that a line may be laid through, by time: of
// those since the dial was turned, warm enough and not contradicted. It reports
// fell where the newest two were left out and are lower than what was before: then
// the food itself is cooling.
func (r *Roast) usable() (use []Reading, fell bool) {
	from := r.initial() + awake
	all := slices.DeleteFunc(slices.Clone(r.Readings), func(x Reading) bool {
		return x.At.Before(r.Start) || !x.At.After(r.Turned)
	})
	kept := uncontradicted(all)
	if n := len(all); n > 2 && !slices.Contains(kept, all[n-1]) && !slices.Contains(kept, all[n-2]) {
		fell = slices.ContainsFunc(all[:n-2], func(x Reading) bool { return x.Temp-max(all[n-1].Temp, all[n-2].Temp) > falls })
	}
	kept = slices.DeleteFunc(kept, func(x Reading) bool { return x.Temp < from })
	return kept[max(0, len(kept)-window):], fell
}

// initial is how cold the food was: as read before or soon after it went in, else
// as from the fridge.
func (r *Roast) initial() plan.Celsius {
	soon := r.Start.Add(time.Duration(firstShare * float64(r.Planned)))
	if len(r.Readings) > 0 && !r.Readings[0].At.After(soon) {
		return r.Readings[0].Temp
	}
	return cold
}

// uncontradicted leaves out readings until none is lower by more than falls than
// an earlier one: always those that most others contradict, so that a single dip
// goes, and so does a single peak. Of two that have only each other against them
// nobody knows which is wrong: both go.
func uncontradicted(readings []Reading) []Reading {
	kept := slices.Clone(readings)
	for {
		against := make(map[Reading]int, len(kept))
		most := 0
		for i, x := range kept {
			for _, y := range kept[i+1:] {
				if x.Temp-y.Temp > falls {
					against[x]++
					against[y]++
					most = max(most, against[x], against[y])
				}
			}
		}
		if most == 0 {
			return kept
		}
		kept = slices.DeleteFunc(kept, func(x Reading) bool { return against[x] == most })
	}
}
