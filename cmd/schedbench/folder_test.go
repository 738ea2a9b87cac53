package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

func TestOrderOfNames(t *testing.T) {
	t.Parallel()
	want := []string{"PSP2.SCH", "PSP10.SCH", "j301_2.sm", "j301_10.sm", "j302_1.sm", "j3010_01.sm", "j3010_1.sm"}
	got := slices.Clone(want)
	slices.Reverse(got)
	slices.SortFunc(got, byNumbers)
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
}

// The real command on the projects by hand: testdata/projects/README.md works
// out what they must come to.
func TestFolder(t *testing.T) {
	t.Parallel()
	var out, log strings.Builder
	if code := execute([]string{"-limit", "1m", "-json", "testdata/projects"}, time.Now, &out, &log); code != exitFine {
		t.Errorf("exit code %d", code)
	}
	var got []string
	for l := range strings.Lines(out.String()) {
		var r map[string]any
		if err := json.Unmarshal([]byte(l), &r); err != nil {
			t.Fatalf("%v in %s", err, l)
		}
		keys := slices.Sorted(func(yield func(string) bool) {
			for k := range r {
				if !yield(k) {
					return
				}
			}
		})
		if got, want := strings.Join(keys, " "), "bound checked conflicts instance makespan ms_best ms_first ms_total status"; got != want {
			t.Errorf("keys %s, want %s", got, want)
		}
		text, err := json.Marshal([]any{r["instance"], r["status"], r["makespan"], r["bound"], r["checked"]})
		if err != nil {
			t.Fatal(err)
		}
		got = append(got, string(text))
	}
	want := []string{
		`["LAGS1.SCH","optimal",7,7,true]`,
		`["LAGS2.SCH","infeasible",null,null,null]`,
		`["LAGS3.SCH","infeasible",null,null,null]`,
		`["LAGS10.SCH","optimal",7,7,true]`,
		`["work1.sm","optimal",6,6,true]`,
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("(-want +got):\n%s%s", d, log.String())
	}
	for _, want := range []string{"testdata/projects: proved 5 of 5; ", "contradictions 0; better than an unproven best 1\n"} {
		if !strings.Contains(log.String(), want) {
			t.Errorf("the summary does not say %q:\n%s", want, log.String())
		}
	}
}

// One broken file does not keep the others from being solved, and a proven value
// that is contradicted is an error.
func TestFolderWithMistakes(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	for name, text := range map[string]string{
		"a1.sm":    sample(t, "work1.sm"),
		"a2.sch":   "2\t1\t0\t0\n",
		"best.csv": "instance,best,proven\na1.sm,5,yes\n",
	} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	var out, log strings.Builder
	if code := execute([]string{dir}, time.Now, &out, &log); code != exitWrong {
		t.Errorf("exit code %d, want %d", code, exitWrong)
	}
	if !strings.Contains(out.String(), "\na1.sm          optimal           6        6") {
		t.Errorf("printed:\n%s", out.String())
	}
	for _, want := range []string{
		"a1.sm: 6 called optimal, a schedule of 5 is known",
		"a2.sch:1: the file ends, want job, mode 1, number of arcs",
		"contradictions 1;",
	} {
		if !strings.Contains(log.String(), want) {
			t.Errorf("not said: %q in\n%s", want, log.String())
		}
	}
}

func TestWrongUse(t *testing.T) {
	t.Parallel()
	empty := t.TempDir()
	for _, c := range []struct {
		name, args, want string
		code             int
	}{
		{"nothing", "", "no folder, want one with .sm or .sch files, or -kitchen", exitUse},
		{"limit", "-limit 0s x", "-limit 0s, want more than nothing", exitUse},
		{"stray", "-seed 3 x", "-seed without -kitchen, want both or a folder alone", exitUse},
		{"both", "-kitchen x", `"x" beside -kitchen, want the one or the other`, exitUse},
		{"steps", "-kitchen -steps 0", "-steps 0, want 1 to 10000", exitUse},
		{"n", "-kitchen -n 0", "-n 0, want one at least", exitUse},
		{"tight", "-kitchen -tight 3", "-tight 3, want 0 to 2, or -1 for each in turn", exitUse},
		{"flag", "-fast x", "flag provided but not defined: -fast", exitUse},
		{"help", "-h", "usage: schedbench", exitFine},
		{"empty", empty, empty + ": no instance in it, want files that end in .sm or .sch", exitWrong},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			var out, log strings.Builder
			if code := execute(strings.Fields(c.args), time.Now, &out, &log); code != c.code {
				t.Errorf("exit code %d, want %d", code, c.code)
			}
			if !strings.Contains(log.String(), c.want) || out.Len() > 0 {
				t.Errorf("said %q and printed %q, want %q said", log.String(), out.String(), c.want)
			}
		})
	}
}

func TestKnownWithMistakes(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ name, best, lower, want string }{
		{"proven", "instance,best,proven\na.sm,5,maybe\n", "", `best.csv:2: "maybe", want yes or no for proven`},
		{"best", "instance,best,proven\na.sm,5,yes\nb.sm,five,no\n", "", `best.csv:3: "five", want a makespan or the word infeasible`},
		{"columns", "instance,best,proven\na.sm,5\n", "", `best.csv: record on line 2: wrong number of fields`},
		{"lower", "instance,best,proven\na.sm,5,no\n", "instance,lower\na.sm,x\n", `lower.csv:2: "x", want a lower bound`},
		{"lower-alone", "instance,best,proven\na.sm,5,no\n", "instance,lower\nc.sm,3\n", `lower.csv:2: c.sm is not in best.csv`},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			dir := t.TempDir()
			for name, text := range map[string]string{"best.csv": c.best, "lower.csv": c.lower} {
				if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			if _, err := readKnown(dir); err == nil || !strings.HasSuffix(err.Error(), c.want) {
				t.Errorf("got  %v\nwant %s", err, c.want)
			}
		})
	}
}
