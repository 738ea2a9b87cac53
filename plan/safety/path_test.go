package safety_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/examples"
	"example.org/kettledrum/plan/planner"
	"example.org/kettledrum/plan/safety"
)

// Where the food of each step stands.
func TestStages(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name, text string
		want       []string
	}{
		{"all-six", dish("Chicken", "poultry", `{do: Season the chicken, takes: 10m}`, `{do: Poach the chicken, takes: 40m, burner: large, until: 165F}`, `{do: Let it stand, waits: 20m to 30m}`,
			`{do: Chill it, waits: 5h to 1d in fridge}`, `{do: Slice it, takes: 10m}`, `{do: Warm it in broth, takes: 20m, burner: small, until: 165F}`), []string{"raw", "cooking", "hot", "cooling", "cold", "reheating"}},
		{"kept-in-fridge", dish("Chicken", "poultry", `{do: Poach the chicken, takes: 40m, burner: large, until: 165F, keeps: 1d in fridge}`, `{id: slice, do: Slice it, takes: 10m, by: Ines}`), []string{"cooking", "hot"}},
		{"egg-goes-in", dish("Potato cakes", "", `{do: Boil the potatoes, takes: 25m, burner: large}`, `{do: Mix in the eggs, takes: 10m}`, `{do: Chill them, waits: 2h to 1d in fridge}`, `{do: Fry them, takes: 15m, burner: large}`), []string{"cooking", "raw", "cold", "cooking"}},
		{"browned-then-braised", dish("Lamb", "whole-red", `{do: Brown the lamb, takes: 10m, burner: large}`, `{do: Braise the lamb, takes: 3h, oven: 325F}`), []string{"cooking", "cooking"}},
		{"frozen", dish("Chicken", "poultry", `{do: Thaw the chicken, waits: 1d to 2d in fridge}`, `{do: Roast the chicken, takes: 1h, oven: 375F, until: 165F}`), []string{"cold", "cooking"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			p, tt := supper(t, c.text)
			if d := cmp.Diff(c.want, safety.Stages(p, tt)); d != "" {
				t.Error(d)
			}
		})
	}
}

func BenchmarkCautions(b *testing.B) {
	p := decode(b, examples.Banquet)
	tt := planner.Make(b.Context(), p)
	for b.Loop() {
		safety.Cautions(p, tt)
	}
}
