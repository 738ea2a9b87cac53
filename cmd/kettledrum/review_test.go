package main

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/clock/clocktest"
	"example.org/kettledrum/plan/journal"
	"example.org/kettledrum/plan/mishap"
	"example.org/kettledrum/plan/planfile"
	"example.org/kettledrum/plan/rehearse"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
)

// kitchen is a place with plan files and runs that were cooked there.
type kitchen struct {
	t     testing.TB
	dir   string // of the plan files
	state string
	now   time.Time
}

func newKitchen(t testing.TB) *kitchen {
	t.Helper()
	dir := t.TempDir()
	return &kitchen{t: t, dir: dir, state: filepath.Join(dir, "state"), now: utc(30, 12, 0)}
}

// plan writes a plan file.
func (k *kitchen) plan(name, text string) string {
	k.t.Helper()
	path := filepath.Join(k.dir, name)
	if err := os.WriteFile(path, []byte(text), 0o640); err != nil {
		k.t.Fatal(err)
	}
	return path
}

// cook cooks a plan at table on a day of October, on a real session with a journal on
// disk, with what truly happens as a script makes it for the plan, and what is told
// besides at the end.
func (k *kitchen) cook(name string, d int, truly func(p *plan.Plan) []mishap.Mishap, after ...run.Event) (dir string) {
	k.t.Helper()
	src, err := readSource([]string{filepath.Join(k.dir, name)})
	if err != nil {
		k.t.Fatal(err)
	}
	how := reading{serve: utc(d, 19, 0).Format("2006-01-02 15:04")}
	w := &world{clock: clocktest.New(k.now), local: time.UTC, locale: "en_US.UTF-8", msg: messages{os.Stderr}}
	p, err := src.load(w, how)
	if err != nil {
		k.t.Fatal(err)
	}
	dir = journal.RunDir(filepath.Join(k.state, "kettledrum"), p.Title, p.Table)
	j, _, _, err := journal.Open(journal.OS{}, dir)
	if err != nil {
		k.t.Fatal(err)
	}
	defer j.Close()
	first := made(k.t.Context(), p)
	begin := firstOf(first).Add(-beforeFirst)
	c := clocktest.New(begin)
	cfg := sessionConfig(c, j)
	cfg.Make = func(context.Context, *plan.Plan) *plan.Timetable { return first }
	cfg.Plan, cfg.Copy = p, src.copyOf(p, how)
	s, err := session.Open(k.t.Context(), cfg)
	if err != nil {
		k.t.Fatal(err)
	}
	var script []mishap.Mishap
	if truly != nil {
		script = truly(p)
	}
	if err := session.Play(k.t.Context(), s, c, p.Table.Add(patience), rehearse.New(k.t.Context(), s, script, begin, rehearse.Watcher{})); err != nil {
		k.t.Fatal(err)
	}
	for _, e := range after {
		if _, err := s.Record(e); err != nil {
			k.t.Fatal(err)
		}
	}
	return dir
}

func firstOf(t *plan.Timetable) time.Time {
	first := lastServe(t)
	for _, s := range t.Slots {
		first = plan.Earlier(first, s.Start)
	}
	for _, x := range t.Touches {
		first = plan.Earlier(first, x.At)
	}
	return first
}

// allTake makes every step whose length the food decides take so many times as long.
func allTake(times float64) func(p *plan.Plan) []mishap.Mishap {
	return func(p *plan.Plan) (out []mishap.Mishap) {
		for i := range p.Steps {
			if l := p.Steps[i].Length; !l.Elastic {
				m := mishap.None(mishap.Takes)
				m.Step, m.By = i, time.Duration(float64(l.Likely)*times).Round(time.Minute)
				out = append(out, m)
			}
		}
		return out
	}
}

// truly makes steps take as long as told, by their reference: "roast 50m".
func truly(t testing.TB, lines ...string) func(p *plan.Plan) []mishap.Mishap {
	return func(p *plan.Plan) (out []mishap.Mishap) {
		for _, line := range lines {
			id, long, _ := strings.Cut(line, " ")
			m := mishap.None(mishap.Takes)
			d, err := planfile.Duration(long)
			if m.Step, m.By = p.StepIndex(id), d; m.Step < 0 || err != nil {
				t.Fatalf("%q: step %d, %v", line, m.Step, err)
			}
			out = append(out, m)
		}
		return out
	}
}

// review runs the command in the kitchen's folder.
func (k *kitchen) review(code int, args ...string) string {
	k.t.Helper()
	var said strings.Builder
	w := &world{out: &results{w: &said}, msg: messages{&said}, clock: clocktest.New(k.now), local: time.UTC, locale: "en_US.UTF-8"}
	if got := execute(append([]string{"review"}, args...), w); got != code {
		k.t.Fatalf("review %v: exit code %d, want %d:\n%s", args, got, code, said.String())
	}
	return said.String()
}

// in makes the kitchen the place in which commands run: not for parallel tests.
func (k *kitchen) in(t *testing.T) *kitchen {
	t.Chdir(k.dir)
	t.Setenv("XDG_STATE_HOME", k.state)
	t.Setenv("LC_ALL", "en_US.UTF-8")
	return k
}

func TestReviewLooks(t *testing.T) {
	text := tuesday(t)
	k := newKitchen(t).in(t)
	k.plan("tuesday.yaml", text)
	note := run.Event{Kind: run.Noted, Step: "lemon-chicken/roast-the-thighs", Text: "turned the tray twice; the left side browns first"}
	k.cook("tuesday.yaml", 17, truly(t, "lemon-chicken/roast-the-thighs 48m", "rice/rinse-the-rice 5m"), note)
	t.Log("\n" + k.review(0))
	k.cook("tuesday.yaml", 20, truly(t, "lemon-chicken/roast-the-thighs 44m", "rice/rinse-the-rice 6m"))
	k.cook("tuesday.yaml", 24, truly(t, "lemon-chicken/roast-the-thighs 52m", "rice/rinse-the-rice 5m"))
	t.Log("\n" + k.review(0, "tuesday.yaml"))
	t.Log("\n" + k.review(0, "tuesday.yaml", "--ascii"))
	t.Log("\n" + k.review(0, "--json"))
	t.Log("\n" + k.review(0, "--mishaps"))
	t.Log("\n" + k.review(0, "tuesday.yaml", "--apply"))
	t.Log("\n" + k.review(0, "tuesday.yaml", "--apply"))
}

// tuesday is the plan of the README.
func tuesday(t testing.TB) string {
	text, err := os.ReadFile(readme)
	if err != nil {
		t.Fatal(err)
	}
	_, rest, _ := strings.Cut(string(text), "```yaml\n")
	out, _, _ := strings.Cut(rest, "```")
	return out
}
