package heat

import (
	"math"

	"example.org/kettledrum/plan"
)

// BakedThrough is the inside at which a bake is taken to be done of which the plan
// states no temperature. From memory: the crumb of bread is done at 93 to 99 °C.
const BakedThrough plan.Celsius = 95

// Hotter returns the part of its time that a bake needs at to instead of at from,
// both above inside: the inside, starting at room, nears the oven's temperature
// exponentially, and takes
//
//	t(T) ∝ ln((T − room) / (T − inside)),  so  Hotter = t(to) / t(from)
//
// 1 where that has no sense. Source: first term of the series for a solid in a
// medium of constant temperature, any textbook of heat transfer (from memory). It
// knows nothing of crusts that burn: never below what the plan has as shortest.
func Hotter(from, to, room, inside plan.Celsius) float64 {
	if inside <= room || from <= inside || to <= from {
		return 1
	}
	t := func(oven plan.Celsius) float64 { return math.Log(float64((oven - room) / (oven - inside))) }
	return t(to) / t(from)
}
