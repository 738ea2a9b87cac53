package rehearse

import (
	"slices"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/mishap"
	"example.org/kettledrum/plan/run"
)

// kindOf are the mishaps that are told by one event of a kind; Prolonged, Finished and
// Reading need a closer look.
var kindOf = map[run.Kind]mishap.Kind{
	run.Prolonged: mishap.Longer, run.SkippedStep: mishap.Dropped, run.Dropped: mishap.Dropped, run.Redone: mishap.Burnt,
	run.Reassigned: mishap.GivenTo, run.Put: mishap.PutOn, run.Away: mishap.Away, run.Back: mishap.Back, run.Failed: mishap.Fails,
	run.Works: mishap.Works, run.Held: mishap.Hold, run.Released: mishap.Release, run.Reading: mishap.Reading,
}

// Recorded returns the script by which what went wrong in a run, from an instant on,
// happens again in a rehearsal: what was told, at its time, and how long each step took
// that ended otherwise than it was expected to. What was taken back is not among it, nor
// is a way out that was taken: of that the run does not keep which it was.
func Recorded(st *run.State, from time.Time) (out []mishap.Mishap) {
	undone := map[uint64]bool{}
	for _, e := range slices.Backward(st.Events) {
		if e.Kind == run.Undone && !undone[e.Seq] {
			undone[e.Undoes] = true
		}
	}
	displaced := map[string]bool{} // steps whose place has failed: where they go is the answer to a cue
	longer := make([]time.Duration, len(st.Steps))
	for _, e := range st.Events {
		kind, ok := kindOf[e.Kind]
		if e.Kind == run.Added && e.Cook != "" { // who does something else is away from all that is planned
			kind, ok = mishap.Away, true
		}
		if !ok || undone[e.Seq] || e.At.Before(from) {
			continue
		}
		if e.Kind == run.Put && displaced[e.Step] {
			displaced[e.Step] = false
			continue
		}
		if e.Kind == run.Failed {
			displaced[e.Step] = true
		}
		if e.Kind == run.Prolonged {
			longer[st.Plan.StepIndex(e.Step)] += e.By
		}
		if e.Kind == run.Reading && atItsEnd(st, e) {
			continue
		}
		out = append(out, recorded(st.Plan, kind, e))
	}
	for i := range st.Steps {
		s := &st.Steps[i]
		if s.Status != plan.Done || st.Plan.Steps[i].Length.Elastic || !s.Finished.After(from) {
			continue
		}
		// A reading may have moved its end as well: what it truly took says the same.
		if took := s.Finished.Sub(s.Started) - still(st, i); took != st.Plan.Steps[i].Length.Planned()+longer[i] {
			m := mishap.None(mishap.Takes)
			m.Step, m.By = i, took
			out = append(out, m)
		}
	}
	return out
}

// atItsEnd reports whether a reading is the one with which a step was done: a rehearsal
// takes it itself.
func atItsEnd(st *run.State, e run.Event) bool {
	i := st.Plan.StepIndex(e.Step)
	r, ok := run.AtTarget(st.Plan, i)
	return ok && e.Temp != nil && *e.Temp == *r.Temp && st.Steps[i].Status == plan.Done && st.Steps[i].Finished.Equal(e.At)
}

// recorded is the mishap of an event.
func recorded(p *plan.Plan, kind mishap.Kind, e run.Event) mishap.Mishap {
	m := mishap.None(kind)
	m.At, m.By = e.At, e.By
	if e.Step != "" {
		m.Step = p.StepIndex(e.Step)
	}
	find := func(n int, name func(int) string, want string) int {
		for k := range n {
			if want != "" && name(k) == want {
				return k
			}
		}
		return -1
	}
	m.Dish = find(len(p.Dishes), func(k int) string { return p.Dishes[k].ID }, e.Dish)
	m.Cook = find(len(p.Kitchen.Cooks), func(k int) string { return p.Kitchen.Cooks[k].Name }, e.Cook)
	m.Oven = find(len(p.Kitchen.Ovens), func(k int) string { return p.Kitchen.Ovens[k].Name }, e.Oven)
	m.Course = find(len(p.Courses), func(k int) string { return p.Courses[k].Name }, e.Course)
	for _, b := range []plan.BurnerSize{plan.Small, plan.Large} {
		if b.String() == e.Burner {
			m.Burner = b
		}
	}
	m.Again = e.Kind == run.Redone
	if e.Temp != nil {
		m.Temp = plan.Celsius(*e.Temp)
	}
	return m
}
