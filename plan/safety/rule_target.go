package safety

import (
	"fmt"
	"math"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/source"
)

// classes are the rows of the chart that words stand for, where a dish states no
// `food`; the first that fits.
var classes = []struct {
	kind  kind
	class string
}{
	{poultry, "poultry"}, {ground, "ground-red"}, {sausage, "ground-red"}, {game, "rabbit-venison"}, {casserole, "casserole"},
	{custard | quiche, "egg-dish"}, {pork, "whole-pork"}, {redMeat, "whole-red"}, {fish, "fish"},
}

// classAt returns the row of the chart for the food of a step, and whether the plan
// states it.
func (f *finder) classAt(i int) (r Row, stated, ok bool) {
	if food := f.p.Dishes[f.p.Steps[i].Dish].Food; food != "" {
		r, ok = Minimum(food)
		return r, true, ok
	}
	k := f.points[i].kinds
	for _, c := range classes {
		if k&c.kind != 0 {
			r, ok = Minimum(c.class)
			return r, false, ok
		}
	}
	return Row{}, false, false
}

// Reaches reports whether a temperature is up to one of a chart. One in whole degrees
// Celsius is compared with what the chart prints in those: that is softer than the
// chart's exact figure by less than half a degree.
func Reaches(temp, least plan.Celsius) bool {
	if c := float64(temp); math.Abs(c-math.Round(c)) < 1e-6 {
		return c >= math.Round(float64(least))-1e-6
	}
	return temp >= least-1e-6
}

// targets looks at the temperature that each piece of food is cooked to.
func (f *finder) targets() {
	cooks := f.cooks()
	for k := range cooks {
		c := &cooks[k]
		if c.again && !c.stated {
			continue // heating again is looked at as such
		}
		linked := func(match func(o *cook, later bool) bool) bool {
			for l := range cooks {
				if o := &cooks[l]; l != k && sameFood(c, o) {
					if later := f.leads(c.step, o.step); (later || f.leads(o.step, c.step)) && match(o, later) {
						return true
					}
				}
			}
			return false
		}
		switch c.done {
		case reached:
			if !linked(func(o *cook, later bool) bool { return later && o.done != silent }) {
				f.rest(c.step, c.row)
			}
		case under:
			if !linked(func(o *cook, later bool) bool {
				return o.done == reached || o.done == vouched || later && o.done == under
			}) {
				f.under(c)
			}
		case silent:
			if !linked(func(o *cook, later bool) bool {
				return o.done != silent || later && o.named || !c.named && (later || o.named)
			}) {
				f.noTarget(c)
			}
		}
	}
}

// under is about food that is done below the chart's temperature.
func (f *finder) under(c *cook) {
	row, target := c.row, f.p.Steps[c.step].Until.Temp
	if f.british(row) {
		f.add("under-minimum", c.step,
			fmt.Sprintf("%s says done at %s; British advice for %s is %s", f.isFor(c.stated), f.temp(target), row.Food, British(f.p.Units)),
			"cook on to "+f.temp(ukCore)+" in the middle and hold it there for 2 minutes", fsa(source.Secondary))
		return
	}
	f.add("under-minimum", c.step,
		fmt.Sprintf("%s says done at %s; the consumer chart says %s for %s%s", f.isFor(c.stated), f.temp(target), f.temp(row.Temp()), row.Food, f.beside(row, target)),
		"cook on to "+f.temp(row.Temp())+" in the thickest part"+andRest(row), row.Source)
}

// noTarget is about food of which no step says how hot it gets.
func (f *finder) noTarget(c *cook) {
	row := c.row
	if !row.HasTemp() {
		f.add("no-target", c.step, "no step says by what to see that it is done", "cook until "+row.Sign, row.Source)
		return
	}
	f.add("no-target", c.step, fmt.Sprintf("no step says to what temperature it is cooked; the consumer chart says %s for %s", f.temp(row.Temp()), row.Food),
		fmt.Sprintf("write `until: %s`, and measure in the thickest part%s", f.written(row), andRest(row)), row.Source)
}

// british reports whether British advice is looked at in place of a row of the chart.
func (f *finder) british(r Row) bool { return IsBritish(f.p, r) }

// IsBritish reports whether a plan's rules have British advice beside a row of the chart.
func IsBritish(p *plan.Plan, r Row) bool { return p.Rules == "uk" && r.F >= LeastOfUK }

// LeastOfUK is the figure of the American chart, in degrees Fahrenheit, from which on
// British advice (70 °C for two minutes) is looked at in its place.
const LeastOfUK = 160

// British is British advice on food done in the middle, in words.
func British(u plan.Units) string {
	return u.Temp(ukCore) + " for 2 minutes, or " + u.Temp(ukBriefly) + " for 30 seconds"
}

func (f *finder) isFor(stated bool) string {
	if stated {
		return "the plan"
	}
	return "the plan, which states no `food`,"
}

func andRest(r Row) string {
	if r.Rest == 0 {
		return ""
	}
	return fmt.Sprintf(", then let it rest %d minutes", plan.Minutes(r.Rest))
}

// beside names the Food Code's figure, which is for kitchens that time it.
func (f *finder) beside(r Row, target plan.Celsius) string {
	switch r.ID {
	case "ground-red":
		return fmt.Sprintf(" (the Food Code, for kitchens that time it: %s for 17 seconds)", f.degrees(155))
	case "whole-red", "whole-pork", "ham-raw":
		if d, ok := roastTime(target); ok && d > 0 {
			return fmt.Sprintf(" (the Food Code, for whole roasts, if every part is held there: %s)", spell(d))
		}
	}
	return ""
}

// spell writes a time that may be of seconds.
func spell(d time.Duration) string {
	if d%time.Minute != 0 && d < 5*time.Minute {
		return fmt.Sprintf("%d s", int(d.Seconds()))
	}
	return plan.Spell(d)
}

// written is the row's temperature as a plan writes it.
func (f *finder) written(r Row) string {
	if f.p.Units == plan.Metric {
		return fmt.Sprintf("%.0fC", math.Round(float64(r.Temp())))
	}
	return fmt.Sprintf("%dF", r.F)
}

// restless is the temperature in degrees Fahrenheit from which on the Food Code asks
// of a whole roast no time at all.
const restless = 158

// rest looks whether a cut that needs its rest gets it.
func (f *finder) rest(i int, row Row) {
	s := &f.p.Steps[i]
	if row.Rest == 0 || s.Until.Temp.Fahrenheit() >= restless-1e-6 {
		return
	}
	if got, cut := f.rests(i); cut && got < row.Rest {
		f.add("short-rest", i, fmt.Sprintf("it rests %s when it is done at %s; the chart asks for %d minutes", plan.Spell(got), f.temp(s.Until.Temp), plan.Minutes(row.Rest)),
			fmt.Sprintf("let it rest whole for %d minutes, off the heat", plan.Minutes(row.Rest)), row.Source)
	}
}

// rests returns how long after a step its food is left alone until it is cut or
// served; false where it goes on to the heat.
func (f *finder) rests(i int) (time.Duration, bool) {
	if f.last(i) {
		return f.toTable(i), true
	}
	least, found := time.Duration(math.MaxInt64), false
	for _, j := range f.followers[i] {
		if heats(&f.p.Steps[j]) {
			continue
		}
		got, cut := f.gap(i, j), true
		if f.p.Steps[j].Length.Elastic {
			var more time.Duration
			more, cut = f.rests(j)
			got += f.length(j) + more
		}
		if cut {
			least, found = min(least, got), true
		}
	}
	return least, found
}
