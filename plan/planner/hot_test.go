package planner

import (
	"context"
	"os"
	"testing"
	"time"

	"example.org/kettledrum/plan/planfile"
)

// A greatest gap that is written in place of an assumed keep says how long food
// may wait; the wait is hot food's all the same. With the gap for free the toast
// would go in first.
func TestHotFoodWaitsUnderAGap(t *testing.T) {
	t.Parallel()
	src, err := os.ReadFile("testdata/otherdinners/gap-and-heat.yaml")
	if err != nil {
		t.Fatal(err)
	}
	p, problems := planfile.Decode(src, planfile.Options{Local: time.UTC})
	if p == nil {
		t.Fatal(problems)
	}
	tt := Make(context.Background(), p)
	for i, want := range []string{"18:28", "18:48", "18:58"} {
		if got := tt.Slots[i].Start.Format("15:04"); got != want {
			t.Errorf("%s/%s starts at %s, want %s", p.Dishes[p.Steps[i].Dish].Name, p.Steps[i].Do, got, want)
		}
	}
	if t.Failed() {
		t.Log(dump(p, tt))
	}
}

// What is hot when it is handed on, of the built-in dinner: a roast that rests and is
// carved, bread off the griddle; not what keeps a day by the plan, what lies in the
// cold, or what never saw the heat.
func TestWhatIsHot(t *testing.T) {
	t.Parallel()
	p := example(t, "harvest")
	j := translate(p, facts{})
	for id, want := range map[string]bool{
		"pork-shoulder/roast": true, "pork-shoulder/rest": true, "pork-shoulder/carve": true,
		"flatbreads/bake": true, "flatbreads/oil": true, "lentils-with-sage/simmer": true,
		"rye-crackers/bake": false, "stock/strain": false, "bitter-salad/toss": false, "quince-cordial/stand": false,
	} {
		i := p.StepIndex(id)
		if i < 0 {
			t.Errorf("no step %s", id)
		} else if got := j.hot[i]; got != want {
			t.Errorf("%s is hot: %t, want %t", id, got, want)
		}
	}
	if tt := Make(t.Context(), p); !tt.Slots[p.StepIndex("rye-crackers/bake")].Start.Before(p.CookDay()) {
		t.Error("crackers that keep a day are baked on the day")
	}
}
