package session_test

import (
	"fmt"
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/plantest"
	"example.org/kettledrum/plan/run"
)

// TestCautionsOfWhatMoved: the chicken is carved at 17:15 and waits for a sauce. When
// that takes so much longer that it is out for more than two hours (FoodSafety.gov, the
// two-hour rule), the timetable that is then in force says so, though nothing was
// planned again.
func TestCautionsOfWhatMoved(t *testing.T) {
	t.Parallel()
	b := plantest.New("2026-10-17 19:00")
	ines := b.Cook("Ines", "15:00-23:00")
	main := b.Course("Main", 0, 20*time.Minute, 20*time.Minute)
	b.Dish("Roast chicken", main)
	b.Step("Carve the cooked chicken", plantest.Takes(15), plantest.By(ines), plantest.Keeps(110, 120))
	b.Dish("Sauce", main)
	b.Step("Stir the onion sauce", plantest.Takes(100), plantest.By(ines), plantest.Keeps(2, 5))
	c := cookUntil(t, b, "18:00", none)
	codes := func(t *plan.Timetable) string {
		var out []string
		for _, x := range t.Cautions {
			out = append(out, x.Code)
		}
		return fmt.Sprint(out)
	}
	before := codes(c.State().Timetable)
	st := c.tell(t, run.Event{Kind: run.Prolonged, Step: "sauce/stir-the-onion-sauce", By: 40 * time.Minute})
	if after := codes(st.Timetable); before != "[]" || after != "[two-hours]" {
		t.Errorf("cautions %s, then %s, want none and that of the two hours; served %v", before, after, st.Timetable.Serves)
	}
}
