package safety

import (
	"time"

	"example.org/kettledrum/plan/source"
)

// Span is a range of times; of a single one both are the same. Zero: none.
type Span struct{ Low, High time.Duration }

// StorageRow is one row of the consumer's chart of cold storage, for a refrigerator
// at 40 °F or below and a freezer at 0 °F or below. Time in the freezer is a matter
// of quality only: frozen food stays safe.
type StorageRow struct {
	ID, Food string
	Fridge   Span
	// PlanOn is what to plan on where sources disagree, 0 for the low end of Fridge;
	// past the high end it is thrown away.
	PlanOn time.Duration
	// UseBy: or the date on the packet.
	UseBy    bool
	Freezer  Span
	NoFreeze bool
	Note     string // where sources disagree
	Source   source.Source
}

// Limit is how long to plan on in the refrigerator.
func (r StorageRow) Limit() time.Duration {
	if r.PlanOn > 0 {
		return r.PlanOn
	}
	return r.Fridge.Low
}

const (
	week  = 7 * day
	month = 30 * day
)

func days(low, high int) Span   { return Span{time.Duration(low) * day, time.Duration(high) * day} }
func weeks(low, high int) Span  { return Span{time.Duration(low) * week, time.Duration(high) * week} }
func months(low, high int) Span { return Span{time.Duration(low) * month, time.Duration(high) * month} }

func coldChart(m source.Mark) source.Source {
	if m == source.DataSet {
		return cite("USDA FSIS, FoodKeeper data", "", m)
	}
	return cite("FoodSafety.gov, Cold Food Storage Chart", "", m)
}

// Storage returns the row of the chart of an id; false where there is none.
func Storage(id string) (StorageRow, bool) {
	for _, r := range storage {
		if r.ID == id {
			return r, true
		}
	}
	return StorageRow{}, false
}

var storage = []StorageRow{
	{ID: "soup-stew", Food: "soups and stews, with vegetables or meat", Fridge: days(3, 4), Freezer: months(2, 3), Source: coldChart(source.Secondary)},
	{ID: "cooked-meat", Food: "cooked meat or poultry", Fridge: days(3, 4), Freezer: months(2, 6), Note: "FoodKeeper: 2 to 3 months frozen, dishes of poultry 4 to 6", Source: coldChart(source.Secondary)},
	{ID: "casserole", Food: "casseroles, cooked", Fridge: days(3, 4), Freezer: months(2, 3), Note: "time frozen from memory", Source: coldChart(source.DataSet)},
	{ID: "ground-raw", Food: "raw ground meat or poultry", Fridge: days(1, 2), Freezer: months(3, 4), Source: coldChart(source.Secondary)},
	{ID: "stew-raw", Food: "raw stew meat, cubed", Fridge: days(1, 2), PlanOn: 2 * day, Freezer: months(3, 4), Note: "FoodKeeper: 3 to 5 days, 4 to 12 months frozen", Source: cite("FDA, Refrigerator and Freezer Storage Chart", "", source.Secondary)},
	{ID: "roast-raw", Food: "raw roasts of beef, veal, lamb, pork", Fridge: days(3, 5), Freezer: months(4, 12), Source: coldChart(source.Secondary)},
	{ID: "steak-raw", Food: "raw steaks and chops", Fridge: days(3, 5), Freezer: months(4, 12), Note: "an older chart: 6 to 12 and 4 to 6 months frozen", Source: coldChart(source.Secondary)},
	{ID: "poultry-whole-raw", Food: "raw chicken or turkey, whole", Fridge: days(1, 2), Freezer: months(12, 12), Source: coldChart(source.Secondary)},
	{ID: "poultry-part-raw", Food: "raw poultry in pieces", Fridge: days(1, 2), Freezer: months(9, 9), Source: coldChart(source.Secondary)},
	{ID: "duck-goose-raw", Food: "raw duck or goose", Fridge: days(1, 2), Freezer: months(6, 6), Source: coldChart(source.DataSet)},
	{ID: "sausage-raw", Food: "raw sausage", Fridge: days(1, 2), Freezer: months(1, 2), Source: coldChart(source.Secondary)},
	{ID: "sausage-cooked", Food: "fully cooked sausage", Fridge: days(7, 7), Freezer: months(1, 2), Source: coldChart(source.Secondary)},
	{ID: "bacon", Food: "bacon", Fridge: days(7, 7), Freezer: months(1, 1), Source: coldChart(source.Secondary)},
	{ID: "ham-fresh-raw", Food: "ham, fresh, uncured, uncooked", Fridge: days(3, 5), Freezer: months(6, 6), Source: coldChart(source.Secondary)},
	{ID: "ham-fresh-cooked", Food: "ham, fresh, uncured, cooked", Fridge: days(3, 4), Freezer: months(3, 4), Source: coldChart(source.Secondary)},
	{ID: "ham-cured-raw", Food: "ham, cured, to cook before eating", Fridge: days(5, 7), UseBy: true, Freezer: months(3, 4), Source: coldChart(source.Secondary)},
	{ID: "ham-sealed", Food: "ham, fully cooked, sealed at the plant, unopened", Fridge: days(14, 14), UseBy: true, Freezer: months(1, 2), Source: coldChart(source.Secondary)},
	{ID: "ham-whole", Food: "ham, cooked, wrapped in the shop, whole", Fridge: days(7, 7), Freezer: months(1, 2), Source: coldChart(source.Secondary)},
	{ID: "ham-slices", Food: "ham, cooked: slices, half, spiral cut", Fridge: days(3, 5), Freezer: months(1, 2), Note: "FoodKeeper: 3 to 4 days", Source: coldChart(source.Secondary)},
	{ID: "deli-open", Food: "sliced meat, opened or sliced to order", Fridge: days(3, 5), Freezer: months(1, 2), Source: coldChart(source.Secondary)},
	{ID: "egg-shell", Food: "eggs, raw in the shell", Fridge: weeks(3, 5), NoFreeze: true, Source: coldChart(source.Secondary)},
	{ID: "egg-parts", Food: "raw whites or yolks", Fridge: days(2, 4), Freezer: months(12, 12), Source: coldChart(source.Secondary)},
	{ID: "egg-hard", Food: "hard-boiled eggs", Fridge: days(7, 7), NoFreeze: true, Source: coldChart(source.Secondary)},
	{ID: "egg-dish", Food: "egg dishes, cooked", Fridge: days(3, 4), Freezer: months(2, 3), Source: coldChart(source.DataSet)},
	{ID: "quiche", Food: "quiche, baked", Fridge: days(3, 5), PlanOn: 3 * day, Freezer: months(2, 3), Note: "other copies: 3 to 4 days, 1 to 2 months frozen", Source: coldChart(source.DataSet)},
	{ID: "pie-custard", Food: "custard, chiffon or cream pie", Fridge: days(3, 4), NoFreeze: true, Note: "FoodKeeper: chiffon 1 to 2 days", Source: coldChart(source.DataSet)},
	{ID: "pie-pumpkin", Food: "pumpkin or pecan pie", Fridge: days(3, 4), Freezer: months(1, 2), Source: coldChart(source.DataSet)},
	{ID: "fish-lean", Food: "raw lean fish: cod, flounder, haddock, halibut, sole", Fridge: days(1, 3), PlanOn: 2 * day, Freezer: months(6, 8), Note: "FoodKeeper and FDA: 1 to 2 days", Source: coldChart(source.Secondary)},
	{ID: "fish-fatty", Food: "raw fatty fish: salmon, tuna, mackerel, bluefish", Fridge: days(1, 3), PlanOn: 2 * day, Freezer: months(2, 3), Note: "FoodKeeper: 1 to 2 days", Source: coldChart(source.Secondary)},
	{ID: "shrimp", Food: "raw shrimp or crayfish", Fridge: days(3, 5), PlanOn: day, Freezer: months(6, 18), Note: "FoodKeeper: 1 to 3 days", Source: coldChart(source.Memory)},
	{ID: "squid-scallop", Food: "raw squid or scallops", Fridge: days(1, 3), Freezer: months(6, 18), Source: coldChart(source.DataSet)},
	{ID: "bivalve-live", Food: "live clams, mussels, oysters", Fridge: days(5, 10), PlanOn: day, NoFreeze: true, Note: "FoodKeeper has a second row of 1 to 2 days", Source: coldChart(source.DataSet)},
	{ID: "bivalve-shucked", Food: "shucked clams, mussels, oysters", Fridge: days(3, 10), Freezer: months(3, 4), Source: coldChart(source.DataSet)},
	{ID: "crab-lobster-live", Food: "live crab or lobster", Fridge: days(1, 1), NoFreeze: true, Source: coldChart(source.Secondary)},
	{ID: "crab-meat", Food: "fresh crab meat, lobster", Fridge: days(2, 4), Freezer: months(2, 4), Note: "FoodKeeper: crab 1 to 3 days", Source: coldChart(source.Secondary)},
	{ID: "fish-cooked", Food: "cooked fish or shellfish", Fridge: days(3, 4), Freezer: months(1, 3), Source: coldChart(source.DataSet)},
	{ID: "gravy-broth", Food: "gravy, broth, stock", Fridge: days(3, 4), PlanOn: 2 * day, Freezer: months(2, 3), Note: "an FDA chart of 2018 says 1 to 2 days", Source: coldChart(source.DataSet)},
	{ID: "salad-protein", Food: "salads of egg, chicken, ham, tuna or pasta", Fridge: days(3, 4), NoFreeze: true, Note: "an older chart: 3 to 5 days", Source: coldChart(source.Secondary)},
	{ID: "rice-cooked", Food: "cooked rice", Fridge: days(4, 6), PlanOn: day, Freezer: months(6, 6), Note: "British advice: cooled within an hour, eaten within a day; from memory", Source: coldChart(source.DataSet)},
	{ID: "pasta-cooked", Food: "cooked pasta", Fridge: days(3, 5), Freezer: months(1, 2), Source: coldChart(source.DataSet)},
	{ID: "stuffed-raw", Food: "raw stuffed chops or breasts", Fridge: days(1, 1), NoFreeze: true, Source: cite("FDA, Refrigerator and Freezer Storage Chart", "2018", source.Secondary)},
	{ID: "whipped-cream", Food: "sweetened whipped cream", Fridge: days(1, 1), Freezer: months(1, 2), Source: coldChart(source.DataSet)},
}
