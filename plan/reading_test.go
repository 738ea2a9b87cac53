package plan_test

import (
	"fmt"
	"strings"
	"testing"

	"example.org/kettledrum/plan"
)

// Whatever is typed in a unit is shown again as it was typed.
func TestReadingRoundTrip(t *testing.T) {
	t.Parallel()
	for _, u := range []struct {
		units     plan.Units
		letter    string
		low, high int
	}{{plan.Fahrenheit, "F", -22, 482}, {plan.Metric, "C", -30, 250}} {
		for n := u.low; n <= u.high; n++ {
			want := fmt.Sprintf("%d °%s", n, u.letter)
			own, other := u.units, 1-u.units
			cases := map[string]plan.Units{
				fmt.Sprint(n):                    own,
				fmt.Sprintf("%d%s", n, u.letter): other,
				" " + want + " ":                 other,
				fmt.Sprintf("%d.0 %s", n, strings.ToLower(u.letter)): other,
				fmt.Sprintf("%d degrees %s", n, u.letter):            other,
			}
			if n >= 0 && n < u.high {
				cases[fmt.Sprintf("%d,2°%s", n, u.letter)] = other
			}
			for s, in := range cases {
				got, err := in.ParseReading(s)
				if err != nil {
					t.Fatal(err)
				}
				if shown := own.Temp(got); shown != want {
					t.Errorf("%q is shown as %q, want %q", s, shown, want)
				}
			}
		}
	}
}

// The least safe temperatures, typed as they are printed, are reached exactly.
func TestReadingReachesChart(t *testing.T) {
	t.Parallel()
	for _, f := range []float64{140, 145, 160, 165} {
		got, err := plan.Fahrenheit.ParseReading(fmt.Sprint(f))
		if err != nil || got < plan.FromFahrenheit(f) {
			t.Errorf("%v °F: got %v, %v; want %v", f, got, err, plan.FromFahrenheit(f))
		}
	}
}

func TestReadingRefused(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ name, s, want string }{
		{"empty", "", "is no temperature"},
		{"word", "hot", "is no temperature"},
		{"kelvin", "330K", "is no temperature"},
		{"two-numbers", "148 150", "is no temperature"},
		{"digit-too-many", "1480F", "no food is 1480 °F (804 °C) inside"},
		{"far-too-cold", "-80C", "no food is"},
		{"huge", strings.Repeat("9", 400), "is no temperature"},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			if _, err := plan.Metric.ParseReading(c.s); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("%q: got %v, want %q in it", c.s, err, c.want)
			}
		})
	}
}
