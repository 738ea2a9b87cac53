package main

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
	"unicode"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/examples"
	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/clock/clocktest"
	"example.org/kettledrum/plan/journal"
	"example.org/kettledrum/plan/mishap"
	"example.org/kettledrum/plan/planfile"
	"example.org/kettledrum/plan/rehearse"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
)

// december is when there is dinner on a day of December.
func december(d int) time.Time { return time.Date(2026, 12, d, 18, 30, 0, 0, time.UTC) }

// kitchen is a place with plan files and runs that were cooked there.
type kitchen struct {
	t     testing.TB
	dir   string // of the plan files
	state string
	now   time.Time
	cues  []cueJSON // of the dinner that was cooked last, but for standby cues
}

func newKitchen(t testing.TB) *kitchen {
	t.Helper()
	dir := t.TempDir()
	return &kitchen{t: t, dir: dir, state: filepath.Join(dir, "state"), now: december(30)}
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

// cook cooks a plan at table on a day of December, on a real session with a journal on
// disk, with what truly happens as a script makes it for the plan, and what is told
// besides at the end.
func (k *kitchen) cook(name string, d int, truly func(p *plan.Plan) []mishap.Mishap, after ...run.Event) (dir string) {
	k.t.Helper()
	src, err := readSource([]string{filepath.Join(k.dir, name)})
	if err != nil {
		k.t.Fatal(err)
	}
	how := reading{serve: december(d).Format("2006-01-02 15:04")}
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
	k.cues = nil
	player := rehearse.New(k.t.Context(), s, script, begin, rehearse.Watcher{
		Cue:    func(q run.Cue, at time.Time) { k.cues = append(k.cues, viewCue(p, q, at)) },
		Mishap: func(m rehearse.Played) { k.t.Logf("%s %s %s", hour(m.At), m.Text(p), m.Refused) },
	})
	if err := session.Play(k.t.Context(), s, c, p.Table.Add(patience), player); err != nil {
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
	first := t.LastServe()
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
	return k.run(code, append([]string{"review"}, args...)...)
}

// run runs a command in the kitchen's folder.
func (k *kitchen) run(code int, args ...string) string {
	k.t.Helper()
	var said strings.Builder
	w := &world{out: &results{w: &said}, msg: messages{&said}, clock: clocktest.New(k.now), local: time.UTC, locale: "en_US.UTF-8"}
	if got := execute(args, w); got != code {
		k.t.Fatalf("%v: exit code %d, want %d:\n%s", args, got, code, said.String())
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

// TestReviewGolden: what one dinner tells, and three, with Unicode and without, and JSON
// that its schema fits.
func TestReviewGolden(t *testing.T) {
	text := tuesday(t)
	k := newKitchen(t).in(t)
	k.plan("tuesday.yaml", text)
	const roast, rinse = "lemon-chicken/roast-the-thighs", "rice/rinse-the-rice"
	k.cook("tuesday.yaml", 1, truly(t, roast+" 48m", rinse+" 5m"),
		run.Event{Kind: run.Noted, Step: roast, Text: "turned the tray twice; the left side browns first"},
		run.Event{Kind: run.Noted, Text: "too little rice for four"})
	golden(t, "review.txt", k.review(0))
	k.cook("tuesday.yaml", 8, func(p *plan.Plan) []mishap.Mishap {
		out := truly(t, roast+" 44m", rinse+" 6m")(p)
		skip := mishap.None(mishap.Dropped)
		skip.At, skip.Step = december(8).Add(-20*time.Minute), p.StepIndex("rice/fluff-the-rice")
		silent := mishap.None(mishap.Silent)
		silent.At, silent.By = december(8).Add(-56*time.Minute), 8*time.Minute
		return append(out, skip, silent)
	})
	golden(t, "review-mishaps.yaml", k.review(0, "--mishaps"))
	golden(t, "review-unjudged.txt", k.review(0))
	k.cook("tuesday.yaml", 15, truly(t, roast+" 52m", rinse+" 5m"))
	golden(t, "review-three.txt", k.review(0, "tuesday.yaml"))
	golden(t, "review-ascii.txt", k.review(0, "tuesday.yaml", "--ascii"))
	js := strings.ReplaceAll(k.review(0, "2026-12-08-1830-tuesday-supper", "--json"), k.dir, "/home/ines")
	golden(t, "review.json", js)
	if err := validate(t, reviewSchema, []byte(js)); err != nil {
		t.Error(err)
	}
	if at := strings.IndexFunc(k.review(0, "tuesday.yaml", "--ascii"), func(r rune) bool { return r > unicode.MaxASCII }); at >= 0 {
		t.Errorf("--ascii prints something else at byte %d", at)
	}
}

// TestReviewMishapsRehearsed: what went wrong in a dinner, recorded on disk, is printed
// as a script by one command and played by another: the same cues, of the same steps,
// in the same minutes, in the same words. Standby cues, which show where the fast clock
// happens to stop, and the larger dinners are for package review.
func TestReviewMishapsRehearsed(t *testing.T) {
	k := newKitchen(t).in(t)
	text, _ := examples.Get("weeknight")
	k.plan("weeknight.yaml", string(text))
	dir := k.cook("weeknight.yaml", 22, func(p *plan.Plan) []mishap.Mishap {
		ms, ps := planfile.Mishaps([]byte(`mishaps:
  - {at: "18:10", cook: Cook, away: 6m}
  - {at: "18:20", burner: large, fails: true}
  - {step: baked-trout/bake-the-trout, takes: 48m}
  - {at: "18:35", take_remedy: 1}
  - {at: "18:40", hold: Dinner, by: 10m}
`), p, p.Table)
		if ps.HasErrors() {
			t.Fatal(ps)
		}
		return ms
	})
	want := k.cues
	script := k.review(0, "--mishaps", filepath.Base(dir))
	t.Logf("\n%s", script)
	if !strings.Contains(script, "take_remedy: 1") {
		t.Error("the remedy is not in the script")
	}
	k.plan("trouble.yaml", script)
	var got rehearsalJSON
	if err := json.Unmarshal([]byte(k.run(0, "rehearse", "weeknight.yaml", "--serve", "2026-12-22 18:30", "--mishaps", "trouble.yaml", "--json")), &got); err != nil {
		t.Fatal(err)
	}
	for _, m := range got.Mishaps {
		if m.Refused != nil || m.At == nil {
			t.Errorf("not played: %s", m.Text)
		}
	}
	if diff := cmp.Diff(heard(want), heard(got.Cues)); diff != "" {
		t.Errorf("cues (-recorded +rehearsed):\n%s", diff)
	}
}

// heard lists cues as a cook hears them: the minute, the class, what it is about.
func heard(cues []cueJSON) (out []string) {
	for _, c := range cues {
		if c.Class != run.Soon.String() {
			out = append(out, c.At.UTC().Format("Mon 15:04")+" "+c.Class+" "+c.ID+": "+c.Text)
		}
	}
	return out
}

// TestReviewFindsRuns: what can be asked for, and what is said where there is none.
func TestReviewFindsRuns(t *testing.T) {
	text := tuesday(t)
	k := newKitchen(t).in(t)
	k.plan("tuesday.yaml", text)
	has := func(said string, want ...string) {
		t.Helper()
		for _, w := range want {
			if !strings.Contains(said, w) {
				t.Errorf("%q is not in:\n%s", w, said)
			}
		}
	}
	has(k.review(2), "no dinner was cooked to its end yet", "hint: kettledrum cook conducts one")
	has(k.review(2, "tuesday.yaml"), "no dinner was cooked from tuesday.yaml to its end yet")
	has(k.review(2, "sunday.yaml"), "there is neither a plan file nor a run sunday.yaml")
	has(k.review(2, "a", "b"), "one plan file or run at a time, got 2")
	k.cook("tuesday.yaml", 17, nil)
	k.plan("other.yaml", strings.Replace(text, "Tuesday supper", "Other supper", 1))
	k.cook("other.yaml", 18, nil)
	has(k.review(0), "Other supper", "Fri 18 December 2026, 18:30", "nothing: what was told is as planned")
	has(k.review(0, "tuesday.yaml"), "Tuesday supper", "Thu 17 December")
	has(k.review(0, "2026-12-17-1830-tuesday-supper"), "Tuesday supper")
	has(k.review(0, filepath.Join(k.state, "kettledrum", "runs", "2026-12-17-1830-tuesday-supper")), "Tuesday supper")
	k.plan("third.yaml", strings.Replace(text, "Tuesday supper", "Third supper", 1))
	has(k.review(2, "third.yaml"), "no dinner was cooked from third.yaml to its end yet",
		"hint: kettledrum review 2026-12-18-1830-other-supper: Other supper, table Fri 18 December 2026, 18:30")

	// A run whose journal is no journal is told of, and the others are there.
	broken := filepath.Join(k.state, "kettledrum", "runs", "2026-12-19-1830-broken")
	if err := os.MkdirAll(broken, 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(broken, journal.FileName), nil, 0o600); err != nil {
		t.Fatal(err)
	}
	has(k.review(0), "the run 2026-12-19-1830-broken is left out: its journal is empty", "Other supper")

	// A dinner that is going on is looked at only when it is named.
	k.now = december(21).Add(-time.Hour)
	dir := k.cook("third.yaml", 21, nil)
	cutBeforeServe(t, dir)
	has(k.review(0), "Other supper")
	has(k.review(0, filepath.Base(dir)), "Third supper", "this dinner is not over", "never")
	k.now = december(23) // nobody said that it was served, and it is long past
	has(k.review(0), "Third supper", "never")
}

// cutBeforeServe takes the last line from a journal: the serve.
func cutBeforeServe(t *testing.T, dir string) {
	t.Helper()
	path := filepath.Join(dir, journal.FileName)
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.SplitAfter(strings.TrimSuffix(string(data), "\n"), "\n")
	if last := lines[len(lines)-1]; !strings.Contains(last, string(run.Served)) {
		t.Fatalf("the last line is %q", last)
	}
	if err := os.WriteFile(path, []byte(strings.Join(lines[:len(lines)-1], "")), 0o600); err != nil {
		t.Fatal(err)
	}
}

// tuesday is the plan of the README.
func tuesday(t testing.TB) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(here, readme))
	if err != nil {
		t.Fatal(err)
	}
	_, rest, _ := strings.Cut(string(text), "```yaml\n")
	out, _, _ := strings.Cut(rest, "```")
	return out
}
