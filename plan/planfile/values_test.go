package planfile

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan"
)

const (
	second = time.Second
	minute = time.Minute
	hour   = time.Hour
	day    = 24 * time.Hour
)

// sameHeat compares temperatures as closely as their arithmetic allows.
var sameHeat = cmp.Comparer(func(a, b plan.Celsius) bool { return apart(a, b) < 1e-9 })

// wantErr checks err against a part of its text; an empty part means no error.
func wantErr(t *testing.T, in string, err error, part string) bool {
	t.Helper()
	switch {
	case part == "" && err != nil:
		t.Errorf("%q: unexpected error: %v", in, err)
	case part != "" && err == nil:
		t.Errorf("%q: no error, want one with %q", in, part)
	case part != "" && !strings.Contains(err.Error(), part):
		t.Errorf("%q: error %q, want one with %q", in, err, part)
	}
	return part == "" && err == nil
}

func TestDuration(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		in   string
		want time.Duration
		err  string
	}{
		{"8m", 8 * minute, ""},
		{"1h30m", hour + 30*minute, ""},
		{"1h 30m", hour + 30*minute, ""},
		{" 90s ", 90 * second, ""},
		{"3d", 3 * day, ""},
		{"2w", 14 * day, ""},
		{"1mo", 30 * day, ""},
		{"1mo2w3d4h5m6s", 30*day + 14*day + 3*day + 4*hour + 5*minute + 6*second, ""},
		{"1.5h", 90 * minute, ""},
		{"0m", 0, ""},
		{"8", 0, "write 8m for minutes"},
		{"30 min", 0, "write 30m"},
		{"2 hours", 0, "write 2h"},
		{"30m1h", 0, "long to short"},
		{"1h1h", 0, "long to short"},
		{"", 0, "no duration"},
		{"soon", 0, "no duration"},
		{"-5m", 0, "no duration"},
		{"1h30", 0, "no duration"},
		{"5M", 0, "no duration"},
		{"99999999999999999999w", 0, "longer than two years"},
		{strings.Repeat("9", 400) + "s", 0, "longer than two years"},
	} {
		got, err := Duration(c.in)
		if wantErr(t, c.in, err, c.err) && got != c.want {
			t.Errorf("%q: got %v, want %v", c.in, got, c.want)
		}
	}
}

func TestTakes(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		in                        string
		shortest, likely, longest time.Duration
		err                       string
	}{
		{"8m", 8 * minute, 8 * minute, 8 * minute, ""},
		{"25-35m", 25 * minute, 30 * minute, 35 * minute, ""},
		{"25–35m", 25 * minute, 30 * minute, 35 * minute, ""},
		{"25m-35m", 25 * minute, 30 * minute, 35 * minute, ""},
		{"25m to 35m", 25 * minute, 30 * minute, 35 * minute, ""},
		{"30m (25m-45m)", 25 * minute, 30 * minute, 45 * minute, ""},
		{"3h30m (3h-4h15m)", 3 * hour, 3*hour + 30*minute, 4*hour + 15*minute, ""},
		{"30", 0, 0, 0, "no unit"},
		{"25-35", 0, 0, 0, "no unit"},
		{"1-1h30m", 0, 0, 0, "both ends with a unit"},
		{"35-25m", 0, 0, 0, "from long to short"},
		{"20m (25m-45m)", 0, 0, 0, "not within"},
		{"50m (25m-45m)", 0, 0, 0, "not within"},
		{"30m (25m)", 0, 0, 0, "no range"},
		{"0m", 0, 0, 0, "takes no time"},
		{"30m (", 0, 0, 0, "no duration"},
	} {
		got, err := takes(c.in)
		want := plan.Length{Shortest: c.shortest, Likely: c.likely, Longest: c.longest}
		if wantErr(t, c.in, err, c.err) && got != want {
			t.Errorf("%q: got %+v, want %+v", c.in, got, want)
		}
	}
}

func TestWaits(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		in                string
		shortest, longest time.Duration
		cold              string
		places            int
		err               string
	}{
		{"10m to 20m", 10 * minute, 20 * minute, "", 0, ""},
		{"10-20m", 10 * minute, 20 * minute, "", 0, ""},
		{"0m to 20m", 0, 20 * minute, "", 0, ""},
		{"20m", 20 * minute, 20 * minute, "", 0, ""},
		{"at least 2h", 2 * hour, plan.Forever, "", 0, ""},
		{"at least 2", 0, 0, "", 0, "no unit"},
		{"20m to 10m", 0, 0, "", 0, "from long to short"},
		{"2h to 2d in fridge", 2 * hour, 2 * day, "fridge", 1, ""},
		{"2h to 2d in the fridge (2 places)", 2 * hour, 2 * day, "fridge", 2, ""},
		{"at least 2h in freezer", 2 * hour, plan.Forever, "freezer", 1, ""},
		{"2h to 2d in frdge", 0, 0, "", 0, "did you mean fridge?"},
		{"2h to 2d in cellar", 0, 0, "", 0, "no place"},
		{"2h to 2d in fridge (two places)", 0, 0, "", 0, "write it like fridge (2 places)"},
		{"2h to 2d in fridge (0 places)", 0, 0, "", 0, "whole number from 1"},
		{"2h in oven at 170F", 0, 0, "", 0, "has `oven`"},
		{"2 in fridge", 0, 0, "", 0, "no unit"},
		{"0m", 0, 0, "", 0, "no wait"},
	} {
		got, err := waits(c.in)
		want := wait{plan.Length{Elastic: true, Shortest: c.shortest, Likely: c.shortest, Longest: c.longest}, c.cold, c.places}
		if wantErr(t, c.in, err, c.err) && got != want {
			t.Errorf("%q: got %+v, want %+v", c.in, got, want)
		}
	}
}

func TestKeeps(t *testing.T) {
	t.Parallel()
	liking := func(d, most time.Duration) plan.Keep {
		return plan.Keep{Kind: plan.Liking, For: d, AtMost: most}
	}
	cold := func(d time.Duration, where string) plan.Keep {
		return plan.Keep{Kind: plan.Limit, For: d, AtMost: d, Place: where, Places: 1}
	}
	f := plan.FromFahrenheit
	oven := func(d time.Duration, at, lo, hi plan.Celsius) plan.Keep {
		return plan.Keep{Kind: plan.Limit, For: d, AtMost: d, Place: "oven", Warm: &plan.Bake{In: -1, Space: 2, At: at, Lo: lo, Hi: hi}}
	}
	for _, c := range []struct {
		in   string
		want plan.Keep
		err  string
	}{
		{"20m", liking(20*minute, 50*minute), ""},
		{"5m", liking(5*minute, 20*minute), ""},
		{"55m", liking(55*minute, 2*hour), ""},
		{"1h", liking(hour, 2*hour), ""},
		{"3h", liking(3*hour, 3*hour), ""},
		{"5m (15m at most)", liking(5*minute, 15*minute), ""},
		{"1h (4h at most)", liking(hour, 4*hour), ""},
		{"3d in fridge", cold(3*day, "fridge"), ""},
		{"3d in the fridge", cold(3*day, "fridge"), ""},
		{"1mo in freezer", cold(30*day, "freezer"), ""},
		{"freely", plan.Keep{}, ""},
		{"20", plan.Keep{}, "no unit"},
		{"15m (5m at most)", plan.Keep{}, "shorter than"},
		{"5m (15m)", plan.Keep{}, "at most"},
		{"3d in cellar", plan.Keep{}, "no place"},
		{"3d in frige", plan.Keep{}, "did you mean fridge?"},
		{"3d in fridge (2 places)", plan.Keep{Kind: plan.Limit, For: 3 * day, AtMost: 3 * day, Place: "fridge", Places: 2}, ""},
		{"3d in fridge (1 place)", cold(3*day, "fridge"), ""},
		{"3d in fridge (0 places)", plan.Keep{}, "whole number from 1"},
		{"3d in fridge (much)", plan.Keep{}, "write it like fridge (2 places)"},
		{"1h in oven at 170-200F", oven(hour, (f(170)+f(200))/2, f(170), f(200)), ""},
		{"1h in the oven at 200F (93C)", oven(hour, f(200), f(200)-plan.DialError, f(200)+plan.DialError), ""},
		{"1h in oven at 200F (80C)", plan.Keep{}, "a slip"},
		{"1h in oven", plan.Keep{}, "how warm"},
		{"1h in oven at 200", plan.Keep{}, "no unit"},
		{"1h in oven at 900F", plan.Keep{}, "no oven"},
		{"freely in fridge", plan.Keep{}, "no duration"},
	} {
		got, err := keeps(c.in)
		if !wantErr(t, c.in, err, c.err) {
			continue
		}
		if diff := cmp.Diff(c.want, got, sameHeat); diff != "" {
			t.Errorf("%q (-want +got):\n%s", c.in, diff)
		}
	}
}

// Exact degrees: C = (F − 32)·5/9. Gas marks: sizes.com/units/gas_mark.htm.
func TestOvenTemperature(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		in         string
		at, lo, hi float64
		err        string
	}{
		{"400F", 204.44, 199.44, 209.44, ""},
		{"400 °F", 204.44, 199.44, 209.44, ""},
		{"204C", 204, 199, 209, ""},
		{"375-400F", 197.5, 190.56, 204.44, ""},
		{"190C to 200C", 195, 190, 200, ""},
		{"400F (204C)", 204.44, 199.44, 209.44, ""}, // common practice
		{"375F (191C)", 190.56, 185.56, 195.56, ""}, // common practice
		{"400F (200C)", 204.44, 199.44, 209.44, ""},
		{"375-400F (190-205C)", 197.5, 190.56, 204.44, ""},
		{"gas mark 5", 190.56, 185.56, 195.56, ""},
		{"Gas Mark 1/4", 107.22, 102.22, 112.22, ""},
		{"gas ½", 121.11, 116.11, 126.11, ""},
		{"gas mark 10", 260, 255, 265, ""},
		{"gas mark 11", 0, 0, 0, "from 1/4 to 10"},
		{"400", 0, 0, 0, "no unit"},
		{"400-375F", 0, 0, 0, "from hot to cool"},
		{"400F (195C)", 0, 0, 0, "a slip"},
		{"400F (400C)", 0, 0, 0, "is 204C, not 400C"},
		{"200C (400F)", 200, 195, 205, ""},
		{"200C (350F)", 0, 0, 0, "is 392F, not 350F"},
		{"400C", 0, 0, 0, "no oven"},
		{"10F", 0, 0, 0, "no oven"},
		{"hot", 0, 0, 0, "no temperature"},
		{"400F (hot)", 0, 0, 0, "no temperature"},
	} {
		at, lo, hi, err := ovenTemperature(c.in)
		if !wantErr(t, c.in, err, c.err) {
			continue
		}
		for i, got := range []plan.Celsius{at, lo, hi} {
			if want := []float64{c.at, c.lo, c.hi}[i]; math.Abs(float64(got)-want) > 0.006 {
				t.Errorf("%q: got %.2f, %.2f, %.2f, want %.2f, %.2f, %.2f", c.in, at, lo, hi, c.at, c.lo, c.hi)
				break
			}
		}
	}
}

func TestUntil(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		in   string
		temp float64 // 0: none
		sign string
		err  string
	}{
		{"165F", 73.89, "", ""},
		{"155F (68C)", 68.33, "", ""}, // common practice
		{"deep amber", 0, "deep amber", ""},
		{"golden, about 2 cm risen", 0, "golden, about 2 cm risen", ""},
		{"165F, juices run clear", 73.89, "juices run clear", ""},
		{"165F and juices run clear", 73.89, "juices run clear", ""},
		{"145F, or flaking under a fork", 62.78, "flaking under a fork", ""},
		{"63C or flaking", 63, "flaking", ""},
		{"155F (202C)", 0, "", "is 68F"},
		{"165", 0, "", "no unit"},
		{"130-135F", 0, "", "is a range"},
		{"900F", 0, "", "no food"},
		{"centre at 145F", 0, "", "not first"},
		{"juices run clear, 165F", 0, "", "not first"},
	} {
		got, err := until(c.in)
		if c.err == "is 68F" {
			c.err = "is 68C, not 202C"
		}
		if !wantErr(t, c.in, err, c.err) {
			continue
		}
		if got.HasTemp != (c.temp != 0) || math.Abs(float64(got.Temp)-c.temp) > 0.006 || got.Sign != c.sign {
			t.Errorf("%q: got %+v, want %.2f and %q", c.in, got, c.temp, c.sign)
		}
	}
}

func TestBurner(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		in   string
		want plan.BurnerUse
		err  string
	}{
		{"large", plan.BurnerUse{Size: plan.Large, Count: 1}, ""},
		{"small", plan.BurnerUse{Size: plan.Small, Count: 1}, ""},
		{"any", plan.BurnerUse{Size: plan.AnyBurner, Count: 1}, ""},
		{"2 large", plan.BurnerUse{Size: plan.Large, Count: 2}, ""},
		{"0 large", plan.BurnerUse{}, "whole number"},
		{"2", plan.BurnerUse{}, "no burner"},
		{"huge", plan.BurnerUse{}, "no burner"},
	} {
		got, err := burner(c.in)
		if wantErr(t, c.in, err, c.err) && got != c.want {
			t.Errorf("%q: got %+v, want %+v", c.in, got, c.want)
		}
	}
}

func TestSpace(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		in   string
		want int
		err  string
	}{
		{"half", 1, ""}, {"shelf", 2, ""}, {"a shelf", 2, ""}, {"1", 2, ""}, {"2", 4, ""},
		{"1.5", 3, ""}, {"2 shelves", 4, ""}, {"0.5", 1, ""},
		{"0", 0, "no space"}, {"-1", 0, "no space"}, {"all", 0, "no space"},
	} {
		got, err := space(c.in)
		if wantErr(t, c.in, err, c.err) && got != c.want {
			t.Errorf("%q: got %d, want %d", c.in, got, c.want)
		}
	}
}

func TestRemind(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		in   string
		want plan.Remind
		err  string
	}{
		{"every 30m: baste", plan.Remind{When: plan.Every, For: 30 * minute, Text: "baste"}, ""},
		{"every 1h30m: baste and turn", plan.Remind{When: plan.Every, For: 90 * minute, Text: "baste and turn"}, ""},
		{"halfway: turn the tray", plan.Remind{When: plan.Halfway, Text: "turn the tray"}, ""},
		{"5m before end: warm the plates", plan.Remind{When: plan.BeforeEnd, For: 5 * minute, Text: "warm the plates"}, ""},
		{"5m before the end:  warm  them: all", plan.Remind{When: plan.BeforeEnd, For: 5 * minute, Text: "warm them: all"}, ""},
		{"every 30m", plan.Remind{}, "after a colon"},
		{"every 30m: ", plan.Remind{}, "after a colon"},
		{"every 30: baste", plan.Remind{}, "no unit"},
		{"every 0m: baste", plan.Remind{}, "a minute at least"},
		{"0m before end: baste", plan.Remind{}, "a minute at least"},
		{"evry 30m: baste", plan.Remind{}, "did you mean every?"},
		{"half-way: baste", plan.Remind{}, "did you mean halfway?"},
		{"at noon: baste", plan.Remind{}, "no time within a step"},
		{"soon before end: baste", plan.Remind{}, "no duration"},
	} {
		got, err := remind(c.in)
		if wantErr(t, c.in, err, c.err) && got != c.want {
			t.Errorf("%q: got %+v, want %+v", c.in, got, c.want)
		}
	}
}

func TestRoom(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		in   string
		want plan.Celsius
		err  string
	}{
		{"20C", 20, ""}, {"68F (20C)", 20, ""}, {"20", 0, "no unit"}, {"70C", 0, "no kitchen"},
		{"-5C", 0, "no kitchen"}, {"18-22C", 0, "a range"}, {"68F (25C)", 0, "a slip"},
	} {
		got, err := room(c.in)
		if wantErr(t, c.in, err, c.err) && apart(got, c.want) > 1e-9 {
			t.Errorf("%q: got %v, want %v", c.in, got, c.want)
		}
	}
}

func TestFood(t *testing.T) {
	t.Parallel()
	for in, part := range map[string]string{
		"poultry": "", "whole-red": "", "Poultry": "did you mean poultry?", "whole red": "did you mean whole-red?", "cake": "it has whole-red, ",
	} {
		_, err := food(in)
		wantErr(t, in, err, part)
	}
}

func TestRamps(t *testing.T) {
	t.Parallel()
	got, err := preheat("12m to 350F")
	if err != nil || got != plan.DefaultPreheat {
		t.Errorf("preheat: got %+v, %v, want the default", got, err)
	}
	got, err = cools("14m from 425F to 350F")
	if err != nil || got != plan.DefaultCools {
		t.Errorf("cools: got %+v, %v, want the default", got, err)
	}
	for in, part := range map[string]string{
		"12m": "how hot", "12 to 350F": "no unit", "12m to 350": "no unit", "12m to 300C": "all that an oven",
		"12m to 300-350F": "a range", "10s to 350F": "no time for an oven",
	} {
		_, err := preheat(in)
		wantErr(t, in, err, part)
	}
	for in, part := range map[string]string{
		"14m": "from where to where", "14m from 350F to 425F": "not cooling", "14m from 425F": "from where to where",
	} {
		_, err := cools(in)
		wantErr(t, in, err, part)
	}
}

func TestSlug(t *testing.T) {
	t.Parallel()
	for in, want := range map[string]string{
		"Boil the potatoes":             "boil-the-potatoes",
		"  Crème brûlée, Ines's way!":   "creme-brulee-iness-way",
		"Rødgrød med fløde":             "rodgrod-med-flode",
		"Weißwürste & süßer Senf":       "weisswurste-susser-senf",
		"Żurek z białą kiełbasą":        "zurek-z-biala-kielbasa",
		"Œufs à la neige":               "oeufs-a-la-neige",
		"İrmik helvası":                 "irmik-helvasi",
		"Bake at 200 (twice)":           "bake-at-200-twice",
		"½ cup":                         "1-2-cup",
		"---":                           "",
		"ラーメン":                          "ラーメン",
		"cre\u0300me and cr\u00e8me":    "creme-and-creme",
		"Mix   well\tand\nfold -- then": "mix-well-and-fold-then",
	} {
		if got := slug(in); got != want {
			t.Errorf("%q: got %q, want %q", in, got, want)
		}
	}
}

func TestNearest(t *testing.T) {
	t.Parallel()
	steps := keys[inStep]
	for in, want := range map[string]string{
		"tkaes": "takes", "take": "takes", "brner": "burner", "ovne": "oven", "atonce": "at_once",
		"at-once": "at_once", "keep": "keeps", "hand": "hands", "d": "", "temperature": "", "x": "", "": "",
	} {
		if got, _ := nearest(in, steps, 3); got != want {
			t.Errorf("%q: got %q, want %q", in, got, want)
		}
	}
}
