package shop

import "slices"

// trips sorts things to buy into as few ways to the shops as will do, and each thing
// into the last of them that is in its time.
//
// Every item is an interval from From (or from long before) to By. The greedy rule is
// optimal for points that pierce intervals: take the earliest By of what is left as a
// point, and leave out all that it pierces. Cost: O(n²). Source: Cormen, Leiserson,
// Rivest and Stein, Introduction to Algorithms, on greedy activity selection, whose
// dual it is.
func trips(items []Item) []Trip {
	slices.SortStableFunc(items, func(a, b Item) int { return a.By.Compare(b.By) })
	out := []Trip{}
	for _, it := range items {
		if n := len(out); n == 0 || it.From != nil && it.From.After(out[n-1].By) {
			out = append(out, Trip{By: it.By, Items: []Item{}})
		}
	}
	for _, it := range items {
		for i := len(out) - 1; i >= 0; i-- {
			t := &out[i]
			if t.By.After(it.By) {
				continue
			}
			t.Items = append(t.Items, it)
			if it.From != nil && (t.From == nil || it.From.After(*t.From)) {
				t.From = it.From
			}
			break
		}
	}
	return out
}
