package planfile_test

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"example.org/kettledrum/examples"
	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/mishap"
	"example.org/kettledrum/plan/planfile"
)

// TestWriteScriptIsReadBack: every kind of mishap, on the day of the dinner, days before
// and past midnight, is read as it was written; the script moves with the dinner.
func TestWriteScriptIsReadBack(t *testing.T) {
	t.Parallel()
	src, _ := examples.Get("harvest")
	p, ps := planfile.Decode(src, options)
	if ps.HasErrors() {
		t.Fatal(ps)
	}
	told := func(kind mishap.Kind, hours int, set func(m *mishap.Mishap)) mishap.Mishap {
		m := mishap.None(kind)
		m.At = p.Table.Add(time.Duration(hours)*time.Hour + 7*time.Minute)
		set(&m)
		return m
	}
	minutes := func(n int) time.Duration { return time.Duration(n) * time.Minute }
	ms := []mishap.Mishap{
		told(mishap.Longer, -1, func(m *mishap.Mishap) { m.Step, m.By = 3, minutes(8) }),
		told(mishap.Longer, 0, func(m *mishap.Mishap) { m.At, m.Step, m.By = time.Time{}, 4, minutes(90) }),
		told(mishap.Takes, 0, func(m *mishap.Mishap) { m.At, m.Step, m.By = time.Time{}, 5, minutes(25) }),
		told(mishap.Takes, -2, func(m *mishap.Mishap) { m.Step, m.By = 5, minutes(1) }),
		told(mishap.Reading, -3, func(m *mishap.Mishap) { m.Step, m.Temp = 0, plan.FromFahrenheit(148) }),
		told(mishap.Reading, -3, func(m *mishap.Mishap) { m.Step, m.Temp = 0, 51.3 }),
		told(mishap.Reading, -3, func(m *mishap.Mishap) { m.Step, m.Temp = 0, 47.123456789012345 }),
		told(mishap.Burnt, -2, func(m *mishap.Mishap) { m.Step, m.Again = 2, true }),
		told(mishap.Burnt, -2, func(m *mishap.Mishap) { m.Dish = 1 }),
		told(mishap.Dropped, -26, func(m *mishap.Mishap) { m.Step = 1 }),
		told(mishap.Dropped, 6, func(m *mishap.Mishap) { m.Dish = 2 }),
		told(mishap.GivenTo, -1, func(m *mishap.Mishap) { m.Step, m.Cook = 2, 1 }),
		told(mishap.PutOn, -1, func(m *mishap.Mishap) { m.Step, m.Burner = 2, plan.Large }),
		told(mishap.PutOn, -1, func(m *mishap.Mishap) { m.Step, m.Oven = 2, 0 }),
		told(mishap.Away, -50, func(m *mishap.Mishap) { m.Cook, m.By = 0, minutes(20) }),
		told(mishap.Back, -1, func(m *mishap.Mishap) { m.Cook = 1 }),
		told(mishap.Fails, -1, func(m *mishap.Mishap) { m.Burner, m.Step = plan.Small, 3 }),
		told(mishap.Fails, -1, func(m *mishap.Mishap) { m.Oven = 0 }),
		told(mishap.Works, -1, func(m *mishap.Mishap) { m.Burner = plan.Small }),
		told(mishap.Hold, -1, func(m *mishap.Mishap) { m.Course = 1 }),
		told(mishap.Hold, -1, func(m *mishap.Mishap) { m.Course, m.By = 1, minutes(10) }),
		told(mishap.Release, 0, func(m *mishap.Mishap) { m.Course = 1 }),
		told(mishap.GuestsLate, -1, func(m *mishap.Mishap) { m.By = minutes(15) }),
		told(mishap.Silent, -1, func(m *mishap.Mishap) { m.By = minutes(12) }),
		told(mishap.TakeRemedy, -1, func(m *mishap.Mishap) { m.Remedy = 2 }),
	}
	near := cmp.Comparer(func(a, b plan.Celsius) bool { return max(a-b, b-a) < 1e-9 })
	read := func(q *plan.Plan, text []byte) []mishap.Mishap {
		t.Helper()
		got, ps := planfile.Mishaps(text, q, p.Table)
		if ps.HasErrors() {
			t.Fatalf("%s", planfile.Format("script", text, ps))
		}
		return got
	}
	text := planfile.WriteScript(p, ms, []string{"a head", "of two lines"}, []string{"left\nout"})
	if diff := cmp.Diff(ms, read(p, text), near, cmpopts.IgnoreFields(mishap.Mishap{}, "Pos")); diff != "" {
		t.Errorf("(-written +read):\n%s\n%s", diff, text)
	}
	if got := read(p, planfile.WriteScript(p, nil, nil, nil)); len(got) != 0 {
		t.Errorf("of nothing: %v", got)
	}
	moved := *p
	moved.Table = p.Table.AddDate(0, 0, 14)
	for k, m := range read(&moved, text) {
		if want := ms[k].At.AddDate(0, 0, 14); !m.At.IsZero() && !m.At.Equal(want) && ms[k].At.Day() <= p.Table.Day() {
			t.Errorf("moved: %s, want %s", m.At, want)
		}
	}
}
