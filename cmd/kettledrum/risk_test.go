package main

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"

	"example.org/kettledrum/plan/clock/clocktest"
	"example.org/kettledrum/plan/planner"
	"example.org/kettledrum/plan/risk"
)

// riskOf runs `rehearse --runs` on the supper.
func riskOf(t *testing.T, args ...string) (out, progress string) {
	t.Helper()
	name := filepath.Join(t.TempDir(), "supper.yaml")
	if err := os.WriteFile(name, []byte(supperPlan), 0o644); err != nil {
		t.Fatal(err)
	}
	var b, msg, bar bytes.Buffer
	w := &world{out: &results{w: &b}, msg: messages{&msg}, clock: clocktest.New(utc(1, 12, 0)), progress: &bar, utf8: true}
	if code := execute(append([]string{"rehearse", name}, args...), w); code != exitFine {
		t.Fatalf("exit code %d:\n%s", code, msg.String())
	}
	return b.String(), bar.String()
}

func TestRiskSchemaFits(t *testing.T) {
	t.Parallel()
	for _, sample := range []string{"0", "2"} {
		text, _ := riskOf(t, "--runs", "500", "--sample", sample, "--json")
		if err := validate(t, riskSchema, []byte(text)); err != nil {
			t.Error(err)
		}
		var got riskJSON
		if err := json.Unmarshal([]byte(text), &got); err != nil {
			t.Fatal(err)
		}
		if got.Runs != 500 || len(got.Courses) == 0 || len(got.Steps) == 0 || len(got.Starts) != 3 || (got.Sample == nil) != (sample == "0") {
			t.Errorf("%+v: nothing to hold the schema to", got)
		}
	}
}

// The schema bites: each change of what is printed is refused.
func TestRiskSchemaRefuses(t *testing.T) {
	t.Parallel()
	text, _ := riskOf(t, "--runs", "500", "--sample", "1", "--json")
	first := func(doc map[string]any, list string) map[string]any { return doc[list].([]any)[0].(map[string]any) }
	for name, change := range map[string]func(doc map[string]any){
		"unknown-key":  func(doc map[string]any) { doc["extra"] = 1 },
		"missing-key":  func(doc map[string]any) { delete(doc, "starts") },
		"chance":       func(doc map[string]any) { doc["on_time"].(map[string]any)["p"] = 1.5 },
		"broken-time":  func(doc map[string]any) { first(doc, "courses")["asked"] = "noon" },
		"null-bins":    func(doc map[string]any) { first(doc, "courses")["histogram"] = nil },
		"no-runs":      func(doc map[string]any) { doc["runs"] = 0 },
		"sample-shape": func(doc map[string]any) { doc["sample"] = []any{} },
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			if validate(t, riskSchema, altered(t, []byte(text), change)) == nil {
				t.Error("the schema takes it")
			}
		})
	}
}

// A progress bar is there while it counts, and gone when it is done.
func TestProgressBar(t *testing.T) {
	t.Parallel()
	out, bar := riskOf(t, "--runs", "1000", "--sample", "2")
	for _, want := range []string{"1000 of 1000 evenings", "[" + strings.Repeat("#", barWidth) + "]", "2 of 2 evenings conducted"} {
		if !strings.Contains(bar, want) {
			t.Errorf("no %q in %q", want, bar)
		}
	}
	if !strings.HasSuffix(bar, "\r\x1b[K") || strings.ContainsAny(out, "\r\x1b") {
		t.Errorf("the bar ends with %q; in the results: %v", bar[max(0, len(bar)-8):], strings.ContainsAny(out, "\r\x1b"))
	}
}

// What is printed of a large dinner fits the sheet, and without Unicode it is ASCII.
func TestRiskTextFitsTheSheet(t *testing.T) {
	t.Parallel()
	src := builtIn()
	p := read(t, src.name, src.text)
	r := risk.New(p, planner.Make(t.Context(), p)).Simulate(t.Context(), risk.Options{Runs: 1000, Seed: 1, Thin: true, Starts: true}).Report()
	for _, unicode := range []bool{true, false} {
		var b strings.Builder
		writeRisk(&b, r, unicode)
		for line := range strings.Lines(b.String()) {
			line = strings.TrimSuffix(line, "\n")
			if ansi.StringWidth(line) > textWidth {
				t.Errorf("%d cells: %s", ansi.StringWidth(line), line)
			}
			if !unicode && strings.ContainsFunc(line, func(r rune) bool { return r > '~' }) {
				t.Errorf("not ASCII: %s", line)
			}
		}
	}
}

// stopper ends a context with the first thing that is written to it.
type stopper struct{ stop context.CancelFunc }

func (s stopper) Write(b []byte) (int, error) {
	s.stop()
	return len(b), nil
}

// Stopped on the way, the report is of the evenings so far, and says how many.
func TestRiskStopped(t *testing.T) {
	t.Parallel()
	ctx, stop := context.WithCancel(t.Context())
	var out, msg bytes.Buffer
	r := rehearsal{
		w:    &world{out: &results{w: &out}, msg: messages{&msg}, clock: clocktest.New(utc(1, 12, 0)), progress: stopper{stop}},
		risk: risking{runs: 1_000_000, sample: 10, seed: 1},
	}
	p := read(t, "supper.yaml", []byte(supperPlan))
	if err := r.chances(ctx, p, planner.Make(t.Context(), p)); err != nil {
		t.Fatal(err)
	}
	told := regexp.MustCompile(`^kettledrum: stopped after (\d+) of 1000000 evenings\n$`).FindStringSubmatch(msg.String())
	if told == nil {
		t.Fatalf("messages %q", msg.String())
	}
	if want := "cooked " + told[1] + " times, seed 1"; !strings.Contains(out.String(), want) || strings.Contains(out.String(), "conducted") {
		t.Errorf("no %q, or conducted all the same:\n%s", want, out.String())
	}
}
