package run

import (
	"fmt"
	"strings"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/heat"
	"example.org/kettledrum/plan/safety"
)

// Cues about the temperature inside food.
const (
	cueRead       = "read:"       // what a reading says
	cueProbe      = "probe:"      // time to read again
	cueUnmeasured = "unmeasured:" // done, and no reading was told
	cueUnsafe     = "unsafe:"     // done, and not as hot as is safe
)

// thermometer adds what the readings say: when the last was told, what follows from
// it; at the early side of the forecast, that it is time to look; after the end,
// what should have been read and was not.
func (pr *projected) thermometer(m *Moment) {
	for i := range pr.s.Steps {
		if pr.skipped(i) || !heats(&pr.s.Plan.Steps[i]) {
			continue
		}
		if f := pr.s.Steps[i].Inside.Forecast; f != nil && !pr.settled(pr.end(i)) {
			pr.told(i, f, m)
			pr.early(i, f, m)
		}
		pr.checked(i, m)
	}
}

// told answers a reading, for a while.
func (pr *projected) told(i int, f *heat.Forecast, m *Moment) {
	c := pr.insideCue(Note, cueRead, i)
	if _, seen := pr.s.Acked[c.ID]; seen || pr.now.Before(f.At) || pr.now.Sub(f.At) >= noteFor {
		return
	}
	c.Due, c.Text = f.At, pr.name(i)+" · "+pr.forecast(i, f)
	m.Cues = append(m.Cues, c)
}

// early asks to look at the early side of the forecast. As of a reminder, nobody need
// confirm it: the end itself is asked for later.
func (pr *projected) early(i int, f *heat.Forecast, m *Moment) {
	c := pr.insideCue(Look, cueProbe, i)
	_, seen := pr.s.Acked[c.ID]
	if seen || f.Basis != heat.FromFit || pr.status[pr.end(i)] != future || !f.Early.Before(pr.ending(i)) {
		return
	}
	c.Due, c.Text = f.Early, "Read again: "+pr.name(i)+" · "+pr.forecast(i, f)
	switch late := pr.now.Sub(f.Early); {
	case late < 0:
		m.Next = append(m.Next, Upcoming{Cue: c, At: f.Early})
	case late < UnconfirmedAfter:
		m.Cues = append(m.Cues, c)
	}
}

// insideCue is a cue about the newest reading of step i.
func (pr *projected) insideCue(class Class, what string, i int) Cue {
	c := pr.stepCue(class, what, i)
	c.ID = fmt.Sprintf("%s:%d", c.ID, len(pr.s.Steps[i].Inside.Readings))
	c.Answer, c.Label = []Event{{Kind: Acknowledged, Cue: c.ID}}, "seen"
	return c
}

// forecast says the reading, the target and when it will be there: "48 of 57 °C at
// 18:10 · done about 18:45, between 18:32 and 18:58".
func (pr *projected) forecast(i int, f *heat.Forecast) string {
	read := fmt.Sprintf("%s at %s", pr.ofTarget(i), pr.when(f.At))
	expected := pr.when(pr.ending(i))
	planned := expected + " as planned"
	if !pr.ending(i).After(f.At) {
		planned = "the planned time is over"
	}
	switch f.Basis {
	case heat.Reached:
		return read + " · done" + pr.restRise(i, ", ")
	case heat.Stalled:
		return read + " · it hardly rises: no time can be told"
	case heat.FromPlateau:
		return read + " · it may stand still for long on the way: " + planned
	case heat.FromPlan:
		return read + " · too early to tell: " + planned
	}
	return fmt.Sprintf("%s · done about %s, between %s and %s%s", read, expected, pr.when(f.Early), pr.when(f.Late), pr.restRise(i, " · "))
}

// ofTarget is the newest reading beside the target: "48 of 57 °C".
func (pr *projected) ofTarget(i int) string {
	in, u := pr.s.Steps[i].Inside.Readings, pr.s.Plan.Units
	number, _, _ := strings.Cut(u.Temp(in[len(in)-1].Temp), " ")
	return number + " of " + u.Temp(pr.s.Plan.Steps[i].Until.Temp)
}

// restRise says by how much the inside goes on to rise in the rest that follows a
// bake, if one does.
func (pr *projected) restRise(i int, before string) string {
	step := &pr.s.Plan.Steps[i]
	if step.Oven == nil {
		return ""
	}
	for _, j := range pr.next[i] {
		rest := &pr.s.Plan.Steps[j]
		if !rest.Length.Elastic || !rest.AtOnce || rest.Oven != nil || rest.Cold != "" {
			continue
		}
		st := &pr.s.Steps[i]
		dial, _ := pr.s.dialOf(i, st.Started)
		rise, peak := heat.RestRise(st.Inside.Planned, dial, step.Until.Temp)
		if rise == 0 || peak > rest.Length.Longest {
			return ""
		}
		return fmt.Sprintf("%sthe rest may bring it to %s", before, pr.s.Plan.Units.Temp(step.Until.Temp+rise))
	}
	return ""
}

// checked asks once where food is done, or taken to be, and no reading says that it
// is safe: none was told, or it is below the least for its class. Of food without a
// class the cook alone knows: then it is a note, of what was told done, until it is on
// the table.
func (pr *projected) checked(i int, m *Moment) {
	end := pr.end(i)
	if !pr.settled(end) {
		return
	}
	row, known := safety.Minimum(pr.s.Plan.Dishes[pr.s.Plan.Steps[i].Dish].Food)
	known = known && row.HasTemp()
	temp, read := pr.s.Steps[i].Inside.shown(pr.at(end))
	var c Cue
	switch {
	case !read && known:
		c = pr.stepCue(Danger, cueUnmeasured, i)
		c.Text = fmt.Sprintf("%s · done, and no reading was told · %s", pr.name(i), pr.least(&row))
	case !read && pr.status[end] == fact && pr.s.Courses[pr.s.Plan.CourseOf(i)].Served.IsZero():
		c = pr.stepCue(Note, cueUnmeasured, i)
		c.Text = fmt.Sprintf("%s · done, and no reading was told · %s?", pr.name(i), pr.s.Plan.Units.Temp(pr.s.Plan.Steps[i].Until.Temp))
	case read && known && !safety.Reaches(temp, row.Temp()):
		c = pr.stepCue(Danger, cueUnsafe, i)
		c.Text = fmt.Sprintf("%s · read %s inside · %s", pr.name(i), pr.below(temp, row.Temp()), pr.least(&row))
	default:
		return
	}
	if _, seen := pr.s.Acked[c.ID]; seen {
		return
	}
	c.Due, c.Label = pr.at(end), "I know"
	c.Answer = []Event{{Kind: Acknowledged, Cue: c.ID, Step: pr.s.Plan.Steps[i].ID, Text: c.Text}}
	m.Cues = append(m.Cues, c)
}

// below writes a reading that is below a limit, so that in whole degrees the two are
// never the same: "57 °C", "just under 63 °C".
func (pr *projected) below(temp, limit plan.Celsius) string {
	u := pr.s.Plan.Units
	if u.Temp(temp) == u.Temp(limit) {
		return "just under " + u.Temp(limit)
	}
	return u.Temp(temp)
}

// least says from what temperature on a class of food is safe: "safe from 145 °F and
// 3 min of rest: measure, or put it back (FoodSafety.gov, …)". Where the plan goes by
// British advice that is said too. It asks how long, which no single reading tells:
// what asks is the chart's figure, under any rules.
func (pr *projected) least(row *safety.Row) string {
	units, rest := pr.s.Plan.Units, ""
	if row.Rest > 0 {
		rest = " and " + plan.Spell(row.Rest) + " of rest"
	}
	if safety.IsBritish(pr.s.Plan, *row) {
		rest = "; British advice (Food Standards Agency): held at " + safety.British(units)
	}
	return fmt.Sprintf("safe from %s%s: measure, or put it back (%s)", units.Temp(row.Temp()), rest, row.Source.Name)
}
