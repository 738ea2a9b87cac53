package safety_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/examples"
	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/planfile"
	"example.org/kettledrum/plan/planner"
	"example.org/kettledrum/plan/safety"
)

var update = flag.Bool("update", false, "rewrite the golden files")

func decode(t testing.TB, src []byte) *plan.Plan {
	t.Helper()
	p, problems := planfile.Decode(src, planfile.Options{Local: time.UTC, Now: time.Date(2026, 10, 1, 12, 0, 0, 0, time.UTC)})
	if p == nil || problems.HasErrors() {
		t.Fatal(planfile.Format("plan.yaml", src, problems))
	}
	return p
}

// Each example draws exactly the cautions that it ought to.
func TestExamples(t *testing.T) {
	t.Parallel()
	for _, name := range examples.Names() {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			src, _ := examples.Get(name)
			p := decode(t, src)
			found := planner.Make(t.Context(), p).Cautions
			slices.SortStableFunc(found, func(a, b plan.Caution) int { return a.Step - b.Step }) // whatever comes first in the timetable
			golden(t, filepath.Join("testdata", "examples", name+".golden"), show(p, found))
		})
	}
}

func show(p *plan.Plan, cautions []plan.Caution) string {
	var b strings.Builder
	for _, c := range cautions {
		fmt.Fprintf(&b, "%s %s: %s\n  do: %s\n  why: %s\n  source: %s\n", c.Code, p.Steps[c.Step].ID, c.Text, c.Do, c.Why, c.Source)
		if c.Accepted != "" {
			fmt.Fprintf(&b, "  accepted: %s\n", c.Accepted)
		}
	}
	return b.String()
}

func golden(t *testing.T, file, got string) {
	t.Helper()
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(string(want), got); d != "" {
		t.Errorf("%s (-want +got):\n%s", file, d)
	}
}

// A dinner of many hazards in which everything is done as it should be draws none;
// the same dinner done carelessly draws one for each.
func TestCleanAndCareless(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"clean", "careless"} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			src, err := os.ReadFile(filepath.Join("testdata", name+".yaml"))
			if err != nil {
				t.Fatal(err)
			}
			p := decode(t, src)
			tt := planner.Make(t.Context(), p)
			if tt.Status == plan.Broken {
				t.Fatalf("the timetable is broken: %v", tt.Breaks)
			}
			golden(t, filepath.Join("testdata", name+".golden"), show(p, tt.Cautions))
			if name == "clean" && len(tt.Cautions) > 0 {
				t.Errorf("a plan that is written to be clean draws %d cautions", len(tt.Cautions))
			}
		})
	}
}

// The chore that is proposed for a frozen bird can be put into the plan as it is,
// and then nothing is missed.
func TestProposedChoreThaws(t *testing.T) {
	t.Parallel()
	const text = "guests: 4\n%sdishes:\n  - name: Turkey\n    food: poultry\n    ingredients: [\"1 frozen turkey, 14 lb\"]\n    steps:\n" +
		"      - {do: Roast the turkey, takes: 3h30m, oven: 325F, until: 165F%s}\n"
	_, tt := supper(t, fmt.Sprintf(text, "", ""))
	if len(tt.Cautions) != 1 {
		t.Fatalf("%d cautions, want one: %+v", len(tt.Cautions), tt.Cautions)
	}
	m := regexp.MustCompile("`(\\{do: .*\\})`.*`(after: .*)`").FindStringSubmatch(tt.Cautions[0].Do)
	if m == nil {
		t.Fatalf("nothing is proposed: %s", tt.Cautions[0].Do)
	}
	p, tt := supper(t, fmt.Sprintf(text, "chores: ["+m[1]+"]\n", ", "+m[2]))
	if len(tt.Cautions) > 0 || tt.Status != plan.Whole {
		t.Errorf("with %s: %s, %s", m[1], tt.Status, show(p, tt.Cautions))
	}
}

// Common practice, no published source: a loaf of ground meat taken out at 155 °F
// draws the chart's 160 °F with the Food Code's 155 °F for 17 s beside it; a
// vegetable soup a week ahead the 3 to 4 days, and 2 to 3 months frozen; a dessert
// with raw whites and yolks the raw egg, caramel the hot sugar.
func TestCheckValuesOfCommonPractice(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name, text string
		says       []string
	}{
		{"loaf", dish("Meat loaf", "ground-red", `{do: Bake the loaf, takes: 1h, oven: 350F, until: 155F}`), []string{"155 °F", "160 °F", "17 seconds"}},
		{"soup", dish("Vegetable soup", "", `{do: Simmer the soup, takes: 40m, burner: large}`, `{do: Chill the soup in shallow boxes, waits: 6d to 7d in fridge}`, `{do: Bring the soup to the boil, takes: 15m, burner: large}`), []string{"3 to 4 days", "2 to 3 months"}},
		{"pots", ingredients("Pots of cream", "", `["4 egg whites", "4 egg yolks", "1 cup cream"]`, `{do: Beat yolks and sugar, takes: 5m}`, `{do: Fold in the whites, takes: 5m}`, `{do: Chill the pots, waits: 3h to 1d in fridge}`), []string{"raw", "160 °F"}},
		{"caramel", dish("Caramel", "", `{do: Boil sugar to caramel, takes: 12m, burner: small}`), []string{"sugar", "20 minutes"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			p, tt := supper(t, c.text)
			if len(tt.Cautions) != 1 {
				t.Fatalf("%d cautions, want one:\n%s", len(tt.Cautions), show(p, tt.Cautions))
			}
			for _, s := range c.says {
				if !strings.Contains(show(p, tt.Cautions), s) {
					t.Errorf("%q is not said:\n%s", s, show(p, tt.Cautions))
				}
			}
		})
	}
}

// Nothing that is said calls a dish safe, or leaves out whom to ask first.
func TestNothingIsCalledSafe(t *testing.T) {
	t.Parallel()
	src, err := os.ReadFile("testdata/careless.yaml")
	if err != nil {
		t.Fatal(err)
	}
	p := decode(t, src)
	for _, c := range planner.Make(t.Context(), p).Cautions {
		if regexp.MustCompile(`(?i)\b(is|are) safe\b`).MatchString(c.Text + " " + c.Do) {
			t.Errorf("%s says that something is safe: %s; %s", c.Code, c.Text, c.Do)
		}
	}
	if !strings.Contains(safety.Deference, "local food authority") || !strings.Contains(safety.Deference, "doctor") {
		t.Error("it does not say who comes first")
	}
}
