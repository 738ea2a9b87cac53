package safety

import (
	"example.org/kettledrum/plan/source"
	"math"
	"time"
)

// Thawing, by USDA FSIS, The Big Thaw: Safe Defrosting Methods. In the refrigerator
// a day for each four to five pounds, and no less than a day; in cold water, changed
// every half hour, half an hour a pound. On the counter and in hot water: never.
const (
	ThawPoundsLow, ThawPoundsHigh = 4, 5 // pounds a day in the refrigerator
	ThawWaterPerPound             = 30 * time.Minute
	ThawWaterChange               = 30 * time.Minute
	// FrozenFactor is by how much longer what goes in frozen cooks, at least.
	FrozenFactor = 1.5
)

var bigThaw = cite("USDA FSIS, The Big Thaw: Safe Defrosting Methods", "", source.Secondary)

// ThawFridge returns how long a piece of so many pounds takes in the refrigerator
// at most: the slower rate, in whole days.
func ThawFridge(pounds float64) time.Duration {
	return time.Duration(max(1, math.Ceil(pounds/ThawPoundsLow-1e-9))) * day
}

// ThawWater returns how long a piece of so many pounds takes in cold water, in
// whole half hours, which is how often the water is changed.
func ThawWater(pounds float64) time.Duration {
	return time.Duration(max(1, math.Ceil(pounds-1e-9))) * ThawWaterPerPound
}

// ThawRow says what becomes of food by the way it is thawed.
type ThawRow struct {
	Method string
	Rate   string // as published
	// Then is how long it keeps before it is cooked; CookAtOnce: not at all.
	ThenPoultry, ThenRed Span
	CookAtOnce, Never    bool
	Source               source.Source
}

var thawing = []ThawRow{
	{Method: "refrigerator", Rate: "24 h per 4–5 lb", ThenPoultry: days(1, 2), ThenRed: days(3, 5), Source: bigThaw},
	{Method: "cold water", Rate: "30 min per lb", CookAtOnce: true, Source: bigThaw},
	{Method: "microwave", Rate: "by the maker", CookAtOnce: true, Source: bigThaw},
	{Method: "cook from frozen", Rate: "at least 1.5 × the thawed time", Source: bigThaw},
	{Method: "counter, hot water", Rate: "never", Never: true, Source: bigThaw},
}

// TurkeyRow is one row of the table of whole turkeys.
type TurkeyRow struct {
	FromLb, ToLb  int
	Fridge, Water Span
	Source        source.Source
}

var turkeys = []TurkeyRow{
	{4, 12, days(1, 3), Span{2 * time.Hour, 6 * time.Hour}, bigThaw},
	{12, 16, days(3, 4), Span{6 * time.Hour, 8 * time.Hour}, bigThaw},
	{16, 20, days(4, 5), Span{8 * time.Hour, 10 * time.Hour}, bigThaw},
	{20, 24, days(5, 6), Span{10 * time.Hour, 12 * time.Hour}, bigThaw},
}
