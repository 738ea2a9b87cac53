package planfile

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/measure"
)

// How far the two units of one temperature may lie apart before one of them is
// a slip. Recipes round: an oven's to five or ten degrees, a food's to one.
const (
	ovenSlip plan.Celsius = 6
	foodSlip plan.Celsius = 2
)

// Temperatures that an oven's dial and a food's inside can have. Beyond them a
// unit was mixed up.
const (
	ovenLowest, ovenHighest plan.Celsius = 30, 300
	foodLowest, foodHighest plan.Celsius = -30, 250
	roomLowest, roomHighest plan.Celsius = 0, 50
)

// degrees matches one temperature or a range in one unit.
const degrees = `(-?[0-9]+(?:\.[0-9]+)?)(?: ?°)?(?: ?[FC])?(?: ?(?:-|–|to) ?([0-9]+(?:\.[0-9]+)?))? ?°? ?([FCfc])\b`

var (
	tempWhole = regexp.MustCompile(`^` + degrees + `$`)
	tempAny   = regexp.MustCompile(`(?:^|[^\pL\pN])` + degrees)
	gasMark   = regexp.MustCompile(`^gas(?: mark)? (1/4|1/2|¼|½|[0-9]+)$`)
)

// heatRange is one temperature (Lo = Hi) or a range.
type heatRange struct{ Lo, Hi plan.Celsius }

// temperature reads "400F", "204C", "375-400F", "400F (204C)" and "gas mark 5".
// Two units that differ by more than slip are an error naming both.
func temperature(s string, slip plan.Celsius) (heatRange, error) {
	s = strings.TrimSpace(s)
	if m := gasMark.FindStringSubmatch(strings.ToLower(s)); m != nil {
		g, ok := measure.FindGasMark(m[1])
		if !ok {
			return heatRange{}, &mistake{"temperature", fmt.Sprintf("there is no %s", quote(s)), "gas marks go from 1/4 to 10"}
		}
		return heatRange{g.Celsius(), g.Celsius()}, nil
	}
	if number.MatchString(s) {
		return heatRange{}, &mistake{"temperature", fmt.Sprintf("%s has no unit", quote(s)),
			fmt.Sprintf("write %sF or %sC", s, s)}
	}
	first, second, both := cutParens(s)
	a, err := oneUnit(first)
	if err != nil || !both {
		return a, err
	}
	b, err := oneUnit(second)
	if err != nil {
		return a, err
	}
	if apart(a.Lo, b.Lo) > slip || apart(a.Hi, b.Hi) > slip {
		return a, &mistake{"two-units", fmt.Sprintf("%s is %s, not %s: one of the two is a slip",
			first, other(a, second), second), fmt.Sprintf("write %s alone if that is right, or %s alone if that is", first, second)}
	}
	return a, nil
}

// Temperature reads one temperature as a plan writes it: "350F", "177C", "gas mark 4".
func Temperature(s string) (plan.Celsius, error) {
	r, err := temperature(s, ovenSlip)
	if err == nil && r.Lo != r.Hi {
		err = &mistake{"temperature", fmt.Sprintf("%s is a range", quote(s)), "write one temperature"}
	}
	return r.Lo, err
}

// oneUnit reads a temperature or a range in a single unit.
func oneUnit(s string) (heatRange, error) {
	m := tempWhole.FindStringSubmatch(s)
	if m == nil {
		return heatRange{}, &mistake{"temperature", fmt.Sprintf("%s is no temperature", quote(s)),
			"write it like 400F, 204C, 375-400F or gas mark 5"}
	}
	lo, err := celsius(m[1], m[3])
	if err != nil {
		return heatRange{}, err
	}
	if m[2] == "" {
		return heatRange{lo, lo}, nil
	}
	hi, err := celsius(m[2], m[3])
	if err != nil {
		return heatRange{}, err
	}
	if lo > hi {
		return heatRange{}, &mistake{"range", fmt.Sprintf("%s goes from hot to cool", quote(s)), "write the lower one first"}
	}
	return heatRange{lo, hi}, nil
}

func celsius(digits, unit string) (plan.Celsius, error) {
	f, err := strconv.ParseFloat(digits, 64)
	if err != nil {
		return 0, &mistake{"temperature", fmt.Sprintf("%s is no temperature", quote(digits)), ""}
	}
	if strings.EqualFold(unit, "F") {
		return plan.FromFahrenheit(f), nil
	}
	return plan.Celsius(f), nil
}

func apart(a, b plan.Celsius) plan.Celsius { return plan.Celsius(math.Abs(float64(a - b))) }

// other shows a in the unit in which second is written, as it is written.
func other(a heatRange, second string) string {
	show := func(c plan.Celsius) string { return fmt.Sprintf("%.0f", float64(c)) }
	unit := "C"
	if strings.HasSuffix(strings.ToUpper(second), "F") {
		show = func(c plan.Celsius) string { return fmt.Sprintf("%.0f", c.Fahrenheit()) }
		unit = "F"
	}
	if a.Lo == a.Hi {
		return show(a.Lo) + unit
	}
	return show(a.Lo) + "-" + show(a.Hi) + unit
}

// ovenTemperature reads what a step accepts of an oven. A single temperature
// accepts plan.DialError on either side.
func ovenTemperature(s string) (at, lo, hi plan.Celsius, err error) {
	r, err := temperature(s, ovenSlip)
	if err != nil {
		return 0, 0, 0, err
	}
	if r.Lo < ovenLowest || r.Hi > ovenHighest {
		return 0, 0, 0, &mistake{"temperature", fmt.Sprintf("no oven is set to %s", quote(strings.TrimSpace(s))),
			fmt.Sprintf("between %s and %s; is the unit right?", both(ovenLowest), both(ovenHighest))}
	}
	if r.Lo == r.Hi {
		return r.Lo, r.Lo - plan.DialError, r.Lo + plan.DialError, nil
	}
	return (r.Lo + r.Hi) / 2, r.Lo, r.Hi, nil
}

func both(c plan.Celsius) string { return fmt.Sprintf("%.0fF (%.0fC)", c.Fahrenheit(), float64(c)) }

// until reads the sign that a step is done: "165F", "deep amber", or both,
// the temperature first: "165F, juices run clear".
func until(s string) (plan.Until, error) {
	s = strings.TrimSpace(s)
	temp, sign := cutSign(s)
	r, err := temperature(temp, foodSlip)
	if err != nil {
		if m, ok := err.(*mistake); !ok || m.code != "temperature" || number.MatchString(s) {
			return plan.Until{}, err
		}
		if tempAny.MatchString(s) {
			return plan.Until{}, &mistake{"temperature", fmt.Sprintf("the temperature in %s is not first", quote(s)),
				"write the temperature, a comma, then what to see: \"165F, juices run clear\""}
		}
		return plan.Until{Sign: s}, nil
	}
	if r.Lo != r.Hi {
		return plan.Until{}, &mistake{"temperature", fmt.Sprintf("%s is a range", quote(temp)),
			"write the one temperature at which the step is done"}
	}
	if r.Lo < foodLowest || r.Lo > foodHighest {
		return plan.Until{}, &mistake{"temperature", fmt.Sprintf("no food is %s inside", quote(temp)), "is the unit right?"}
	}
	return plan.Until{Temp: r.Lo, HasTemp: true, Sign: sign}, nil
}

// cutSign splits a leading temperature from the sign after it.
func cutSign(s string) (temp, sign string) {
	for _, sep := range []string{",", " and ", " or "} {
		if a, b, ok := strings.Cut(s, sep); ok && tempAny.MatchString(a) {
			b = strings.TrimSpace(b)
			for _, word := range []string{"or ", "and "} {
				b = strings.TrimPrefix(b, word)
			}
			return strings.TrimSpace(a), b
		}
	}
	return s, ""
}
