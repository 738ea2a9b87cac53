package safety

import "time"

// CoreRow is a temperature of the middle, in degrees Celsius, and how long it must
// be held, by British advice.
type CoreRow struct {
	C      int
	Time   time.Duration
	Source Source
}

func fsa(m Mark) Source { return Source{"Food Standards Agency, cooking your food", "", m} }

// ukCores are the five that count as the same.
var ukCores = []CoreRow{
	{60, 45 * time.Minute, fsa(Secondary)},
	{65, 10 * time.Minute, fsa(Secondary)},
	{70, 2 * time.Minute, fsa(Secondary)},
	{75, 30 * time.Second, fsa(Secondary)},
	{80, 6 * time.Second, fsa(Secondary)},
}

// British figures, in degrees Celsius.
const (
	ukHotHold        = 63 // by law; Food Standards Agency, secondary
	ukCore           = 70 // for two minutes
	ukScotlandReheat = 82 // Scotland; secondary
	ukFridgeLaw      = 8
	ukFridgeAdvice   = 5
)

// ukRice is how long cooked rice keeps in the refrigerator: eaten within a day,
// cooled within an hour.
const ukRice = day
