package review

import (
	"time"

	"example.org/kettledrum/plan"
)

// Habit is what several evenings tell of a step.
type Habit struct {
	Step   string      // full reference
	Cooked plan.Step   // as the plan of the last evening has it
	Index  int         // there
	Is     plan.Length // its length there
	// Prior is what the plan said before the evenings that Took is of: Is, unless a
	// proposal was taken since.
	Prior plan.Length
	// Took is how long it took, on those evenings on which it could be judged; On are
	// their indices, in the same order.
	Took []time.Duration
	On   []int
	// Proposed is what the plan should say: see Propose. It equals Is where that is so.
	Proposed plan.Length
	// Tends says whether it runs long by habit (+1), is short of its time by habit
	// (−1), or neither.
	Tends int
}

// Changes reports whether the plan should say something else.
func (h *Habit) Changes() bool { return h.Proposed != h.Is }

// Bounds of a habit: of four evenings three are off the same way, and there are two at
// least. Common practice.
const (
	often = 3
	twice = 2
)

// Compare returns what evenings of one plan, by time, tell of each step of the last
// one's plan whose length the food decides, in its order.
//
// An evening counts for a step if it was the same work then: the same heat, sign and
// hands. Where its plan says a length that neither was there before nor was proposed,
// the cook has changed it, and knows why: what was before counts no more.
func Compare(evenings []*Evening) []Habit {
	if len(evenings) == 0 {
		return nil
	}
	last := evenings[len(evenings)-1].Plan
	var out []Habit
	for i := range last.Steps {
		if !last.Steps[i].Length.Elastic {
			out = append(out, habit(evenings, last, i))
		}
	}
	return out
}

// habit is what evenings tell of step i of the last plan.
func habit(evenings []*Evening, last *plan.Plan, i int) Habit {
	h := Habit{Step: last.Steps[i].ID, Cooked: last.Steps[i], Index: i, Is: last.Steps[i].Length}
	var known map[plan.Length]bool // what the plan said, and what was proposed since
	long, short := 0, 0
	for n, ev := range evenings {
		k := ev.Plan.StepIndex(h.Step)
		if k < 0 || !SameWork(&ev.Plan.Steps[k], &last.Steps[i]) {
			continue
		}
		was := ev.Plan.Steps[k].Length
		if !known[was] {
			h.Prior, h.Took, h.On, known = was, nil, nil, map[plan.Length]bool{was: true}
			long, short = 0, 0
		}
		took := ev.Steps[k].Took
		if ev.Steps[k].Why != Judged {
			continue
		}
		h.Took, h.On = append(h.Took, took), append(h.On, n)
		known[Propose(h.Prior, h.Took)] = true
		switch off := took - was.Likely; {
		case off >= noticed(was.Likely):
			long++
		case -off >= noticed(was.Likely):
			short++
		}
	}
	h.Proposed = Propose(h.Prior, h.Took)
	switch n := len(h.Took); {
	case n < twice:
	case 4*long >= often*n:
		h.Tends = 1
	case 4*short >= often*n:
		h.Tends = -1
	}
	return h
}

// noticed is by how much a step must be off to have been off: a minute, for that is how
// exactly a cook tells, and a twentieth of what is long. Common practice.
func noticed(likely time.Duration) time.Duration { return max(time.Minute, likely/20) }

// SameWork reports whether two steps are alike in what bears on how long they take: heat,
// sign, hands, and what the cook reads.
func SameWork(a, b *plan.Step) bool {
	heat := func(x, y *plan.Bake) bool {
		return x == nil && y == nil || x != nil && y != nil && x.Lo == y.Lo && x.Hi == y.Hi && x.Grill == y.Grill
	}
	ring := func(x, y *plan.BurnerUse) bool { return x == nil && y == nil || x != nil && y != nil && *x == *y }
	return a.Do == b.Do && a.Hands == b.Hands && a.Length.Elastic == b.Length.Elastic && a.Until == b.Until &&
		heat(a.Oven, b.Oven) && ring(a.Burner, b.Burner)
}
