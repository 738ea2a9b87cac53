package shop

import (
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/planfile"
	"example.org/kettledrum/plan/planner"
	"example.org/kettledrum/plan/verify"
)

func load(t *testing.T, text string) *plan.Plan {
	t.Helper()
	p, problems := planfile.Decode([]byte(text), planfile.Options{Now: time.Date(2026, 10, 1, 12, 0, 0, 0, time.UTC)})
	if p == nil {
		t.Fatal(problems)
	}
	return p
}

const cakes = `
kettledrum: 1
guests: GUESTS
table: 2026-10-17 19:00
kitchen: {cooks: [{name: Ines, free: Sat 15:00-23:00}], tools: {sheet pan: 4}}
dishes:
  - name: Cakes
    makes: 4
    ingredients: [1 kg flour]
    steps:
      - {do: Mix, takes: 10m, keeps: 2h}
      - {do: Bake, takes: TAKES, oven: {at: 350F, space: 1}, keeps: KEEPS}
      - {do: Ice the cakes, takes: 5m}
`

func dinnerOf(t *testing.T, guests, takes, keeps string) *plan.Plan {
	t.Helper()
	return load(t, strings.NewReplacer("GUESTS", guests, "TAKES", takes, "KEEPS", keeps).Replace(cakes))
}

// The larger plan has a step for each batch, and the timetable for it, which the
// checker of timetables finds whole, bakes them one after the other.
func TestLarger(t *testing.T) {
	t.Parallel()
	p := dinnerOf(t, "16", "40m", "3h")
	q := Larger(p)
	if q == nil {
		t.Fatal("nothing is larger")
	}
	var got []string
	for _, s := range q.Steps {
		text := s.Do
		if s.Oven != nil {
			text += ", " + plan.SpellShelves(s.Oven.Space)
		}
		for _, l := range s.After {
			text += " < " + q.Steps[l.Step].Do
		}
		got = append(got, text)
	}
	want := []string{"Mix", "Bake, 2 shelves < Mix", "Ice the cakes < Bake < Bake, batch 2", "Bake, batch 2, 2 shelves < Mix"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if p.Steps[1].Oven.Space != 2 || len(p.Steps) != 3 || len(p.Dishes[0].Steps) != 3 {
		t.Error("the plan itself was changed")
	}
	tt := planner.Make(t.Context(), q)
	if breaks := verify.Check(q, tt, time.Time{}); len(breaks) > 0 {
		t.Errorf("broken: %v", breaks)
	}
	if a, b := tt.Slots[1], tt.Slots[3]; a.Start.Before(b.End) && b.Start.Before(a.End) {
		t.Errorf("both batches are in the oven: %v and %v", a, b)
	}
}

// A second batch cannot start the moment that the dough is ready: the oven is full.
func TestLargerAtOnce(t *testing.T) {
	t.Parallel()
	p := dinnerOf(t, "16", "40m", "3h")
	p.Steps[1].AtOnce = true
	q := Larger(p)
	if !q.Steps[1].AtOnce || q.Steps[3].AtOnce {
		t.Errorf("at once: the first %t, the second %t", q.Steps[1].AtOnce, q.Steps[3].AtOnce)
	}
}

func TestLargerIsNothing(t *testing.T) {
	t.Parallel()
	for name, p := range map[string]*plan.Plan{
		"as written": dinnerOf(t, "4", "40m", "3h"),
		"fewer":      dinnerOf(t, "2", "40m", "3h"),
	} {
		if Larger(p) != nil {
			t.Errorf("%s: larger", name)
		}
	}
}

func TestJudge(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		guests, takes, keeps string
		want                 string
	}{
		"holds":         {"8", "40m", "3h", "the timetable still holds"},
		"holds twice":   {"16", "40m", "3h", "the timetable still holds"},
		"does not hold": {"16", "2h", "20m (30m at most)", "does not hold: "},
	} {
		p := dinnerOf(t, c.guests, c.takes, c.keeps)
		written := planner.Make(t.Context(), p)
		l := Make(p, written)
		q := Larger(p)
		l.Judge(q, planner.Make(t.Context(), q), written)
		if last := l.Notes[len(l.Notes)-1]; last.Dish != "" || !strings.Contains(last.Text, c.want) {
			t.Errorf("%s: %q, want %q", name, last.Text, c.want)
		}
	}
}
