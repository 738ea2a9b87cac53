package remedy

import (
	"context"
	"errors"
	"fmt"
	"runtime/debug"
	"slices"
	"sync"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

// Bounds of an offer.
const (
	// Most is how many remedies are offered, serving as it is among them.
	Most = 5
	// Worth is the least gain of one, in minutes late.
	Worth = 2
	// Dear is how many times its gain a price may be.
	Dear = 3
	// Tries is how many things are tried, those that pinch most first; of some it
	// takes several plannings to find how much of them is enough.
	Tries = 40
	// together is how many are tried at the same time: what the cook tells meanwhile
	// is planned too, and a laptop may have no more than two processors.
	together = 1
)

// Kind is what a remedy gives up.
type Kind string

// What a remedy can give up, in the order that decides between equals.
const (
	OtherCook  Kind = "cook"
	Hotter     Kind = "hotter"
	OtherPlace Kind = "place"
	WaitLonger Kind = "wait"
	LeaveTable Kind = "leave"
	ServeLater Kind = "later"
	DropStep   Kind = "drop"
	DropDish   Kind = "drop_dish"
	AsItIs     Kind = "as_it_is"
)

// Remedy is one way out.
type Remedy struct {
	Kind Kind
	// Do says what is done, Gain what it buys, Price what else it costs, "" for
	// nothing: each a clause for one line, without a full stop.
	Do, Gain, Price string
	// Gains and Costs are the same in minutes late.
	Gains, Costs int
	// Event takes the remedy; undoing it gives it back. It has no times yet.
	Event run.Event
	// Timetable is what is promised. Nil of AsItIs, which moves nothing: the run only
	// takes it that the courses come as late as they do.
	Timetable *plan.Timetable
	// Serves are the promised serves.
	Serves []time.Time
}

// Line is the remedy in one line.
func (r Remedy) Line() string {
	out := r.Do + ": " + r.Gain
	if r.Price != "" {
		out += "; " + r.Price
	}
	return out
}

// Question is a run that wants a remedy.
type Question struct {
	State *run.State
	Now   time.Time
	// AsItIs is what comes without a remedy: the timetable in force moved to where
	// things are projected, with its breaks.
	AsItIs *plan.Timetable
	// Again plans the rest of a run, nil where it finds nothing that keeps what
	// has happened. It may be called from several goroutines.
	Again func(context.Context, *run.State, time.Time) *plan.Timetable
	// Verify lists what a timetable breaks, from Now on.
	Verify func(*plan.Plan, *plan.Timetable) []plan.Break

	told *run.State // State before what is open was taken to be settled
}

// Needed reports whether somebody would want a remedy: a course that is still to
// come is late by at least Worth minutes, or a rule is about to be broken.
func (q Question) Needed() bool {
	q.settle()
	as := q.measure(q.State, q.AsItIs)
	return as.broken != [plan.Harms]int{} || as.lateness() >= Worth
}

// Offer returns at most Most remedies, the best first, serving as it is last; none
// where none is needed or ctx is given up. Where its time is up, those that were
// found by then.
// Cost: some Tries plannings, together at a time.
func (q Question) Offer(ctx context.Context) []Remedy {
	if !q.Needed() {
		return nil
	}
	q.settle()
	as := q.measure(q.State, q.AsItIs)
	base := as
	if plain := q.plan(ctx, q.State); plain != nil {
		if o := q.measure(q.State, plain); o.less(base) {
			base = o
		}
	}
	found := q.tryAll(ctx, base)
	if errors.Is(ctx.Err(), context.Canceled) {
		return nil
	}
	out := rank(found)
	for i := range out {
		out[i].Gain, out[i].Price = q.words(as, out[i].outcome, out[i].candidate)
	}
	return append(remedies(out), q.asItIs(as))
}

// settle has the run be as it is planned with.
func (q *Question) settle() { q.told, q.State = q.State, q.State.At(q.Now) }

// tryAll tries every candidate and returns those that are worth something, in the
// order of the candidates. A panic of one comes up here, in the caller's goroutine,
// which may have a terminal to put in order.
func (q *Question) tryAll(ctx context.Context, base outcome) []tried {
	all := q.candidates()
	found := make([][]tried, len(all))
	var wait sync.WaitGroup
	turn := make(chan int)
	var bug caught
	for range together {
		wait.Go(func() {
			for i := range turn {
				bug.during(func() { found[i] = q.try(ctx, all[i], base) })
			}
		})
	}
	for i := range all {
		turn <- i
	}
	close(turn)
	wait.Wait()
	bug.again()
	return slices.Concat(found...)
}

// caught is the first panic of several goroutines, with where it was.
type caught struct {
	once sync.Once
	what any
	at   []byte
}

// during runs f and keeps its panic.
func (c *caught) during(f func()) {
	defer func() {
		if what := recover(); what != nil {
			c.once.Do(func() { c.what, c.at = what, debug.Stack() })
		}
	}()
	f()
}

// again panics as one of them did, if any did. Only once all have ended.
func (c *caught) again() {
	if c.what != nil {
		panic(fmt.Sprintf("%v\n\nwhile a remedy was tried:\n%s", c.what, c.at))
	}
}

// plan plans again and notes what the answer breaks.
func (q *Question) plan(ctx context.Context, st *run.State) *plan.Timetable {
	if ctx.Err() != nil {
		return nil
	}
	return q.Again(ctx, st, q.Now)
}

// taken returns the run with a remedy taken.
func (q *Question) taken(text string, changes []plan.Change) (*run.State, run.Event, error) {
	e := run.Event{Kind: run.RemedyTaken, Text: text, Changes: changes}
	at := e
	at.At, at.Noted = q.Now, q.Now
	st, err := q.told.Apply(at)
	if err != nil {
		return nil, e, err
	}
	return st.At(q.Now), e, nil
}
