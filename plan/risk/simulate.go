package risk

import (
	"context"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"
	"time"

	"example.org/kettledrum/plan"
)

// LateFrom is how late a course must be to count as late: a rehearsal tells whole
// minutes, and so do the guests.
const LateFrom = time.Minute

const (
	// chunk is how many runs a core takes at a time.
	chunk = 250
	// slackTried is by how much a step is shortened to see what slack there buys.
	slackTried = 5 * time.Minute
	// mostEarlier is how much earlier a dinner is tried to begin, in minutes.
	mostEarlier = 240
	// notEarlier stands for a run that no earlier start makes on time.
	notEarlier = mostEarlier + 1
)

// Dinner is a plan and its timetable, ready to be cooked many times. It is read only.
type Dinner struct {
	Plan       *plan.Plan
	Timetable  *plan.Timetable
	Dispatcher *Dispatcher
	Sampler    *Sampler
}

// New prepares a dinner in which nothing has happened.
func New(p *plan.Plan, t *plan.Timetable) *Dinner {
	return &Dinner{p, t, Compile(p, t), NewSampler(p, t)}
}

// Options say how often a dinner is simulated.
type Options struct {
	Runs int
	Seed uint64
	// Thin asks which steps are critical and what slack buys, Starts which start is early
	// enough: more than the times.
	Thin, Starts bool
	// Hot tells of each step whether what it made suffers from waiting; nil: it is not
	// counted.
	Hot []bool
	// Done is told how many runs are over, from several goroutines; may be nil.
	Done func(runs int)
}

// Runs are the evenings of a simulation.
type Runs struct {
	Dinner *Dinner
	Seed   uint64
	// Asked is how many were asked for; N how many there are, the first ones: fewer
	// where the context ended.
	Asked, N int
	// Late is, of each course in each run, by how much it came after it was asked for,
	// in seconds; below 0 it came before.
	Late [][]int32
	// Earlier is of each run the least number of minutes by which the day of the dinner
	// must begin earlier for every course to be on time; notEarlier if none does.
	Earlier []int16
	// Critical is, of each step, in how many runs it lies on a path that made a course
	// late; Saved, in how many of those no course would be late if it were slackTried
	// shorter, or what follows had so much slack; Less, by how many seconds all courses
	// would be less late then, over all runs.
	Critical, Saved, Less []int
	// Waited is for how many seconds what is hot waited, over all runs.
	Waited int
}

// Simulate cooks a dinner many times. Run n is the same whatever the number of runs,
// of cores, and the timetable (see Sampler), and what is counted are whole numbers: the
// same seed gives the same runs. When the context ends, the runs so far come back.
//
// Cost: O(nodes + arcs) a run, and of one that is late some fifteen times that, where that is asked for.
// Memory: 4 bytes a course and run.
func (d *Dinner) Simulate(ctx context.Context, o Options) *Runs {
	r := &Runs{Dinner: d, Seed: o.Seed, Asked: o.Runs, Late: make([][]int32, len(d.Plan.Courses))}
	for c := range r.Late {
		r.Late[c] = make([]int32, o.Runs)
	}
	var may []int64
	if o.Starts {
		r.Earlier = make([]int16, o.Runs)
		may = d.earlier()
	}
	chunks := (o.Runs + chunk - 1) / chunk
	counts := make([]*tally, chunks)
	var next, done atomic.Int64
	var wait sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), chunks) {
		wait.Go(func() {
			w := newWorker(d, o, r)
			w.may = may
			for ctx.Err() == nil {
				k := int(next.Add(1)) - 1
				if k >= chunks {
					return
				}
				from, until := k*chunk, min((k+1)*chunk, o.Runs)
				counts[k] = w.runs(from, until)
				if n := done.Add(int64(until - from)); o.Done != nil {
					o.Done(int(n))
				}
			}
		})
	}
	wait.Wait()
	steps := len(d.Plan.Steps)
	r.Critical, r.Saved, r.Less = make([]int, steps), make([]int, steps), make([]int, steps)
	for k, c := range counts {
		if c == nil { // later ones that are there do not count
			break
		}
		r.N = min((k+1)*chunk, o.Runs)
		for i := range c.critical {
			r.Critical[i] += c.critical[i]
			r.Saved[i] += c.saved[i]
			r.Less[i] += c.less[i]
		}
		r.Waited += c.waited
	}
	for c := range r.Late {
		r.Late[c] = r.Late[c][:r.N]
	}
	if o.Starts {
		r.Earlier = r.Earlier[:r.N]
	}
	return r
}

// tally is what a chunk of runs counts.
type tally struct {
	critical, saved, less []int
	waited                int
}

// worker is what one goroutine simulates with.
type worker struct {
	d      *Dinner
	o      Options
	r      *Runs
	source *Source
	took   []int64
	is     *Evening // as it is
	other  *Evening // as it would be otherwise
	shift  []int64
	on     []bool // of each step, whether it is critical in the run
	path   []int  // the critical steps of the run
	next   [][]int
	may    []int64 // of each node, by how much it may come earlier than planned
}

func newWorker(d *Dinner, o Options, r *Runs) *worker {
	return &worker{
		d: d, o: o, r: r, source: d.Sampler.Source(), took: make([]int64, len(d.Plan.Steps)),
		is: d.Dispatcher.Evening(), other: d.Dispatcher.Evening(), shift: make([]int64, len(d.Dispatcher.nodes)),
		on: make([]bool, len(d.Plan.Steps)), path: make([]int, 0, len(d.Plan.Steps)),
		next: d.Plan.Followers(),
	}
}

func (w *worker) runs(from, until int) *tally {
	t := &tally{critical: make([]int, len(w.took)), saved: make([]int, len(w.took)), less: make([]int, len(w.took))}
	for n := from; n < until; n++ {
		w.source.Draw(w.o.Seed, n, w.took)
		w.is.Run(w.took)
		for c := range w.d.Plan.Courses {
			w.r.Late[c][n] = int32(w.late(w.is, c) / int64(time.Second))
		}
		if w.o.Hot != nil {
			t.waited += int(w.waited() / int64(time.Second))
		}
		if w.onTime(w.is) {
			continue
		}
		if w.o.Thin {
			w.thin(t)
		}
		if w.o.Starts {
			w.r.Earlier[n] = w.early()
		}
	}
	return t
}

// late is by how much a course came after it was asked for.
func (w *worker) late(e *Evening, c int) int64 { return e.Serve(c) - int64(w.d.Plan.Courses[c].Serve) }

// lateness sums up by how much courses were late.
func (w *worker) lateness(e *Evening) (sum int64) {
	for c := range w.d.Plan.Courses {
		if by := w.late(e, c); by >= int64(LateFrom) {
			sum += by
		}
	}
	return sum
}

// waited is for how long what was hot waited: until the last that takes it, or the serve.
func (w *worker) waited() (sum int64) {
	for i, hot := range w.o.Hot {
		if !hot {
			continue
		}
		at := w.is.End(i)
		if len(w.next[i]) == 0 {
			at = max(at, w.is.Serve(w.d.Plan.CourseOf(i)))
		}
		for _, j := range w.next[i] {
			at = max(at, w.is.Start(j))
		}
		sum += at - w.is.End(i)
	}
	return sum
}

// thin looks at what made a run late, and at where slack would have helped.
func (w *worker) thin(t *tally) {
	w.path = w.path[:0]
	for c := range w.d.Plan.Courses {
		if w.late(w.is, c) < int64(LateFrom) {
			continue
		}
		w.is.Critical(c, func(i int) {
			if !w.on[i] {
				w.on[i] = true
				w.path = append(w.path, i)
			}
		})
	}
	late := w.lateness(w.is)
	for _, i := range w.path {
		w.on[i] = false
		t.critical[i]++
		if w.d.Plan.Steps[i].Length.Elastic {
			continue
		}
		was := w.took[i]
		w.took[i] = max(0, was-int64(slackTried))
		w.other.Run(w.took)
		w.took[i] = was
		if w.onTime(w.other) {
			t.saved[i]++
		}
		t.less[i] += int(max(0, late-w.lateness(w.other)) / int64(time.Second))
	}
}

// early is by how many minutes the day must begin earlier for a run to be on time.
func (w *worker) early() int16 {
	lo, hi := 0, notEarlier // late with lo, on time with hi as far as is known
	for lo+1 < hi {
		mid := (lo + hi) / 2
		for v, may := range w.may {
			w.shift[v] = -min(may, int64(mid)*int64(time.Minute))
		}
		if w.other.run(w.took, w.shift); w.onTime(w.other) {
			hi = mid
		} else {
			lo = mid
		}
	}
	return int16(hi)
}

func (w *worker) onTime(e *Evening) bool {
	for c := range w.d.Plan.Courses {
		if w.late(e, c) >= int64(LateFrom) {
			return false
		}
	}
	return true
}

// earlier returns by how much each node may come earlier than planned where the day of
// the dinner begins earlier: what is on another day and the serves not at all; a step
// not before somebody is there, or before a chore may be done.
func (d *Dinner) earlier() []int64 {
	p, t, x := d.Plan, d.Timetable, d.Dispatcher
	may := make([]int64, len(x.nodes))
	for v := range may {
		may[v] = mostEarlier * int64(time.Minute)
	}
	limit := func(r ref, at, least time.Time) { may[r.node] = min(may[r.node], max(0, int64(at.Sub(least)))) }
	for i, slot := range t.Slots {
		if slot.Start.Before(p.CookDay()) {
			limit(x.startOf[i], slot.Start, slot.Start)
		} else {
			limit(x.startOf[i], slot.Start, d.there(slot.Cook, slot.Start))
		}
		if chore := p.Dishes[p.Steps[i].Dish].Chore; chore != nil && chore.HasAhead {
			limit(x.startOf[i], slot.Start, p.Asked(p.CourseOf(i)).Add(-chore.Ahead))
		}
		if slot.End.Before(p.CookDay()) {
			limit(x.endOf[i], slot.End, slot.End)
		}
	}
	for k, set := range t.Sets {
		if set.At.Before(p.CookDay()) {
			limit(x.setOf[k], set.At, set.At)
		} else {
			limit(x.setOf[k], set.At, d.there(-1, set.At))
		}
	}
	for c, at := range t.Serves {
		limit(x.serveOf[c], at, at)
	}
	return may
}

// there is since when a cook has been there at a time; of −1, any cook.
func (d *Dinner) there(cook int, at time.Time) time.Time {
	since := at
	for k, c := range d.Plan.Kitchen.Cooks {
		for _, w := range c.Free {
			if (cook < 0 || cook == k) && !w.From.After(at) && at.Before(w.To) {
				since = plan.Earlier(since, w.From)
			}
		}
	}
	return plan.Later(since, d.Plan.CookDay())
}

// AllOnTime reports of each run whether every course was.
func (r *Runs) AllOnTime() []bool {
	out := make([]bool, r.N)
	for n := range out {
		out[n] = !slices.ContainsFunc(r.Late, func(late []int32) bool {
			return time.Duration(late[n])*time.Second >= LateFrom
		})
	}
	return out
}
