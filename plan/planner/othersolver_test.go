//go:build othersolver

package planner_test

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/planfile"
	"example.org/kettledrum/plan/planner"
	"example.org/kettledrum/plan/verify"
)

// otherLimit is after how many milliseconds the solver gives up, many times what
// it takes.
const otherLimit = "120000"

// The timetables of some twenty small dinners are as good as those that a general
// solver proves best: Gecode, on a model of its own that is made from the plan
// without the planner's help (testdata/otherdinners/model.mzn, othermodel_test.go).
// Compared are the first two objectives: minutes late plus minutes over likings;
// then minutes over five that hot food waits. What the solver answers is also put
// before the verifier, so that its model leaves no rule out.
//
// The model is exact but for this, which the dinners are chosen not to need: an
// oven is set once for a run of bakes that have a temperature in common, not again
// meanwhile; nothing goes on from one temperature to another in the oven or keeps
// warm there; doors, grills, cold places, slipping away from the table.
func TestOtherSolver(t *testing.T) {
	t.Parallel()
	if _, err := exec.LookPath("minizinc"); err != nil {
		t.Fatalf("%v (Debian: apt-get install minizinc)", err)
	}
	files, err := filepath.Glob("testdata/otherdinners/*.yaml")
	if err != nil || len(files) < 20 {
		t.Fatalf("%d dinners: %v", len(files), err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".yaml"), func(t *testing.T) {
			d := readOtherDinner(t, file)
			// One dinner at a time: the solver takes a core.
			late := d.solve(t, -1)
			best := d.solve(t, late.Lateness)
			if best.Lateness != late.Lateness {
				t.Fatalf("the solver answers %d, pinned to %d", best.Lateness, late.Lateness)
			}
			t.Logf("best: %d late, %d hot", best.Lateness, best.Waiting)
			d.judge(t, best)

			tt := planner.Make(context.Background(), d.p)
			lateness, waiting := d.measure(tt)
			what := "worse"
			switch {
			case tt.Status == plan.Broken:
				what = "broken"
				for _, b := range tt.Breaks {
					if b.Kind.Hard() {
						what += "; " + string(b.Kind) + ": " + b.Text
					}
				}
			case lateness == best.Lateness && waiting == best.Waiting:
				return
			case lateness < best.Lateness || lateness == best.Lateness && waiting < best.Waiting:
				what = "better than is possible: one of the two models is wrong"
			}
			t.Errorf("planned: %d late, %d hot, %s\n%s\nthe other solver: %d late, %d hot\n%s",
				lateness, waiting, what, d.show(tt), best.Lateness, best.Waiting, d.show(d.timetable(best)))
		})
	}
}

func readOtherDinner(t *testing.T, file string) *otherDinner {
	t.Helper()
	src, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	p, problems := planfile.Decode(src, planfile.Options{Local: time.UTC, Now: time.Date(2026, 10, 1, 12, 0, 0, 0, time.UTC)})
	if p == nil {
		t.Fatal(problems)
	}
	d, err := newOtherDinner(p)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// solve returns a proven best answer: of the first objective, or of the second
// where that is pinned to a value that is not negative.
func (d *otherDinner) solve(t *testing.T, pinned int) *otherAnswer {
	t.Helper()
	data, err := d.data()
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "dinner.dzn")
	if err := os.WriteFile(file, []byte(data), 0o600); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("minizinc", "--solver", "gecode", "--time-limit", otherLimit, "testdata/otherdinners/model.mzn", file, "-D", fmt.Sprintf("pinned = %d;", pinned))
	var said strings.Builder
	cmd.Stderr = &said
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("minizinc: %v\n%s%s", err, out, said.String())
	}
	answer, _, proven := strings.Cut(string(out), "==========")
	answer, _, _ = strings.Cut(answer, "----------")
	if !proven {
		t.Fatalf("minizinc proves nothing: %s%s", out, said.String())
	}
	a := &otherAnswer{}
	if err := json.Unmarshal([]byte(answer), a); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	return a
}

// measure returns the first two objectives of a timetable.
func (d *otherDinner) measure(tt *plan.Timetable) (lateness, waiting int) {
	for c, at := range tt.Serves {
		lateness += max(0, d.minute(at)-d.minute(d.p.Asked(c)))
	}
	for _, w := range d.waits {
		until := tt.Serves[d.p.CourseOf(w.step)]
		if w.follower >= 0 {
			until = tt.Slots[w.follower].Start
		}
		long := plan.Minutes(until.Sub(tt.Slots[w.step].End))
		lateness += max(0, long-w.liked)
		if w.hot {
			waiting += max(0, long-5)
		}
	}
	return lateness, waiting
}

// judge puts an answer before the verifier.
func (d *otherDinner) judge(t *testing.T, a *otherAnswer) {
	t.Helper()
	tt := d.timetable(a)
	for _, b := range verify.Check(d.p, tt, time.Time{}) {
		if b.Kind.Hard() {
			t.Errorf("the other solver breaks a rule: %s: %s\n%s", b.Kind, b.Text, d.show(tt))
		}
	}
	if lateness, waiting := d.measure(tt); lateness != a.Lateness || waiting != a.Waiting {
		t.Errorf("the other solver claims %d late and %d hot, its timetable is %d late and %d hot", a.Lateness, a.Waiting, lateness, waiting)
	}
}
