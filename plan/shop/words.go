package shop

import (
	"math"
	"strconv"
	"strings"

	"example.org/kettledrum/plan/ingredient"
	"example.org/kettledrum/plan/measure"
)

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
