package risk

import (
	"context"
	"math"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"
	"time"
)

// Play conducts one evening in a session: held is whether its first timetable stays in
// force. It returns when each course was served.
type Play func(ctx context.Context, took []int64, held bool) ([]time.Time, error)

// Sampled is what comes of conducting some of the runs in a session, with planning
// again as the evening goes and without.
type Sampled struct {
	Asked, Runs int
	// Equal is in how many runs the session whose first timetable stays in force served
	// every course in the very second in which the dispatcher did: all, or there is a defect.
	Equal int
	// Held and Again are the runs without planning again and with it.
	Held, Again Tally
	// OnTime and Within are what planning again adds to the two chances, Latest by how
	// much earlier the latest course is: the mean of the differences, run by run.
	OnTime, Within Chance
	Latest         At
}

// Tally sums up the sampled runs of one kind.
type Tally struct {
	OnTime, Within Chance
	Latest         time.Duration // mean lateness of the latest course of a run
}

// evening is one sampled run.
type evening struct {
	equal       bool
	held, again outcome
}

type outcome struct {
	onTime, within bool
	latest         time.Duration
}

// Sample has the first runs of a seed conducted. When the context ends, those so far
// come back. done is told how many are over, from several goroutines; it may be nil.
// Errors: those of play.
func (d *Dinner) Sample(ctx context.Context, seed uint64, runs int, play Play, done func(int)) (*Sampled, error) {
	evenings := make([]*evening, runs)
	errs := make([]error, runs)
	var next, over atomic.Int64
	var wait sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), runs) {
		wait.Go(func() {
			source, e, took := d.Sampler.Source(), d.Dispatcher.Evening(), make([]int64, len(d.Plan.Steps))
			for {
				n := int(next.Add(1)) - 1
				if n >= runs || ctx.Err() != nil {
					return
				}
				source.Draw(seed, n, took)
				e.Run(took)
				evenings[n], errs[n] = d.conduct(ctx, e, took, play)
				if k := over.Add(1); done != nil {
					done(int(k))
				}
			}
		})
	}
	wait.Wait()
	if k := slices.Index(evenings, nil); k >= 0 {
		if errs[k] != nil && ctx.Err() == nil {
			return nil, errs[k]
		}
		evenings = evenings[:k]
	}
	return sumUp(runs, evenings), nil
}

func (d *Dinner) conduct(ctx context.Context, e *Evening, took []int64, play Play) (*evening, error) {
	held, err := play(ctx, took, true)
	if err != nil {
		return nil, err
	}
	again, err := play(ctx, took, false)
	if err != nil {
		return nil, err
	}
	out := &evening{equal: true, held: d.outcome(held), again: d.outcome(again)}
	for c, at := range held {
		out.equal = out.equal && at.Equal(d.Plan.Table.Add(time.Duration(e.Serve(c))))
	}
	return out, nil
}

func (d *Dinner) outcome(served []time.Time) outcome {
	o := outcome{onTime: true, within: true}
	for c, at := range served {
		late := max(0, at.Sub(d.Plan.Asked(c)))
		o.onTime = o.onTime && late < LateFrom
		o.within = o.within && late <= d.Plan.Courses[c].LateOK
		o.latest = max(o.latest, late)
	}
	return o
}

func sumUp(asked int, evenings []*evening) *Sampled {
	s := &Sampled{Asked: asked, Runs: len(evenings)}
	if s.Runs == 0 {
		return s
	}
	tally := func(of func(*evening) outcome) (t Tally) {
		onTime, within, sum := 0, 0, time.Duration(0)
		for _, e := range evenings {
			o := of(e)
			onTime, within, sum = onTime+one(o.onTime), within+one(o.within), sum+o.latest
		}
		return Tally{chance(onTime, s.Runs), chance(within, s.Runs), sum / time.Duration(s.Runs)}
	}
	s.Held = tally(func(e *evening) outcome { return e.held })
	s.Again = tally(func(e *evening) outcome { return e.again })
	var onTime, within, latest []float64
	for _, e := range evenings {
		s.Equal += one(e.equal)
		onTime = append(onTime, float64(one(e.again.onTime)-one(e.held.onTime)))
		within = append(within, float64(one(e.again.within)-one(e.held.within)))
		latest = append(latest, float64(e.held.latest-e.again.latest))
	}
	s.OnTime, s.Within = mean(onTime), mean(within)
	m := mean(latest)
	s.Latest = At{time.Duration(m.P), time.Duration(m.SE)}
	return s
}

// mean is that of some differences, with its standard error s/√n.
func mean(of []float64) Chance {
	n := float64(len(of))
	sum, squares := 0.0, 0.0
	for _, x := range of {
		sum += x
	}
	m := sum / n
	for _, x := range of {
		squares += (x - m) * (x - m)
	}
	if n < 2 {
		return Chance{P: m}
	}
	return Chance{m, math.Sqrt(squares / (n - 1) / n)}
}

func one(b bool) int {
	if b {
		return 1
	}
	return 0
}
