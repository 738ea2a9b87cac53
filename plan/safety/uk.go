package safety

import (
	"time"

	"example.org/kettledrum/plan/source"
)

// CoreRow is a temperature of the middle, in degrees Celsius, and how long it must
// be held, by British advice.
type CoreRow struct {
	C      int
	Time   time.Duration
	Source source.Source
}

func fsa(m source.Mark) source.Source {
	return cite("Food Standards Agency", "", m)
}

// ukCores are the five that count as the same.
var ukCores = []CoreRow{
	{60, 45 * time.Minute, fsa(source.Secondary)},
	{65, 10 * time.Minute, fsa(source.Secondary)},
	{70, 2 * time.Minute, fsa(source.Secondary)},
	{75, 30 * time.Second, fsa(source.Secondary)},
	{80, 6 * time.Second, fsa(source.Secondary)},
}

// British figures, in degrees Celsius.
const (
	ukHotHold        = 63 // by law; Food Standards Agency, secondary
	ukCore           = 70 // for two minutes
	ukBriefly        = 75 // for thirty seconds
	ukScotlandReheat = 82 // Scotland; secondary
)

// ukRice is how long cooked rice keeps in the refrigerator, ukRiceOut how long it may
// be out of it. From memory.
const (
	ukRice    = day
	ukRiceOut = time.Hour
)
