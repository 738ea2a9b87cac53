package planner

import (
	"context"
	"flag"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/kettledrum/examples"
	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/planfile"
	"example.org/kettledrum/plan/solve"
)

var update = flag.Bool("update", false, "write the golden files anew")

// mostFacts is how many facts a cook is ready to read.
const mostFacts = 5

// impossible returns the dinners that cannot be, by name.
func impossible(tb testing.TB) map[string]*plan.Plan {
	tb.Helper()
	out := map[string]*plan.Plan{}
	decode := func(name string, src []byte) {
		p, problems := planfile.Decode(src, planfile.Options{Local: time.UTC, Now: time.Date(2026, 10, 1, 12, 0, 0, 0, time.UTC)})
		if p == nil {
			tb.Fatalf("%s: %v", name, problems)
		}
		out[name] = p
	}
	files, err := filepath.Glob("testdata/impossible/*.yaml")
	if err != nil || len(files) < 10 {
		tb.Fatalf("%d dinners: %v", len(files), err)
	}
	for _, file := range files {
		src, err := os.ReadFile(file)
		if err != nil {
			tb.Fatal(err)
		}
		decode(strings.TrimSuffix(filepath.Base(file), ".yaml"), src)
	}
	decode("too-much", examples.TooMuch)
	return out
}

// What a cook is told of an impossible dinner: few facts, in the plan's words.
func TestImpossible(t *testing.T) {
	t.Parallel()
	for name, p := range impossible(t) {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			x := Explain(context.Background(), p)
			if x == nil {
				t.Fatal("not proven to be impossible")
			}
			if len(x.Facts) > mostFacts || !x.Minimal {
				t.Errorf("%d facts, minimal %v", len(x.Facts), x.Minimal)
			}
			got := x.Text + "\n"
			for _, way := range x.Ways {
				got += "possible " + way + "\n"
			}
			golden := filepath.Join("testdata/impossible", name+".txt")
			if *update {
				if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(golden)
			if err != nil {
				t.Fatal(err)
			}
			if got != string(want) {
				t.Errorf("got\n%swant\n%s", got, want)
			}
		})
	}
}

// The facts named cannot all hold, and without any one of them the others can:
// asked of a fresh model each time, as the engine that found them does not.
func TestImpossibleIsMinimal(t *testing.T) {
	t.Parallel()
	for name, p := range impossible(t) {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			prob := translate(canonicalOf(p).plan, facts{}).prob
			c := solve.Conflict(context.Background(), prob, conflictsAsked)
			if c == nil {
				t.Fatal("not proven to be impossible")
			}
			var means []int
			for g := range prob.Guards {
				if prob.Guards[g].Means {
					means = append(means, g)
				}
			}
			if solve.Possible(context.Background(), prob, append(slices.Clone(means), c.Facts...), 0) {
				t.Error("the facts named can all hold")
			}
			for k := range c.Facts {
				if rest := slices.Delete(slices.Clone(c.Facts), k, k+1); !solve.Possible(context.Background(), prob, append(slices.Clone(means), rest...), 0) {
					t.Errorf("without fact %d of %d it is no more possible", k, len(c.Facts))
				}
			}
		})
	}
}

func BenchmarkExplainTooMuch(b *testing.B) {
	p := impossible(b)["too-much"]
	for b.Loop() {
		Explain(context.Background(), p)
	}
}

// BenchmarkConflict is one conflict set of each of the impossible dinners.
func BenchmarkConflict(b *testing.B) {
	for name, p := range impossible(b) {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				solve.Conflict(context.Background(), translate(canonicalOf(p).plan, facts{}).prob, conflictsAsked)
			}
		})
	}
}
