package walk

import (
	"maps"
	"slices"
)

// Ticks are the things that were found: of each by name how many pieces. A value:
// With returns another.
type Ticks map[string]int

// Has reports whether a thing was found: here, or enough of it at another stop.
func (t Ticks) Has(x Thing) bool { return t[x.Name] >= x.Need }

// With returns the ticks with a thing found, or not found after all.
func (t Ticks) With(x Thing, found bool) Ticks {
	out := maps.Clone(t)
	if out == nil {
		out = Ticks{}
	}
	if found {
		out[x.Name] = max(out[x.Name], x.Need)
	} else {
		out[x.Name] = min(out[x.Name], x.Need-1)
	}
	return out
}

// Missing is a thing that was not found.
type Missing struct {
	Thing
	For Stop // the first that misses it
}

// Missing lists what was not found, each thing once, as the first stop that misses it
// asks for it, by when that is.
func (t Ticks) Missing(stops []Stop) (out []Missing) {
	seen := map[string]bool{}
	for _, s := range stops {
		for _, x := range s.Things {
			if !t.Has(x) && !seen[x.Name] {
				seen[x.Name] = true
				out = append(out, Missing{x, s})
			}
		}
	}
	return out
}

// All counts the things of all stops, each once.
func All(stops []Stop) int { return len(Ticks(nil).Missing(stops)) }

// Total is a kind of thing of which pieces are counted, and how many there must be at
// most at once.
type Total struct {
	Name string
	Need int
}

// Totals lists the things that several stops may share (tools, burners, a thermometer),
// each with how many are wanted at once, in the order in which they are first wanted.
func Totals(stops []Stop) (out []Total) {
	for _, s := range stops {
		for _, x := range s.Things {
			if !x.Shared {
				continue
			}
			k := slices.IndexFunc(out, func(t Total) bool { return t.Name == x.Name })
			if k < 0 {
				k = len(out)
				out = append(out, Total{Name: x.Name})
			}
			out[k].Need = max(out[k].Need, x.Need)
		}
	}
	return out
}
