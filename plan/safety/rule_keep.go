package safety

import (
	"fmt"
	"slices"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/source"
)

// keeps looks at how long food lies in the refrigerator, and how warm a warm oven is.
func (f *finder) keeps() {
	told := map[int]bool{}
	for _, i := range f.order {
		s, b := &f.p.Steps[i], &f.points[i]
		if f.chore(i) || f.skipped(i) {
			continue
		}
		f.warm(i)
		if told[s.Dish] || !b.kinds.spoils(b.cooked) {
			continue
		}
		row, ok := f.keepsFor(i)
		if !ok {
			continue
		}
		limit := row.Limit()
		last := max(limit, row.Fridge.High)
		planned, may := f.chilled(i)
		advice := "the chart says " + span(limit, last) + " for " + row.Food
		switch {
		case planned > limit:
			told[s.Dish] = true
			f.add("fridge-time", i, fmt.Sprintf("planned to lie %s in the refrigerator; %s", long(planned), advice), "make it later"+freeze(row)+thrown(planned, last), row.Source)
		case may > last:
			told[s.Dish] = true
			f.add("fridge-time", i, fmt.Sprintf("may lie %s in the refrigerator by the plan; %s", long(may), advice), "write no more than "+long(limit)+freeze(row), row.Source)
		}
	}
}

// freeze says how long food keeps well frozen.
func freeze(r StorageRow) string {
	if r.Freezer == (Span{}) {
		return ""
	}
	low, high := int(r.Freezer.Low/month), int(r.Freezer.High/month)
	if low == high {
		return ", or freeze it (" + count(low, "month") + ", for its quality)"
	}
	return fmt.Sprintf(", or freeze it (%d to %d months, for its quality)", low, high)
}

func thrown(planned, last time.Duration) string {
	if planned > last {
		return "; past " + long(last) + " it is thrown away"
	}
	return ""
}

// chilled returns how long the food of a step lies in the refrigerator until it is
// next heated or served, by the timetable, and by what the step allows.
func (f *finder) chilled(i int) (planned, may time.Duration) {
	b, s := &f.points[i], &f.p.Steps[i]
	planned = b.chill
	if inCold(s) == "fridge" && !says(s.Do, thawWords...) && s.Length.Longest != plan.Forever {
		may = s.Length.Longest
	}
	if s.Keeps.Place != "fridge" {
		return planned, may
	}
	may = s.Keeps.For
	longest := time.Duration(0)
	for _, j := range f.followers[i] {
		longest = max(longest, f.gap(i, j))
	}
	if f.last(i) {
		longest = f.toTable(i)
	}
	return planned + longest, may
}

// keepsFor returns the row for the food of a step; of what is cooked and has none the
// Food Code's week. ok is false where nothing is published.
func (f *finder) keepsFor(i int) (row StorageRow, ok bool) {
	if row, ok = Storage(f.storageRow(i)); ok {
		if f.p.Rules == "uk" && row.ID == "rice-cooked" {
			row.Fridge, row.PlanOn, row.Source = Span{ukRice, ukRice}, 0, fsa(source.Memory)
		}
		return row, true
	}
	if !f.points[i].cooked {
		return StorageRow{}, false
	}
	k := slices.IndexFunc(foodCodeRows, func(r CodeRow) bool { return r.Section == "3-501.17" })
	// By days of the calendar: the day it is made is the first.
	made := f.t.Slots[i].Start.Add(-f.points[i].chillBefore).In(f.p.Table.Location())
	y, m, d := UseBy(made).Date()
	week := time.Date(y, m, d+1, 0, 0, 0, 0, made.Location()).Sub(made).Truncate(day)
	return StorageRow{Food: "food that is ready to eat", Fridge: Span{week, week}, Source: foodCodeRows[k].Source}, true
}

// rowsCooked and rowsRaw are the rows of the storage chart by kind, the first that
// fits.
var rowsCooked = []struct {
	kind kind
	row  string
}{
	{quiche, "quiche"}, {casserole, "casserole"}, {soup, "soup-stew"}, {seafood, "fish-cooked"}, {ham, "ham-slices"}, {meats, "cooked-meat"},
	{stock, "gravy-broth"}, {custard, "egg-dish"}, {rice, "rice-cooked"}, {pasta, "pasta-cooked"},
}

var rowsRaw = []struct {
	kind kind
	row  string
}{
	{ground, "ground-raw"}, {sausage, "sausage-raw"}, {poultry, "poultry-whole-raw"}, {bivalve, "bivalve-live"}, {crustacean, "shrimp"},
	{scallop, "squid-scallop"}, {fish, "fish-fatty"}, {ham, "ham-fresh-raw"}, {redMeat | pork, "roast-raw"},
}

// storageRow returns the id of the row for the food of a step, empty for none.
func (f *finder) storageRow(i int) string {
	b, s := &f.points[i], &f.p.Steps[i]
	name := f.p.Dishes[s.Dish].Name
	switch {
	case b.cooked && b.kinds&egg != 0 && b.kinds&(cookedSpoils|custard) == 0 && f.hardEggs(i):
		return "egg-hard"
	case b.cooked && says(name, "salad") && b.kinds&(meats|seafood|egg|pasta) != 0:
		return "salad-protein"
	case b.cooked && says(name, "pumpkin pie", "pecan pie"):
		return "pie-pumpkin"
	case b.cooked && says(name, "custard pie", "cream pie", "chiffon pie"):
		return "pie-custard"
	case b.cooked && says(name, "soup", "stew", "ragu", "curry"):
		return "soup-stew"
	case !b.cooked && says(s.Do, "stuff", "stuffed", "stuffing") && b.kinds&meats != 0:
		return "stuffed-raw"
	case !b.cooked && says(s.Do, "whip the cream", "whip cream", "whipped cream"):
		return "whipped-cream"
	case !b.cooked && b.kinds&(meats|seafood) == 0 && says(s.Do, "yolk", "egg white", "whites"):
		return "egg-parts"
	}
	rows := rowsCooked
	if !b.cooked {
		rows = rowsRaw
	}
	for _, r := range rows {
		if b.kinds&r.kind != 0 {
			return r.row
		}
	}
	if b.cooked && b.kinds&egg != 0 && b.kinds&keepers == 0 {
		return "egg-dish"
	}
	return ""
}

// hardEggs reports whether the dish has a step that boils eggs.
func (f *finder) hardEggs(i int) bool {
	for _, j := range f.p.Dishes[f.p.Steps[i].Dish].Steps {
		if s := &f.p.Steps[j]; heats(s) && says(s.Do, "egg") && says(s.Do, "boil", "hard boil") {
			return true
		}
	}
	return false
}

// warm looks whether an oven that keeps food warm keeps it hot enough.
func (f *finder) warm(i int) {
	s := &f.p.Steps[i]
	if s.Keeps.Place != "oven" || s.Keeps.Warm == nil {
		return
	}
	least := plan.FromFahrenheit(HotF)
	if f.p.Rules == "uk" {
		least = ukHotHold
	}
	if b := &f.points[i]; b.kinds.spoils(b.cooked) && s.Keeps.Warm.Lo < least-0.5 {
		f.add("hot-hold", i, fmt.Sprintf("it may keep warm at %s; what stays hot stays at %s or above", f.temp(s.Keeps.Warm.Lo), f.temp(least)),
			"write a range that begins at "+f.temp(least)+" or above")
	}
}
