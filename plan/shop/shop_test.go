package shop

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.org/kettledrum/plan"
)

var table = time.Date(2026, 10, 17, 19, 0, 0, 0, time.UTC) // a Saturday

// dish is a dish of one step, which starts so long before the table.
type dish struct {
	name  string
	makes int
	ahead time.Duration
	lines []string
}

// dinner makes a plan and a timetable of dishes.
func dinner(guests int, dishes ...dish) (*plan.Plan, *plan.Timetable) {
	p := &plan.Plan{Title: "Dinner", Guests: guests, Table: table, Rules: "us", Kitchen: plan.Kitchen{Ovens: []plan.Oven{{Name: "oven", Shelves: 4}}}}
	t := &plan.Timetable{}
	for i, d := range dishes {
		x := plan.Dish{Name: d.name, Makes: d.makes, Steps: []int{i}}
		for _, line := range d.lines {
			x.Ingredients = append(x.Ingredients, plan.Ingredient{Text: line, Step: -1})
		}
		p.Dishes = append(p.Dishes, x)
		p.Steps = append(p.Steps, plan.Step{Do: "Cook", Dish: i})
		t.Slots = append(t.Slots, plan.Slot{Start: table.Add(-d.ahead), End: table})
	}
	return p, t
}

// bought writes every thing of a list as "amounts name".
func bought(l List) []string {
	var out []string
	for _, trip := range l.Trips {
		for _, it := range trip.Items {
			var texts []string
			for _, a := range it.Amounts {
				texts = append(texts, a.Text)
			}
			text := strings.TrimSpace(strings.Join(texts, " + ") + " " + it.Name)
			if it.More {
				text += " + more"
			}
			out = append(out, text)
		}
	}
	return out
}

func TestSums(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		a, b []string
		want []string
	}{
		"the same unit":         {[]string{"1 lb carrots"}, []string{"2 lb carrots"}, []string{"3 lb carrots"}},
		"ounces and pounds":     {[]string{"8 oz carrots"}, []string{"1 lb carrots, sliced"}, []string{"1½ lb carrots"}},
		"grams and kilograms":   {[]string{"500 g leeks"}, []string{"1 kg leeks"}, []string{"1.5 kg leeks"}},
		"spoons and cups":       {[]string{"1 cup milk"}, []string{"2 tbsp milk"}, []string{"1 cup + 2 tbsp milk"}},
		"counted":               {[]string{"1 onion"}, []string{"2 large onions, diced"}, []string{"3 onions"}},
		"halves":                {[]string{"½ lemon"}, []string{"1 lemon"}, []string{"2 (1½) lemons"}},
		"different onions":      {[]string{"1 red onion"}, []string{"1 onion"}, []string{"1 red onion", "1 onion"}},
		"a range":               {[]string{"3-4 cloves garlic"}, []string{"2 garlic cloves"}, []string{"5–6 cloves garlic"}},
		"what does not add up":  {[]string{"2 heads garlic"}, []string{"6 cloves garlic"}, []string{"2 heads + 6 cloves garlic"}},
		"cans of a size":        {[]string{"1 (14 oz) can tomatoes"}, []string{"2 14-oz cans tomatoes"}, []string{"3 × 14 oz cans tomatoes"}},
		"cans of other sizes":   {[]string{"1 (14 oz) can tomatoes"}, []string{"1 (28 oz) can tomatoes"}, []string{"1 × 14 oz can + 1 × 28 oz can tomatoes"}},
		"sticks and spoons":     {[]string{"1 stick butter"}, []string{"4 oz butter"}, []string{"8 oz butter"}},
		"a density":             {[]string{"2 cups flour"}, []string{"250 g flour"}, []string{"about 500 g flour"}},
		"no density":            {[]string{"2 cups rye flour"}, []string{"250 g rye flour"}, []string{"2 cups + 250 g rye flour"}},
		"about":                 {[]string{"about 1 lb beets"}, []string{"1 lb beets"}, []string{"about 2 lb beets"}},
		"not said":              {[]string{"salt"}, []string{"salt, to taste"}, []string{"salt"}},
		"some of it not said":   {[]string{"2 tbsp oil"}, []string{"oil for frying"}, []string{"2 tbsp oil + more"}},
		"plus more":             {[]string{"2 tbsp oil, plus more for the pan"}, nil, []string{"2 tbsp oil + more"}},
		"headings":              {[]string{"For the sauce:", "1 leek"}, nil, []string{"1 leek"}},
		"tap water":             {[]string{"2 cups cold water", "1 l sparkling water"}, nil, []string{"1 l sparkling water"}},
		"grams of a sachet":     {[]string{"1 (7.5 g) sachet yeast"}, nil, []string{"1 × 7.5 g sachet yeast"}},
		"pinches":               {[]string{"a pinch of saffron"}, []string{"pinch saffron"}, []string{"2 pinches saffron"}},
		"frozen and fresh":      {[]string{"1 lb peas"}, []string{"1 lb frozen peas"}, []string{"1 lb peas", "1 lb frozen peas"}},
		"weight of a cup":       {[]string{"2 cups granulated sugar"}, nil, []string{"2 cups (about 14 oz) granulated sugar"}},
		"no weight of a liquid": {[]string{"2 cups wine"}, nil, []string{"2 cups wine"}},
		"systems":               {[]string{"1 lb leeks"}, []string{"500 g leeks"}, []string{"about 2 lb 2 oz leeks"}},
		"ginger":                {[]string{"a 2-inch piece ginger"}, []string{"2-inch piece ginger"}, []string{"2 × 2 in pieces ginger"}},
		"weighed in all":        {[]string{"4 chicken thighs (about 2 lb)"}, []string{"2 chicken thighs (1 lb)"}, []string{"6 (about 3 lb) chicken thighs"}},
		"one weighed":           {[]string{"4 leeks (about 500 g)"}, []string{"2 leeks"}, []string{"6 leeks"}},
		"whole birds":           {[]string{"one 3-lb chicken"}, nil, []string{"1 × 3 lb chicken"}},
	} {
		p, tt := dinner(4, dish{"A", 4, time.Hour, c.a}, dish{"B", 4, time.Hour, c.b})
		if diff := cmp.Diff(c.want, bought(Make(p, tt))); diff != "" {
			t.Errorf("%s (-want +got):\n%s", name, diff)
		}
	}
}

func TestScales(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		makes, guests int
		line, want    string
	}{
		"half as much again": {4, 6, "¾ cup milk", "1 cup + 2 tbsp milk"},
		"half":               {8, 4, "⅓ cup milk", "2 tbsp + 2 tsp milk"},
		"six times":          {2, 12, "2 tsp milk", "¼ cup milk"},
		"a third":            {6, 2, "1 tbsp milk", "1 tsp milk"},
		"whole things":       {6, 10, "2 onions", "4 (3⅓) onions"},
		"not said for whom":  {0, 6, "2 onions", "2 onions"},
		"guests not said":    {4, 0, "2 onions", "2 onions"},
		"per person":         {4, 6, "2 oysters per person", "12 oysters"},
		"frying fat":         {4, 8, "2 cups oil, for deep-frying", "2 cups oil"},
		"yeast is close":     {4, 5, "7 g yeast", "8.8 g yeast"},
	} {
		p, tt := dinner(c.guests, dish{"A", c.makes, time.Hour, []string{c.line}})
		got := bought(Make(p, tt))
		if len(got) != 1 || strings.TrimPrefix(got[0], "about ") != c.want {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
	p, tt := dinner(8, dish{"A", 4, time.Hour, []string{"2 bay leaves"}})
	p.Dishes[0].Ingredients[0].Fixed = true
	if got := bought(Make(p, tt)); !slices.Equal(got, []string{"2 bay leaves"}) {
		t.Errorf("fixed: %q", got)
	}
}

// Fish for two days is bought twice, staples once, and all in the fewest trips.
func TestTrips(t *testing.T) {
	t.Parallel()
	const d = 24 * time.Hour
	p, tt := dinner(4,
		dish{"Gravlax", 4, 5 * d, []string{"2 lb salmon", "1 lb sugar", "1 bunch dill"}},
		dish{"Soup", 4, 4 * time.Hour, []string{"1 lb salmon", "4 oz sugar", "1 loaf bread", "1 lb beef"}})
	l := Make(p, tt)
	if len(l.Trips) != 2 {
		t.Fatalf("%d trips: %q", len(l.Trips), bought(l))
	}
	first, second := l.Trips[0], l.Trips[1]
	if !first.By.Equal(table.Add(-5*d)) || first.From == nil || !first.From.Equal(table.Add(-7*d)) { // raw fish: two days
		t.Errorf("the first from %v by %v", first.From, first.By)
	}
	if !second.By.Equal(table.Add(-4*time.Hour)) || !second.From.Equal(table.Add(-4*time.Hour-d)) { // bread: a day
		t.Errorf("the second from %v by %v", second.From, second.By)
	}
	want := []string{"2 lb salmon", "1¼ lb sugar", "1 bunch dill", "1 lb salmon", "1 loaf bread", "1 lb beef"}
	if diff := cmp.Diff(want, bought(l)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	p.Dishes[1].Ingredients[2].Fresh = 7 * d // a bread that keeps
	p.Dishes[1].Ingredients[2].Text = "1 loaf rye bread"
	p.Dishes[1].Ingredients[0].Text = "1 lb smoked salmon"
	p.Dishes[1].Ingredients[3].Text = "1 lb dried beans"
	if l := Make(p, tt); len(l.Trips) != 1 {
		t.Errorf("nothing must be fresh for the soup, and there are %d trips: %q", len(l.Trips), bought(l))
	}
}

// The trips are as few as can be: compared with all choices of moments, on small
// draws. Every thing is bought in its time.
func TestTripsAreFewest(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 7).Draw(t, "items")
		var items []Item
		for i := range n {
			by := table.Add(time.Duration(rapid.IntRange(0, 9).Draw(t, "by")) * time.Hour)
			it := Item{Name: string(rune('a' + i)), By: by}
			if rapid.Bool().Draw(t, "fresh") {
				from := by.Add(-time.Duration(rapid.IntRange(0, 4).Draw(t, "from")) * time.Hour)
				it.From = &from
			}
			items = append(items, it)
		}
		got := trips(slices.Clone(items))
		seen := 0
		for _, trip := range got {
			for _, it := range trip.Items {
				seen++
				if it.By.Before(trip.By) || it.From != nil && it.From.After(trip.By) {
					t.Fatalf("%s is bought at %v, outside of its time", it.Name, trip.By)
				}
			}
		}
		if seen != n {
			t.Fatalf("%d of %d things are bought", seen, n)
		}
		fewest := n
		for set := 0; set < 1<<10; set++ { // hours at which it is gone shopping
			fits := true
			for _, it := range items {
				ok := false
				for h := range 10 {
					at := table.Add(time.Duration(h) * time.Hour)
					ok = ok || set&(1<<h) != 0 && !at.After(it.By) && (it.From == nil || !at.Before(*it.From))
				}
				fits = fits && ok
			}
			if fits {
				count := 0
				for h := range 10 {
					count += set >> h & 1
				}
				fewest = min(fewest, count)
			}
		}
		if len(got) != fewest {
			t.Fatalf("%d trips, want %d", len(got), fewest)
		}
	})
}

func TestThaw(t *testing.T) {
	t.Parallel()
	const d = 24 * time.Hour
	for name, c := range map[string]struct {
		line  string
		takes int // hours, 0: nothing to thaw
	}{
		// 24 h for each 4 lb, USDA FSIS, The Big Thaw.
		"a big bird":    {"1 frozen turkey (about 16 lb)", 96},
		"a small pack":  {"400 g frozen shrimp", 24},
		"two birds":     {"2 frozen chickens (4 lb each)", 24},
		"not weighed":   {"1 frozen duck", 24},
		"peas":          {"400 g frozen peas", 0},
		"not frozen":    {"2 lb salmon, never frozen", 0},
		"maybe frozen":  {"2 lb fresh or frozen cod", 0},
		"in kilograms":  {"3 kg frozen leg of lamb", 48},
		"frozen stock":  {"1 l frozen chicken stock", 0},
		"frozen pastry": {"1 packet frozen puff pastry", 0},
	} {
		p, tt := dinner(4, dish{"A", 4, time.Hour, []string{c.line}})
		l := Make(p, tt)
		if c.takes == 0 {
			if len(l.Thaw) > 0 {
				t.Errorf("%s: thaws %+v", name, l.Thaw)
			}
			continue
		}
		if len(l.Thaw) != 1 || l.Thaw[0].Takes != c.takes || !l.Thaw[0].Out.Equal(table.Add(-time.Hour-time.Duration(c.takes)*time.Hour)) {
			t.Errorf("%s: %+v, want %d hours", name, l.Thaw, c.takes)
		}
		if by := l.Trips[0].By; !by.Equal(l.Thaw[0].Out) { // else it could not thaw in time
			t.Errorf("%s: bought by %v, out by %v", name, by, l.Thaw[0].Out)
		}
	}
	// For more guests there are more birds, not heavier ones; a roast is heavier.
	for line, want := range map[string]int{"2 frozen turkeys (8 lb each)": 48, "8 lb frozen turkey breast": 96} {
		p, tt := dinner(8, dish{"A", 4, time.Hour, []string{line}})
		if l := Make(p, tt); len(l.Thaw) != 1 || l.Thaw[0].Takes != want {
			t.Errorf("%s for twice as many: %+v, want %d hours", line, l.Thaw, want)
		}
	}
	// What the plan calls frozen thaws whatever it is; a step that thaws is enough.
	p, tt := dinner(4, dish{"A", 4, 2 * d, []string{"puff pastry"}})
	p.Dishes[0].Ingredients[0].Frozen = true
	if l := Make(p, tt); len(l.Thaw) != 1 || !l.Thaw[0].Out.Equal(table.Add(-3*d)) {
		t.Errorf("pastry: %+v", l.Thaw)
	}
	p.Steps[0].Do = "Thaw the pastry"
	if l := Make(p, tt); len(l.Thaw) != 1 || !l.Thaw[0].Out.Equal(table.Add(-2*d)) {
		t.Errorf("pastry with a step: %+v", l.Thaw)
	}
}

// How long before it is used a thing may be bought.
func TestFresh(t *testing.T) {
	t.Parallel()
	const d = 24 * time.Hour
	for line, want := range map[string]time.Duration{
		// The cold storage chart, the lower end.
		"2 lb salmon": 2 * d, "7 lb pork shoulder": 3 * d, "1 chicken": d, "500 g minced beef": d, "1 kg mussels": d, "6 oz bacon": 7 * d,
		// Common practice.
		"1 loaf bread": d, "1 bunch basil": 3 * d, "200 g raspberries": 2 * d, "1 head lettuce": 3 * d,
		// At any time.
		"1 tbsp dried basil": 0, "1 tsp parsley": 0, "1 tin mushrooms": 0, "200 g frozen raspberries": 0, "2 lb potatoes": 0, "1 can tuna": 0,
		"100 g ground almonds": 0, "1 jar figs": 0,
	} {
		p, tt := dinner(4, dish{"A", 4, time.Hour, []string{line}})
		it := Make(p, tt).Trips[0].Items[0]
		got := time.Duration(0)
		if it.From != nil {
			got = table.Add(-time.Hour).Sub(*it.From)
		}
		if got != want || (it.Why != "") != (want > 0) {
			t.Errorf("%s: %v before (%s), want %v", line, got, it.Why, want)
		}
	}
}

// What the list says of scaling, by what must stand in it.
func TestNotes(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		makes, guests int
		lines         []string
		step          plan.Step
		want          []string
		not           []string
	}{
		"as written":    {4, 4, []string{"1 tsp salt"}, plan.Step{}, nil, []string{"salt"}},
		"salt":          {4, 8, []string{"1 tsp salt"}, plan.Step{}, []string{"written for 4, bought for 8: × 2", "salt: season by taste"}, nil},
		"much salt":     {4, 16, []string{"1 tsp salt", "½ tsp cayenne"}, plan.Step{}, []string{"salt, cayenne: the list has 4 times as much; begin with about 75 %"}, nil},
		"leavening":     {4, 8, []string{"2 tsp baking powder"}, plan.Step{}, []string{"baking powder: right in proportion only at the same depth"}, nil},
		"frying fat":    {4, 8, []string{"1 l oil for frying"}, plan.Step{}, []string{"oil for frying: not scaled"}, nil},
		"a roast":       {4, 8, []string{"2 kg beef brisket"}, plan.Step{Oven: &plan.Bake{Space: 2}}, []string{"one beef brisket of 2 times the weight takes about 1.5 times as long, at most 1.6"}, []string{"area"}},
		"many pieces":   {6, 4, []string{"12 chicken thighs (about 4 lb)"}, plan.Step{Oven: &plan.Bake{Space: 2}}, []string{"area"}, []string{"thermometer"}},
		"cut up":        {6, 12, []string{"2 kg beef shin, cubed"}, plan.Step{Oven: &plan.Bake{Space: 2}}, []string{"area"}, []string{"thermometer"}},
		"a small roast": {6, 3, []string{"1 duck (2 kg)"}, plan.Step{Oven: &plan.Bake{Space: 2}}, []string{"about 0.68 times as long, at least 0.63", "thermometer"}, nil},
		"a cake":        {4, 8, []string{"1 kg flour"}, plan.Step{Oven: &plan.Bake{Space: 2}}, []string{"2 times the area and the same depth, which is 1.4 times as wide", "2 shelves instead of 1 shelf"}, []string{"roast"}},
		"a second batch": {4, 12, []string{"1 kg flour"}, plan.Step{Do: "Bake", Oven: &plan.Bake{Space: 2}},
			[]string{"Bake: 3 shelves at once, and the oven has 2 shelves: 2 batches"}, nil},
		"a pot":        {4, 6, []string{"1 l milk"}, plan.Step{Vessel: &plan.Use{}}, []string{"big pot: it must hold 1½ times as much"}, nil},
		"fewer guests": {8, 4, []string{"1 l milk"}, plan.Step{Vessel: &plan.Use{}, Oven: &plan.Bake{Space: 2}}, []string{"× ½"}, []string{"hold", "batch"}},
		"not for whom": {0, 4, []string{"1 l milk"}, plan.Step{}, []string{"(`makes`): A"}, nil},
		"how many":     {4, 0, []string{"1 l milk"}, plan.Step{}, []string{"`guests`"}, nil},
	} {
		p, tt := dinner(c.guests, dish{"A", c.makes, time.Hour, c.lines})
		p.Kitchen.Tools = []plan.Tool{{Name: "big pot", Count: 1}}
		if c.step.Oven != nil {
			c.step.Oven.In = -1
		}
		p.Steps[0] = c.step
		var texts []string
		for _, n := range Make(p, tt).Notes {
			texts = append(texts, n.Text)
		}
		all := strings.Join(texts, "\n")
		for _, w := range c.want {
			if !strings.Contains(all, w) {
				t.Errorf("%s: no %q in\n%s", name, w, all)
			}
		}
		for _, w := range c.not {
			if strings.Contains(all, w) {
				t.Errorf("%s: %q in\n%s", name, w, all)
			}
		}
	}
}

// Properties: what is bought for twice the guests is twice as much, and the order of
// dishes changes no sum.
func TestListProperties(t *testing.T) {
	t.Parallel()
	lines := []string{"2 cups flour", "250 g flour", "1 lb carrots", "8 oz carrots", "3 onions", "1 onion, diced", "2 tbsp milk", "1 cup milk", "3–4 cloves garlic", "1 stick butter", "50 g butter", "2 (14 oz) cans tomatoes"}
	total := func(l List) map[string]float64 {
		out := map[string]float64{}
		for _, trip := range l.Trips {
			for _, it := range trip.Items {
				for _, a := range it.Amounts {
					out[it.For[0].Line[strings.LastIndex(it.For[0].Line, " ")+1:]+" "+a.Unit] += a.High
				}
			}
		}
		return out
	}
	sum := func(m map[string]float64) (s float64) {
		for _, v := range m {
			s += v
		}
		return s
	}
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.SliceOfN(rapid.SampledFrom(lines), 1, 8).Draw(t, "a")
		b := rapid.SliceOfN(rapid.SampledFrom(lines), 0, 8).Draw(t, "b")
		p, tt := dinner(6, dish{"A", 6, time.Hour, a}, dish{"B", 6, time.Hour, b})
		once := sum(total(Make(p, tt)))
		p.Guests = 12
		if twice := sum(total(Make(p, tt))); math.Abs(twice-2*once) > 1e-6*once {
			t.Fatalf("%g for twice the guests, %g for the guests", twice, once)
		}
		p, tt = dinner(6, dish{"B", 6, time.Hour, b}, dish{"A", 6, time.Hour, a})
		if other := sum(total(Make(p, tt))); math.Abs(other-once) > 1e-6*once {
			t.Fatalf("%g in the other order, %g", other, once)
		}
	})
}
