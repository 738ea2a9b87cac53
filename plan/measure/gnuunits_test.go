//go:build gnuunits

package measure

import (
	"bytes"
	"fmt"
	"math"
	"math/rand/v2"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"example.org/kettledrum/plan"
)

// names are our units as the program units calls them. Spoons that it does not
// have are written out of what it has.
var gnuNames = map[string]string{
	"milligram": "mg", "gram": "g", "kilogram": "kg", "ounce": "ounce", "pound": "pound", "stone": "stone",
	"millilitre": "ml", "centilitre": "cl", "decilitre": "dl", "litre": "liter",
	"metric cup": "metriccup", "Australian tablespoon": "australiatablespoon", "Japanese cup": "japancup",
	"US teaspoon": "usteaspoon", "US tablespoon": "ustablespoon", "US fluid ounce": "usfloz", "US cup": "uscup",
	"US pint": "uspint", "US quart": "usquart", "US gallon": "usgallon",
	"imperial fluid ounce": "brfloz", "imperial pint": "brpint", "imperial quart": "brquart", "imperial gallon": "brgallon",
	"millimetre": "mm", "centimetre": "cm", "inch": "inch",
}

// A thousand seeded conversions agree with GNU units, whose definitions are its own.
func TestGNUUnits(t *testing.T) {
	t.Parallel()
	const seed = 1954
	random := rand.New(rand.NewPCG(seed, seed))
	var known []*Unit
	for _, u := range Units() {
		if gnuNames[u.Name] != "" {
			known = append(known, u)
		}
	}
	type question struct {
		have, want string
		ours       float64
	}
	var asked []question
	for len(asked) < 1000 {
		v := math.Exp(random.Float64()*16 - 8)
		if random.IntN(10) == 0 { // a temperature
			f := math.Round(v*1000) / 1000
			asked = append(asked, question{fmt.Sprintf("tempF(%v)", f), "tempC", float64(plan.FromFahrenheit(f))},
				question{fmt.Sprintf("tempC(%v)", f), "tempF", plan.Celsius(f).Fahrenheit()})
			continue
		}
		a, b := known[random.IntN(len(known))], known[random.IntN(len(known))]
		if a.Dimension == b.Dimension {
			asked = append(asked, question{fmt.Sprintf("%.17g %s", v, gnuNames[a.Name]), gnuNames[b.Name], Convert(v, a, b)})
		}
	}
	for _, g := range GasMarks() {
		mark := strings.NewReplacer("¼", "1|4", "½", "1|2").Replace(g.Mark)
		asked = append(asked, question{"gasmark(" + mark + ")", "tempF", g.F})
	}
	var in bytes.Buffer
	for _, q := range asked {
		fmt.Fprintf(&in, "%s\n%s\n", q.have, q.want)
	}
	c := exec.Command("units", "--quiet", "--terse", "--output-format", "%.15g")
	c.Stdin = &in
	out, err := c.CombinedOutput()
	if err != nil {
		t.Fatalf("units: %v\n%s", err, out)
	}
	answers := strings.Split(strings.TrimSpace(string(out)), "\n")
	if len(answers) != len(asked) {
		t.Fatalf("%d answers to %d questions", len(answers), len(asked))
	}
	for i, q := range asked {
		theirs, err := strconv.ParseFloat(strings.TrimSpace(answers[i]), 64)
		if err != nil {
			t.Errorf("%s in %s: units says %q", q.have, q.want, answers[i])
			continue
		}
		if math.Abs(theirs-q.ours) > 1e-11*math.Max(1, math.Abs(theirs)) {
			t.Errorf("%s is %.15g %s, units says %.15g (seed %d)", q.have, q.ours, q.want, theirs, seed)
		}
	}
	t.Logf("%d conversions", len(asked))
}
