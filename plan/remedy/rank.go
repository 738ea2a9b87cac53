package remedy

import (
	"cmp"
	"slices"
)

// rank drops what is dear and what another one beats, and returns the best, at most
// Most less the one that serves as it is: by gain less price, then the lower price,
// then the kind.
func rank(found []tried) []tried {
	found = slices.DeleteFunc(slices.Clone(found), func(r tried) bool { return r.Costs > Dear*r.Gains })
	slices.SortStableFunc(found, func(a, b tried) int {
		return cmp.Or(
			cmp.Compare(b.Gains-b.Costs, a.Gains-a.Costs), cmp.Compare(a.Costs, b.Costs),
			cmp.Compare(slices.Index(order, a.candidate.kind), slices.Index(order, b.candidate.kind)),
		)
	})
	var out []tried
	for _, r := range found {
		if !slices.ContainsFunc(out, func(o tried) bool { return beats(o.Remedy, r.Remedy) }) {
			out = append(out, r)
		}
	}
	return out[:min(len(out), Most-1)]
}

// beats reports whether a gives as much as b for no more.
func beats(a, b Remedy) bool { return a.Gains >= b.Gains && a.Costs <= b.Costs }

func remedies(list []tried) []Remedy {
	out := make([]Remedy, len(list))
	for i := range list {
		out[i] = list[i].Remedy
	}
	return out
}
