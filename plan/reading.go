package plan

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// What the inside of food can be, from hard frozen to sugar that burns: beyond it a
// unit was mixed up.
const (
	coldestInside Celsius = -30
	hottestInside Celsius = 250
)

var typed = regexp.MustCompile(`^(-?[0-9]+(?:[.,][0-9]+)?) ?(?:°|deg(?:rees)?)? ?([FCfc])?$`)

// ParseReading reads what a thermometer showed inside food, as a cook types it:
// "148F", "64.5 °C", "64,5c"; a bare number is in the plan's units.
//
// Errors: what cannot be read, and what no food is; both say what would be right.
func (u Units) ParseReading(s string) (Celsius, error) {
	m := typed.FindStringSubmatch(strings.TrimSpace(s))
	if m == nil {
		return 0, fmt.Errorf("%q is no temperature, write it like 148F or 64.5C", s)
	}
	degrees, err := strconv.ParseFloat(strings.Replace(m[1], ",", ".", 1), 64)
	if err != nil {
		return 0, fmt.Errorf("%q is no temperature, write it like 148F or 64.5C", s)
	}
	c := Celsius(degrees)
	if strings.EqualFold(m[2], "F") || m[2] == "" && u == Fahrenheit {
		c = FromFahrenheit(degrees)
	}
	if c < coldestInside || c > hottestInside {
		return 0, fmt.Errorf("no food is %s (%s) inside, is the unit right?", Fahrenheit.Temp(c), Metric.Temp(c))
	}
	return c, nil
}
