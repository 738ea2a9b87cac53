package planner

import (
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"gopkg.in/yaml.v3"
	"pgregory.net/rapid"

	"example.org/kettledrum/examples"
	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/planfile"
	"example.org/kettledrum/plan/run"
)

// reordered returns the plan with its dishes and chores in another order.
func reordered(p *plan.Plan, dishes []int) *plan.Plan {
	q := *p
	q.Dishes, q.Steps = nil, nil
	place := make([]int, len(p.Steps)) // of each old step, its new index
	for _, d := range dishes {
		dish := p.Dishes[d]
		steps := dish.Steps
		dish.Steps = nil
		for _, i := range steps {
			place[i] = len(q.Steps)
			s := p.Steps[i]
			s.Dish = len(q.Dishes)
			dish.Steps = append(dish.Steps, place[i])
			q.Steps = append(q.Steps, s)
		}
		q.Dishes = append(q.Dishes, dish)
	}
	for i := range q.Steps {
		links := make([]plan.Link, len(q.Steps[i].After))
		for k, l := range q.Steps[i].After {
			l.Step = place[l.Step]
			links[k] = l
		}
		q.Steps[i].After = links
	}
	return &q
}

// drawOrder draws an order of the dishes of a plan.
func drawOrder(t *rapid.T, p *plan.Plan) []int {
	dishes := make([]int, len(p.Dishes))
	for d := range dishes {
		dishes[d] = d
	}
	return rapid.Permutation(dishes).Draw(t, "order")
}

// told writes out all that a timetable says, with steps by their IDs, whatever
// the order of the file: what each course, each step, each touch, each oven
// setting and each break is.
func told(p *plan.Plan, t *plan.Timetable) []string {
	id := func(i int) string {
		if i < 0 {
			return "-"
		}
		return p.Steps[i].ID
	}
	out := []string{fmt.Sprintf("%s, latest start %v", t.Status, t.LatestStart)}
	for c, at := range t.Serves {
		out = append(out, fmt.Sprintf("serve %s at %v, %v late", p.Courses[c].Name, at, t.Lateness(p, c)))
	}
	for i, s := range t.Slots {
		out = append(out, fmt.Sprintf("step %s: %+v", id(i), s))
	}
	for _, x := range t.Touches {
		out = append(out, fmt.Sprintf("touch %s %s oven %d at %v by %d", id(x.Step), x.What, x.Oven, x.At, x.Cook))
	}
	for _, x := range t.Sets {
		out = append(out, fmt.Sprintf("set oven %d at %v to %v, off %v, for %s, done %v, ready %v", x.Oven, x.At, x.To, x.Off, id(x.For), x.Done, x.Ready))
	}
	for _, b := range t.Breaks {
		out = append(out, fmt.Sprintf("break of %s by %s, course %d, at %v, %d min: %s", b.Kind, id(b.Step), b.Course, b.At, b.Minutes, b.Text))
	}
	slices.Sort(out)
	return out
}

// drawTwice draws a dinner and returns it in two orders.
func drawTwice(t *rapid.T) (p, q *plan.Plan) {
	p = drawEither(t)
	return p, reordered(p, drawOrder(t, p))
}

// In which order the file has its dishes changes nothing in the timetable.
func TestOrderOfDishes(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		p, q := drawTwice(t)
		a, b := makeIn(context.Background(), p, effort{conflicts: 300, tries: 60}), makeIn(context.Background(), q, effort{conflicts: 300, tries: 60})
		if diff := cmp.Diff(told(p, a), told(q, b)); diff != "" {
			t.Errorf("in another order (-one +other):\n%s", diff)
		}
	})
}

// Nor when the rest of a dinner is planned again.
func TestOrderOfDishesUnderWay(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		p, q := drawTwice(t)
		s, now := drawRun(t, p)
		a := againIn(context.Background(), s, now, effort{conflicts: 300, tries: 60})
		b := againIn(context.Background(), retold(t, s, q), now, effort{conflicts: 300, tries: 60})
		if diff := cmp.Diff(told(p, a), told(q, b)); diff != "" {
			t.Errorf("in another order (-one +other):\n%s", diff)
		}
	})
}

// retold returns the run of a plan as one of the same plan in another order.
func retold(t rapid.TB, s *run.State, q *plan.Plan) *run.State {
	t.Helper()
	in := func(i int) int { // the index in q of a step
		if i < 0 {
			return i
		}
		return q.StepIndex(s.Plan.Steps[i].ID)
	}
	events := slices.Clone(s.Events)
	for k := range events {
		if old := events[k].Timetable; old != nil {
			tt := *old
			tt.Slots = make([]plan.Slot, len(old.Slots))
			for i := range old.Slots {
				tt.Slots[in(i)] = old.Slots[i]
			}
			tt.Touches, tt.Sets, tt.Breaks = slices.Clone(old.Touches), slices.Clone(old.Sets), slices.Clone(old.Breaks)
			for i := range tt.Touches {
				tt.Touches[i].Step = in(tt.Touches[i].Step)
			}
			for i := range tt.Sets {
				tt.Sets[i].For = in(tt.Sets[i].For)
			}
			for i := range tt.Breaks {
				tt.Breaks[i].Step = in(tt.Breaks[i].Step)
			}
			events[k].Timetable = &tt
		}
	}
	out, err := run.Fold(q, events)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// The same of plan files: those of the examples, and those whose best timetable
// is known, with the lists of dishes and of chores shuffled in the text.
func TestOrderOfDishesInFiles(t *testing.T) {
	t.Parallel()
	files := map[string][]byte{}
	for _, name := range examples.Names() {
		files[name], _ = examples.Get(name)
	}
	dinners, err := filepath.Glob("testdata/dinners/*.yaml")
	if err != nil || len(dinners) == 0 {
		t.Fatalf("%d dinners: %v", len(dinners), err)
	}
	for _, file := range dinners {
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		files[filepath.Base(file)] = src
	}
	for name, src := range files {
		if oneIn > 1 && name == "banquet" {
			continue // minutes under the race detector
		}
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			p := decoded(t, src)
			want := told(p, Make(context.Background(), p))
			for seed := range uint64(2) {
				q := decoded(t, shuffled(t, src, rand.New(rand.NewPCG(seed, 0))))
				if diff := cmp.Diff(want, told(q, Make(context.Background(), q))); diff != "" {
					t.Errorf("shuffled by seed %d (-file +shuffled):\n%s", seed, diff)
				}
			}
		})
	}
}

func decoded(t *testing.T, src []byte) *plan.Plan {
	t.Helper()
	p, problems := planfile.Decode(src, planfile.Options{Local: time.UTC, Now: time.Date(2026, 10, 1, 12, 0, 0, 0, time.UTC)})
	if p == nil {
		t.Fatal(problems)
	}
	return p
}

// shuffled returns a plan file with its dishes and its chores in another order.
func shuffled(t *testing.T, src []byte, rng *rand.Rand) []byte {
	t.Helper()
	var doc yaml.Node
	if err := yaml.Unmarshal(src, &doc); err != nil {
		t.Fatal(err)
	}
	keys := doc.Content[0].Content
	for k := 0; k < len(keys); k += 2 {
		if list := keys[k+1].Content; keys[k].Value == "dishes" || keys[k].Value == "chores" {
			rng.Shuffle(len(list), func(a, b int) { list[a], list[b] = list[b], list[a] })
		}
	}
	out, err := yaml.Marshal(&doc)
	if err != nil {
		t.Fatal(err)
	}
	return out
}
