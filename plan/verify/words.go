package verify

import (
	"fmt"
	"strings"
	"time"

	"example.org/kettledrum/plan"
)

// name is a step as the cook wrote it, with its dish: "Gratin: Bake"; a chore by
// itself: "Lay the table".
func (c *checker) name(i int) string {
	s := c.p.Steps[i]
	if c.p.Dishes[s.Dish].Chore != nil {
		return s.Do
	}
	return c.p.Dishes[s.Dish].Name + ": " + s.Do
}

// nameBeside is the step's name in a sentence about another step: without the
// dish where it is the same.
func (c *checker) nameBeside(i, other int) string {
	if c.p.Steps[i].Dish == c.p.Steps[other].Dish {
		return c.p.Steps[i].Do
	}
	return c.name(i)
}

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
		b.WriteString(c.name(i))
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

// length is a length as the cook reads it, rounded up: "17 min", "2 h", "1 h 30 min".
func length(d time.Duration) string {
	h, m := count(d)/60, count(d)%60
	switch {
	case h == 0:
		return fmt.Sprintf("%d min", m)
	case m == 0:
		return fmt.Sprintf("%d h", h)
	}
	return fmt.Sprintf("%d h %d min", h, m)
}

func (c *checker) cook(i int) string { return c.p.Kitchen.Cooks[i].Name }
func (c *checker) oven(i int) string { return c.p.Kitchen.Ovens[i].Name }

// temps is a range of temperatures as the cook reads it.
func (c *checker) temps(lo, hi plan.Celsius) string {
	return c.p.Units.Temp(lo) + " to " + c.p.Units.Temp(hi)
}
