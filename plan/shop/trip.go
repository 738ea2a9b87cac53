package shop

import "slices"

// trips sorts things to buy into as few ways to the shops as will do, each as late
// as it may be.
//
// Every item is an interval from From (or from long before) to By. The greedy rule is
// optimal for points that pierce intervals: take the earliest By of what is left, and
// buy all that may be bought then. Cost: O(n²). Source: Cormen, Leiserson, Rivest and
// Stein, Introduction to Algorithms, on greedy activity selection, whose dual it is.
func trips(items []Item) []Trip {
	slices.SortStableFunc(items, func(a, b Item) int { return a.By.Compare(b.By) })
	out := []Trip{}
	for len(items) > 0 {
		trip := Trip{By: items[0].By, Items: []Item{}}
		var rest []Item
		for _, it := range items {
			if it.From != nil && it.From.After(trip.By) {
				rest = append(rest, it)
				continue
			}
			trip.Items = append(trip.Items, it)
			if it.From != nil && (trip.From == nil || it.From.After(*trip.From)) {
				trip.From = it.From
			}
		}
		out = append(out, trip)
		items = rest
	}
	return out
}
