package measure

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// How far a spelled amount may be from the exact one, as a share of it. Common
// practice; leavening, yeast, gelatine and the salt of a dough bear less.
const (
	Loose  = 0.05
	Strict = 0.02
)

// Spelled is an amount as a cook can measure it.
type Spelled struct {
	Text string
	// Value is what the text says, in the dimension's own unit (g, ml, mm); within
	// the tolerance of what was asked.
	Value float64
	// Exact: the text says all of the amount.
	Exact bool
}

// Spell writes v of unit u in measures that a cook has: "1 cup + 2 tbsp", "2¼ lb",
// "1.25 kg". It stays in the system of u and moves up and down between its units.
// The error is at most tolerance, a share of v, unless v is less than the least
// measure there is.
func Spell(v float64, u *Unit, tolerance float64) Spelled {
	base := v * u.Size
	switch {
	case v <= 0 || math.IsNaN(v) || math.IsInf(v, 0):
		return Spelled{Text: "0 " + u.Short, Exact: v == 0}
	case u.Vague:
		if n := v * u.Size / Named("US teaspoon").Size; n >= 1./4-1e-9 {
			return spoons(base, usSpoons, tolerance) // enough pinches make a measure
		}
		return counted(v, u)
	case u.Dimension == Length:
		return fractional(v, u)
	case u.Dimension == Mass && u.System == Metric:
		return decimalSteps(base, Named("gram"), Named("kilogram"), tolerance)
	case u.Dimension == Mass:
		return ounces(base, tolerance)
	}
	switch u.Name {
	case "millilitre", "centilitre", "decilitre", "litre":
		return decimalSteps(base, Named("millilitre"), Named("litre"), tolerance)
	case "US teaspoon", "US tablespoon", "US cup":
		return spoons(base, usSpoons, tolerance)
	case "metric teaspoon", "metric tablespoon", "metric cup":
		return spoons(base, metricSpoons, tolerance)
	}
	if s := fractional(v, u); math.Abs(s.Value-base) <= tolerance*base {
		return s
	}
	if u.System == US { // a bottle of a quart and a bit is cups
		return spoons(base, usSpoons, tolerance)
	}
	return decimalSteps(base, Named("millilitre"), Named("litre"), tolerance)
}

// counted writes a number of things that are no measure: "3 pinches".
func counted(v float64, u *Unit) Spelled {
	n := math.Max(1, math.Round(v))
	return Spelled{Text: plural(n, Number(n), u), Value: n * u.Size, Exact: near(n, v)}
}

// fractional writes one unit with a fraction: "2½ qt".
func fractional(v float64, u *Unit) Spelled {
	text, value := fraction(v, quarters)
	return Spelled{Text: plural(value, text, u), Value: value * u.Size, Exact: near(value, v)}
}

// plural puts the unit behind the number.
func plural(n float64, text string, u *Unit) string {
	if n > 1 {
		return text + " " + u.Many
	}
	return text + " " + u.Short
}

// near tells that two numbers differ by no more than the noise of computing.
func near(a, b float64) bool { return math.Abs(a-b) <= 1e-9*math.Max(math.Abs(a), math.Abs(b)) }

// The fractions that cooks have measures for, of each kind of thing.
var (
	cupParts   = []float64{0, 1. / 4, 1. / 3, 1. / 2, 2. / 3, 3. / 4}
	spoonParts = []float64{0, 1. / 2}
	teaParts   = []float64{0, 1. / 4, 1. / 2, 3. / 4}
	eighth     = []float64{0, 1. / 8}
	quarters   = []float64{0, 1. / 8, 1. / 4, 1. / 3, 1. / 2, 2. / 3, 3. / 4}
	fourths    = []float64{0, 1. / 4, 1. / 2, 3. / 4}
)

var glyphs = map[float64]string{1. / 8: "⅛", 1. / 4: "¼", 1. / 3: "⅓", 1. / 2: "½", 2. / 3: "⅔", 3. / 4: "¾"}

// Number writes a number with a cook's fraction where it has one, and with at most
// two decimals otherwise.
func Number(v float64) string {
	if text, value := fraction(v, quarters); math.Abs(value-v) <= 1e-6*math.Max(1, v) {
		return text
	}
	return strconv.FormatFloat(math.Round(v*100)/100, 'f', -1, 64)
}

// fraction writes v with the nearest of the parts; never as nothing.
func fraction(v float64, parts []float64) (text string, value float64) {
	value = nearest(v, parts)
	if value == 0 {
		value = parts[1]
	}
	return glyph(value, parts), value
}

// nearest returns the whole number and part that are closest to v.
func nearest(v float64, parts []float64) float64 {
	best := math.Inf(1)
	for _, w := range []float64{math.Floor(v), math.Floor(v) + 1} {
		for _, p := range parts {
			if math.Abs(w+p-v) < math.Abs(best-v)-1e-12 {
				best = w + p
			}
		}
	}
	return best
}

// glyph writes a whole number and one of the parts.
func glyph(v float64, parts []float64) string {
	whole := math.Floor(v + 1e-9)
	for _, p := range parts[1:] {
		if near(v-whole, p) || math.Abs(v-whole-p) < 1e-9 {
			if whole == 0 {
				return glyphs[p]
			}
			return fmt.Sprintf("%.0f%s", whole, glyphs[p])
		}
	}
	return fmt.Sprintf("%.0f", whole)
}

// scoop is one of the measures in a drawer, with the parts of it that there are.
type scoop struct {
	unit  *Unit
	parts []float64
	// least and most are how much of it is taken.
	least, most float64
}

var (
	usSpoons = []scoop{{Named("US cup"), cupParts, 1. / 4, math.Inf(1)}, {Named("US tablespoon"), spoonParts, 1, 4}, {Named("US teaspoon"), teaParts, 0, 3}, {Named("US teaspoon"), eighth, 0, 1. / 8}}
	// 4 tablespoons of 15 ml are less than a quarter of a cup of 250 ml.
	metricSpoons = []scoop{{Named("metric cup"), cupParts, 1. / 4, math.Inf(1)}, {Named("metric tablespoon"), spoonParts, 1, 4}, {Named("metric teaspoon"), teaParts, 0, 3}, {Named("metric teaspoon"), eighth, 0, 1. / 8}}
)

// spoons writes a volume in the fewest measures that come within the tolerance, and
// of as few the closest: ⅙ cup is 2 tbsp + 2 tsp.
func spoons(base float64, drawer []scoop, tolerance float64) Spelled {
	var best Spelled
	count := math.MaxInt
	consider := func(texts []string, value float64) {
		text := Spelled{strings.Join(texts, " + "), value, near(value, base)}
		off, bestOff := math.Abs(value-base), math.Abs(best.Value-base)
		fits := off <= tolerance*base+1e-9
		// Exact in two measures is better than about in one.
		n := len(texts)
		if !text.Exact {
			n += 2
		}
		if !fits {
			n = math.MaxInt - 1
		}
		if n < count || n == count && off < bestOff-1e-9 {
			best, count = text, n
		}
	}
	var fill func(k int, left float64, texts []string, sum float64)
	fill = func(k int, left float64, texts []string, sum float64) {
		if len(texts) > 0 {
			consider(texts, sum)
		}
		if k == len(drawer) || len(texts) == 3 {
			return
		}
		s := drawer[k]
		for _, v := range around(left/s.unit.Size, s.parts) {
			if v > 0 && v >= s.least-1e-9 && v <= s.most {
				fill(k+1, left-v*s.unit.Size, append(texts[:len(texts):len(texts)], plural(v, glyph(v, s.parts), s.unit)), sum+v*s.unit.Size)
			}
		}
		fill(k+1, left, texts, sum)
	}
	fill(0, base, nil, 0)
	return best // of less than the least spoon that spoon
}

// around returns the whole numbers with parts next to n, below and above, and the
// whole number below.
func around(n float64, parts []float64) []float64 {
	below, above := math.Floor(n+1e-9), math.Floor(n+1e-9)+1
	out := []float64{below}
	for _, p := range parts[1:] {
		v := math.Floor(n+1e-9) + p
		if v <= n+1e-9 {
			below = v
		} else if v < above {
			above = v
		}
	}
	return append(out, below, above)
}

// ounces writes a mass in pounds and ounces: "2¼ lb", "1 lb 2 oz", "1½ oz".
func ounces(g, tolerance float64) Spelled {
	oz := g / Named("ounce").Size
	if oz < 16-1e-9 {
		parts := fourths
		text, value := fraction(oz, parts)
		if math.Abs(value-oz) > tolerance*oz { // less than the scale's steps
			value = math.Round(oz*100) / 100
			text = strconv.FormatFloat(value, 'f', -1, 64)
		}
		return Spelled{text + " oz", value * Named("ounce").Size, near(value, oz)}
	}
	lb := oz / 16
	whole := math.Floor(lb + 1e-9)
	text, value := fraction(lb, fourths)
	rest := math.Round(oz - whole*16)
	switch {
	case near(value, lb):
		return Spelled{text + " lb", value * pound, true}
	case rest > 0 && rest < 16 && near(whole*16+rest, oz), math.Abs(value-lb) > tolerance*lb/2 && rest > 0 && rest < 16:
		v := whole*16 + rest
		return Spelled{fmt.Sprintf("%.0f lb %.0f oz", whole, rest), v * pound / 16, near(v, oz)}
	}
	return Spelled{text + " lb", value * pound, false}
}

// decimalSteps writes grams or millilitres in the steps of a kitchen scale or jug: 1
// up to 20, 5 up to a thousand, 25 beyond; in smaller ones where that is too coarse.
func decimalSteps(v float64, small, large *Unit, tolerance float64) Spelled {
	step := 25.0
	switch {
	case v < 5:
		step = 0.5
	case v < 20:
		step = 1
	case v < 1000:
		step = 5
	}
	r := math.Round(v/step) * step
	for math.Abs(r-v) > tolerance*v && step > 1e-4 {
		step /= 5
		r = math.Round(v/step) * step
	}
	s := Spelled{Value: r, Exact: near(r, v)}
	digits := func(x float64) string { return strconv.FormatFloat(math.Round(x*1e6)/1e6, 'f', -1, 64) }
	if r >= 1000 {
		s.Text = digits(r/1000) + " " + large.Short
	} else {
		s.Text = digits(r) + " " + small.Short
	}
	return s
}
