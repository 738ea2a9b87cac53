package run

import (
	"maps"
	"slices"
)

// Kinds lists every kind of event that Apply knows the shape of.
func Kinds() []Kind { return slices.Sorted(maps.Keys(needs)) }
