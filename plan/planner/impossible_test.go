package planner

import (
	"context"
	"flag"
	"maps"
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

// The facts named clash, and without any one of them the others do not: with no
// other fact in force nothing is whole, with one fewer a whole timetable is found.
// It is the solver of timetables that is asked, not the one of conflicts.
func TestImpossibleIsMinimal(t *testing.T) {
	t.Parallel()
	dinners := impossible(t)
	for k, name := range slices.Sorted(maps.Keys(dinners)) {
		if k%oneIn > 0 {
			continue
		}
		p := dinners[name]
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			prob := translate(canonicalOf(p).plan, facts{}).prob
			c := solve.Conflict(context.Background(), prob, conflictsAsked)
			if c == nil {
				t.Fatal("not proven to be impossible")
			}
			ask := func(facts []int) *solve.Result {
				return solve.Solve(context.Background(), only(prob, facts), solve.Options{Conflicts: 20_000, Tries: 60, Seed: 1})
			}
			if r := ask(c.Facts); !r.Impossible {
				t.Errorf("with these facts alone it is not proven to be impossible: %+v", r.Cost)
			}
			for k := range c.Facts {
				if r := ask(slices.Delete(slices.Clone(c.Facts), k, k+1)); r.Cost.Broken > 0 || r.Impossible {
					t.Errorf("without fact %d of %d it is no more possible: %+v", k, len(c.Facts), r.Cost)
				}
			}
		})
	}
}

// only returns a problem in which no facts are in force but some: the greatest
// lags, hours, numbers and least serve times of the others are gone.
func only(prob *solve.Problem, facts []int) *solve.Problem {
	gone := func(guard int) bool {
		return guard > 0 && !prob.Guards[guard-1].Means && !slices.Contains(facts, guard-1)
	}
	p := *prob
	p.Lags = slices.DeleteFunc(slices.Clone(p.Lags), func(l solve.Lag) bool { return l.Soft || gone(l.Guard) })
	p.Acts, p.Resources = slices.Clone(p.Acts), slices.Clone(p.Resources)
	for k := range p.Acts {
		if a := &p.Acts[k]; gone(a.Guard) {
			a.Earliest = 0
		}
	}
	for k := range p.Resources {
		r := &p.Resources[k]
		if slices.ContainsFunc(r.Hours, gone) {
			r.Calendar = []solve.Capacity{{Amount: r.Most()}}
		}
		if gone(r.Guard) {
			r.Calendar = []solve.Capacity{{Amount: 1000}}
		}
	}
	return &p
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
