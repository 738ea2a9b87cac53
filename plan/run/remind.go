package run

import (
	"fmt"
	"slices"
	"time"

	"example.org/kettledrum/plan"
)

// Reminder is one moment at which a step that is going wants a touch.
type Reminder struct {
	At   time.Time
	Text string
	// ID is stable while the step's times move: which of the step's reminders, and
	// the how many-th time it comes, from 1: "1.3".
	ID string
}

// Reminders returns the reminders of a step that lasts from start to end, by
// time. What would come before the start or not before the end does not come.
func Reminders(step *plan.Step, start, end time.Time) []Reminder {
	var out []Reminder
	for k, r := range step.Reminds {
		add := func(at time.Time, n int) {
			if !at.Before(start) && at.Before(end) {
				out = append(out, Reminder{At: at, Text: r.Text, ID: fmt.Sprintf("%d.%d", k+1, n)})
			}
		}
		switch r.When {
		case plan.Every:
			for n := 1; r.For > 0 && start.Add(time.Duration(n)*r.For).Before(end); n++ {
				add(start.Add(time.Duration(n)*r.For), n)
			}
		case plan.Halfway:
			add(start.Add((end.Sub(start) / 2).Truncate(time.Minute)), 1)
		case plan.BeforeEnd:
			add(end.Add(-r.For), 1)
		}
	}
	slices.SortStableFunc(out, func(a, b Reminder) int { return a.At.Compare(b.At) })
	return out
}

// remindAgain forgets what was answered to reminders of step i before they were
// due, as it now begins: it had begun before, and that was taken back.
func (s *State) remindAgain(i int) {
	step, st := &s.Plan.Steps[i], &s.Steps[i]
	for _, r := range Reminders(step, st.Started, st.Started.Add(s.length(i))) {
		if id := remindID(step, r); s.Acked[id].Before(r.At) {
			delete(s.Acked, id)
		}
	}
}

func remindID(step *plan.Step, r Reminder) string { return cueRemind + step.ID + ":" + r.ID }

// reminders adds those of step i, if it is going, that are due and not seen, and those to come.
// One that nobody answered is dropped after UnconfirmedAfter: the moment for it
// has passed.
func (pr *projected) reminders(i int, m *Moment) {
	step := &pr.s.Plan.Steps[i]
	if len(step.Reminds) == 0 || !pr.settled(pr.start(i)) || pr.settled(pr.end(i)) || pr.skipped(i) {
		return
	}
	for _, r := range Reminders(step, pr.at(pr.start(i)), pr.ending(i)) {
		c := pr.stepCue(Look, cueRemind, i)
		c.ID = remindID(step, r)
		if _, seen := pr.s.Acked[c.ID]; seen {
			continue
		}
		c.Due, c.Text, c.Label = r.At, title(r.Text)+": "+pr.name(i), "done"
		c.Answer = []Event{{Kind: Acknowledged, Cue: c.ID}}
		switch late := pr.now.Sub(r.At); {
		case late < 0:
			m.Next = append(m.Next, Upcoming{Cue: c, At: r.At})
		case late < UnconfirmedAfter:
			m.Cues = append(m.Cues, c)
		}
	}
}

// ending is when step i is over: as projected; of what is due and unanswered,
// when that came up; of a wait that what follows ends, as planned.
func (pr *projected) ending(i int) time.Time {
	v := pr.end(i)
	switch {
	case pr.status[v] == open:
		return pr.time(pr.due[v])
	case !pr.ends(i) && pr.status[v] != assumed && pr.settled(pr.start(i)):
		return pr.waitEnd(i)
	}
	return pr.at(v)
}
