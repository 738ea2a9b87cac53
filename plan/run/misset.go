package run

import (
	"fmt"
	"slices"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/heat"
)

// missetFor is how long something in an oven must be at a wrong temperature to be
// told of: a dial may be turned in the last minutes of a bake.
const missetFor = 2 * time.Minute

// stay is something in an oven: a bake, or what keeps warm there.
type stay struct {
	step     int
	warm     bool
	lo, hi   plan.Celsius
	from, to time.Time // as projected
	going    bool
}

// stays lists what is in an oven, or will be. What begins at once rides the change
// from what was before it, and is not among them.
func (pr *projected) stays(oven int) (out []stay) {
	for i := range pr.s.Steps {
		step := &pr.s.Plan.Steps[i]
		if pr.skipped(i) {
			continue
		}
		in := pr.s.Timetable.Slots[i].Oven
		if b := step.Oven; b != nil && in == oven && !pr.auto(i) && !pr.settled(pr.end(i)) {
			out = append(out, stay{step: i, lo: b.Lo, hi: b.Hi, from: pr.at(pr.start(i)), to: pr.at(pr.end(i)), going: pr.settled(pr.start(i))})
		}
		w := step.Keeps.Warm
		if w == nil {
			continue
		}
		if in = max(0, in); w.In >= 0 {
			in = w.In
		}
		taken := pr.takenAt(i)
		if in == oven && !pr.settled(taken) {
			out = append(out, stay{step: i, warm: true, lo: w.Lo, hi: w.Hi, from: pr.at(pr.end(i)), to: pr.at(taken), going: pr.settled(pr.end(i))})
		}
	}
	return out
}

// takenAt is the point at which the last of what step i made is taken.
func (pr *projected) takenAt(i int) int {
	if last := pr.takenBy(i); last >= 0 {
		return pr.start(last)
	}
	return pr.serve(pr.s.Plan.CourseOf(i))
}

// misset warns of an oven that is, or will be, set to what something in it does not
// bear: as long as that is in it, or until the cook sets the oven back.
func (pr *projected) misset(m *Moment) {
	for oven := range pr.s.Plan.Kitchen.Ovens {
		if pr.s.Plan.Kitchen.Ovens[oven].Shelves == 0 {
			continue // it has failed, which is told otherwise
		}
		c := curveOf(pr.order, pr, oven)
		for _, x := range pr.stays(oven) {
			if x.going {
				pr.missetNow(m, oven, c, x)
			}
			if x.warm {
				pr.missetLater(m, oven, x)
			}
		}
	}
}

// missetNow tells of a dial that does not suit what is in the oven, and offers to
// turn it back.
func (pr *projected) missetNow(m *Moment, oven int, c curve, x stay) {
	d, ok := c.last(pr.now)
	if !ok || !d.off && x.lo-plan.DialError <= d.to && d.to <= x.hi+plan.DialError {
		return
	}
	temp := c.at(pr.now)
	leaves := pr.now
	switch low, high := x.lo, x.hi; {
	case temp < low || temp > high:
	case d.off || d.to < low:
		leaves = pr.now.Add(c.model.Cooling(temp, low))
	default:
		leaves = pr.now.Add(min(c.model.Heating(temp, high), heat.Never-1))
	}
	if x.to.Sub(leaves) < missetFor {
		return
	}
	p := pr.s.Plan
	name, want := p.Kitchen.Ovens[oven].Name, p.Units.Temp(pr.wants(x))
	is := "off"
	if !d.off {
		is = "set to " + p.Units.Temp(d.to)
	}
	cue := pr.missetCue(oven, x)
	cue.Due = plan.Later(d.at, x.from)
	cue.Text = fmt.Sprintf("%s: it is %s, %s %s until %s", title(name), is, pr.name(x.step), pr.needs(x), pr.when(upToMinute(x.to)))
	cue.Label = "seen"
	// To set it back is offered only where what it is set for waits for that: else each
	// of the two would be asked for after the other, for ever.
	// An oven that failed and works again is set back for whatever is in it.
	broke := d.off && pr.s.turned(oven).Broke
	if waits := !x.warm && pr.s.Timetable.Slots[x.step].Start.Before(d.at); broke && !x.warm || waits && (!d.off || !pr.switchedOff(oven, d.at)) {
		temp := float64(pr.wants(x))
		cue.Text += ": set it to " + want
		cue.Answer, cue.Label = []Event{{Kind: OvenTurned, Oven: name, Temp: &temp, Step: p.Steps[x.step].ID}}, "set"
	}
	m.Cues = append(m.Cues, cue)
}

// switchedOff reports whether an oven was switched off at an instant as the timetable
// asks: what is still in it keeps the heat that is left, or is to be taken out.
func (pr *projected) switchedOff(oven int, at time.Time) bool {
	for k := range pr.sets {
		if set := &pr.sets[k]; set.Oven == oven && set.Off && !set.At.After(pr.now) && pr.at(pr.set(k)).Equal(at) {
			return true
		}
	}
	return false
}

// missetLater tells of a setting to come that does not suit what will keep warm in
// the oven then, though the timetable has it out by then. (Bakes are kept apart by
// their order: see clashes.)
func (pr *projected) missetLater(m *Moment, oven int, x stay) {
	for k := range pr.sets {
		set := &pr.sets[k]
		at := pr.at(pr.set(k))
		if set.Oven != oven || set.Off || set.moot || pr.settled(pr.set(k)) || x.lo <= set.To && set.To <= x.hi {
			continue
		}
		if at.Before(x.from) || x.to.Sub(at) < UnconfirmedAfter || !pr.plannedOut(x).Before(set.At.Add(missetFor)) {
			continue
		}
		cue := pr.missetCue(oven, x)
		cue.Due = pr.now
		cue.Text = fmt.Sprintf("%s: %s %s until %s, and at %s it is to be set to %s for %s", title(pr.s.Plan.Kitchen.Ovens[oven].Name),
			pr.name(x.step), pr.needs(x), pr.when(upToMinute(x.to)), pr.when(at), pr.s.Plan.Units.Temp(set.To), pr.name(set.For))
		cue.Label = "seen"
		m.Cues = append(m.Cues, cue)
		return
	}
}

func (pr *projected) missetCue(oven int, x stay) Cue {
	c := pr.stepCue(LateCue, cueConflict+pr.s.Plan.Kitchen.Ovens[oven].Name+":", x.step)
	if c.Oven = oven; x.warm {
		c.ID += ":warm"
	}
	c.ID += ":dial"
	return c
}

// plannedOut is when the timetable has what keeps warm taken out.
func (pr *projected) plannedOut(x stay) time.Time {
	if last := pr.takenBy(x.step); last >= 0 {
		return pr.s.Timetable.Slots[last].Start
	}
	return pr.s.Timetable.Serves[pr.s.Plan.CourseOf(x.step)]
}

// wants is what the oven should be set to for a stay.
func (pr *projected) wants(x stay) plan.Celsius {
	if x.warm {
		return (x.lo + x.hi) / 2
	}
	return pr.dial(x.step)
}

// needs is what a stay asks of the oven, in words.
func (pr *projected) needs(x stay) string {
	if x.warm {
		return "keeps warm at " + HeatOf(pr.s.Plan.Steps[x.step].Keeps.Warm, pr.s.Plan.Units)
	}
	return "needs " + pr.bakes(x.step)
}

// unset reports whether nobody said that the oven was set for a bake, nor for
// another that it suits: it is only taken to have been.
func (pr *projected) unset(i int) bool {
	b, oven := pr.s.Plan.Steps[i].Oven, pr.s.Timetable.Slots[i].Oven
	for _, f := range slices.Backward(pr.s.Sets) {
		if f.Oven == oven {
			if b != nil && !f.Off && b.Lo <= f.To && f.To <= b.Hi {
				return false
			}
			break
		}
	}
	for k := range pr.sets {
		if set := &pr.sets[k]; set.For == i && !set.Off && !set.moot && pr.isAssumed(pr.set(k)) {
			return true
		}
	}
	return false
}
