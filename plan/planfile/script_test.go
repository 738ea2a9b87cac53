package planfile

import (
	"bytes"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/santhosh-tekuri/jsonschema/v6"

	"example.org/kettledrum/examples"
	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/mishap"
)

func ofScript(in place) bool { return in == inScript || in == inMishap }

// harvest is the plan that the scripts of these tests are for.
func harvest(t *testing.T) *plan.Plan {
	t.Helper()
	return mustDecode(t, string(examples.Harvest), Options{})
}

func script(t *testing.T, name string) []byte {
	t.Helper()
	text, err := os.ReadFile("testdata/script/" + name)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

func TestScript(t *testing.T) {
	t.Parallel()
	p := harvest(t)
	got, problems := Mishaps(script(t, "all.yaml"), p, p.Table)
	if len(problems) > 0 {
		t.Fatalf("problems:\n%s", Format("all.yaml", script(t, "all.yaml"), problems))
	}
	day := func(d, h, m int) time.Time { return time.Date(2026, 10, d, h, m, 0, 0, p.Table.Location()) }
	at := func(h, m int) time.Time { return day(17, h, m) }
	roast, table, bake := p.StepIndex("pork-shoulder/roast"), p.StepIndex("table"), p.StepIndex("flatbreads/bake")
	simmer := p.StepIndex("fennel-sauce/simmer")
	flatbreads := p.Steps[bake].Dish
	make := func(kind mishap.Kind, at time.Time, set func(*mishap.Mishap)) mishap.Mishap {
		m := mishap.None(kind)
		m.At = at
		set(&m)
		return m
	}
	want := []mishap.Mishap{
		make(mishap.Longer, at(17, 40), func(m *mishap.Mishap) { m.Step, m.By = roast, 25*time.Minute }),
		make(mishap.Takes, time.Time{}, func(m *mishap.Mishap) { m.Step, m.By = roast, 4*time.Hour }),
		make(mishap.GivenTo, day(16, 18, 30), func(m *mishap.Mishap) { m.Step, m.Cook = table, 1 }),
		make(mishap.Reading, at(17, 15), func(m *mishap.Mishap) { m.Step, m.Temp = roast, plan.FromFahrenheit(148) }),
		make(mishap.Away, at(18, 0), func(m *mishap.Mishap) { m.Cook, m.By = 1, 30*time.Minute }),
		make(mishap.Fails, at(16, 30), func(m *mishap.Mishap) { m.Burner = plan.Large }),
		make(mishap.Fails, at(16, 40), func(m *mishap.Mishap) { m.Oven = 0 }),
		make(mishap.Hold, at(18, 20), func(m *mishap.Mishap) { m.Course, m.By = 1, 20*time.Minute }),
		make(mishap.GuestsLate, at(18, 50), func(m *mishap.Mishap) { m.By = time.Hour }),
		make(mishap.Burnt, at(17, 0), func(m *mishap.Mishap) { m.Dish, m.Again = flatbreads, true }),
		make(mishap.Burnt, at(17, 0), func(m *mishap.Mishap) { m.Dish = flatbreads }),
		make(mishap.Dropped, at(17, 0), func(m *mishap.Mishap) { m.Dish = flatbreads }),
		make(mishap.Dropped, at(17, 0), func(m *mishap.Mishap) { m.Step = bake }),
		make(mishap.Burnt, at(17, 0), func(m *mishap.Mishap) { m.Step, m.Again = bake, true }),
		make(mishap.PutOn, at(17, 0), func(m *mishap.Mishap) { m.Step, m.Oven = bake, 0 }),
		make(mishap.PutOn, at(17, 0), func(m *mishap.Mishap) { m.Step, m.Burner = simmer, plan.Large }),
		make(mishap.Fails, at(17, 0), func(m *mishap.Mishap) { m.Step, m.Burner = simmer, plan.Small }),
		make(mishap.Works, at(17, 0), func(m *mishap.Mishap) { m.Burner = plan.Small }),
		make(mishap.Works, at(17, 0), func(m *mishap.Mishap) { m.Oven = 0 }),
		make(mishap.Back, at(17, 0), func(m *mishap.Mishap) { m.Cook = 1 }),
		make(mishap.Hold, at(17, 0), func(m *mishap.Mishap) { m.Course = 2 }),
		make(mishap.Release, at(17, 0), func(m *mishap.Mishap) { m.Course = 2 }),
		make(mishap.Silent, at(17, 20), func(m *mishap.Mishap) { m.By = 40 * time.Minute }),
		make(mishap.TakeRemedy, at(18, 30), func(m *mishap.Mishap) { m.Remedy = 1 }),
	}
	if d := cmp.Diff(want, got, sameHeat, cmpopts.IgnoreTypes(plan.Pos{})); d != "" {
		t.Errorf("mishaps (-want +got):\n%s", d)
	}
	if got[0].Pos != (plan.Pos{Line: 3, Col: 5}) {
		t.Errorf("the first stands at %v", got[0].Pos)
	}
	for _, m := range got {
		if text := m.Text(p); text == "" || strings.Contains(text, "\n") {
			t.Errorf("%s is told as %q", m.Kind, text)
		}
	}
}

// A moved dinner takes the weekdays of its script along.
func TestScriptOfAMovedDinner(t *testing.T) {
	t.Parallel()
	p := mustDecode(t, string(examples.Harvest), Options{Serve: "2026-12-01 19:00"})
	got, problems := Mishaps([]byte(`mishaps: [{at: "Fri 18:30", silent: 10m}]`), p, harvest(t).Table)
	if want := time.Date(2026, 11, 30, 18, 30, 0, 0, p.Table.Location()); len(problems) > 0 || !got[0].At.Equal(want) {
		t.Errorf("%v, %v; want %s", got, problems, want)
	}
}

// Every mistake of a script is told at once, with its place and what would be right.
func TestBrokenScript(t *testing.T) {
	t.Parallel()
	p, text, name := harvest(t), script(t, "broken.yaml"), "testdata/script/broken.golden"
	got, problems := Mishaps(text, p, p.Table)
	if got != nil {
		t.Error("mishaps come with the problems")
	}
	shown := Format("broken.yaml", text, problems)
	if *update {
		if err := os.WriteFile(name, []byte(shown), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(string(want), shown); d != "" {
		t.Errorf("messages (-want +got):\n%s", d)
	}
}

func TestScriptsThatAreNone(t *testing.T) {
	t.Parallel()
	p := harvest(t)
	for name, text := range map[string]string{
		"empty": "", "list": "- {silent: 5m}", "no-key": "{}", "other-key": "mishap: []", "no-list": "mishaps: 5", "two": "mishaps: []\n---\na: 1",
		"alias": "mishaps: [&a {at: \"17:40\", silent: 5m}, *a]", "not-yaml": "mishaps: [",
	} {
		_, problems := Mishaps([]byte(text), p, p.Table)
		if !problems.HasErrors() {
			t.Errorf("%s is taken", name)
		}
		for _, q := range problems {
			if q.Pos.Line < 1 || strings.Contains(q.Text+strings.Join(q.Hints, ""), "a plan") {
				t.Errorf("%s: %+v", name, q)
			}
		}
	}
}

func TestScriptSchema(t *testing.T) {
	t.Parallel()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(ScriptSchema()))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("script.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("script.json")
	if err != nil {
		t.Fatal(err)
	}
	v, _ := asJSON(script(t, "all.yaml"))
	if err := s.Validate(v); err != nil {
		t.Error(err)
	}
	p := harvest(t)
	for _, item := range []string{
		`{at: "17:40", step: roast, longre: 25m}`, `{at: "17:40", step: roast}`, `{cook: Tomas, away: 30m}`, `{at: "17:40"}`,
		`{at: noon, silent: 5m}`, `{at: "17:40", silent: 5}`, `{at: "17:40", step: roast, silent: 5m}`, `{at: "17:40", step: roast, longer: 5m, takes: 1h}`,
		`{at: "17:40", step: roast, reading: brown}`, `{at: "17:40", burner: large, fails: false}`, `{at: "17:40", burner: medium, fails: true}`,
		`{at: "17:40", take_remedy: 0}`, `{at: "17:40", dish: flatbreads, burnt: yes}`,
	} {
		text := []byte("mishaps: [" + item + "]")
		if _, problems := Mishaps(text, p, p.Table); !problems.HasErrors() {
			t.Errorf("the reader takes %s", item)
		}
		if v, ok := asJSON(text); !ok || s.Validate(v) == nil {
			t.Errorf("the schema takes %s", item)
		}
	}
}

// Whatever a script holds, reading it does not panic, and every problem has a place.
func FuzzScript(f *testing.F) {
	for _, name := range []string{"all.yaml", "broken.yaml"} {
		text, err := os.ReadFile("testdata/script/" + name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(text)
	}
	p, _ := Decode(examples.Harvest, Options{})
	f.Fuzz(func(t *testing.T, text []byte) {
		got, problems := Mishaps(text, p, p.Table)
		if problems.HasErrors() == (got != nil) && got != nil {
			t.Error("mishaps come with errors")
		}
		for _, q := range problems {
			if q.Pos.Line < 1 || q.Pos.Col < 1 || q.Text == "" && len(problems) < maxProblems {
				t.Errorf("problem %+v", q)
			}
		}
		for _, m := range got {
			m.Text(p)
		}
	})
}
