package planner

import (
	"context"
	"slices"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/solve"
)

// Impossible says why no timetable can keep all of a plan: a least set of the
// plan's own facts that clash, and what would resolve it.
type Impossible struct {
	// Facts are as the cook wrote them. Without any one the others can hold.
	Facts []string
	// Text is the whole in a sentence, with what the clash is about.
	Text string
	// Ways are changes of one fact each, with which the whole plan has been solved.
	Ways []string
	// Minimal: that Facts is a least set is proven, not only found.
	Minimal bool
}

// What asking for a conflict may cost, in conflicts a question.
const (
	conflictsAsked = 2000
	conflictsWay   = 2000
)

// Explain proves that a plan is impossible and says why; nil where that is not
// proven.
func Explain(ctx context.Context, p *plan.Plan) *Impossible {
	j, clash, out := conflict(ctx, p)
	if clash == nil {
		return nil
	}
	for _, g := range clash.Facts {
		if way := j.way(ctx, g); way != "" {
			out.Ways = append(out.Ways, way)
		}
	}
	return out
}

// Conflict is Explain without the ways.
func Conflict(ctx context.Context, p *plan.Plan) *Impossible {
	_, _, out := conflict(ctx, p)
	return out
}

func conflict(ctx context.Context, p *plan.Plan) (*job, *solve.Clash, *Impossible) {
	j := translate(canonicalOf(p).plan, facts{})
	clash := solve.Conflict(ctx, j.prob, conflictsAsked)
	if clash == nil {
		return j, nil, nil
	}
	out := &Impossible{Minimal: clash.Minimal, Text: j.sentence(clash)}
	for _, g := range clash.Facts {
		out.Facts = append(out.Facts, j.fact(j.guards[g]))
	}
	return j, clash, out
}

// way solves the plan with one fact let go as little as may be, and says how much
// that is; empty where that does not do it.
func (j *job) way(ctx context.Context, g int) string {
	p := *j.prob
	guard := g + 1
	p.Lags, p.Resources = slices.Clone(p.Lags), slices.Clone(p.Resources)
	p.Lags = slices.DeleteFunc(p.Lags, func(l solve.Lag) bool { return l.Soft })
	var most solve.Tick // the greatest of the lags let go
	for k := range p.Lags {
		if l := &p.Lags[k]; l.Guard == guard {
			if !l.Relaxable {
				return "" // the guests' time at table is not for us to shorten
			}
			l.Soft, l.Weight, l.Relaxable = true, 1, false
			most = max(most, -l.Min)
		}
	}
	for k := range p.Resources {
		r := &p.Resources[k]
		more := r.Guard == guard
		if more || slices.Contains(r.Hours, guard) {
			r.Calendar = []solve.Capacity{{Amount: r.Most()}}
			if more {
				r.Calendar[0].Amount += j.oneMore(j.guards[g])
			}
		}
	}
	r := solve.Solve(ctx, &p, solve.Options{Conflicts: conflictsWay, Seed: 1})
	if r.Cost.Broken > 0 || len(r.Start) == 0 {
		return ""
	}
	return j.wayWords(j.guards[g], most+solve.Tick(r.Cost.Soft[0]), r)
}

// oneMore is the least by which there could be more of something.
func (j *job) oneMore(g guarded) int32 {
	if g.what == theShelves {
		return 2 // half shelves
	}
	return 1
}
