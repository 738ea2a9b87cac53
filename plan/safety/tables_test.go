package safety

import (
	"fmt"
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/source"
)

// sheet reads a table of testdata: a copy that was made from the published charts,
// not from the tables of this package, in the notation of the charts.
func sheet(t *testing.T, name string) [][]string {
	t.Helper()
	text, err := os.ReadFile("testdata/" + name + ".txt")
	if err != nil {
		t.Fatal(err)
	}
	var rows [][]string
	for line := range strings.Lines(string(text)) {
		line = strings.TrimSpace(line)
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		cells := strings.Split(line, "|")
		for i := range cells {
			cells[i] = strings.TrimSpace(cells[i])
		}
		rows = append(rows, cells)
	}
	if len(rows) == 0 {
		t.Fatalf("testdata/%s.txt has no rows", name)
	}
	return rows
}

var quantity = regexp.MustCompile(`(\d+)(?:–(\d+))?\s*(mo|min|wk|d|h|s)\b`)

var quantities = map[string]time.Duration{"s": time.Second, "min": time.Minute, "h": time.Hour, "d": day, "wk": week, "mo": month}

// spanOf reads "3–4 d" or "12 mo".
func spanOf(text string) (s Span) {
	if m := quantity.FindStringSubmatch(text); m != nil {
		unit := quantities[m[3]]
		s.Low = time.Duration(number(m[1])) * unit
		s.High = s.Low
		if m[2] != "" {
			s.High = time.Duration(number(m[2])) * unit
		}
	}
	return s
}

func number(s string) float64 {
	x, err := strconv.ParseFloat(s, 64)
	if err != nil {
		panic(err)
	}
	return x
}

// kilogramsPerPound is exact: NIST SP 811 (2008), appendix B.8.
const kilogramsPerPound = 0.45359237

// marks are the letters of the sheets.
var marks = map[string]source.Mark{"P": source.Primary, "S": source.Secondary, "D": source.DataSet, "mem": source.Memory}

func markOf(cell string) source.Mark {
	return marks[regexp.MustCompile(`^(mem|[PSD])`).FindString(cell)]
}

// celsius checks a sheet's own conversion of a temperature in degrees Fahrenheit.
func celsius(t *testing.T, f float64, cell string) {
	t.Helper()
	if got := fmt.Sprintf("%.2f", float64(plan.FromFahrenheit(f))); got != cell {
		t.Errorf("%v °F is %s °C, the sheet says %s", f, got, cell)
	}
}

// FoodSafety.gov, Safe Minimum Internal Temperatures.
func TestMinimumsAreTheChart(t *testing.T) {
	t.Parallel()
	rows := sheet(t, "minimum")
	if len(rows) != len(minimums) {
		t.Errorf("the table has %d rows, the chart %d", len(minimums), len(rows))
	}
	for _, c := range rows {
		row, ok := Minimum(c[0])
		if !ok {
			t.Errorf("%s is missing", c[0])
			continue
		}
		if (c[1] == "cue") == row.HasTemp() {
			t.Errorf("%s: has a temperature: %v, the chart says %s", c[0], row.HasTemp(), c[1])
		}
		if row.HasTemp() {
			if strconv.Itoa(row.F) != c[1] {
				t.Errorf("%s is %d °F, the chart says %s", c[0], row.F, c[1])
			}
			celsius(t, float64(row.F), c[2])
		} else if row.Sign == "" {
			t.Errorf("%s has neither temperature nor sign", c[0])
		}
		if row.Rest != spanOf(c[3]).Low {
			t.Errorf("%s rests %v, the chart says %s", c[0], row.Rest, c[3])
		}
		if row.Source.Mark != markOf(c[4]) || row.Source.Name == "" {
			t.Errorf("%s is marked %q of %q, the sheet says %s", c[0], row.Source.Mark, row.Source.Name, c[4])
		}
	}
}

// FDA Food Code 2022. The sheet has alternatives in one row and leaves out what is
// said above it; here every rule is named in full.
func TestFoodCodeIsTheCode(t *testing.T) {
	t.Parallel()
	type rule struct {
		section, f, time string
		mark             source.Mark
	}
	var want []rule
	section := ""
	for _, c := range sheet(t, "foodcode") {
		if s, ok := strings.CutPrefix(c[0], "〃"); !ok {
			section = c[0]
		} else if strings.Contains(s, "alternatives") {
			fs, ts, ms := strings.Split(c[2], " / "), strings.Split(c[4], " / "), []source.Mark{source.Primary, source.Primary, source.Secondary}
			for i := range fs {
				want = append(want, rule{section, fs[i], ts[i], ms[i]})
			}
			continue
		}
		if section == "4-203.11" {
			if c[2] != fmt.Sprintf("±%d", ThermometerError) {
				t.Errorf("a thermometer is off by %d °F, the code says %s", ThermometerError, c[2])
			}
			continue
		}
		if first, second, two := strings.Cut(section, ","); two { // 3-403.11(A),(D): hot enough, and how fast
			want = append(want, rule{first, c[2], c[4], markOf(c[5])}, rule{"3-403.11" + second, "41→165", "≤2 h", markOf(c[5])})
			continue
		}
		want = append(want, rule{section, c[2], c[4], markOf(c[5])})
	}
	if len(want) != len(foodCodeRows) {
		t.Fatalf("the table has %d rules, the code %d", len(foodCodeRows), len(want))
	}
	for i, w := range want {
		got := foodCodeRows[i]
		if !strings.HasPrefix(got.Section, w.section) {
			t.Errorf("rule %d is %s, the code has %s", i, got.Section, w.section)
		}
		from, to, both := strings.Cut(w.f, "→")
		if !both {
			from, to = "", w.f
		}
		to = strings.TrimLeft(to, "≥≤")
		if to == "any" {
			to = "0"
		}
		if strconv.Itoa(got.F) != to || from != "" && strconv.Itoa(got.FromF) != from {
			t.Errorf("%s: %d → %d °F, the code says %s", got.Section, got.FromF, got.F, w.f)
		}
		d, stand := spanOf(w.time).Low, time.Duration(0)
		switch {
		case strings.HasPrefix(w.time, "+"):
			d, stand = 0, d
		case strings.HasPrefix(w.time, "<1 s"):
			d = instant
		}
		if got.Time != d || got.Stand != stand {
			t.Errorf("%s: %v and stands %v, the code says %s", got.Section, got.Time, got.Stand, w.time)
		}
		if limit := strings.HasPrefix(w.time, "≤") || strings.HasSuffix(w.time, " d"); got.AtMost != limit {
			t.Errorf("%s: at most is %v, the code says %s", got.Section, got.AtMost, w.time)
		}
		if got.Source.Mark != w.mark {
			t.Errorf("%s is marked %q, the sheet says %q", got.Section, got.Source.Mark, w.mark)
		}
	}
}

// FDA Food Code 2022, 3-401.11(B)(2).
func TestWholeRoastsAreTheCode(t *testing.T) {
	t.Parallel()
	rows := sheet(t, "roasts")
	if len(rows) != len(wholeRoasts) {
		t.Errorf("the table has %d rows, the code %d", len(wholeRoasts), len(rows))
	}
	for _, c := range rows {
		celsius(t, number(c[0]), c[1])
		d, ok := roastTime(plan.FromFahrenheit(number(c[0])))
		if !ok || d != spanOf(c[2]).Low {
			t.Errorf("%s °F: %v, the code says %s", c[0], d, c[2])
		}
	}
	if _, ok := roastTime(plan.FromFahrenheit(129)); ok {
		t.Error("129 °F has a time, the code begins at 130")
	}
	if d, _ := roastTime(plan.FromFahrenheit(137)); d != 28*time.Minute {
		t.Errorf("137 °F: %v, want the 28 min of 136", d)
	}
}

// Worked dates of the Southern Nevada Health District on section 3-501.17: made on
// 1 April, the last day is 7 April; made on 1 June, used in a dish on 3 June, it
// keeps 7 June.
func TestUseByCountsTheFirstDay(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ made, last string }{{"2026-04-01", "2026-04-07"}, {"2026-06-01", "2026-06-07"}} {
		made, err := time.Parse(time.DateOnly, c.made)
		if err != nil {
			t.Fatal(err)
		}
		if got := UseBy(made).Format(time.DateOnly); got != c.last {
			t.Errorf("made %s: use by %s, want %s", c.made, got, c.last)
		}
	}
}

// FoodSafety.gov, Cold Food Storage Chart; USDA FSIS FoodKeeper data.
func TestStorageIsTheChart(t *testing.T) {
	t.Parallel()
	rows := sheet(t, "storage")
	if len(rows) != len(storage) {
		t.Errorf("the table has %d rows, the chart %d", len(storage), len(rows))
	}
	planOn := regexp.MustCompile(`plan on (\d+)`)
	for _, c := range rows {
		row, ok := Storage(c[0])
		if !ok {
			t.Errorf("%s is missing", c[0])
			continue
		}
		if want := spanOf(c[1]); row.Fridge != want || want == (Span{}) {
			t.Errorf("%s keeps %v in the refrigerator, the chart says %s", c[0], row.Fridge, c[1])
		}
		if row.UseBy != strings.Contains(c[1], "use-by") {
			t.Errorf("%s: use-by is %v, the chart says %s", c[0], row.UseBy, c[1])
		}
		if row.Freezer != spanOf(c[2]) || row.NoFreeze != strings.HasPrefix(c[2], "no") {
			t.Errorf("%s keeps %v in the freezer (never: %v), the chart says %s", c[0], row.Freezer, row.NoFreeze, c[2])
		}
		limit := row.Fridge.Low
		if m := planOn.FindStringSubmatch(c[3]); m != nil {
			limit = time.Duration(number(m[1])) * day
		}
		if row.Limit() != limit {
			t.Errorf("%s: plan on %v, the sheet says %v (%s)", c[0], row.Limit(), limit, c[3])
		}
		if want := markOf(c[3]); want != "" && row.Source.Mark != want {
			t.Errorf("%s is marked %q, the sheet says %s", c[0], row.Source.Mark, c[3])
		}
	}
}

// USDA FSIS, The Big Thaw.
func TestThawingIsTheBigThaw(t *testing.T) {
	t.Parallel()
	rows := sheet(t, "thawing")
	if len(rows) != len(thawing) {
		t.Fatalf("the table has %d rows, the page %d", len(thawing), len(rows))
	}
	for i, c := range rows {
		row := thawing[i]
		if !strings.HasPrefix(c[0], row.Method) || !strings.HasPrefix(c[1], row.Rate) {
			t.Errorf("%s: %s, the page says %s: %s", row.Method, row.Rate, c[0], c[1])
		}
		if row.CookAtOnce != strings.Contains(c[2], "cook at once") || row.Never != (c[1] == "never") {
			t.Errorf("%s: at once %v, never %v, the page says %s, %s", row.Method, row.CookAtOnce, row.Never, c[1], c[2])
		}
		if strings.Contains(c[2], "poultry") {
			poultry, red, _ := strings.Cut(c[2], ";")
			if row.ThenPoultry != spanOf(poultry) || row.ThenRed != spanOf(red) {
				t.Errorf("%s: then %v and %v, the page says %s", row.Method, row.ThenPoultry, row.ThenRed, c[2])
			}
		}
		if row.Source.Mark != markOf(c[3]) {
			t.Errorf("%s is marked %q, the sheet says %s", row.Method, row.Source.Mark, c[3])
		}
	}
	// The rates as the formulas have them: 24 h per 4–5 lb, 30 min per lb, 1.5 times.
	if want := fmt.Sprintf("24 h per %d–%d lb", ThawPoundsLow, ThawPoundsHigh); !strings.HasPrefix(rows[0][1], want) {
		t.Errorf("the page says %s, the formula has %s", rows[0][1], want)
	}
	if got := ThawWaterPerPound.Minutes() / kilogramsPerPound; math.Abs(got-66.1) > 0.05 {
		t.Errorf("cold water takes %.2f min a kilogram, the page says 66.1", got)
	}
	if !strings.Contains(rows[3][1], fmt.Sprint(FrozenFactor)) {
		t.Errorf("from frozen %v times, the page says %s", FrozenFactor, rows[3][1])
	}
	if ThawFridge(1) != day {
		t.Errorf("a pound takes %v in the refrigerator, small packs still need a day", ThawFridge(1))
	}
	if d := ThawWater(1); d > time.Hour {
		t.Errorf("a pound takes %v in cold water, an hour at most", d)
	}
	for lb, most := range map[float64]time.Duration{3: 2 * time.Hour, 4: 3 * time.Hour} {
		if d := ThawWater(lb); d > most {
			t.Errorf("%v lb take %v in cold water, at most %v", lb, d, most)
		}
	}
}

// USDA FSIS, The Big Thaw, whole turkeys: the bands, and the formulas at their ends.
func TestTurkeysAreTheBigThaw(t *testing.T) {
	t.Parallel()
	rows := sheet(t, "turkeys")
	if len(rows) != len(turkeys) {
		t.Fatalf("the table has %d rows, the page %d", len(turkeys), len(rows))
	}
	for i, c := range rows {
		row := turkeys[i]
		if got := fmt.Sprintf("%d–%d", row.FromLb, row.ToLb); got != c[0] {
			t.Errorf("row %d is %s lb, the page says %s", i, got, c[0])
		}
		if got := fmt.Sprintf("%.2f–%.2f", float64(row.FromLb)*kilogramsPerPound, float64(row.ToLb)*kilogramsPerPound); got != c[1] {
			t.Errorf("%s lb is %s kg, the sheet says %s", c[0], got, c[1])
		}
		if row.Fridge != spanOf(c[2]) || row.Water != spanOf(c[3]) {
			t.Errorf("%s lb: %v and %v, the page says %s and %s", c[0], row.Fridge, row.Water, c[2], c[3])
		}
		if d := ThawFridge(float64(row.ToLb)); d != row.Fridge.High {
			t.Errorf("%d lb take %v in the refrigerator by the formula, %v by the page", row.ToLb, d, row.Fridge.High)
		}
		for _, end := range []struct {
			lb   int
			want time.Duration
		}{{row.FromLb, row.Water.Low}, {row.ToLb, row.Water.High}} {
			if d := ThawWater(float64(end.lb)); d != end.want {
				t.Errorf("%d lb take %v in cold water by the formula, %v by the page", end.lb, d, end.want)
			}
		}
	}
}

// Food Standards Agency.
func TestBritishCoresAreTheAgencys(t *testing.T) {
	t.Parallel()
	want := map[string]string{}
	for _, c := range sheet(t, "uk") {
		want[c[0]] = spanOf(c[1]).Low.String()
	}
	if len(want) != len(ukCores) {
		t.Errorf("the table has %d rows, the agency %d", len(ukCores), len(want))
	}
	for _, r := range ukCores {
		if got := r.Time.String(); got != want[strconv.Itoa(r.C)] {
			t.Errorf("%d °C for %s, the agency says %s", r.C, got, want[strconv.Itoa(r.C)])
		}
	}
}

// USDA FSIS, Danger Zone: exactly 90 °F is still two hours, above it is one.
func TestNinetyDegreesAreNotYetWarm(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		f    float64
		want time.Duration
	}{{70, 2 * time.Hour}, {90, 2 * time.Hour}, {91, time.Hour}} {
		if got := outOfControl(plan.FromFahrenheit(c.f).Fahrenheit()); got != c.want {
			t.Errorf("at %v °F: %v, want %v", c.f, got, c.want)
		}
	}
}
