package run

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/kettledrum/plan"
)

// The first part of a cue's ID says what it is about.
const (
	cueStart    = "start:"
	cueEnd      = "end:"
	cueRemind   = "remind:"
	cueSet      = "set:"
	cueServe    = "serve:"
	cueTimer    = "timer:"
	cueSoon     = "soon:"
	cueLate     = "late:"
	cueKeep     = "keep:"
	cueConflict = "conflict:"
	cueMoved    = "moved:"
	cueHeld     = "held:"
	cueFailed   = "failed:"
)

// Limits of the conductor that no screen needs.
const (
	// noteFor is how long it is told that something moved.
	noteFor = 5 * time.Minute
	// lateStep is by how much a course must be later still for a late cue that
	// was seen to come back.
	lateStep = 5 * time.Minute
)

// sortCues puts the most urgent first, then the oldest.
func sortCues(cues []Cue) {
	slices.SortStableFunc(cues, func(a, b Cue) int {
		return cmp.Or(cmp.Compare(a.Class, b.Class), a.Due.Compare(b.Due), cmp.Compare(rank(&a), rank(&b)), cmp.Compare(a.ID, b.ID))
	})
}

// rank orders what happens at one instant: something ends before the next begins.
func rank(c *Cue) int {
	for r, what := range [...]string{cueTimer, cueEnd, cueRemind, cueSet, cueStart, cueServe} {
		if strings.HasPrefix(c.ID, what) {
			return r
		}
	}
	return -1
}

func blankCue(class Class, id string) Cue {
	return Cue{ID: id, Class: class, Step: -1, Course: -1, Oven: -1}
}

func (pr *projected) stepCue(class Class, what string, i int) Cue {
	c := blankCue(class, what+pr.s.Plan.Steps[i].ID)
	c.Step, c.Course, c.Oven = i, pr.s.Plan.CourseOf(i), pr.s.Timetable.Slots[i].Oven
	return c
}

func (pr *projected) startCue(i int) Cue {
	step := &pr.s.Plan.Steps[i]
	c := pr.stepCue(Act, cueStart, i)
	c.Text = pr.with(i)
	if step.Oven != nil {
		c.Text = "Put in: " + c.Text
	}
	if why := pr.unusable(i); why != "" {
		c.Text += " · " + why
	} else if pr.unset(i) {
		c.Text += " · was it set?"
	}
	c.Answer, c.Label = []Event{{Kind: Started, Step: step.ID}}, "started"
	return c
}

func (pr *projected) soonCue(i int, start Cue) Cue {
	c := pr.stepCue(Soon, cueSoon, i)
	c.Due, c.Text, c.Label = start.Due, "At "+pr.when(start.Due)+": "+start.Text, "seen"
	return c
}

func (pr *projected) endCue(i int) Cue {
	c := pr.stepCue(Look, cueEnd, i)
	c.Text = pr.name(i) + " · " + pr.look(i)
	c.Answer, c.Label = []Event{{Kind: Finished, Step: pr.s.Plan.Steps[i].ID}}, "done"
	if away := pr.putAway(i); away != "" {
		c.Text += " · then " + away
	}
	return c
}

func (pr *projected) setCue(k int) Cue {
	set, p := &pr.sets[k], pr.s.Plan
	name := p.Kitchen.Ovens[set.Oven].Name
	c := blankCue(Act, cueSet+name)
	c.Oven = set.Oven
	e := Event{Kind: OvenTurned, Oven: name}
	if set.Off {
		c.ID += ":off"
		c.Text, c.Label = "Switch the "+name+" off", "off"
	} else {
		temp := float64(set.To)
		e.Temp = &temp
		c.Text, c.Label = fmt.Sprintf("Set the %s to %s", name, p.Units.Temp(set.To)), "set"
	}
	if set.For >= 0 {
		c.ID += ":" + p.Steps[set.For].ID
		c.Step, c.Course = set.For, p.CourseOf(set.For)
		c.Text += " · for " + pr.name(set.For)
		e.Step = p.Steps[set.For].ID
	}
	c.Answer = []Event{e}
	return c
}

func (pr *projected) serveCue(i int) Cue {
	name := pr.s.Plan.Courses[i].Name
	c := blankCue(Act, cueServe+name)
	c.Course, c.Text, c.Label = i, "Serve: "+name, "served"
	c.Answer = []Event{{Kind: Served, Course: name}}
	return c
}

func timerCue(t Timer) Cue {
	c := blankCue(Look, fmt.Sprintf("%s%d", cueTimer, t.Seq))
	c.Due, c.Text, c.Label = t.Due, timerLabel(t)+" · time is up", "stop"
	c.Answer = []Event{{Kind: Acknowledged, Cue: c.ID}}
	return c
}

// lateCue comes back, if it was seen, when the course gets later still.
func (pr *projected) lateCue(cm CourseMoment) Cue {
	name := pr.s.Plan.Courses[cm.Course].Name
	late := cm.Late.Round(lateStep)
	c := blankCue(LateCue, fmt.Sprintf("%s%s:%d", cueLate, name, int(late.Minutes())))
	c.Course, c.Due, c.Label = cm.Course, cm.Asked.Add(pr.s.Plan.Courses[cm.Course].LateOK), "seen"
	c.Text = fmt.Sprintf("%s will be %s late: %s instead of %s", name, plan.Spell(cm.Late), pr.when(cm.Projected), pr.when(cm.Asked))
	return c
}

// heldCue tells that a course waits, and until when it is taken to.
func heldCue(s *State, c int, now time.Time) Cue {
	name := s.Plan.Courses[c].Name
	out := blankCue(Note, cueHeld+name)
	out.Course, out.Due, out.Label = c, now, "seen"
	out.Text = fmt.Sprintf("%s waits until you release it · taken for %s", name, s.when(s.Plan.Asked(c), now))
	return out
}

// displacedCue asks to move what stands on or in what failed; where there is one
// place that it can go to, the answer is that it is there.
func (pr *projected) displacedCue(i int) Cue {
	p, step, slot := pr.s.Plan, &pr.s.Plan.Steps[i], pr.s.Timetable.Slots[i]
	c := pr.stepCue(LateCue, cueFailed, i)
	c.Due = pr.s.Steps[i].Displaced
	e := Event{Kind: Put, Step: step.ID}
	switch {
	case step.Burner != nil:
		c.Text = pr.name(i) + " · its burner has failed: put it on another"
		e.Burner = slot.Burner.String()
		if slot.Burner == plan.Small && p.Kitchen.Burners.Small < step.Burner.Count {
			e.Burner = plan.Large.String()
		}
		if slot.Burner == plan.AnyBurner || slot.Burner == plan.Large && p.Kitchen.Burners.Large < step.Burner.Count {
			e.Burner = ""
		}
	case step.Oven != nil:
		c.Text = fmt.Sprintf("%s · the %s has failed: put it elsewhere, or begin again", pr.name(i), p.Kitchen.Ovens[max(0, slot.Oven)].Name)
		for _, o := range p.Kitchen.Ovens {
			if o.Shelves >= step.Oven.Space && e.Oven == "" {
				e.Oven = o.Name
			}
		}
	}
	c.Label = "seen"
	if e.Oven != "" || e.Burner != "" {
		c.Answer, c.Label = []Event{e}, "moved"
	}
	return c
}

func movedCue(s *State, e *Event) Cue {
	c := blankCue(Note, fmt.Sprintf("%s%d", cueMoved, e.Seq))
	c.Due, c.Text, c.Label = e.At, strings.Join(e.Why, "\n"), "seen"
	c.Answer = []Event{{Kind: Acknowledged, Cue: c.ID}}
	return c
}

// keeping warns when what a step made is about to be kept too long and nobody
// takes it.
func (pr *projected) keeping(m *Moment) {
	for _, k := range pr.kept() {
		if !pr.settled(pr.end(k.step)) || pr.settled(k.taken) || k.until.Sub(pr.now) > SoonAhead {
			continue
		}
		if pr.status[k.taken] == future && !pr.at(k.taken).After(k.until) {
			continue // taken in time, by itself
		}
		c := pr.stepCue(LateCue, cueKeep, k.step)
		c.ID += ":" + k.by
		c.Due, c.Label = k.until.Add(-SoonAhead), "seen"
		keeps := fmt.Sprintf("keeps %s, until %s", plan.Spell(k.long), pr.when(k.until))
		if k.long == 0 { // as after a wait: it is taken as it ends
			keeps = "to be taken by " + pr.when(k.until)
		}
		c.Text = fmt.Sprintf("%s · %s · waiting for: %s", pr.name(k.step), keeps, pr.taker(k))
		m.Cues = append(m.Cues, c)
	}
}

// conflicts warns of bakes that the oven is not ready for as planned.
func (pr *projected) conflicts(m *Moment) {
	for _, x := range pr.clashes() {
		name := pr.s.Plan.Kitchen.Ovens[x.oven].Name
		late := x.ready.Sub(x.planned).Round(lateStep)
		c := pr.stepCue(LateCue, cueConflict+name+":", x.step)
		c.ID = fmt.Sprintf("%s:%d", c.ID, int(late.Minutes()))
		c.Due, c.Label = x.planned, "seen"
		want := fmt.Sprintf("%s wants %s at %s: ready %s", pr.name(x.step), pr.bakes(x.step), pr.when(x.planned), pr.when(upToMinute(x.ready)))
		if x.holder >= 0 {
			c.Text = fmt.Sprintf("%s: %s needs %s until %s, %s", title(name), pr.name(x.holder), pr.bakes(x.holder), pr.when(upToMinute(x.until)), want)
		} else {
			c.Text = fmt.Sprintf("%s: ready late, %s", title(name), want)
		}
		m.Cues = append(m.Cues, c)
	}
}
