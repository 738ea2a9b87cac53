package planfile

import (
	"os"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"gopkg.in/yaml.v3"

	"example.org/kettledrum/plan"
)

func allKeys(t *testing.T) ([]byte, *plan.Plan) {
	t.Helper()
	text, err := os.ReadFile("testdata/all-keys.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return text, mustDecode(t, string(text), Options{})
}

// The plan of every key has every key of the table, in each place.
func TestAllKeysAreUsed(t *testing.T) {
	t.Parallel()
	text, _ := allKeys(t)
	used := map[string]bool{}
	var walk func(n *yaml.Node)
	walk = func(n *yaml.Node) {
		for i, c := range n.Content {
			if n.Kind == yaml.MappingNode && i%2 == 0 {
				used[c.Value] = true
			}
			walk(c)
		}
	}
	var root yaml.Node
	if err := yaml.Unmarshal(text, &root); err != nil {
		t.Fatal(err)
	}
	walk(&root)
	for in, names := range keys {
		if ofScript(in) {
			continue
		}
		for _, k := range names {
			if !used[k] {
				t.Errorf("`%s` of %s is not used", k, in)
			}
		}
	}
}

func TestAllKeys(t *testing.T) {
	t.Parallel()
	_, p := allKeys(t)
	vienna := load(t, "Europe/Vienna")
	at := func(d, h, m int) time.Time { return time.Date(2026, 10, d, h, m, 0, 0, vienna) }
	same := cmp.Options{sameHeat, cmpopts.IgnoreTypes(plan.Pos{})}
	compare := func(what string, want, got any) {
		t.Helper()
		if diff := cmp.Diff(want, got, same); diff != "" {
			t.Errorf("%s (-want +got):\n%s", what, diff)
		}
	}
	compare("plan", []any{"A dinner of every key", 6, "two children; Aunt Ada is expecting", []string{"peanuts", "milk, raw"}, "uk", plan.Metric},
		[]any{p.Title, p.Guests, p.GuestsNote, p.Avoid, p.Rules, p.Units})
	compare("table", at(17, 19, 0), p.Table)
	compare("kitchen", plan.Kitchen{
		Cooks: []plan.Cook{
			// 17 October 2026 is a Saturday; Friday's window passes midnight.
			{Name: "Ines", Sits: true, Free: []plan.Window{{From: at(15, 19, 0), To: at(15, 21, 30)}, {From: at(16, 22, 0), To: at(17, 1, 0)}, {From: at(17, 10, 0), To: at(17, 23, 0)}}},
			{Name: "Tomas", Free: []plan.Window{{From: at(17, 14, 0), To: at(17, 23, 0)}}},
		},
		Ovens: []plan.Oven{
			{Name: "oven", Shelves: 6, Preheat: plan.Ramp{Takes: 10 * minute, To: 180}, Cools: plan.Ramp{Takes: 20 * minute, From: 220, To: 180}},
			{Name: "small oven", Shelves: 2, Preheat: plan.DefaultPreheat, Cools: plan.DefaultCools},
		},
		Burners: plan.Burners{Large: 1, Small: 2},
		Tools: []plan.Tool{
			{Name: "big pot", Count: 2, Listed: true}, {Name: "blender", Count: 1, Wash: 5 * minute, Listed: true},
			{Name: "carving board", Count: 1, Wash: 2 * minute, Listed: true}, {Name: "sheet pan", Count: 3, Listed: true},
		},
		Cold: []plan.Cold{{Name: "fridge", Places: 6}, {Name: "freezer", Places: 2}},
		Room: 22, Minds: 2,
	}, p.Kitchen)
	compare("courses", []plan.Course{
		{Name: "Starter", Seated: 25 * minute, LateOK: 10 * minute},
		{Name: "Main", Serve: 45 * minute, Seated: 40 * minute, LateOK: 20 * minute, SlipsAway: 4 * minute},
		{Name: "Sweet", Serve: 110 * minute, Seated: 20 * minute, LateOK: 20 * minute},
	}, p.Courses)
	compare("dishes", []plan.Dish{
		{Name: "Beetroot soup", ID: "beetroot-soup", Makes: 8, Food: "casserole", Ingredients: []plan.Ingredient{
			{Text: "2 kg beetroot", Step: -1}, {Text: "1 lemon", Step: -1},
			{Text: "about 500 g beef bones, sawn", Amount: "about 500 g", What: "beef bones", Note: "sawn", Step: 1, Frozen: true, Fresh: 2 * day, Fixed: true},
		},
			Note: "Served warm, not hot.\nLemon at the table.", Steps: []int{0, 1, 2, 3}},
		{Name: "Shoulder of lamb", ID: "shoulder-of-lamb", Course: 1, Makes: 6, Food: "whole-red", Steps: []int{4, 5, 6, 7, 8, 9}},
		{Name: "Meringues", ID: "meringues", Course: 2, Optional: true, Steps: []int{10, 11, 12}},
		{Steps: []int{13}, Chore: &plan.Chore{After: -1, Ahead: 6 * hour, HasAhead: true}},
		{Steps: []int{14}, Course: 2, Chore: &plan.Chore{After: 1}},
		{Steps: []int{15}, Chore: &plan.Chore{After: -1}},
		{Steps: []int{16}, Chore: &plan.Chore{After: -1}},
	}, p.Dishes)
	pot := &plan.Use{Tool: 0, Count: 1}
	counter := plan.Keep{Kind: plan.Liking, For: 2 * hour, AtMost: 2 * hour, Assumed: true}
	hot := plan.Keep{Kind: plan.Liking, For: 10 * minute, AtMost: 30 * minute, Assumed: true}
	none := plan.Keep{Kind: plan.Limit, Assumed: true}
	takes := func(d time.Duration) plan.Length { return plan.Length{Shortest: d, Likely: d, Longest: d} }
	after := func(i int) []plan.Link { return []plan.Link{{Step: i}} }
	warm := plan.Bake{In: 0, At: 85, Lo: 75, Hi: 95, Space: 4}
	compare("steps", []plan.Step{
		{ID: "beetroot-soup/peel-the-beetroot", Do: "Peel the beetroot", By: -1, Length: takes(15 * minute), Hands: plan.Busy, Keeps: counter},
		{ID: "beetroot-soup/boil", Do: "Boil the beetroot", By: -1, Length: plan.Length{Shortest: 35 * minute, Likely: 40 * minute, Longest: 50 * minute}, Hands: plan.Near,
			Burner: &plan.BurnerUse{Size: plan.Large, Count: 1}, After: after(0), Keeps: hot, Until: plan.Until{Sign: "a knife slides in"}, Vessel: pot},
		{ID: "beetroot-soup/blend-the-soup", Do: "Blend the soup", By: -1, Length: takes(6 * minute), Hands: plan.Busy, Uses: []plan.Use{{Tool: 1, Count: 1}}, After: after(1),
			Keeps: plan.Keep{Kind: plan.Limit, For: 3 * day, AtMost: 3 * day, Place: "fridge", Places: 2}, Vessel: pot},
		{ID: "beetroot-soup/warm-the-soup", Do: "Warm the soup", By: 1, Length: plan.Length{Shortest: 10 * minute, Likely: 12*minute + 30*second, Longest: 15 * minute}, Hands: plan.Near,
			Burner: &plan.BurnerUse{Size: plan.Small, Count: 1}, After: after(2), Keeps: hot, Vessel: pot},
		{ID: "shoulder-of-lamb/season-the-lamb", Do: "Season the lamb", Dish: 1, By: -1, Length: takes(15 * minute), Hands: plan.Busy,
			Keeps: plan.Keep{Kind: plan.Limit, For: 30 * day, AtMost: 30 * day, Place: "freezer", Places: 1}},
		{ID: "shoulder-of-lamb/thaw", Do: "Let the lamb thaw", Dish: 1, By: -1, Length: plan.Length{Elastic: true, Shortest: day, Likely: day, Longest: 2 * day}, After: after(4), Keeps: none,
			Cold: "fridge", ColdPlaces: 2},
		{ID: "shoulder-of-lamb/roast", Do: "Roast the lamb", Dish: 1, By: -1, Length: plan.Length{Shortest: 3 * hour, Likely: 210 * minute, Longest: 255 * minute},
			Oven: &plan.Bake{In: 0, At: 160, Lo: 155, Hi: 165, Space: 4, Shut: true}, After: after(5),
			Keeps: plan.Keep{Kind: plan.Limit, For: hour, AtMost: hour, Place: "oven", Warm: &warm}, Until: plan.Until{Temp: 88, HasTemp: true, Sign: "pulls apart"},
			Reminds: []plan.Remind{{When: plan.Every, For: hour, Text: "baste"}, {When: plan.Halfway, Text: "turn the tray"}, {When: plan.BeforeEnd, For: 5 * minute, Text: "warm the plates"}},
			Accept:  []plan.Accepted{{Code: "oven-low", Reason: "the oven is checked with a probe"}, {Code: "no-target", Reason: "it is, after all, a roast"}}},
		{ID: "shoulder-of-lamb/brown-the-lamb", Do: "Brown the lamb", Dish: 1, By: -1, Length: takes(6 * minute),
			Oven: &plan.Bake{In: -1, At: 250, Lo: 230, Hi: 270, Space: 2, Grill: true}, After: after(6), AtOnce: true, Keeps: hot},
		{ID: "shoulder-of-lamb/rest-the-lamb", Do: "Rest the lamb", Dish: 1, By: -1, Length: plan.Length{Elastic: true, Shortest: 20 * minute, Likely: 20 * minute, Longest: plan.Forever}, After: after(7),
			Keeps: none, Optional: true, Note: "under foil"},
		{ID: "shoulder-of-lamb/carve-the-lamb", Do: "Carve the lamb", Dish: 1, By: -1, Length: takes(10 * minute), Hands: plan.Tied, Uses: []plan.Use{{Tool: 2, Count: 1}},
			After: []plan.Link{{Step: 8}, {Step: 13, Max: 5 * hour, HasMax: true}}, Keeps: plan.Keep{Kind: plan.Liking, For: 5 * minute, AtMost: 15 * minute}},
		{ID: "meringues/whisk-the-whites", Do: "Whisk the whites", Dish: 2, By: -1, Length: takes(12 * minute), Hands: plan.Busy, Keeps: counter,
			Accept: []plan.Accepted{{Code: "raw-egg", Reason: "the eggs are pasteurised"}}},
		{ID: "meringues/bake-the-meringues", Do: "Bake the meringues", Dish: 2, By: -1, Length: takes(90 * minute),
			Oven: &plan.Bake{In: -1, At: 250, Lo: 230, Hi: 270, Space: 2, Grill: true}, After: after(10),
			Keeps: plan.Keep{Kind: plan.Liking, For: 2 * day, AtMost: 2 * day}, Reminds: []plan.Remind{{When: plan.Halfway, Text: "look"}}},
		{ID: "meringues/stack-the-meringues", Do: "Stack the meringues", Dish: 2, By: -1, Length: takes(4 * minute), Hands: plan.Busy, Keeps: counter},
		{ID: "lay-the-table", Do: "Lay the table", Dish: 3, By: -1, Length: takes(20 * minute), Hands: plan.Busy, Keeps: choreKeep},
		{ID: "coffee", Do: "Make coffee", Dish: 4, By: -1, Length: takes(8 * minute), Hands: plan.Busy, Burner: &plan.BurnerUse{Size: plan.AnyBurner, Count: 1}, Keeps: choreKeep,
			Reminds: []plan.Remind{{When: plan.BeforeEnd, For: 5 * minute, Text: "warm the cups"}}},
		{ID: "chill-the-wine", Do: "Chill the wine", Dish: 5, By: -1, Length: takes(5 * minute), Hands: plan.Busy, Keeps: choreKeep},
		{ID: "cool-the-water", Do: "Cool the water", Dish: 6, By: -1, Length: plan.Length{Elastic: true, Shortest: hour, Likely: hour, Longest: 8 * hour},
			Keeps: plan.Keep{Kind: plan.Limit, For: day, AtMost: day, Place: "fridge", Places: 1}, Cold: "fridge", ColdPlaces: 1},
	}, p.Steps)
}
