package shop

import (
	"math"
	"slices"
	"strconv"
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

// size is the size of a pack: "14 oz".
func size(a ingredient.Amount) string {
	number := measure.Number
	if a.Unit.System == measure.Metric {
		number = func(v float64) string { return strconv.FormatFloat(v, 'g', 6, 64) }
	}
	text := span(number(a.Lo), number(a.Hi)) + " " + a.Unit.Short
	if a.About {
		text = "about " + text
	}
	return text
}

// amount writes a pile.
func (x *pile) amount(group []need) Amount {
	a := Amount{Low: x.lo, High: x.hi, Unit: x.pack, About: x.about}
	if x.unit == nil {
		lo, hi := math.Ceil(x.lo-1e-9), math.Ceil(x.hi-1e-9)
		a.Text = span(measure.Number(lo), measure.Number(hi))
		if x.pack != "" {
			head, pack := "", x.pack
			if i := strings.LastIndexByte(x.pack, ' '); i >= 0 {
				head, pack = x.pack[:i+1], x.pack[i+1:]
			}
			sized := head != "" && ingredient.PackMany(pack) == pack // "6 oz": no pack, the thing itself
			if hi > 1 && !sized {
				pack = ingredient.PackMany(pack)
			}
			if head != "" {
				a.Text += " ×" // "3 × 14 oz cans"
			}
			a.Text += " " + head + pack
		}
		var aside []string
		if lo-x.lo > 1e-6 || hi-x.hi > 1e-6 { // whole ones are bought
			aside = append(aside, span(measure.Number(x.lo), measure.Number(x.hi)))
		}
		if !math.IsNaN(x.weighs) {
			aside = append(aside, "about "+roughly(x.weighs, !metric(group)))
		}
		if aside != nil {
			a.Text += " (" + strings.Join(aside, ", ") + ")"
		}
		return about(a)
	}
	tolerance := measure.Loose
	if strict(group[0].key) {
		tolerance = measure.Strict
	}
	lo, hi := measure.Spell(x.lo/x.unit.Size, x.unit, tolerance), measure.Spell(x.hi/x.unit.Size, x.unit, tolerance)
	a.Unit = map[measure.Dimension]string{measure.Mass: "g", measure.Volume: "ml", measure.Length: "mm"}[x.unit.Dimension]
	a.About = a.About || !lo.Exact || !hi.Exact
	a.Text = span(lo.Text, hi.Text)
	if x.met {
		us := x.unit.System != measure.Metric
		a.Text = span(roughly(x.lo, us), roughly(x.hi, us))
	}
	if d, ok := density(group); ok && a.Unit == "ml" && !d.Liquid && x.hi >= measure.Named("US cup").Size/4-1e-9 {
		a.Text += " (about " + roughly(x.hi*d.PerML(), x.unit.System == measure.US) + ")"
	}
	return about(a)
}

// roughly writes a mass that comes of a density, in steps no finer than it is known.
func roughly(grams float64, us bool) string {
	if !us { // two digits
		step := math.Pow(10, math.Floor(math.Log10(grams))-1)
		return measure.Spell(math.Round(grams/step)*step, measure.Named("gram"), measure.Loose).Text
	}
	oz := grams / measure.Named("ounce").Size
	if oz >= 4 {
		oz = math.Round(oz)
	}
	return measure.Spell(oz, measure.Named("ounce"), measure.Loose).Text
}

// metric tells whether the first weight beside a count is in grams.
func metric(group []need) bool {
	for _, n := range group {
		for _, a := range n.Also {
			if a.Unit != nil && a.Unit.Dimension == measure.Mass {
				return a.Unit.System == measure.Metric
			}
		}
	}
	return false
}

func about(a Amount) Amount {
	if a.About {
		a.Text = "about " + a.Text
	}
	return a
}

func span(lo, hi string) string {
	if lo == hi {
		return lo
	}
	if strings.Contains(lo, " ") {
		return lo + " to " + hi
	}
	return lo + "–" + hi
}

// strict tells what bears little rounding.
func strict(key string) bool {
	for _, w := range []string{"yeast", "baking", "gelatine", "gelatin", "bicarbonate", "agar", "pectin"} {
		if strings.Contains(key, w) {
			return true
		}
	}
	return false
}
