package ring

import (
	"time"

	"example.org/kettledrum/plan/run"
)

// Times of the rule. All are our own judgement of what is heard and bears with a
// kitchen, but for what the names say.
const (
	// Rest is the least time between two rings, danger excepted.
	Rest = 10 * time.Second
	// Silence is how long the key for silence keeps everything quiet.
	Silence = 5 * time.Minute
	// Loudest is how often a cue becomes louder at most.
	Loudest = 3
	// growth of the interval with each ring.
	growth = 1.5
)

// repeats has for each class the first interval and the longest; zero: it never
// rings again. The more harm a missed cue does, the sooner it comes again. Only
// danger never becomes rare: whatever else nobody answers all night rings ever
// more seldom.
var repeats = map[run.Class]struct{ first, most time.Duration }{
	run.Danger:  {15 * time.Second, time.Minute},
	run.LateCue: {40 * time.Second, time.Hour},
	run.Look:    {40 * time.Second, time.Hour},
	run.Act:     {time.Minute, time.Hour},
	run.Soon:    {},
	run.Note:    {},
}

// interval is how long a cue of a class waits after it has rung n times, n at
// least 1; ok is false where it does not ring again.
func interval(c run.Class, n int) (d time.Duration, ok bool) {
	r := repeats[c]
	d = r.first
	for range n - 1 {
		if d = time.Duration(float64(d) * growth); d >= r.most {
			return r.most, true
		}
	}
	return d, d > 0
}
