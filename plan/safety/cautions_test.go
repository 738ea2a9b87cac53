package safety_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/planfile"
	"example.org/kettledrum/plan/planner"
	"example.org/kettledrum/plan/safety"
	"example.org/kettledrum/plan/verify"
)

// supper makes a plan of the dishes and whatever else a test says of it, and its
// timetable.
func supper(t *testing.T, text string) (*plan.Plan, *plan.Timetable) {
	t.Helper()
	head := "kettledrum: 1\ntable: 2026-10-17 19:00\nunits: F\n"
	if !strings.Contains(text, "kitchen:") {
		head += "kitchen: {cooks: [{name: Ines, free: [-7d 08:00-22:00, -6d 08:00-22:00, -5d 08:00-22:00, -4d 08:00-22:00, -3d 08:00-22:00, -2d 08:00-22:00, -1d 08:00-22:00, 2026-10-17 08:00-23:00]}]}\n"
	}
	if !strings.Contains(text, "guests:") {
		head += "guests: 4\n"
	}
	p, problems := planfile.Decode([]byte(head+text), planfile.Options{Local: time.UTC, Now: time.Date(2026, 10, 1, 12, 0, 0, 0, time.UTC)})
	if p == nil || problems.HasErrors() {
		t.Fatalf("%s\n%s", text, planfile.Format("supper.yaml", []byte(head+text), problems))
	}
	tt := planner.Make(t.Context(), p)
	if breaks := verify.Check(p, tt, time.Time{}); len(breaks) != len(tt.Breaks) {
		t.Fatalf("%v", breaks)
	}
	return p, tt
}

// codes lists cautions as "raw-egg pots/fold".
func codes(p *plan.Plan, cautions []plan.Caution) []string {
	var out []string
	for _, c := range cautions {
		line := c.Code + " " + p.Steps[c.Step].ID
		if c.Accepted != "" {
			line += " accepted"
		}
		out = append(out, line)
	}
	slices.Sort(out)
	return out
}

// Each with what ought to be said, and nothing else. Where a name ends in -clean
// the same dish is done as it should be.
func TestCautions(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name, text string
		want       []string
	}{
		// temperatures
		{"loaf-155", dish("Meat loaf", "ground-red", `{id: bake, do: Bake the loaf, takes: 1h, oven: 350F, until: 155F}`), []string{"under-minimum meat-loaf/bake"}},
		{"loaf-160-clean", dish("Meat loaf", "ground-red", `{id: bake, do: Bake the loaf, takes: 1h, oven: 350F, until: 160F}`), nil},
		{"loaf-71-celsius-clean", dish("Meat loaf", "ground-red", `{id: bake, do: Bake the loaf, takes: 1h, oven: 180C, until: 71C}`), nil},
		{"chicken-unstated", dish("Roast chicken", "", `{id: roast, do: Roast the chicken, takes: 1h, oven: 375F, until: 155F}`), []string{"under-minimum roast-chicken/roast"}},
		{"chicken-no-target", dish("Roast chicken", "poultry", `{id: roast, do: Roast the chicken, takes: 1h, oven: 375F}`), []string{"no-target roast-chicken/roast"}},
		{"chicken-stew-clean", dish("Chicken stew", "poultry", `{id: stew, do: Simmer the chicken, takes: 1h, burner: large}`), nil},
		{"beef-rare", dish("Beef", "whole-red", `{id: roast, do: Roast the beef, takes: 1h, oven: 350F, until: 130F}`, `{do: Rest the beef, waits: 10m to 20m}`, `{do: Carve, takes: 5m}`), []string{"under-minimum beef/roast"}},
		{"beef-no-rest", dish("Beef", "whole-red", `{id: roast, do: Roast the beef, takes: 1h, oven: 350F, until: 145F, keeps: 1m}`, `{do: Carve, takes: 5m}`), []string{"short-rest beef/roast"}},
		{"beef-keep-unused", dish("Beef", "whole-red", `{id: roast, do: Roast the beef, takes: 1h, oven: 350F, until: 145F, keeps: 1h in oven at 170-200F}`, `{do: Carve, takes: 5m}`), []string{"short-rest beef/roast"}},
		{"beef-rest-clean", dish("Beef", "whole-red", `{id: roast, do: Roast the beef, takes: 1h, oven: 350F, until: 145F}`, `{do: Rest the beef, waits: 10m to 20m, at_once: true}`, `{do: Carve, takes: 5m}`), nil},
		{"beef-rest-two", dish("Beef", "whole-red", `{id: roast, do: Roast the beef, takes: 1h, oven: 350F, until: 145F}`, `{do: Rest the beef, waits: 2m to 2m, at_once: true}`, `{do: Carve, takes: 5m, at_once: true}`), []string{"short-rest beef/roast"}},
		{"beef-rest-three-clean", dish("Beef", "whole-red", `{id: roast, do: Roast the beef, takes: 1h, oven: 350F, until: 145F}`, `{do: Rest the beef, waits: 3m to 3m, at_once: true}`, `{do: Carve, takes: 5m, at_once: true}`), nil},
		{"beef-slow-oven", dish("Beef", "whole-red", `{id: roast, do: Roast the beef, takes: 4h, oven: 225F, until: 150F}`, `{do: Rest the beef, waits: 10m to 20m, at_once: true}`, `{do: Carve, takes: 5m}`), []string{"oven-low beef/roast"}},
		{"poultry-uk-clean", "rules: uk\n" + dish("Roast chicken", "poultry", `{id: roast, do: Roast the chicken, takes: 1h, oven: 190C, until: 70C}`), nil},
		{"poultry-uk-69", "rules: uk\n" + dish("Roast chicken", "poultry", `{id: roast, do: Roast the chicken, takes: 1h, oven: 190C, until: 69C}`), []string{"under-minimum roast-chicken/roast"}},
		{"poultry-uk-65", "rules: uk\n" + dish("Roast chicken", "poultry", `{id: roast, do: Roast the chicken, takes: 1h, oven: 190C, until: 65C}`), []string{"under-minimum roast-chicken/roast"}},
		{"poultry-us-70", dish("Roast chicken", "poultry", `{id: roast, do: Roast the chicken, takes: 1h, oven: 190C, until: 70C}`), []string{"under-minimum roast-chicken/roast"}},
		{"tartare", dish("Beef tartare", "", `{id: chop, do: Chop the beef, takes: 15m}`, `{id: mix, do: Mix with capers, takes: 5m}`), []string{"raw-food beef-tartare/mix"}},
		{"burgers-outside", dish("Burgers", "", `{id: grill, do: Grill the burgers outside, takes: 10m, until: 145F}`), []string{"under-minimum burgers/grill"}},
		{"short-steps-clean", dish("Eggs on toast", "", "Boil the eggs, 11m", "Slice the eggs, 5m"), nil},
		{"stew-left-out", dish("Beef stew", "", "Simmer the beef, 2h", `{id: leave, do: Leave the stew on the stove, waits: 8h to 10h}`, "Boil it up, 20m"), []string{"two-hours beef-stew/leave"}},
		{"mussels-no-sign", dish("Mussels", "bivalve", `{id: steam, do: Steam the mussels, takes: 6m, burner: large}`), []string{"no-target mussels/steam"}},
		{"mussels-clean", dish("Mussels", "bivalve", `{id: steam, do: Steam the mussels, takes: 6m, burner: large, until: all shells are open}`), nil},

		// each piece of food by itself, whatever else the dish has on the heat
		{"beside-potatoes", dish("Chicken and potatoes", "poultry", `{do: Roast the potatoes, takes: 50m, oven: 400F, until: 205F}`, `{id: chicken, do: Roast the chicken, takes: 50m, oven: 400F, until: 140F, after: none}`, `{do: Plate both, takes: 3m, after: [roast-the-potatoes, chicken]}`), []string{"under-minimum chicken-and-potatoes/chicken"}},
		{"beside-potatoes-clean", dish("Chicken and potatoes", "poultry", `{do: Roast the potatoes, takes: 50m, oven: 400F, until: 150F}`, `{id: chicken, do: Roast the chicken, takes: 50m, oven: 400F, until: 165F, after: none}`, `{do: Plate both, takes: 3m, after: [roast-the-potatoes, chicken]}`), nil},
		{"before-potatoes", dish("Chicken and potatoes", "poultry", `{id: chicken, do: Roast the chicken, takes: 50m, oven: 400F, until: 140F}`, `{do: Roast the potatoes, takes: 50m, oven: 400F, until: 205F}`), []string{"under-minimum chicken-and-potatoes/chicken"}},
		{"turkey-then-gravy", dish("Turkey with gravy", "", `{id: turkey, do: Roast the turkey, takes: 3h, oven: 350F, until: 150F}`, `{do: Simmer the gravy, takes: 10m, burner: small, until: 200F}`), []string{"under-minimum turkey-with-gravy/turkey"}},
		{"turkey-then-gravy-clean", dish("Turkey with gravy", "", `{id: turkey, do: Roast the turkey, takes: 3h, oven: 350F, until: 165F}`, `{do: Thicken the gravy, takes: 10m, burner: small, until: 150F}`), nil},
		{"two-birds", dish("Two birds", "poultry", `{id: hen, do: Roast the hen, takes: 1h, oven: 375F, until: 165F}`, `{id: duck, do: Fry the duck, takes: 20m, burner: large, until: 140F}`), []string{"under-minimum two-birds/duck"}},
		{"seared-then-roasted-clean", dish("Duck", "poultry", `{do: Sear the duck, takes: 10m, burner: large, until: 110F}`, `{do: Roast it on, takes: 40m, oven: 375F, until: 165F, at_once: true}`, `{do: Crisp the duck, takes: 4m, burner: large, until: 140F, at_once: true}`), nil},
		{"poached-in-water", dish("Cold hen", "poultry", `{id: poach, do: Poach the chicken in water with herbs, takes: 40m, burner: large, until: 140F}`), []string{"under-minimum cold-hen/poach"}},
		{"poached-in-milk", dish("Pork in milk", "whole-pork", `{id: cook, do: Cook the pork in milk, takes: 25m, burner: large, until: 130F}`), []string{"under-minimum pork-in-milk/cook"}},
		{"oil-target", dish("Fried chicken", "poultry", `{id: fry, do: Fry the chicken in oil, takes: 12m, burner: large, until: 350F}`), []string{"hot-oil fried-chicken/fry", "no-target fried-chicken/fry"}},
		{"warm-milk-clean", dish("Chicken bake", "poultry", `{do: Warm the milk, takes: 5m, burner: small, until: 140F}`, `{do: Bake the chicken in it, takes: 1h, oven: 375F, until: 165F}`), nil},
		{"sauce-simmers", dish("Chicken with sauce", "poultry", `{do: 'Simmer the sauce', takes: 40m, burner: small}`, `{id: fry, do: Fry the chicken, takes: 6m, burner: large, after: none}`, `{do: Plate it, takes: 2m, after: [simmer-the-sauce, fry]}`), []string{"no-target chicken-with-sauce/fry"}},
		{"sauce-short-clean", dish("Chicken with sauce", "poultry", `{do: Thicken the sauce, takes: 10m, burner: small}`, `{id: fry, do: Fry the chicken, takes: 16m, burner: large, until: 165F, after: none}`, `{do: Plate it, takes: 2m, after: [thicken-the-sauce, fry]}`), nil},
		{"unstated-roast", dish("Sunday bird", "", "{id: roast, do: Roast the chicken, takes: 20m, oven: 400F}"), []string{"no-target sunday-bird/roast"}},
		{"unstated-mince", dish("Mince on toast", "", `{id: fry, do: Fry the minced beef, takes: 5m}`), []string{"no-target mince-on-toast/fry"}},
		{"unstated-gratin-clean", dish("Potato gratin", "", `{do: Bake the gratin, takes: 1h, oven: 350F}`), nil},
		{"unstated-braise-clean", dish("Braised lamb", "", `{do: Brown the lamb, takes: 12m, burner: large}`, `{do: Fry the onions, takes: 8m, burner: large}`, `{do: Braise the lamb, takes: 3h, oven: 325F}`), nil},
		{"unstated-stock-clean", dish("Brown stock", "", `{do: Roast the bones, takes: 40m, oven: 400F}`, `{do: Simmer the stock, takes: 4h, burner: large}`), nil},
		{"ragu-clean", dish("Ragu", "", "Brown the minced beef, 10m", "Simmer the sauce, 2h"), nil},
		{"sauce-before-meatballs", dish("Meatballs in sauce", "", "Simmer the sauce, 40m", "Fry the meatballs, 6m"), []string{"no-target meatballs-in-sauce/fry-the-meatballs"}},
		{"tacos", dish("Fish tacos", "", "Fry the cod, 8m", "Warm the tortillas in a pan, 5m", "Boil the sauce, 5m"), []string{"no-target fish-tacos/fry-the-cod"}},
		{"add-and-simmer-clean", dish("Coq au vin", "poultry", "Fry the bacon, 8m", "Brown the chicken, 10m", "{do: Add carrots and simmer, takes: 1h, burner: large}"), nil},
		{"hen-then-duck", dish("Two birds", "poultry", "Season the hen, 5m", "{do: Roast it, takes: 1h, oven: 375F, until: 165F}", "{id: duck, do: Fry the duck, takes: 20m, burner: large, until: 140F}"), []string{"under-minimum two-birds/duck"}},

		// time
		{"chicken-stands", dish("Cold chicken", "poultry", `{id: poach, do: Poach the chicken, takes: 40m, burner: large, until: 165F}`, `{id: stand, do: Let the chicken stand, waits: 2h30m to 3h}`, `{do: Slice the chicken, takes: 10m}`), []string{"two-hours cold-chicken/stand"}},
		{"chicken-spells", dish("Cold chicken", "poultry", `{id: poach, do: Poach the chicken, takes: 40m, burner: large, until: 165F}`, `{id: stand, do: Let the chicken stand, waits: 70m to 75m}`,
			`{do: Chill the chicken, waits: 4h to 6h in fridge}`, `{id: slice, do: Slice the chicken, takes: 30m, keeps: 1h}`, `{id: stand-again, do: Let the slices stand, waits: 30m to 40m}`), []string{"two-hours cold-chicken/stand-again"}},
		{"may-stand-four", dish("Cold chicken", "poultry", `{id: poach, do: Poach the chicken, takes: 40m, burner: large, until: 165F, keeps: 4h}`, `{do: Slice the chicken, takes: 10m}`), []string{"two-hours cold-chicken/poach"}},
		{"lukewarm-resets-nothing", dish("Cold chicken", "poultry", `{id: poach, do: Poach the chicken, takes: 40m, burner: large, until: 165F}`, `{do: Let the chicken stand, waits: 70m to 75m}`, `{id: warm, do: Warm the chicken, takes: 10m, burner: small, until: 90F}`, `{id: stand, do: Let it stand, waits: 60m to 65m}`), []string{"two-hours cold-chicken/stand"}},
		{"lukewarm-counts", dish("Cold chicken", "poultry", `{do: Poach the chicken, takes: 40m, burner: large, until: 165F}`, `{id: warm, do: Keep the chicken lukewarm, takes: 2h30m, hands: free, burner: small, until: 90F}`), []string{"two-hours cold-chicken/warm"}},
		{"boiled-up-clean", dish("Bean soup", "", `{do: Simmer the soup, takes: 40m, burner: large}`, `{do: Let the soup stand, waits: 70m to 75m}`, `{do: Boil the soup up, takes: 10m, burner: large}`, `{do: Let it stand, waits: 60m to 65m}`), nil},
		{"chicken-91", "kitchen: {room: 91F}\n" + dish("Cold chicken", "poultry", `{id: poach, do: Poach the chicken, takes: 40m, burner: large, until: 165F}`, `{id: stand, do: Let the chicken stand, waits: 70m to 75m}`, `{do: Slice the chicken, takes: 10m}`), []string{"two-hours cold-chicken/stand"}},
		{"chicken-90-clean", "kitchen: {room: 90F}\n" + dish("Cold chicken", "poultry", `{id: poach, do: Poach the chicken, takes: 40m, burner: large, until: 165F}`, `{id: stand, do: Let the chicken stand, waits: 70m to 75m}`, `{do: Slice the chicken, takes: 10m}`), nil},
		{"bread-stands-clean", dish("Rye bread", "", `{id: knead, do: Knead the dough, takes: 15m}`, `{do: Let it rise, waits: 3h to 4h}`, `{do: Bake the bread, takes: 45m, oven: 425F}`, `{do: Cool the bread, waits: 3h to 5h}`), nil},
		{"nuts-stand-clean", dish("Salmon with nuts", "fish", `{id: nuts, do: Toast the hazelnuts, takes: 8m, burner: small, keeps: 2d}`, `{id: cook, do: Bake the salmon, takes: 15m, oven: 400F, until: 145F, after: none}`, `{do: Plate both, takes: 5m, after: [nuts, cook]}`), nil},
		{"soup-a-week", dish("Vegetable soup", "", `{id: simmer, do: Simmer the soup, takes: 40m, burner: large}`, `{id: chill, do: Chill the soup in shallow boxes, waits: 6d to 7d in fridge}`, `{do: Bring the soup to the boil, takes: 15m, burner: large}`), []string{"fridge-time vegetable-soup/chill"}},
		{"soup-two-days-clean", dish("Vegetable soup", "", `{id: simmer, do: Simmer the soup, takes: 40m, burner: large}`, `{id: chill, do: Chill the soup in shallow boxes, waits: 2d to 3d in fridge}`, `{do: Bring the soup to the boil, takes: 15m, burner: large}`), nil},
		{"soup-may-a-week", dish("Vegetable soup", "", `{id: simmer, do: Simmer the soup, takes: 40m, burner: large, keeps: 7d in fridge}`, `{do: Bring the soup to the boil, takes: 15m, burner: large}`), []string{"fridge-time vegetable-soup/simmer"}},
		{"mince-three-days", dish("Meatballs", "ground-red", `{id: mix, do: Mix the ground beef, takes: 10m}`, `{id: keep, do: Rest the mince, waits: 2d12h to 3d in fridge}`, `{do: Bake the meatballs, takes: 30m, oven: 400F, until: 160F}`), []string{"fridge-time meatballs/keep"}},
		{"rice-two-days", dish("Fried rice", "", `{id: boil, do: Boil the rice, takes: 15m, burner: small}`, `{id: chill, do: Chill the rice in shallow trays, waits: 1d12h to 2d in fridge}`, `{do: Fry the rice, takes: 10m, burner: large, until: 165F}`), []string{"fridge-time fried-rice/chill"}},
		{"big-pot", "guests: 12\n" + dish("Beef stew", "", `{id: simmer, do: Simmer the beef, takes: 3h, burner: large}`, `{id: chill, do: Chill the stew, waits: 10h to 2d in fridge}`, `{do: Bring the stew to the boil, takes: 30m, burner: large}`), []string{"cool-pot beef-stew/chill"}},
		{"pot-for-six", "guests: 6\n" + dish("Beef stew", "", `{id: simmer, do: Simmer the beef, takes: 3h, burner: large}`, `{id: chill, do: Chill the stew, waits: 10h to 2d in fridge}`, `{do: Bring the stew to the boil, takes: 30m, burner: large}`), []string{"cool-pot beef-stew/chill"}},
		{"pot-for-five-clean", "guests: 5\n" + dish("Beef stew", "", `{id: simmer, do: Simmer the beef, takes: 3h, burner: large}`, `{id: chill, do: Chill the stew, waits: 10h to 2d in fridge}`, `{do: Bring the stew to the boil, takes: 30m, burner: large}`), nil},
		{"stew-twice-chilled", "guests: 2\n" + dish("Beef stew", "", `{id: simmer, do: Simmer the beef, takes: 3h, burner: large}`, `{do: Chill the stew, waits: 2d to 2d12h in fridge}`, `{do: Boil the stew up, takes: 30m, burner: large}`, `{id: again, do: Chill the stew again, waits: 2d to 2d12h in fridge}`, `{do: Bring the stew to the boil, takes: 30m, burner: large}`), []string{"fridge-time beef-stew/again"}},
		{"small-pot-clean", "guests: 2\n" + dish("Beef stew", "", `{id: simmer, do: Simmer the beef, takes: 3h, burner: large}`, `{id: chill, do: Chill the stew, waits: 10h to 2d in fridge}`, `{do: Bring the stew to the boil, takes: 30m, burner: large}`), nil},
		{"warm-oven", dish("Roast chicken", "poultry", `{id: roast, do: Roast the chicken, takes: 1h, oven: 375F, until: 165F, keeps: 1h in oven at 120-200F}`, `{do: Carve the chicken, takes: 10m}`), []string{"hot-hold roast-chicken/roast"}},
		{"warm-oven-clean", dish("Roast chicken", "poultry", `{id: roast, do: Roast the chicken, takes: 1h, oven: 375F, until: 165F, keeps: 1h in oven at 150-200F}`, `{do: Carve the chicken, takes: 10m}`), nil},

		{"warm-oven-uk", "rules: uk\n" + dish("Roast chicken", "poultry", `{id: roast, do: Roast the chicken, takes: 1h, oven: 190C, until: 75C, keeps: 1h in oven at 60-95C}`, `{do: Carve the chicken, takes: 10m}`), []string{"hot-hold roast-chicken/roast"}},
		{"beans-eight-days", "guests: 2\n" + dish("White beans", "", `{id: boil, do: Boil the beans, takes: 1h, burner: large}`, `{id: keep, do: Chill the beans, waits: 6d20h to 7d in fridge}`, `{do: Spoon out the beans, takes: 5m}`), []string{"fridge-time white-beans/keep"}},
		{"beans-five-days-clean", "guests: 2\n" + dish("White beans", "", `{id: boil, do: Boil the beans, takes: 1h, burner: large}`, `{id: keep, do: Chill the beans, waits: 5d to 6d in fridge}`, `{do: Spoon out the beans, takes: 5m}`), nil},

		{"rice-out-uk", "rules: uk\n" + dish("Rice salad", "", `{id: boil, do: Boil the rice, takes: 15m, burner: small}`, `{id: cool, do: Spread the rice out to cool, waits: 1h15m to 1h30m}`), []string{"two-hours rice-salad/cool"}},
		{"rice-out-us-clean", dish("Rice salad", "", `{id: boil, do: Boil the rice, takes: 15m, burner: small}`, `{id: cool, do: Spread the rice out to cool, waits: 1h15m to 1h30m}`), nil},
		{"seasoned-chicken", dish("Roast chicken", "", `{do: Rub with butter and herbs, takes: 10m}`, `{id: roast, do: Roast until the juices run clear, takes: 1h, oven: 375F, until: 150F}`), []string{"under-minimum roast-chicken/roast"}},

		// heated again
		{"reheat-140", dish("Roast pork", "", `{id: roast, do: Roast the pork, takes: 2h, oven: 350F, until: 160F}`, `{do: Chill the pork, waits: 8h to 1d in fridge}`, `{id: warm, do: Warm the pork, takes: 40m, oven: 325F, until: 140F}`), []string{"reheat roast-pork/warm"}},
		{"reheat-165-clean", dish("Roast pork", "", `{id: roast, do: Roast the pork, takes: 2h, oven: 350F, until: 160F}`, `{do: Chill the pork, waits: 8h to 1d in fridge}`, `{id: warm, do: Warm the pork, takes: 40m, oven: 325F, until: 165F}`), nil},
		{"reheat-70-uk-clean", "rules: uk\n" + dish("Roast pork", "", `{id: roast, do: Roast the pork, takes: 2h, oven: 180C, until: 75C}`, `{do: Chill the pork, waits: 8h to 1d in fridge}`, `{id: warm, do: Warm the pork, takes: 40m, oven: 160C, until: 70C}`), nil},
		{"gravy-warmed", "guests: 2\n" + dish("Gravy", "", `{id: reduce, do: Simmer the gravy, takes: 20m, burner: small, keeps: 1d in fridge}`, `{id: chill, do: Chill the gravy, waits: 5h to 1d in fridge}`, `{id: warm, do: Warm the gravy, takes: 5m, burner: small}`), []string{"gravy-boil gravy/warm"}},
		{"gravy-boiled-clean", "guests: 2\n" + dish("Gravy", "", `{id: reduce, do: Simmer the gravy, takes: 20m, burner: small}`, `{id: chill, do: Chill the gravy, waits: 5h to 1d in fridge}`, `{id: warm, do: Bring the gravy to the boil, takes: 5m, burner: small}`), nil},

		// thawing
		{"turkey-frozen", "guests: 4\n" + ingredients("Turkey", "poultry", `["1 frozen turkey, 14 lb"]`, `{id: roast, do: Roast the turkey, takes: 3h30m, oven: 325F, until: 165F}`), []string{"thaw turkey/roast"}},
		{"turkey-too-short", ingredients("Turkey", "poultry", `["1 frozen turkey, 14 lb"]`, `{id: thaw, do: Thaw the turkey, waits: 1d to 1d12h in fridge}`, `{id: roast, do: Roast the turkey, takes: 3h30m, oven: 325F, until: 165F}`), []string{"thaw turkey/thaw"}},
		{"turkey-clean", ingredients("Turkey", "poultry", `["1 frozen turkey, 14 lb"]`, `{id: thaw, do: Thaw the turkey, waits: 4d to 5d in fridge}`, `{id: roast, do: Roast the turkey, takes: 3h30m, oven: 325F, until: 165F}`), nil},
		{"turkey-counter", ingredients("Turkey", "poultry", `["1 frozen turkey, 3 lb"]`, `{id: thaw, do: Thaw the turkey, waits: 1h to 2h}`, `{id: roast, do: Roast the turkey, takes: 2h, oven: 325F, until: 165F}`), []string{"thaw turkey/thaw"}},
		{"shrimp-water-clean", ingredients("Shrimp", "crustacean", `["1 lb frozen shrimp"]`, `{id: thaw, do: Thaw the shrimp in cold water, waits: 30m to 45m}`, `{id: fry, do: Fry the shrimp, takes: 5m, burner: large, until: pearly and opaque}`), nil},
		{"shrimp-water-waits", ingredients("Shrimp", "crustacean", `["1 lb frozen shrimp"]`, `{id: thaw, do: Thaw the shrimp in cold water, takes: 35m, hands: busy, by: Ines, keeps: 2h}`, `{id: wait, do: Bake a cake for later, takes: 1h, hands: tied}`, `{id: fry, do: Fry the shrimp, takes: 5m, burner: large, until: pearly and opaque, after: [{thaw: 1h-2h}, wait]}`), []string{"thaw shrimp/thaw"}},
		{"peas-frozen-clean", ingredients("Peas", "", `["1 lb frozen peas"]`, `{do: Boil the peas, takes: 5m, burner: small}`), nil},

		// eggs, flour, birds, burns
		{"chocolate-pots", ingredients("Chocolate pots", "", `["8 oz dark chocolate", "4 egg whites", "4 egg yolks"]`, `{id: melt, do: Melt the chocolate, takes: 8m, burner: small}`, `{id: yolks, do: Stir in the yolks, takes: 3m}`, `{id: fold, do: Fold in the whites, takes: 5m}`, `{do: Chill the pots, waits: 3h to 1d in fridge}`), []string{"raw-egg chocolate-pots/yolks"}},
		{"pasteurised-clean", ingredients("Chocolate pots", "", `["8 oz dark chocolate", "1 cup pasteurised egg white"]`, `{id: melt, do: Melt the chocolate, takes: 8m, burner: small}`, `{id: fold, do: Fold in the whites, takes: 5m}`, `{do: Chill the pots, waits: 3h to 1d in fridge}`), nil},
		{"caramel-after-the-egg", ingredients("Pots", "", `["4 egg whites", "4 egg yolks"]`, `{id: fold, do: Fold egg whites and yolks together, takes: 10m, keeps: 4h in fridge}`, `{id: caramel, do: Cook the caramel, takes: 8m, burner: small}`), []string{"hot-sugar pots/caramel", "raw-egg pots/fold"}},
		{"caramel-custard-clean", ingredients("Pots", "", `["4 eggs"]`, `{id: whisk, do: Whisk the eggs into the milk, takes: 10m}`, `{id: bake, do: Bake the custards in a water bath, takes: 50m, oven: 300F, until: 180F}`), nil},
		{"thickened-clean", ingredients("Pots", "", `["4 egg yolks"]`, `{id: whisk, do: Whisk the yolks, takes: 10m}`, `{id: warm, do: Warm the milk with it, takes: 10m, burner: small, until: 180F}`), nil},
		{"mayonnaise", dish("Cold artichokes", "", `{id: whisk, do: Whisk the yolks into a mayonnaise, takes: 10m}`), []string{"raw-egg cold-artichokes/whisk"}},
		{"soft-eggs", dish("Eggs", "", `{id: boil, do: Soft-boil the eggs, takes: 6m, burner: small}`), []string{"raw-egg eggs/boil"}},
		{"poached-eggs", dish("Eggs", "", "Poach four eggs, 3m"), []string{"raw-egg eggs/poach-four-eggs"}},
		{"simmered-eggs", dish("Eggs", "", "Simmer six eggs, 6m"), []string{"raw-egg eggs/simmer-six-eggs"}},
		{"poached-fish-with-egg-clean", dish("Cod", "fish", `{do: Poach the cod for the egg salad, takes: 8m, burner: large, until: 145F}`), nil},
		{"duck-eggs-clean", dish("Duck eggs", "", "Boil the duck eggs, 12m"), nil},
		{"hard-eggs-clean", dish("Eggs", "", `{id: boil, do: Boil the eggs, takes: 11m, burner: small}`), nil},
		{"sponge-clean", ingredients("Sponge", "", `["6 eggs", "2 cups flour"]`, `{do: Beat eggs and sugar, takes: 10m}`, `{do: Fold in the flour, takes: 3m}`, `{do: Bake the sponge, takes: 30m, oven: 350F}`), nil},
		{"cookie-dough", ingredients("Cookie dough ice", "", `["1 cup flour", "4 oz butter"]`, `{id: mix, do: Mix the cookie dough, takes: 10m}`, `{do: Freeze the dough, waits: 4h to 2d in freezer}`), []string{"raw-flour cookie-dough-ice/mix"}},
		{"caramel", dish("Caramel", "", `{id: boil, do: Boil the sugar to caramel, takes: 12m, burner: small, until: deep amber}`), []string{"hot-sugar caramel/boil"}},
		{"fritters", dish("Courgette fritters", "", `{id: fry, do: Deep-fry the fritters, takes: 12m, burner: large}`), []string{"hot-oil courgette-fritters/fry"}},
		{"stuffed-bird", dish("Stuffed goose", "poultry", `{id: stuff, do: Stuff the goose, takes: 15m}`, `{id: roast, do: Roast the goose, takes: 3h, oven: 325F, until: 165F}`), []string{"stuffing stuffed-goose/stuff"}},
		{"stuffed-bird-clean", dish("Stuffed goose", "poultry", `{id: stuff, do: Stuff the goose, takes: 15m}`, `{id: roast, do: Roast the goose, takes: 3h, oven: 325F, until: "165F, in the stuffing too", at_once: true}`), nil},
		{"stuffed-bird-waits", dish("Stuffed goose", "poultry", `{id: stuff, do: Stuff the goose, takes: 15m, keeps: 2h in fridge}`, `{id: roast, do: Roast the goose, takes: 3h, oven: 325F, until: "165F, in the stuffing too", after: [{stuff: 1h-2h}]}`), []string{"stuffing stuffed-goose/stuff"}},
		{"rinsed-bird", dish("Roast duck", "poultry", `{id: rinse, do: Rinse the duck, takes: 5m}`, `{id: roast, do: Roast the duck, takes: 2h, oven: 350F, until: 165F}`), []string{"wash-poultry roast-duck/rinse"}},
		{"browned-ahead", dish("Lamb", "whole-red", `{id: brown, do: Brown the lamb, takes: 12m, burner: large}`, `{do: Chill the lamb, waits: 5h to 1d in fridge}`, `{id: roast, do: Roast the lamb, takes: 3h, oven: 325F, until: 190F}`), []string{"partial-cook lamb/brown"}},

		// guests
		{"pregnant", "guests_note: Lea is pregnant\n" + dish("Eggs", "", `{id: boil, do: Soft-boil the eggs, takes: 6m, burner: small}`), []string{"raw-egg eggs/boil", "risk-guest eggs/boil"}},
		{"grandmother-82", "guests_note: \"Ada, 82\"\n" + ingredients("Cheese", "", `["1 brie"]`, `{id: lay, do: Lay out the cheese, takes: 5m}`), []string{"risk-guest cheese/lay"}},
		{"grown-ups-clean", "guests_note: \"Ada, 42, likes it hot\"\n" + ingredients("Cheese", "", `["1 brie"]`, `{id: lay, do: Lay out the cheese, takes: 5m}`), nil},

		// allergens
		{"avoid-nuts", "avoid: [nuts]\n" + ingredients("Leeks", "", `["12 leeks", "3 oz hazelnuts"]`, `{id: boil, do: Boil the leeks, takes: 12m, burner: large}`), []string{"allergen leeks/boil"}},
		{"avoid-unsure", "avoid: [celery]\n" + ingredients("Leeks", "", `["12 leeks", "1 stock cube"]`, `{id: boil, do: Boil the leeks, takes: 12m, burner: large}`), []string{"may-contain leeks/boil"}},
		{"avoid-silent", "avoid: [nuts]\n" + dish("Leeks", "", `{id: boil, do: Boil the leeks, takes: 12m, burner: large}`), []string{"no-ingredients leeks/boil"}},
		{"avoid-other", "avoid: [coriander]\n" + ingredients("Leeks", "", `["12 leeks", "1 bunch coriander"]`, `{id: boil, do: Boil the leeks, takes: 12m, burner: large}`), []string{"allergen leeks/boil", "avoid-word leeks/boil"}},

		// accepted
		{"accepted", dish("Meat loaf", "ground-red", `{id: bake, do: Bake the loaf, takes: 1h, oven: 350F, until: 155F, accept: [under-minimum, the butcher grinds it before my eyes]}`), []string{"under-minimum meat-loaf/bake accepted"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			p, tt := supper(t, c.text)
			if d := cmp.Diff(c.want, codes(p, tt.Cautions)); d != "" {
				t.Errorf("%s\n%+v", d, tt.Cautions)
			}
			for _, x := range tt.Cautions {
				if x.Text == "" || x.Why == "" || x.Do == "" || x.Source == "" || strings.Contains(x.Why, "\n") {
					t.Errorf("a caution says what, why in one line, what to do and where it is published: %+v", x)
				}
				if !slices.Contains(safety.Codes(), x.Code) {
					t.Errorf("%s is no code", x.Code)
				}
			}
		})
	}
}

func dish(name, food string, steps ...string) string { return ingredients(name, food, "", steps...) }

func ingredients(name, food, lines string, steps ...string) string {
	var b strings.Builder
	b.WriteString("dishes:\n  - name: " + name + "\n")
	if food != "" {
		b.WriteString("    food: " + food + "\n")
	}
	if lines != "" {
		b.WriteString("    ingredients: " + lines + "\n")
	}
	b.WriteString("    steps:\n")
	for _, s := range steps {
		b.WriteString("      - " + s + "\n")
	}
	return b.String()
}

// What a step with slack made may stand longer than the timetable has it: the step may
// take no longer than is likely. Baked to 17:10 and served at 19:00 is within the two
// hours; done by 16:50, if the slack is not used, it is not.
func TestSlackIsNoExcuse(t *testing.T) {
	t.Parallel()
	p, tt := supper(t, dish("Chicken breasts", "poultry",
		"{do: Bake, takes: 30m, oven: 400F, until: 165F}", "{do: Cool, waits: 1h45m}", "{do: Slice, takes: 5m}"))
	if got := codes(p, tt.Cautions); len(got) > 0 {
		t.Fatalf("without slack: %v", got)
	}
	tt.Slots[0].Start, tt.Slots[0].Extra = tt.Slots[0].Start.Add(-20*time.Minute), 20*time.Minute
	got := codes(p, safety.Cautions(p, tt))
	if len(got) == 0 {
		t.Error("with twenty minutes of slack after the bake nothing is said")
	}
	tt.Slots[0].Progress = plan.Done // then its end is a fact
	if got := codes(p, safety.Cautions(p, tt)); len(got) > 0 {
		t.Errorf("once it is done: %v", got)
	}
}
