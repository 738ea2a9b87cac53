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
