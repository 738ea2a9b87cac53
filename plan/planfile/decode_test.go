package planfile

import (
	"flag"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/examples"
	"example.org/kettledrum/plan"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// head is the beginning of every plan in these tests.
const head = "kettledrum: 1\ntable: 2026-10-17 19:00\n"

// mustDecode decodes a plan that has no errors.
func mustDecode(t *testing.T, text string, o Options) *plan.Plan {
	t.Helper()
	p, problems := Decode([]byte(text), o)
	if problems.HasErrors() {
		t.Fatalf("unexpected problems:\n%s", Format("plan.yaml", []byte(text), problems))
	}
	return p
}

// codes returns the codes of the problems of text.
func codes(text string, o Options) string {
	_, problems := Decode([]byte(text), o)
	var out []string
	for _, p := range problems {
		out = append(out, p.Code)
	}
	return strings.Join(out, " ")
}

// Every broken plan gives the messages of its golden file, all at once.
func TestBroken(t *testing.T) {
	t.Parallel()
	files, err := filepath.Glob("testdata/broken/*.yaml")
	if err != nil || len(files) < 46 {
		t.Fatalf("%d broken plans: %v", len(files), err)
	}
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".yaml")
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			p, problems := Decode(text, Options{Open: beside("testdata/broken")})
			if p != nil || !problems.HasErrors() {
				t.Error("the plan is taken for right")
			}
			for _, q := range problems {
				if q.Pos.Line < 1 || q.Pos.Col < 1 || q.Code == "" || q.Text == "" {
					t.Errorf("incomplete problem: %+v", q)
				}
			}
			got := Format("supper.yaml", text, problems)
			golden := strings.TrimSuffix(file, ".yaml") + ".golden"
			if *update {
				if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(golden)
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(string(want), got); diff != "" {
				t.Errorf("messages differ from %s (-want +got):\n%s", golden, diff)
			}
		})
	}
}

// beside opens the files of a folder.
func beside(dir string) func(string) ([]byte, error) {
	return func(name string) ([]byte, error) { return fs.ReadFile(os.DirFS(dir), name) }
}

func TestExamples(t *testing.T) {
	t.Parallel()
	for _, name := range examples.Names() {
		text, ok := examples.Get(name)
		if !ok {
			t.Fatalf("no example %q", name)
		}
		p, problems := Decode(text, Options{})
		if len(problems) > 0 {
			t.Errorf("%s:\n%s", name, Format(name+".yaml", text, problems))
			continue
		}
		for i := range p.Steps {
			if s := &p.Steps[i]; p.StepIndex(s.ID) != i {
				t.Errorf("%s: the id %q is not unique", name, s.ID)
			}
		}
	}
}

func TestNoKitchen(t *testing.T) {
	t.Parallel()
	p := mustDecode(t, head+"dishes: [{name: Peas, steps: ['Boil the peas, 5m']}]", Options{})
	want := plan.Kitchen{
		Cooks:   []plan.Cook{{Name: "Cook", Free: []plan.Window{{From: p.Table.Add(-6 * hour), To: p.Table.Add(plan.DefaultLateOK)}}}},
		Ovens:   []plan.Oven{{Name: "oven", Shelves: 4, Preheat: plan.DefaultPreheat, Cools: plan.DefaultCools}},
		Burners: plan.Burners{Large: 2, Small: 2}, Minds: 3, Room: plan.FromFahrenheit(70),
	}
	if diff := cmp.Diff(want, p.Kitchen); diff != "" {
		t.Errorf("kitchen (-want +got):\n%s", diff)
	}
	wantCourses := []plan.Course{{Name: "Dinner", Seated: 20 * minute, LateOK: 20 * minute, Pos: plan.Pos{Line: 1, Col: 1}}}
	if diff := cmp.Diff(wantCourses, p.Courses); diff != "" {
		t.Errorf("courses (-want +got):\n%s", diff)
	}
}

// A cook is free by default from six hours before the first serve to the last, as
// late as that may be.
func TestFreeByDefault(t *testing.T) {
	t.Parallel()
	p := mustDecode(t, head+`
kitchen: {cooks: 2}
courses: [{name: A, serve: 10m}, {name: B, serve: 1h}]
dishes:
  - {name: Peas, course: A, steps: ["Boil the peas, 5m"]}
  - {name: Tart, course: b, steps: ["Cut, 5m"]}
`, Options{})
	want := []plan.Window{{From: p.Table.Add(10*minute - 6*hour), To: p.Table.Add(hour + plan.DefaultLateOK)}}
	for i, name := range []string{"Cook 1", "Cook 2"} {
		c := p.Kitchen.Cooks[i]
		if diff := cmp.Diff(want, c.Free); diff != "" || c.Name != name {
			t.Errorf("cook %q, want %q (-want +got):\n%s", c.Name, name, diff)
		}
	}
}

func TestWindowsOfACook(t *testing.T) {
	t.Parallel()
	with := func(free string) string {
		return head + "kitchen: {cooks: [{name: Ines, free: " + free + "}]}\ndishes: [{name: Peas, steps: ['Boil, 5m']}]"
	}
	p := mustDecode(t, with("[18:00-20:00, 10:00-12:00, Sat 11:00-13:00, Fri 22:00-02:00]"), Options{})
	at := func(d, h int) time.Time { return time.Date(2026, 10, d, h, 0, 0, 0, time.UTC) }
	want := []plan.Window{{From: at(16, 22), To: at(17, 2)}, {From: at(17, 10), To: at(17, 13)}, {From: at(17, 18), To: at(17, 20)}}
	if diff := cmp.Diff(want, p.Kitchen.Cooks[0].Free); diff != "" {
		t.Errorf("windows (-want +got):\n%s", diff)
	}
	for free, want := range map[string]string{
		"Fri 18:00-21:00":            "",
		"-1d 18:00-24:00":            "",
		"[Sat 10:00-12:00, Moon]":    "window",
		"2026-10-16 18:00-21:00":     "",
		"2026-10-18 18:00-21:00":     "",
		"[Fri 18:00-21:00, Sat 9-5]": "window",
	} {
		if got := codes(with(free), Options{}); got != want {
			t.Errorf("free %s: got %q, want %q", free, got, want)
		}
	}
}

func TestServe(t *testing.T) {
	t.Parallel()
	vienna := load(t, "Europe/Vienna")
	text := head + "zone: Europe/Vienna\nkitchen: {cooks: [{name: Ines, free: Sat 10:00-23:00}]}\ndishes: [{name: Peas, steps: ['Boil, 5m']}]"
	now := time.Date(2026, 12, 5, 23, 30, 0, 0, time.UTC) // the 6th in Vienna
	for _, c := range []struct {
		serve string
		table time.Time
	}{
		{"", time.Date(2026, 10, 17, 19, 0, 0, 0, vienna)},
		{"20:30", time.Date(2026, 12, 6, 20, 30, 0, 0, vienna)},
		{"2026-12-05 19:00", time.Date(2026, 12, 5, 19, 0, 0, 0, vienna)},
	} {
		p := mustDecode(t, text, Options{Serve: c.serve, Now: now})
		if !p.Table.Equal(c.table) || p.Table.Location().String() != "Europe/Vienna" {
			t.Errorf("serve %q: table %v, want %v", c.serve, p.Table, c.table)
		}
		if got, want := p.Kitchen.Cooks[0].Free[0].From, p.CookDay().Add(10*hour); !got.Equal(want) {
			t.Errorf("serve %q: free from %v, want %v", c.serve, got, want)
		}
	}
	if got := codes(text, Options{Serve: "noon", Now: now}); got != "serve" {
		t.Errorf("serve noon: got %q", got)
	}
}

func TestUnits(t *testing.T) {
	t.Parallel()
	for locale, want := range map[string]plan.Units{
		"": plan.Fahrenheit, "C": plan.Fahrenheit, "en_US.UTF-8": plan.Fahrenheit, "en-US": plan.Fahrenheit,
		"de_AT.UTF-8": plan.Metric, "en_GB": plan.Metric, "de_AT@euro": plan.Metric,
	} {
		if got := unitsOf(locale); got != want {
			t.Errorf("%q: got %v, want %v", locale, got, want)
		}
	}
	p := mustDecode(t, head+"units: C\ndishes: [{name: Peas, steps: ['Boil, 5m']}]", Options{Locale: "en_US"})
	if p.Units != plan.Metric {
		t.Error("the plan's own units do not win")
	}
}

// A step says little; the rest is as the table of keys says.
func TestStepDefaults(t *testing.T) {
	t.Parallel()
	p := mustDecode(t, head+`
dishes:
  - name: Stew
    steps:
      - Chop the onions, 8m
      - {do: Fry, takes: 10m, burner: large}
      - {do: Bake, takes: 1h, oven: 350F}
      - {do: Rest, waits: 10m to 20m, at_once: true}
      - {do: Braise, takes: 1h, oven: 300F, burner: small, keeps: freely, hands: tied}
`, Options{})
	counter := plan.Keep{Kind: plan.Liking, For: 2 * hour, AtMost: 2 * hour, Assumed: true}
	hot := plan.Keep{Kind: plan.Liking, For: 10 * minute, AtMost: 30 * minute, Assumed: true}
	for i, want := range []struct {
		hands plan.Hands
		keeps plan.Keep
	}{
		{plan.Busy, counter},
		{plan.Near, hot},
		{plan.Free, hot},
		{plan.Free, plan.Keep{Kind: plan.Limit, Assumed: true}},
		{plan.Tied, plan.Keep{Kind: plan.Freely}},
	} {
		s := p.Steps[i]
		if s.Hands != want.hands || s.Keeps != want.keeps || s.By != -1 {
			t.Errorf("%s: hands %v, keeps %+v, want %+v", s.ID, s.Hands, s.Keeps, want)
		}
		if i > 0 && (len(s.After) != 1 || s.After[0].Step != i-1) {
			t.Errorf("%s: follows %+v, want the step above", s.ID, s.After)
		}
	}
	bake := p.Steps[2].Oven
	if *bake != (plan.Bake{In: -1, At: plan.FromFahrenheit(350), Lo: plan.FromFahrenheit(350) - 5, Hi: plan.FromFahrenheit(350) + 5, Space: 2}) {
		t.Errorf("oven: %+v", bake)
	}
}

func TestReferences(t *testing.T) {
	t.Parallel()
	const text = head + `
dishes:
  - name: Crème caramel
    steps:
      - {do: Boil the sugar, takes: 8m}
      - {do: Stir, takes: 4m, after: none}
      - {do: Pour, takes: 3m, after: REFS}
  - name: Stew
    steps:
      - {id: Brown, do: Brown the meat, takes: 9m}
      - {do: Stir, takes: 4m}
`
	for refs, want := range map[string][]plan.Link{
		"none":                        nil,
		"stir":                        {{Step: 1}},
		"Boil the sugar":              {{Step: 0}},
		"[boil-the-sugar, stir]":      {{Step: 0}, {Step: 1}},
		"brown":                       {{Step: 3}},
		"stew/stir":                   {{Step: 4}},
		"creme-caramel/stir":          {{Step: 1}},
		"Crème caramel/stir":          {{Step: 1}},
		"[stir, {brown: 0m-10m}]":     {{Step: 1}, {Step: 3, Max: 10 * minute, HasMax: true}},
		"{brown: 10m}":                {{Step: 3, Min: 10 * minute}},
		"{stir: 5m, brown: 1h to 2h}": {{Step: 1, Min: 5 * minute}, {Step: 3, Min: hour, Max: 2 * hour, HasMax: true}},
	} {
		p := mustDecode(t, strings.Replace(text, "REFS", refs, 1), Options{})
		got := p.Steps[2].After
		for i := range got {
			got[i].Pos = plan.Pos{}
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("after %s (-want +got):\n%s", refs, diff)
		}
	}
	for refs, want := range map[string]string{
		"[stir, stir]": "double-reference", "pour": "cycle", "[]": "", "{brown: 10}": "duration", "[[stir]]": "wrong-kind",
		"peas/stir": "unknown-step", "[none, stir]": "unknown-step", "": "empty-value",
	} {
		if got := codes(strings.Replace(text, "REFS", refs, 1), Options{}); got != want {
			t.Errorf("after %s: got %q, want %q", refs, got, want)
		}
	}
	ambiguous := head + "dishes: [{name: A, steps: ['Stir, 1m']}, {name: B, steps: ['Stir, 1m']}, {name: C, steps: [{do: X, takes: 1m, after: stir}]}]"
	if got := codes(ambiguous, Options{}); got != "ambiguous-step" {
		t.Errorf("ambiguous: got %q", got)
	}
}

func TestTools(t *testing.T) {
	t.Parallel()
	for _, tools := range []string{"{big pot: 1, sheet pan: 2}", "[big pot, {sheet pan: 2}]", "{big pot: {count: 1}, sheet pan: {count: 2}}"} {
		text := head + "kitchen: {tools: " + tools + "}\ndishes: [{name: A, steps: [{do: X, takes: 1m, uses: [Big Pot, {sheet pan: 2}, colander]}]}]"
		p, problems := Decode([]byte(text), Options{})
		if len(problems) != 1 || problems[0].Code != "unlisted-tool" || problems[0].Severity != plan.Notice {
			t.Fatalf("tools %s: problems %v", tools, problems)
		}
		want := []plan.Tool{{Name: "big pot", Count: 1, Listed: true}, {Name: "sheet pan", Count: 2, Listed: true}, {Name: "colander", Count: 1}}
		for i := range p.Kitchen.Tools {
			p.Kitchen.Tools[i].Pos = plan.Pos{}
		}
		if diff := cmp.Diff(want, p.Kitchen.Tools); diff != "" {
			t.Errorf("tools %s (-want +got):\n%s", tools, diff)
		}
		if diff := cmp.Diff([]plan.Use{{Tool: 0, Count: 1}, {Tool: 1, Count: 2}, {Tool: 2, Count: 1}}, p.Steps[0].Uses); diff != "" {
			t.Errorf("uses (-want +got):\n%s", diff)
		}
	}
}

func TestIngredientLines(t *testing.T) {
	t.Parallel()
	text := head + "dishes: [{name: A, steps: [{id: b, do: Stir, takes: 5m}], ingredients: LIST}]"
	for list, want := range map[string][]string{
		"salt":                          {"salt"},
		"[salt, 2 eggs]":                {"salt", "2 eggs"},
		"[{Flour: 500 g}, 'a: b']":      {"Flour: 500 g", "a: b"},
		"[{For the sauce: }, 1]":        {"For the sauce:", "1"},
		"['2 lb leeks, finely sliced']": {"2 lb leeks, finely sliced"},
		"[{what: leeks}, {what: eggs, amount: 3, note: boiled}]": {"leeks", "3 eggs, boiled"},
	} {
		p := mustDecode(t, strings.Replace(text, "LIST", list, 1), Options{})
		var got []string
		for _, i := range p.Dishes[0].Ingredients {
			got = append(got, i.Text)
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s (-want +got):\n%s", list, diff)
		}
	}
}

func TestOven(t *testing.T) {
	t.Parallel()
	text := head + "kitchen: {ovens: [{name: top oven, shelves: 1}, {name: big, preheat: 20m to 400F}]}\n" +
		"dishes: [{name: A, steps: [{do: X, takes: 1m, oven: {at: 375-400F, in: Top oven, space: half}}]}]"
	p := mustDecode(t, text, Options{})
	want := &plan.Bake{In: 0, At: plan.FromFahrenheit(387.5), Lo: plan.FromFahrenheit(375), Hi: plan.FromFahrenheit(400), Space: 1}
	if diff := cmp.Diff(want, p.Steps[0].Oven, cmp.Comparer(func(a, b plan.Celsius) bool { return apart(a, b) < 1e-9 })); diff != "" {
		t.Errorf("oven (-want +got):\n%s", diff)
	}
	if o := p.Kitchen.Ovens; o[0].Shelves != 2 || o[1].Shelves != 4 || o[1].Preheat.Takes != 20*minute {
		t.Errorf("ovens: %+v", o)
	}
}

// Every key of the table is known where it may stand.
func TestKeys(t *testing.T) {
	t.Parallel()
	wrap := map[place]string{
		inPlan:    "%s: 1",
		inKitchen: "kitchen: {%s: 1}",
		inCook:    "kitchen: {cooks: [{%s: 1}]}",
		inOven:    "kitchen: {ovens: [{%s: 1}]}",
		inBurners: "kitchen: {burners: {%s: 1}}",
		inTool:    "kitchen: {tools: {pot: {%s: 1}}}",
		inCold:    "kitchen: {cold: {%s: 1}}",
		inCourse:  "courses: [{%s: 1}]",
		inDish:    "dishes: [{%s: 1}]",
		inIngr:    "dishes: [{ingredients: [{%s: 1}]}]",
		inStep:    "dishes: [{name: A, steps: [{%s: 1, x: 1}]}]",
		inBake:    "dishes: [{name: A, steps: [{do: B, oven: {%s: 1}}]}]",
		inChore:   "chores: [{%s: 1, x: 1}]",
	}
	for in, names := range keys {
		if ofScript(in) {
			continue
		}
		if wrap[in] == "" {
			t.Errorf("%s is not tested", in)
		}
		for _, k := range names {
			_, problems := Decode([]byte(strings.Replace(wrap[in], "%s", k, 1)), Options{})
			for _, p := range problems {
				if p.Code == "unknown-key" && strings.Contains(p.Text, "`"+k+"`") {
					t.Errorf("`%s` in %s: %s", k, in, p.Text)
				}
			}
		}
	}
}

// Whatever the bytes, there is an answer with a place, and it is
// found without long search: a square of the file's length would show here.
func TestHostile(t *testing.T) {
	t.Parallel()
	fill := func(s string) string { return strings.Repeat(s, MaxBytes/len(s)) }
	for name, c := range map[string]struct{ text, want string }{
		"too-large":   {strings.Repeat("a", MaxBytes+1), "too-large"},
		"brackets":    {fill("["), "too-deep"},
		"braces":      {fill("{a: "), "too-deep"},
		"dashes":      {fill("- "), "too-deep"},
		"questions":   {fill("? "), "too-deep"},
		"level-65":    {"a: " + strings.Repeat("[", 64) + strings.Repeat("]", 64), "too-deep"},
		"one-line":    {fill("a"), "not-a-plan"},
		"nul":         {fill("\x00"), "control-character"},
		"utf-8":       {"title: \xff", "encoding"},
		"utf-16":      {"\xfe\xff\x00k", "encoding"},
		"merge-panic": {"<<: {}\n[a]: 1", "alias"},
		"colons":      {fill(":"), "syntax"},
		"blank":       {fill("\n"), "empty"},
		"pieces":      {"{title: a" + strings.Repeat(",b", MaxBytes/2-10) + "}", ""},
		"nothing":     {"", "empty"},
		"null":        {"~", "empty"},
		"bom":         {"\ufeff" + "a: 1", "unknown-key missing missing missing"},
	} {
		got := codes(c.text, Options{})
		if got == "" || c.want != "" && !sameSet(got, c.want) {
			t.Errorf("%s: got %q, want %q", name, short(got), c.want)
		}
	}
	var many strings.Builder
	many.WriteString(head + "dishes:\n  - name: A\n    steps:\n")
	for i := 0; many.Len() < MaxBytes-100; i++ {
		many.WriteString("      - {do: stir, takes: 1m, after: nothing}\n")
	}
	_, problems := Decode([]byte(many.String()), Options{})
	if n := len(problems); n != maxProblems+1 || problems[n-1].Code != "too-many" {
		t.Errorf("a file of mistakes: %d problems", n)
	}
}

func sameSet(a, b string) bool {
	x, y := map[string]int{}, map[string]int{}
	for _, w := range strings.Fields(a) {
		x[w]++
	}
	for _, w := range strings.Fields(b) {
		y[w]++
	}
	return cmp.Equal(x, y)
}

// Any bytes give a plan or problems, each with a place, and Format shows them.
func FuzzDecode(f *testing.F) {
	files, err := filepath.Glob("testdata/broken/*.yaml")
	if err != nil {
		f.Fatal(err)
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(text, "")
	}
	for _, name := range examples.Names() {
		text, _ := examples.Get(name)
		f.Add(text, "19:00")
	}
	if text, err := os.ReadFile("testdata/all-keys.yaml"); err != nil {
		f.Fatal(err)
	} else {
		f.Add(text, "")
	}
	f.Fuzz(func(t *testing.T, text []byte, serve string) {
		// A kitchen in a file of its own is read from the same bytes.
		open := func(string) ([]byte, error) { return text, nil }
		p, problems := Decode(text, Options{Serve: serve, Open: open, Now: time.Date(2026, 10, 17, 12, 0, 0, 0, time.UTC)})
		if (p == nil) != problems.HasErrors() {
			t.Fatalf("plan %v with problems %v", p != nil, problems)
		}
		for i, q := range problems {
			if q.Pos.Line < 1 || q.Pos.Col < 1 || q.Text == "" || q.Code == "" {
				t.Fatalf("incomplete problem: %+v", q)
			}
			if i > 0 && q.File == problems[i-1].File && q.Pos.Line < problems[i-1].Pos.Line {
				t.Fatalf("problems out of order: %v", problems)
			}
		}
		shown := Format("plan.yaml", text, problems)
		for _, r := range shown {
			if r < ' ' && r != '\n' || r >= 0x7f && r < 0xa0 {
				t.Fatalf("control character %U in %q", r, shown)
			}
		}
		if p == nil {
			return
		}
		for i := range p.Steps {
			s := &p.Steps[i]
			if p.StepIndex(s.ID) != i {
				t.Fatalf("two steps are called %q", s.ID)
			}
			if l := s.Length; l.Shortest > l.Likely || l.Likely > l.Longest || l.Longest <= 0 {
				t.Fatalf("%s: length %+v", s.ID, l)
			}
		}
	})
}
