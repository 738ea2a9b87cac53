package review

import (
	"fmt"
	"reflect"
	"slices"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/mishap"
	"example.org/kettledrum/plan/remedy"
	"example.org/kettledrum/plan/run"
)

// Script is what went wrong in a run, for a rehearsal of the same plan.
type Script struct {
	Mishaps []mishap.Mishap // by time
	// Left is what a script cannot say, or says otherwise than it was told: a line each.
	Left []string
}

// Offered returns the remedies that were offered after some events, at an instant.
type Offered func(before []run.Event, at time.Time) []remedy.Remedy

// Mishaps returns what went wrong in a run, so that a rehearsal of the plan, in which
// every cue is answered when it is due, gives the same cues:
//
//	prolonged, reading, redone, skipped, dropped,    the mishap of the same kind
//	reassigned, put, away, back, failed, works,      at the minute in which it was told
//	held, released
//	remedy                                           take_remedy, by its place among those offered
//	finished, a minute or more off what was expected takes
//	nothing, while cues were due                     silent, up to the next answer
//	added, with a cook; paused and resumed           away; longer
//
// What was taken back has not happened. Times are floored to the minute: a script is
// told in minutes. Cost: as Of, and a planning of remedies for each that was taken.
func Mishaps(last *run.State, offered Offered) Script {
	d := derivation{last: last, offered: offered, why: told(last), begun: map[int]time.Time{}}
	counts := map[uint64]bool{}
	for _, e := range last.Standing() {
		counts[e.Seq] = true
	}
	st := opened(last)
	for k, e := range last.Events {
		if counts[e.Seq] && d.why[e.Seq] != MadeAhead {
			d.event(st, k)
		}
		st = after(st, e)
	}
	d.silences()
	slices.SortStableFunc(d.out.Mishaps, func(a, b mishap.Mishap) int { return d.when(&a).Compare(d.when(&b)) })
	return d.out
}

// derivation is one making of a script.
type derivation struct {
	last    *run.State
	offered Offered
	why     map[uint64]Reason
	out     Script
	late    []lateAnswer
	begun   map[int]time.Time // of a mishap without a time of its own, by step
}

// lateAnswer is a cue that waited for its answer, and what to say of its step where
// that was not because nobody answered anything.
type lateAnswer struct {
	due, told time.Time
	instead   *mishap.Mishap
}

// when is when a mishap happens: one without a time when its step began.
func (d *derivation) when(m *mishap.Mishap) time.Time {
	if m.At.IsZero() {
		return d.begun[m.Step]
	}
	return m.At
}

// event takes event k of the run, told in a state.
func (d *derivation) event(st *run.State, k int) {
	e := &d.last.Events[k]
	m := mishap.None("")
	m.At, m.By, m.Step = e.At.Truncate(time.Minute), e.By.Round(time.Minute), st.Plan.StepIndex(e.Step)
	switch e.Kind {
	case run.Started, run.OvenTurned, run.Served:
		d.answered(st, e, nil)
	case run.Finished:
		d.finished(st, e, m)
	case run.Prolonged:
		d.add(m, mishap.Longer)
	case run.Reading:
		if !d.asTaken(st, k) {
			m.Temp = plan.Celsius(*e.Temp)
			d.add(m, mishap.Reading)
		}
	case run.Redone:
		d.redone(st, k, m)
	case run.SkippedStep:
		d.add(m, mishap.Dropped)
	case run.Dropped:
		m.Dish = slices.IndexFunc(st.Plan.Dishes, func(x plan.Dish) bool { return x.ID == e.Dish })
		d.add(m, mishap.Dropped)
	case run.Reassigned:
		m.Cook = cookNamed(st.Plan, e.Cook)
		d.add(m, mishap.GivenTo)
	case run.Put:
		m.Oven, m.Burner = ovenNamed(st.Plan, e.Oven), sizeNamed(e.Burner)
		if e.Tool != "" {
			d.leave(e, st.Plan.StepName(m.Step)+" goes into another "+e.Tool)
		} else {
			d.add(m, mishap.PutOn)
		}
	case run.Away, run.Back, run.Added:
		d.absent(st, k, m)
	case run.Failed, run.Works:
		m.Oven, m.Burner = ovenNamed(st.Plan, e.Oven), sizeNamed(e.Burner)
		if e.Oven != "" {
			m.Step = -1 // an oven fails under all that is in it
		}
		d.add(m, map[run.Kind]mishap.Kind{run.Failed: mishap.Fails, run.Works: mishap.Works}[e.Kind])
	case run.Held, run.Released:
		m.Course = slices.IndexFunc(st.Plan.Courses, func(c plan.Course) bool { return c.Name == e.Course })
		d.add(m, map[run.Kind]mishap.Kind{run.Held: mishap.Hold, run.Released: mishap.Release}[e.Kind])
	case run.Paused:
		d.paused(k, m)
	case run.TimerSet:
		d.leave(e, fmt.Sprintf("a timer, %s, for %s", e.Text, plan.Spell(e.By)))
	case run.RemedyTaken:
		m.Remedy = 1 + slices.IndexFunc(d.offered(d.last.Events[:k], e.At), func(r remedy.Remedy) bool {
			return r.Event.Text == e.Text && sameChanges(r.Event.Changes, e.Changes)
		})
		if m.Remedy == 0 {
			d.leave(e, "a remedy that would not be offered again: "+e.Text)
		} else {
			d.add(m, mishap.TakeRemedy)
		}
	}
}

func (d *derivation) add(m mishap.Mishap, kind mishap.Kind) {
	m.Kind = kind
	d.out.Mishaps = append(d.out.Mishaps, m)
}

// leave tells of what a script cannot say.
func (d *derivation) leave(e *run.Event, what string) {
	at := e.At.In(d.last.Base.Table.Location())
	d.out.Left = append(d.out.Left, at.Format("15:04")+" "+what)
}

// finished is a step that the cook called done: before its time, in time, or late.
func (d *derivation) finished(st *run.State, e *run.Event, m mishap.Mishap) {
	is := &st.Steps[m.Step]
	if is.Status != plan.Begun || st.Plan.Steps[m.Step].Length.Elastic || d.why[e.Seq] != Judged {
		d.answered(st, e, nil)
		return
	}
	off := e.At.Sub(is.Started.Add(st.At(e.At).Expected(m.Step)))
	m.Kind, m.By = mishap.Takes, max(time.Minute, e.At.Sub(is.Started).Round(time.Minute))
	switch {
	case off <= -time.Minute: // at its time: what was told of it meanwhile comes first
		d.out.Mishaps = append(d.out.Mishaps, m)
	case off >= time.Minute:
		m.At = time.Time{} // when its time is up
		d.begun[m.Step] = is.Started
		d.answered(st, e, &m)
	}
}

// answered looks for how long the cue that an event answers waited.
func (d *derivation) answered(st *run.State, e *run.Event, instead *mishap.Mishap) {
	if st.Timetable == nil {
		return
	}
	now := run.Conduct(st, e.Noted)
	answers := func(c *run.Cue) bool {
		return slices.ContainsFunc(c.Answer, func(a run.Event) bool {
			return a.Kind == e.Kind && a.Step == e.Step && a.Course == e.Course && a.Oven == e.Oven
		})
	}
	due := e.Noted
	for i := range now.Cues {
		if c := &now.Cues[i]; c.Class != run.Soon && answers(c) {
			due = plan.Earlier(due, c.Due)
		}
	}
	for i := range now.Unconfirmed {
		if u := &now.Unconfirmed[i]; answers(&u.Cue) {
			due = plan.Earlier(due, u.At)
		}
	}
	if e.Noted.Sub(due) >= time.Minute {
		d.late = append(d.late, lateAnswer{due, e.Noted, instead})
	}
}

// silences makes of the answers that came late the stretches in which nobody
// answered. Where something else was answered meanwhile, it says at least how long the
// step took.
func (d *derivation) silences() {
	for _, l := range d.late {
		quiet := !slices.ContainsFunc(d.last.Events, func(e run.Event) bool {
			switch e.Kind {
			case run.Started, run.Finished, run.OvenTurned, run.Served:
				return !e.Noted.Before(l.due) && e.Noted.Before(l.told)
			}
			return false
		})
		m := mishap.None(mishap.Silent)
		m.At = l.due.Truncate(time.Minute)
		m.By = l.told.Truncate(time.Minute).Sub(m.At)
		until := func(o *mishap.Mishap) bool { return o.Kind == mishap.Silent && o.At.Add(o.By).Equal(m.At.Add(m.By)) }
		k := slices.IndexFunc(d.out.Mishaps, func(o mishap.Mishap) bool { return until(&o) })
		switch {
		case quiet && k >= 0: // of several answers at one moment the one that was due first
			if o := &d.out.Mishaps[k]; m.At.Before(o.At) {
				*o = m
			}
		case quiet && m.By >= time.Minute:
			d.out.Mishaps = append(d.out.Mishaps, m)
		case l.instead != nil:
			d.out.Mishaps = append(d.out.Mishaps, *l.instead)
		}
	}
}

// asTaken reports whether event k is the reading with which a step is called done, which
// a rehearsal takes by itself.
func (d *derivation) asTaken(st *run.State, k int) bool {
	e := &d.last.Events[k]
	if k+1 == len(d.last.Events) {
		return false
	}
	next := &d.last.Events[k+1]
	r, ok := run.AtTarget(st.Plan, st.Plan.StepIndex(e.Step))
	return ok && *r.Temp == *e.Temp && next.Kind == run.Finished && next.Step == e.Step && next.At.Equal(e.At)
}

// redone is a step that was begun again, or the last of several that were told at once:
// then it was the dish.
func (d *derivation) redone(st *run.State, k int, m mishap.Mishap) {
	m.Again = true
	e := &d.last.Events[k]
	together := func(o *run.Event) bool {
		return o.Kind == run.Redone && o.At.Equal(e.At) && st.Plan.Steps[st.Plan.StepIndex(o.Step)].Dish == st.Plan.Steps[m.Step].Dish
	}
	if k > 0 && together(&d.last.Events[k-1]) {
		return // told with the one before
	}
	if k+1 < len(d.last.Events) && together(&d.last.Events[k+1]) {
		m.Dish, m.Step = st.Plan.Steps[m.Step].Dish, -1
	}
	d.add(m, mishap.Burnt)
}

// absent is a cook who leaves, is back, or does what was not in the plan.
func (d *derivation) absent(st *run.State, k int, m mishap.Mishap) {
	e := &d.last.Events[k]
	m.Cook = cookNamed(st.Plan, e.Cook)
	switch {
	case e.Kind == run.Added && m.Cook < 0:
		d.leave(e, fmt.Sprintf("%s, which was not in the plan, for %s", e.Text, plan.Spell(e.By)))
	case e.Kind == run.Added:
		d.leave(e, fmt.Sprintf("%s, which was not in the plan: %s is away for %s instead", e.Text, e.Cook, plan.Spell(e.By)))
		d.add(m, mishap.Away)
	case e.Kind == run.Away && e.By == 0: // a script says for how long
		back := slices.IndexFunc(d.last.Events[k:], func(o run.Event) bool { return o.Kind == run.Back && o.Cook == e.Cook })
		if back < 0 {
			d.leave(e, e.Cook+" is away, and was never told to be back")
			return
		}
		m.By = max(time.Minute, d.last.Events[k+back].At.Sub(e.At).Round(time.Minute))
		d.leave(e, fmt.Sprintf("%s is away, nobody knows until when: here known to be %s", e.Cook, plan.Spell(m.By)))
		d.add(m, mishap.Away)
	case e.Kind == run.Away:
		d.add(m, mishap.Away)
	case slices.ContainsFunc(st.Changes, func(c plan.Change) bool {
		return c.Kind == plan.NotThere && c.Cook == e.Cook && c.To.IsZero() && !c.From.After(e.At)
	}):
		// the absence that this ends was told as long as it was
	default:
		d.add(m, mishap.Back)
	}
}

// paused is a step that stands still until it goes on: in a script it takes longer.
func (d *derivation) paused(k int, m mishap.Mishap) {
	e := &d.last.Events[k]
	for _, o := range d.last.Events[k+1:] {
		if o.Step == e.Step && (o.Kind == run.Resumed || o.Kind == run.Finished) {
			m.By = max(time.Minute, o.At.Sub(e.At).Round(time.Minute))
			d.leave(e, fmt.Sprintf("%s is interrupted: here it takes %s longer", d.last.Base.StepName(m.Step), plan.Spell(m.By)))
			d.add(m, mishap.Longer)
			return
		}
	}
}

func cookNamed(p *plan.Plan, name string) int {
	return slices.IndexFunc(p.Kitchen.Cooks, func(c plan.Cook) bool { return c.Name == name })
}

func ovenNamed(p *plan.Plan, name string) int {
	return slices.IndexFunc(p.Kitchen.Ovens, func(o plan.Oven) bool { return o.Name == name })
}

func sizeNamed(word string) plan.BurnerSize {
	for _, size := range []plan.BurnerSize{plan.Small, plan.Large} {
		if size.String() == word {
			return size
		}
	}
	return plan.AnyBurner
}

// sameChanges compares what two remedies give up.
func sameChanges(a, b []plan.Change) bool {
	return slices.EqualFunc(a, b, func(x, y plan.Change) bool {
		if !x.From.Equal(y.From) || !x.To.Equal(y.To) {
			return false
		}
		x.From, x.To, y.From, y.To = time.Time{}, time.Time{}, time.Time{}, time.Time{}
		return reflect.DeepEqual(x, y)
	})
}
