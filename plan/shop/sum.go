package shop

import (
	"math"
	"slices"
	"strings"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/ingredient"
	"example.org/kettledrum/plan/measure"
)

// purchases adds up what is the same thing. What keeps too short to be bought once
// for all its uses becomes several items.
func purchases(p *plan.Plan, needs []need) []Item {
	order := []string{}
	same := map[string][]need{}
	for _, n := range needs {
		key := n.key
		if n.Frozen {
			key += ", frozen"
		}
		if same[key] == nil {
			order = append(order, key)
		}
		same[key] = append(same[key], n)
	}
	var out []Item
	for _, key := range order {
		group := same[key]
		slices.SortStableFunc(group, func(a, b need) int { return a.at.Compare(b.at) })
		for len(group) > 0 {
			k := 1
			for k < len(group) {
				if fresh, _ := freshFor(group[k]); fresh > 0 && group[k].at.Add(-fresh).After(group[0].at) {
					break
				}
				k++
			}
			out = append(out, item(p, group[:k]))
			group = group[k:]
		}
	}
	return out
}

// item makes one purchase of needs of the same thing, in the order of their use.
func item(p *plan.Plan, group []need) Item {
	it := Item{Name: name(group), By: group[0].by, Optional: true, For: []Use{}, Amounts: add(p, group)}
	for _, n := range group {
		if n.by.Before(it.By) {
			it.By = n.by
		}
		it.More = it.More || n.More || n.Amount.Lo == 0 && len(it.Amounts) > 0
		it.Optional = it.Optional && (n.Optional || p.Dishes[n.dish].Optional)
		it.Frozen = it.Frozen || n.Frozen
		it.For = append(it.For, Use{Dish: p.Dishes[n.dish].Name, Line: n.Text, At: n.at})
		if fresh, why := freshFor(n); fresh > 0 {
			from := n.at.Add(-fresh)
			if it.From == nil || from.After(*it.From) {
				it.From, it.Why = &from, why
			}
		}
	}
	if it.From != nil && it.From.After(it.By) {
		it.From = &it.By
	}
	return it
}

// name is the thing as the cook wrote it first; in the plural where there are
// several.
func name(group []need) string {
	name := group[0].Item
	for _, n := range group { // the barest of the names
		if len(n.Item) < len(name) && ingredient.Key(n.Item) == ingredient.Key(name) {
			name = n.Item
		}
	}
	total, things := 0.0, true
	for _, n := range group {
		total += n.hi
		things = things && n.Amount.Unit == nil && n.Amount.Pack == ""
	}
	if things && total > 1 && (len(group) > 1 || group[0].times != 1) {
		name = ingredient.Plural(name)
	}
	return name
}

// pile is a sum in one kind of measure.
type pile struct {
	unit   *measure.Unit // the one that is shown; nil of what is counted
	pack   string        // with its size: "14 oz can"
	lo, hi float64       // in g or ml, or a count
	about  bool
	met    bool    // a part of it was a volume
	weighs float64 // grams that the lines say what is counted weighs in all; NaN where one does not
}

// add sums the amounts of a thing: masses with masses, volumes with volumes, and
// what is counted by what it is counted in. Masses and volumes meet where the food's
// density is known, and then are "about".
func add(p *plan.Plan, group []need) []Amount {
	var piles []*pile
	find := func(is func(*pile) bool, make pile) *pile {
		for _, x := range piles {
			if is(x) {
				return x
			}
		}
		piles = append(piles, &make)
		return piles[len(piles)-1]
	}
	for _, n := range group {
		a := n.Amount
		if a.Lo == 0 {
			continue
		}
		lo, hi, unit, pack := n.lo, n.hi, a.Unit, a.Pack
		if pack == "stick" && strings.HasSuffix(n.key, "butter") && n.Each.None() { // ½ cup, by the trade's package
			unit, pack, lo, hi = measure.Named("ounce"), "", 4*lo, 4*hi
		}
		var x *pile
		if unit != nil {
			dimension := unit.Dimension
			x = find(func(x *pile) bool { return x.unit != nil && x.unit.Dimension == dimension }, pile{unit: unit})
			x.unit = common(x.unit, unit, p.Units)
			lo, hi = lo*unit.Size, hi*unit.Size
		} else {
			if n.Each.Unit != nil {
				pack = strings.TrimSpace(size(n.Each) + " " + pack)
			}
			x = find(func(x *pile) bool { return x.unit == nil && x.pack == pack }, pile{pack: pack})
		}
		x.lo, x.hi, x.about = x.lo+lo, x.hi+hi, x.about || a.About
		x.weighs += inAll(n)
	}
	piles = meet(piles, group)
	out := []Amount{}
	for _, x := range piles {
		out = append(out, x.amount(group))
	}
	return out
}

// inAll is what the line says that all it counts weighs together, scaled: "4 chicken
// thighs (about 2 lb)"; NaN where it does not say.
func inAll(n need) float64 {
	if n.Each.None() {
		for _, a := range n.Also {
			if a.Unit != nil && a.Unit.Dimension == measure.Mass {
				return a.Hi * a.Unit.Size * n.times
			}
		}
	}
	return math.NaN()
}

// common is the unit in which amounts in two units are shown.
func common(a, b *measure.Unit, u plan.Units) *measure.Unit {
	switch {
	case a == b:
		return a
	case a.System == b.System || a.Dimension == measure.Mass && a.System != measure.Metric && b.System != measure.Metric:
		if a.Size > b.Size { // spoons and cups are spelled together, and so are g and kg
			return a
		}
		return b
	case a.Dimension == measure.Mass && u == plan.Metric:
		return measure.Named("gram")
	case a.Dimension == measure.Mass:
		return measure.Named("ounce")
	case u == plan.Metric:
		return measure.Named("millilitre")
	}
	return measure.Named("US cup")
}

// meet turns the volume of a thing into mass where both were asked for and it is
// known what a cup of it weighs.
func meet(piles []*pile, group []need) []*pile {
	var mass, volume *pile
	for _, x := range piles {
		switch {
		case x.unit != nil && x.unit.Dimension == measure.Mass:
			mass = x
		case x.unit != nil && x.unit.Dimension == measure.Volume:
			volume = x
		}
	}
	d, ok := density(group)
	if mass == nil || volume == nil || !ok {
		return piles
	}
	mass.lo, mass.hi, mass.about = mass.lo+volume.lo*d.PerML(), mass.hi+volume.hi*d.PerML(), true
	mass.met = true
	return slices.DeleteFunc(piles, func(x *pile) bool { return x == volume })
}

// density finds what a cup of the thing weighs: by its whole name first, for sliced
// almonds are lighter than almonds.
func density(group []need) (measure.Density, bool) {
	if d, ok := measure.DensityOf(ingredient.Name(group[0].Item)); ok {
		return d, true
	}
	return measure.DensityOf(group[0].key)
}
