package rehearse_test

import (
	"context"
	"math"
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/clock"
	"example.org/kettledrum/plan/clock/clocktest"
	"example.org/kettledrum/plan/debrief"
	"example.org/kettledrum/plan/journal"
	"example.org/kettledrum/plan/mishap"
	"example.org/kettledrum/plan/planner"
	"example.org/kettledrum/plan/plantest"
	"example.org/kettledrum/plan/rehearse"
	"example.org/kettledrum/plan/session"
)

// timetable is the first one of an example.
func (d dinner) timetable() *plan.Timetable {
	for _, e := range d.events {
		if e.Timetable != nil {
			return e.Timetable
		}
	}
	panic("no timetable")
}

// TestDrawIsRepeatable: the same seed draws the same, another one something else, and a
// step takes as long wherever the rehearsal begins.
func TestDrawIsRepeatable(t *testing.T) {
	t.Parallel()
	d := cooked(t, "harvest")
	tt := d.timetable()
	first := rehearse.Draw(d.p, tt, d.from, 7)
	if diff := cmp.Diff(first, rehearse.Draw(d.p, tt, d.from, 7)); diff != "" {
		t.Errorf("the same seed (-first +again):\n%s", diff)
	}
	if cmp.Equal(first, rehearse.Draw(d.p, tt, d.from, 8)) {
		t.Error("another seed draws the same")
	}
	if first.Ranges == 0 || first.Without == 0 {
		t.Errorf("%d with a range, %d without", first.Ranges, first.Without)
	}
	took := map[int]time.Duration{}
	for _, m := range first.Lengths {
		took[m.Step] = m.By
	}
	later := d.p.Table
	for _, m := range rehearse.Draw(d.p, tt, later, 7).Lengths {
		if was, ok := took[m.Step]; tt.Slots[m.Step].Start.After(later) && (!ok || was != m.By) {
			t.Errorf("%s takes %s, and %s where the rehearsal begins later", d.p.Steps[m.Step].ID, was, m.By)
		}
	}
}

// TestDrawnLengths: whole minutes within the three points, whose mean and standard
// deviation are those of the beta-PERT distribution (10, 15, 26: mean 16, standard
// deviation 2.9277, by μ = (a + 4m + b)/6 and σ² = (μ − a)(b − μ)/7; Vose, Risk Analysis,
// 2008, from memory). Rounding to minutes adds 1/12 to the variance (Sheppard).
func TestDrawnLengths(t *testing.T) {
	t.Parallel()
	b := plantest.New("2026-10-17 19:00")
	b.Cook("Ana", "12:00-23:00")
	b.Dish("Stew", b.Course("Main", 0, 30*time.Minute, 20*time.Minute))
	l := plantest.Takes(15)
	l.Shortest, l.Longest = 10*time.Minute, 26*time.Minute
	b.Step("Simmer", l, plantest.Hands(plan.Free), plantest.Burner(plan.Small))
	tt := &plan.Timetable{Slots: []plan.Slot{b.Slot("18:30", "18:45", "small")}, Serves: []time.Time{b.At("19:00")}}
	const n = 4000
	var sum, squares float64
	for seed := range uint64(n) {
		took := l.Likely
		for _, m := range rehearse.Draw(&b.Plan, tt, b.At("18:00"), seed).Lengths {
			took = m.By
		}
		if took < l.Shortest || took > l.Longest || took%time.Minute != 0 {
			t.Fatalf("seed %d draws %s", seed, took)
		}
		sum += took.Minutes()
		squares += took.Minutes() * took.Minutes()
	}
	sd := math.Sqrt(2.9277*2.9277 + 1.0/12)
	if mean := sum / n; math.Abs(mean-16) > 4*sd/math.Sqrt(n) {
		t.Errorf("mean %.3f of %d, want 16 within %.3f", mean, n, 4*sd/math.Sqrt(n))
	} else if got := math.Sqrt(squares/n - mean*mean); math.Abs(got-sd) > 4*sd/math.Sqrt(2*n) {
		t.Errorf("standard deviation %.3f of %d, want %.3f", got, n, sd)
	}
}

// stageOf plays without a screen.
func stageOf() *rehearse.Stage {
	return &rehearse.Stage{
		Make: planner.Make, Until: 6 * time.Hour, Before: 2 * time.Minute,
		Open: func(_ context.Context, p *plan.Plan, tt *plan.Timetable, from time.Time) (*session.Session, clock.Jumper, error) {
			c := clocktest.New(from)
			cfg := config(p, &journal.Memory{}, c, nil)
			cfg.Make = func(context.Context, *plan.Plan) *plan.Timetable { return tt }
			cfg.Copy.Rehearse = true
			s, err := session.Open(context.Background(), cfg)
			if err == nil {
				_, err = s.FastForward(from)
			}
			return s, c, err
		},
	}
}

// played is an example's last hours with a script, looked back at.
func played(t *testing.T, d dinner, script []mishap.Mishap) debrief.Dinner {
	t.Helper()
	tt, from := d.timetable(), d.from.Add(-2*time.Minute)
	s, c, err := stageOf().Open(t.Context(), d.p, tt, from)
	if err != nil {
		t.Fatal(err)
	}
	refused := func(m rehearse.Played) {
		if m.Refused != "" {
			t.Errorf("refused: %s: %s", m.Text(d.p), m.Refused)
		}
	}
	player := rehearse.New(t.Context(), s, script, from, rehearse.Watcher{Mishap: refused})
	if err := session.Play(t.Context(), s, c, d.to.Add(6*time.Hour), player); err != nil {
		t.Fatal(err)
	}
	if left := player.Left(); len(left) > 0 {
		t.Errorf("never due: %s", left[0].Text(d.p))
	}
	st := s.State()
	return debrief.Dinner{Plan: st.Base, Stood: st.Plan, Guests: st.Guests(), Planned: tt, Was: s.Happened(), From: from}
}

// TestDrawnIsPlayed: whatever a seed draws can happen, each length comes true, and the
// same evening played again from what the debrief knows is as late.
func TestDrawnIsPlayed(t *testing.T) {
	t.Parallel()
	d := cooked(t, "weeknight")
	late, kinds := 0, map[mishap.Kind]bool{}
	for seed := range uint64(24) {
		drawn := rehearse.Draw(d.p, d.timetable(), d.from.Add(-2*time.Minute), seed)
		for _, m := range drawn.Mishaps {
			kinds[m.Kind] = true
		}
		x := played(t, d, drawn.Script())
		for _, m := range drawn.Lengths {
			slot := x.Was.Slots[m.Step]
			took := slot.End.Sub(slot.Start) - slot.Still
			// While the only cook is away nobody takes the pot off.
			if took != m.By && !(took > m.By && slices.ContainsFunc(drawn.Mishaps, func(m mishap.Mishap) bool { return m.Kind == mishap.Away })) {
				t.Errorf("seed %d: %s, and took %s, of which %s standing still", seed, m.Text(d.p), slot.End.Sub(slot.Start), slot.Still)
			}
		}
		b := debrief.Of(x)
		if !b.Late() {
			continue
		}
		late++
		again, err := stageOf().Try(t.Context(), x, drawn.Script(), []debrief.Idea{{Plan: x.Plan}})
		if err != nil {
			t.Fatal(err)
		}
		for c, k := range b.Courses {
			if again[0].Late[c] != k.Late {
				t.Errorf("seed %d: %s late, played again %s", seed, k.Late, again[0].Late[c])
			}
		}
	}
	if late == 0 || len(kinds) != 4 {
		t.Errorf("%d of 24 late, kinds %v: want some, and all four", late, kinds)
	}
}

// TestTryUnserved: dinner is held until released, which nobody does: it is not on time,
// it is not served.
func TestTryUnserved(t *testing.T) {
	t.Parallel()
	d := cooked(t, "weeknight")
	x := played(t, d, nil)
	m := mishap.None(mishap.Hold)
	m.Course, m.At = 0, x.Was.Slots[d.p.StepIndex("baked-trout/bake-the-trout")].Start.Add(5*time.Minute)
	tried, err := stageOf().Try(t.Context(), x, []mishap.Mishap{m}, []debrief.Idea{{Plan: x.Plan}})
	if err != nil {
		t.Fatal(err)
	}
	if got := tried[0]; !slices.Equal(got.Unserved, []int{0}) || got.Sum() < stageOf().Until {
		t.Errorf("%v not served, %s late", got.Unserved, got.Sum())
	}
}

// TestTry: a bake that takes ten minutes longer makes dinner late. Planned as long as it
// took, the same evening is on time. It must be in the oven ten minutes sooner than at
// 18:41, after eight minutes of the only cook's work; the first step was at 18:27.
func TestTry(t *testing.T) {
	t.Parallel()
	d := cooked(t, "weeknight")
	m := mishap.None(mishap.Takes)
	m.Step, m.By = d.p.StepIndex("baked-trout/bake-the-trout"), 26*time.Minute
	x := played(t, d, []mishap.Mishap{m})
	b := debrief.Of(x)
	if c := b.Courses[0]; c.Late != 10*time.Minute || len(c.Why) != 1 || c.Why[0].Step != m.Step {
		t.Fatalf("late %s, because of %v; want 10 min, of step %d", c.Late, c.Why, m.Step)
	}
	tried, err := stageOf().Try(t.Context(), x, []mishap.Mishap{m}, debrief.Ideas(x, b))
	if err != nil {
		t.Fatal(err)
	}
	helps := debrief.Helps(tried)
	if len(helps) == 0 || helps[0].Sum() != 0 {
		t.Fatalf("of %v helps %v", tried, helps)
	}
	if sooner := tried[0].Start.Sub(helps[0].Start); sooner < 4*time.Minute {
		t.Errorf("%q begins %s sooner, want 4 min at least", helps[0].Do, sooner)
	}
}
