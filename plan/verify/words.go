package verify

import (
	"strings"
	"time"

	"example.org/kettledrum/plan"
)

// names joins the names of steps: "a, b and c".
func (c *checker) names(steps []int) string {
	var b strings.Builder
	for k, i := range steps {
		switch {
		case k > 0 && k == len(steps)-1:
			b.WriteString(" and ")
		case k > 0:
			b.WriteString(", ")
		}
		b.WriteString(c.p.StepName(i))
	}
	return b.String()
}

// clock is a moment as the cook reads it: "17:05", with the day where that is
// not the dinner's.
func (c *checker) clock(d time.Duration) string {
	t, table := c.at(d).In(c.p.Table.Location()), c.p.Table
	if t.YearDay() == table.YearDay() && t.Year() == table.Year() {
		return t.Format("15:04")
	}
	return t.Format("Mon 2 Jan 15:04")
}

func (c *checker) cook(i int) string { return c.p.Kitchen.Cooks[i].Name }
func (c *checker) oven(i int) string { return c.p.Kitchen.Ovens[i].Name }

// temps is a range of temperatures as the cook reads it.
func (c *checker) temps(lo, hi plan.Celsius) string {
	return c.p.Units.Temp(lo) + " to " + c.p.Units.Temp(hi)
}
