package main

import (
	"fmt"
	"io"
	"strings"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/risk"
)

// mostWhy is how many of the steps that make a dinner late are named.
const mostWhy = 3

// tell says in a message what slack there is, before a dinner is run.
func (x planned) tell(w *world) {
	switch {
	case x.asked == 0:
	case x.sure == nil:
		w.msg.say("%s", cannotBeSure)
	default:
		w.msg.say("%s", x.verdict())
		for _, l := range x.why() {
			w.msg.say("%s", l)
		}
	}
}

// cannotBeSure says why there is no slack in a broken timetable.
const cannotBeSure = "slack is put into no timetable that breaks rules: mend the plan first"

// verdict says how sure the dinner is.
func (x planned) verdict() string {
	s := x.sure
	is := fmt.Sprintf("every course is less than a minute late in %.1f %% of evenings (standard error %.1f), without slack in %.1f %%",
		100*s.After.OnTime.P, 100*s.After.OnTime.SE, 100*s.Before.OnTime.P)
	if s.Reached {
		return is
	}
	return fmt.Sprintf("%s cannot be had, as far as was tried: the best is that %s", x.asked.String(), is)
}

// why says, of a chance that cannot be had, what stands in its way.
func (x planned) why() (out []string) {
	s := x.sure
	if s.Reached {
		return nil
	}
	p := x.plan
	line := fmt.Sprintf("%s is on time most seldom, in %.1f %%", p.Courses[s.Thin].Name, 100*s.Chance.P)
	var steps []string
	for _, c := range s.Steps[:min(mostWhy, len(s.Steps))] {
		steps = append(steps, fmt.Sprintf("%s (%.0f %%)", p.StepName(c.Step), 100*c.Critical.P))
	}
	if len(steps) > 0 {
		line += "; what most often makes a course late: " + strings.Join(steps, ", ")
	}
	out = append(out, line)
	if s.Blocked == nil {
		return append(out, "no more slack helps: planned with the longest they are likely to take, steps are still late")
	}
	for _, b := range s.Blocked.Breaks {
		if b.Kind.Hard() {
			out = append(out, "with more slack "+b.Text)
		}
	}
	for c := range p.Courses {
		if late := s.Blocked.Lateness(p, c); late > 0 {
			out = append(out, fmt.Sprintf("with more slack %s is planned %s late", p.Courses[c].Name, plan.Spell(late)))
		}
	}
	return out
}

// writeSure prints what slack a timetable has, what it buys and what it costs.
func writeSure(w io.Writer, x planned) {
	if x.asked == 0 {
		return
	}
	fmt.Fprintln(w, "\nSlack")
	if x.sure == nil {
		writePara(w, "  ", cannotBeSure)
		return
	}
	s := x.sure
	writePara(w, "  ", x.verdict())
	for _, l := range x.why() {
		writePara(w, "  ", l)
	}
	writePara(w, "  ", "its price: "+price(x.plan, s))
	for i, by := range s.By {
		if by > 0 {
			writeHanging(w, fmt.Sprintf("  %9s  ", "+"+plan.Spell(by)), x.plan.StepName(i))
		}
	}
}

// price says what slack costs.
func price(p *plan.Plan, s *risk.Sure) string {
	was, is := s.Before.Begins.In(p.Table.Location()), s.After.Begins.In(p.Table.Location())
	begins := fmt.Sprintf("the day begins at %s, as without", hour(is))
	if !is.Equal(was) {
		begins = fmt.Sprintf("the day begins at %s instead of %s", hour(is), hour(was))
	}
	return fmt.Sprintf("%s; hot food waits %s in all, on average, instead of %s", begins, plan.Spell(s.After.Waits), plan.Spell(s.Before.Waits))
}

type sureJSON struct {
	Asked   float64     `json:"asked"`
	Reached bool        `json:"reached"`
	Before  worthJSON   `json:"before"`
	After   worthJSON   `json:"after"`
	Slack   []slackJSON `json:"slack"`
	Thin    *string     `json:"thin"`
	Why     []string    `json:"why"`
}

type worthJSON struct {
	OnTime chanceJSON `json:"on_time"`
	Begins time.Time  `json:"begins"`
	Waits  float64    `json:"waits_min"`
}

type slackJSON struct {
	Step   string `json:"step"`
	Longer int    `json:"longer_min"`
}

func viewSure(x planned) *sureJSON {
	if x.sure == nil {
		return nil
	}
	s, in := x.sure, inZone(x.plan)
	worth := func(w risk.Worth) worthJSON { return worthJSON{chanceJSON(w.OnTime), in(w.Begins), w.Waits.Minutes()} }
	v := &sureJSON{Asked: float64(x.asked), Reached: s.Reached, Before: worth(s.Before), After: worth(s.After), Slack: []slackJSON{}, Why: []string{}}
	for i, by := range s.By {
		if by > 0 {
			v.Slack = append(v.Slack, slackJSON{x.plan.Steps[i].ID, plan.Minutes(by)})
		}
	}
	if !s.Reached {
		v.Thin = &x.plan.Courses[s.Thin].Name
		v.Why = append(v.Why, x.why()...)
	}
	return v
}
