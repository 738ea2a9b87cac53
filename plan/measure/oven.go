package measure

import (
	"math"
	"strings"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/source"
)

// GasMark is one mark of the British scale of gas ovens.
type GasMark struct {
	Mark string // "¼", "½", "1" to "10"
	// F is its temperature in degrees Fahrenheit on the exact scale: 250 + 25·n from
	// mark 1 up, 275 + 25·log₂ n below it.
	F float64
	// ChartLo and ChartHi are what British charts print in °C; they disagree by up
	// to 10 °C, and makers vary too.
	ChartLo, ChartHi plan.Celsius
	Word             string // what cooks call it
	Source           source.Source
}

// Celsius is the temperature of the exact scale.
func (g GasMark) Celsius() plan.Celsius { return plan.FromFahrenheit(g.F) }

var gasScale = source.Source{Name: "sizes.com, gas mark; reference.com, Gas Mark", Mark: source.Secondary}

var gasMarks = []GasMark{
	{"¼", 225, 110, 110, "very slow", gasScale},
	{"½", 250, 120, 130, "very slow", gasScale},
	{"1", 275, 140, 140, "slow", gasScale},
	{"2", 300, 150, 150, "slow", gasScale},
	{"3", 325, 160, 170, "moderately slow", gasScale},
	{"4", 350, 180, 180, "moderate", gasScale},
	{"5", 375, 190, 190, "moderately hot", gasScale},
	{"6", 400, 200, 200, "fairly hot", gasScale},
	{"7", 425, 220, 220, "hot", gasScale},
	{"8", 450, 230, 230, "very hot", gasScale},
	{"9", 475, 240, 250, "very hot", gasScale},
	{"10", 500, 260, 260, "extremely hot", gasScale},
}

// GasMarks returns the scale from cool to hot.
func GasMarks() []GasMark { return append([]GasMark(nil), gasMarks...) }

// FindGasMark returns the mark that is written so: "4", "¼" or "1/4".
func FindGasMark(mark string) (GasMark, bool) {
	mark = strings.NewReplacer("1/4", "¼", "1/2", "½").Replace(strings.TrimSpace(mark))
	for _, g := range gasMarks {
		if g.Mark == mark {
			return g, true
		}
	}
	return GasMark{}, false
}

// NearestGasMark returns the mark closest to a temperature, the cooler of two
// equally close; false more than half a step (12.5 °F) beyond the scale.
func NearestGasMark(c plan.Celsius) (GasMark, bool) {
	best := gasMarks[0]
	for _, g := range gasMarks {
		if math.Abs(g.F-c.Fahrenheit()) < math.Abs(best.F-c.Fahrenheit())-1e-9 {
			best = g
		}
	}
	return best, math.Abs(best.F-c.Fahrenheit()) <= 12.5+1e-9
}

// FanSource is where the adjustment for a fan oven comes from.
var FanSource = source.Source{Name: "marthastewart.com and cuisinopedia.org on fan ovens; common practice, one source says 15–30 °C", Mark: source.Secondary}

// How much lower a fan oven is set for the same time. The two are not the same
// difference: each is what cooks use on its scale.
const (
	fanC plan.Celsius = 20
	fanF float64      = 25
)

// Fan returns what a fan oven is set to where an oven without one is set to c, in
// the steps that its scale has: 20 °C or 25 °F lower.
func Fan(c plan.Celsius, u plan.Units) plan.Celsius {
	if u == plan.Metric {
		return c - fanC
	}
	return plan.FromFahrenheit(c.Fahrenheit() - fanF)
}
