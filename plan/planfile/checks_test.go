package planfile

import (
	"errors"
	"fmt"
	"io/fs"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan"
)

// What is taken for granted is told and does not stop a plan.
func TestNotices(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct{ text, want string }{
		"nobody-sits":    {"courses: [{name: Main, slips_away: 4m}]\ndishes: [{name: A, steps: ['B, 5m']}]", "nobody-sits"},
		"somebody-sits":  {"kitchen: {cooks: [{name: Ines, sits: true}]}\ncourses: [{name: Main, slips_away: 4m}]\ndishes: [{name: A, steps: ['B, 5m']}]", ""},
		"unlisted-cold":  {"kitchen: {cold: {fridge: 2}}\ndishes: [{name: A, steps: [{do: B, takes: 5m, keeps: 1d in freezer}, {do: C, waits: 1h in freezer}]}]", "unlisted-cold"},
		"no-cold-at-all": {"dishes: [{name: A, steps: [{do: B, takes: 5m, keeps: 1d in freezer}]}]", ""},
		"warm-is-not-cold": {"kitchen: {cold: {fridge: 2}}\ndishes: [{name: A, steps: [{do: B, takes: 5m, keeps: 1h in oven at 170F}]}]",
			""},
		"unlisted-vessel": {"dishes: [{name: A, steps: [{do: B, takes: 5m, vessel: pot}]}]", "unlisted-tool"},
	} {
		p, problems := Decode([]byte(head+c.text), Options{})
		if got := codes(head+c.text, Options{}); p == nil || got != c.want {
			t.Errorf("%s: got %q, want %q (%v)", name, got, c.want, problems)
		}
	}
}

// The table is at 19:00 on a Saturday; a course may be late by 20 minutes.
func TestMeet(t *testing.T) {
	t.Parallel()
	const refused = "windows-never-meet"
	for name, c := range map[string]struct{ free, steps, want string }{
		"fits-exactly":        {"18:00-18:20", "{do: Cut, takes: 20m, by: Ines, keeps: 1h}", ""},
		"a-minute-short":      {"18:00-18:20", "{do: Cut, takes: 21m, by: Ines, keeps: 1h}", refused},
		"shortest-fits":       {"18:00-18:20", "{do: Cut, takes: 25m (20m-40m), by: Ines, keeps: 1h}", ""},
		"keeps-till-serving":  {"16:00-16:10", "{do: Cut, takes: 10m, by: Ines, keeps: 2h50m}", ""},
		"spoils-before":       {"16:00-16:10", "{do: Cut, takes: 10m, by: Ines, keeps: 2h49m}", refused},
		"keeps-days":          {"-2d 18:00-19:00", "{do: Cut, takes: 10m, by: Ines, keeps: 3d in fridge}", ""},
		"keeps-a-day":         {"-2d 18:00-19:00", "{do: Cut, takes: 10m, by: Ines, keeps: 1d in fridge}", refused},
		"keeps-freely":        {"-9d 18:00-19:00", "{do: Cut, takes: 10m, by: Ines, keeps: freely}", ""},
		"as-late-as-can-be":   {"19:10-19:20", "{do: Cut, takes: 10m, by: Ines, keeps: 5m}", ""},
		"too-late":            {"19:11-21:00", "{do: Cut, takes: 10m, by: Ines, keeps: 5m}", refused},
		"too-late-for-next":   {"19:05-21:00", "{do: Cut, takes: 5m, by: Ines}, {do: Fry, takes: 11m}", refused},
		"just-in-time":        {"19:05-21:00", "{do: Cut, takes: 5m, by: Ines}, {do: Fry, takes: 10m}", ""},
		"gap-too-long":        {"19:05-21:00", "{do: Cut, takes: 5m, by: Ines}, {do: Fry, takes: 10m, after: {cut: 1m}}", refused},
		"wait-stretches":      {"-1d 18:00-19:00", "{do: Mix, takes: 10m, by: Ines, keeps: 10m}, {do: Chill, waits: at least 2h}", ""},
		"wait-not-so-long":    {"-1d 18:00-19:00", "{do: Mix, takes: 10m, by: Ines, keeps: 10m}, {do: Chill, waits: 2h to 12h}", refused},
		"start-only":          {"17:00-17:01", "{do: Roast, takes: 2h, oven: 350F, by: Ines}", ""},
		"start-too-early":     {"14:00-14:01", "{do: Roast, takes: 2h, oven: 350F, by: Ines, keeps: 10m (20m at most)}", refused},
		"chore-on-the-day":    {"-1d 18:00-19:00", "{do: Cut, takes: 5m}]}]\nchores: [{do: Sweep, takes: 5m, by: Ines", refused},
		"chore-days-ahead":    {"-1d 18:00-19:00", "{do: Cut, takes: 5m}]}]\nchores: [{do: Sweep, takes: 5m, by: Ines, ahead: 2d", ""},
		"chore-not-so-early":  {"16:00-17:00", "{do: Cut, takes: 5m}]}]\nchores: [{do: Sweep, takes: 5m, by: Ines, ahead: 2h", refused},
		"another-windows-too": {"[10:00-10:05, 18:30-19:00]", "{do: Cut, takes: 20m, by: Ines, keeps: 1h}", ""},
	} {
		text := head + "kitchen: {cooks: [{name: Ines, free: " + c.free + "}, Tomas]}\ndishes: [{name: A, steps: [" + c.steps + "]}]"
		if strings.Contains(c.steps, "chores:") {
			text = strings.TrimSuffix(text, "]}]") + "}]"
		}
		if got := codes(text, Options{}); got != c.want {
			t.Errorf("%s: got %q, want %q", name, got, c.want)
		}
	}
}

func TestVessels(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct{ steps, want string }{
		"through-gaps": {"{id: a, do: A, takes: 5m, vessel: pot}, {id: b, do: B, takes: 5m}, {id: c, do: C, takes: 5m, vessel: pot}", ""},
		"two-branches": {"{id: a, do: A, takes: 5m, vessel: pot}, {id: b, do: B, takes: 5m, vessel: pot, after: none}, {id: c, do: C, takes: 5m, vessel: pot, after: [a, b]}", "vessel"},
		"one-goes-on": {"{id: a, do: A, takes: 5m, vessel: pot}, {id: b, do: B, takes: 5m, vessel: pot}, {id: x, do: X, takes: 5m, after: a}, {id: c, do: C, takes: 5m, vessel: pot, after: [b, x]}",
			""},
		"emptied-before": {"{id: a, do: A, takes: 5m, vessel: pot}, {id: b, do: B, takes: 5m, vessel: pot, after: none}, {id: c, do: C, takes: 5m, after: [a, b]}", ""},
		"enough":         {"{id: a, do: A, takes: 5m, vessel: bowl}, {id: b, do: B, takes: 5m, vessel: bowl, after: none}, {id: c, do: C, takes: 5m, vessel: bowl, after: [a, b]}", ""},
	} {
		text := head + "kitchen: {tools: {pot: 1, bowl: 2}}\ndishes: [{name: A, steps: [" + c.steps + "]}]"
		if got := codes(text, Options{}); got != c.want {
			t.Errorf("%s: got %q, want %q", name, got, c.want)
		}
	}
}

// A step's own dish comes first, then chores, then whatever is unique.
func TestReferencesToChores(t *testing.T) {
	t.Parallel()
	p := mustDecode(t, head+`
dishes:
  - {name: A, steps: ["Warm the plates, 5m", {do: Plate, takes: 5m, after: warm-the-plates}]}
  - {name: B, steps: ["Fill, 5m", {do: Plate, takes: 5m, after: [fill, warm-the-plates]}]}
  - {name: C, steps: ["Light the candles, 5m"]}
chores: ["Warm the plates, 6m", "Light the candles, 3m"]
`, Options{})
	var got []string
	for _, i := range []int{1, 3} {
		for _, l := range p.Steps[i].After {
			got = append(got, p.Steps[l.Step].ID)
		}
	}
	if diff := cmp.Diff([]string{"a/warm-the-plates", "b/fill", "warm-the-plates"}, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if i := p.StepIndex("light-the-candles"); i < 0 || p.Dishes[p.Steps[i].Dish].Chore == nil || p.StepIndex("c/light-the-candles") < 0 {
		t.Errorf("the chore's id: step %d", i)
	}
}

func TestKitchenFile(t *testing.T) {
	t.Parallel()
	const kitchen = "cooks: [Ines]\ntools: {pot: {count: 2, wash: 3m}}\ncold: {fridge: 4}\n"
	const text = head + "kitchen: our.yaml\ndishes: [{name: A, steps: [{do: B, takes: 5m, by: Ines, uses: {pot: 2}}]}]"
	asked := ""
	open := func(name string) ([]byte, error) { asked = name; return []byte(kitchen), nil }
	got := mustDecode(t, text, Options{Open: open})
	inline := strings.Replace(text, "kitchen: our.yaml", "kitchen:\n  "+strings.ReplaceAll(strings.TrimSpace(kitchen), "\n", "\n  "), 1)
	want := mustDecode(t, inline, Options{})
	noPos := cmp.Transformer("noPos", func(plan.Pos) string { return "" })
	if diff := cmp.Diff(want.Kitchen, got.Kitchen, noPos); diff != "" || asked != "our.yaml" {
		t.Errorf("opened %q (-inline +file):\n%s", asked, diff)
	}
	if got := codes(text, Options{}); got != "kitchen-file" {
		t.Errorf("without Open: %q", got)
	}
	gone := func(string) ([]byte, error) { return nil, fmt.Errorf("open our.yaml: %w", fs.ErrNotExist) }
	if got := codes(text, Options{Open: gone}); got != "kitchen-file" {
		t.Errorf("a file that is not there: %q", got)
	}
	_, problems := Decode([]byte(text), Options{Open: func(string) ([]byte, error) { return []byte("minds: 0\ncooks: [Ines]"), nil }})
	shown := Format("supper.yaml", []byte(text), problems)
	if want := "our.yaml:1:8: \"0\" is no whole number from 1 to 100\n  minds: 0\n         ^\n"; !strings.Contains(shown, want) {
		t.Errorf("got\n%swant\n%s", shown, want)
	}
	for _, bad := range []string{"", "\x00", "[", "- a", strings.Repeat("a", MaxBytes+1)} {
		_, problems := Decode([]byte(text), Options{Open: func(string) ([]byte, error) { return []byte(bad), nil }})
		if !problems.HasErrors() || problems[len(problems)-1].File != "our.yaml" {
			t.Errorf("%q: %v", short(bad), problems)
		}
	}
	_, problems = Decode([]byte(text), Options{Open: func(string) ([]byte, error) { return nil, errors.New("torn\x1b[31m") }})
	if strings.Contains(Format("p.yaml", []byte(text), problems), "\x1b") {
		t.Error("a control character is shown")
	}
}

// A window on an earlier day that a change of clocks touches is refused as one
// on the day itself.
func TestEarlierWindowsAndClocks(t *testing.T) {
	t.Parallel()
	// In Vienna clocks go back on 25 October 2026 at 03:00 (EU directive 2000/84/EC).
	const text = "kettledrum: 1\ntable: 2026-10-26 19:00\nzone: Europe/Vienna\nkitchen: {cooks: [{name: Ines, free: [FREE, Mon 18:00-19:00]}]}\ndishes: [{name: A, steps: ['B, 5m']}]"
	for free, want := range map[string]string{
		"-1d 02:30-06:00": "double-time", "Sun 22:00-02:30": "", "Sat 22:00-02:30": "double-time", "2026-10-25 02:00-04:00": "double-time", "Sun 03:00-04:00": "",
	} {
		if got := codes(strings.Replace(text, "FREE", free, 1), Options{}); got != want {
			t.Errorf("%s: got %q, want %q", free, got, want)
		}
	}
	p := mustDecode(t, strings.Replace(text, "FREE", "Sun 01:00-04:00", 1), Options{})
	if w := p.Kitchen.Cooks[0].Free[0]; w.To.Sub(w.From) != 4*time.Hour {
		t.Errorf("the night of the change lasts %v, want 4h", w.To.Sub(w.From))
	}
}
