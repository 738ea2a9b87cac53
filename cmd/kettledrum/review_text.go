package main

import (
	"fmt"
	"math"
	"strings"
	"time"

	"github.com/charmbracelet/x/ansi"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/planfile"
	"example.org/kettledrum/plan/review"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/tui/theme"
)

// Columns of a review: a name, when it began or how often it was judged, planned, took,
// and the drawing, with a blank between. They add up to textWidth.
const (
	nameWidth = 29
	whenWidth = 6
	longWidth = 7
	half      = 12 // cells of the drawing on either side of its middle
)

// farthest is what the ends of the drawing mean: twice and half of what was planned.
const farthest = 2.0

// reviewed prints a review.
type reviewed struct {
	w   *results
	b   *lookedBack
	sym theme.Symbols
}

// writeReview prints what the chosen runs tell: courses and steps, planned and true,
// drawn; what could not be judged and why; notes; what is so by habit, and what is proposed.
func writeReview(w *results, c *chosen, b *lookedBack, sym theme.Symbols) {
	x := reviewed{w: w, b: b, sym: sym}
	fmt.Fprintln(w, clean(titleOf(c.last().state.Base)))
	if len(b.shown) == 1 {
		x.one(b.shown[0])
	} else {
		x.several()
	}
	x.habits()
	x.proposed()
}

// legend says what the drawing means.
func (x *reviewed) legend(what string) {
	writePara(x.w, "  ", fmt.Sprintf("%s; %s as planned; %s as the plan allows", what, x.sym.Separator, x.sym.Track))
}

// one prints a single evening.
func (x *reviewed) one(ev *review.Evening) {
	fmt.Fprintf(x.w, "%s\n", ago(ev.Table))
	x.courseHead()
	x.courses(ev, "")
	x.stepsOf(ev)
	x.unjudged(ev)
	if len(ev.Notes) > 0 {
		fmt.Fprintf(x.w, "\nNotes\n")
		x.notes(ev, ev.Notes, "  ")
	}
}

// several prints evenings side by side.
func (x *reviewed) several() {
	fmt.Fprintf(x.w, "%s\n", count(len(x.b.shown), "dinner", "dinners"))
	for n, ev := range x.b.shown {
		fmt.Fprintf(x.w, "  %s  %s\n", x.mark(n), ago(ev.Table))
		x.notes(ev, ev.Notes, "     ")
	}
	x.courseHead()
	for n, ev := range x.b.shown {
		x.courses(ev, x.mark(n)+"  ")
	}
	last := x.b.shown[len(x.b.shown)-1]
	x.head("judged", "planned", "middle")
	var none []string
	x.byDish(last, func(i int) {
		step := &last.Plan.Steps[i]
		var took []time.Duration
		var at []float64
		var who []int
		var notes []string
		for n, ev := range x.b.shown {
			k := ev.Plan.StepIndex(step.ID)
			if k < 0 {
				continue
			}
			for _, note := range ev.Steps[k].Notes {
				notes = append(notes, x.mark(n)+"  "+noteText(ev, note))
			}
			if ev.Steps[k].Why == review.Judged {
				took = append(took, ev.Steps[k].Took)
				at, who = append(at, float64(ev.Steps[k].Took)/float64(ev.Steps[k].Planned)), append(who, n)
			}
		}
		switch {
		case len(took) > 0:
			x.row(step.Do, fmt.Sprintf("%d of %d", len(took), len(x.b.shown)), brief(step.Length.Planned()), brief(review.Median(took)), x.strip(step.Length, at, who))
		case !step.Length.Elastic:
			none = append(none, last.Plan.StepName(i))
		}
		for _, n := range notes {
			writePara(x.w, "      ", n)
		}
	})
	x.legend("1, 2 the dinners above; * several")
	if len(none) > 0 {
		fmt.Fprintf(x.w, "\nNever to be judged\n")
		writePara(x.w, "  ", strings.Join(none, "; "))
	}
}

// mark is how an evening is told from the others: 1, 2, … 9, then a letter.
func (x *reviewed) mark(n int) string {
	const marks = "123456789abcdefghijklmnopqrstuvwxyz"
	return string(marks[min(n, len(marks)-1)])
}

func (x *reviewed) courseHead() {
	fmt.Fprintf(x.w, "\n%s\n", strings.Join([]string{pad("Courses", nameWidth+2), pad("asked", whenWidth), right("planned", longWidth), right("served", longWidth)}, " "))
}

// mostLate is what a full bar means at least: a smaller lateness has a shorter one.
const mostLate = half * time.Minute

// courses prints when each course came, with a bar for how late it was.
func (x *reviewed) courses(ev *review.Evening, mark string) {
	in := ev.Table.Location()
	most := mostLate
	for _, shown := range x.b.shown {
		for _, c := range shown.Courses {
			most = max(most, c.Late)
		}
	}
	for i, c := range ev.Courses {
		served, how := "never", ""
		if !c.Served.IsZero() {
			served = hour(c.Served.In(in))
			how = "on time"
			if late := c.Late.Truncate(time.Minute); late > 0 {
				how = plan.Spell(late) + " late"
				if c.Missed {
					how += ", too late"
				}
				how = strings.Repeat(x.sym.Filled, max(1, int(math.Round(float64(c.Late)/float64(most)*half)))) + " " + how
			}
			if !c.Told {
				how += ", not told"
			}
		}
		x.row(mark+ev.Plan.Courses[i].Name, hour(c.Asked.In(in)), hour(c.Planned.In(in)), served, how)
	}
}

// stepsOf prints the steps of one evening that were judged, with the notes on all.
func (x *reviewed) stepsOf(ev *review.Evening) {
	x.head("begun", "planned", "took")
	x.byDish(ev, func(i int) {
		s, step := &ev.Steps[i], &ev.Plan.Steps[i]
		begun := ""
		if !s.Start.IsZero() {
			begun = hour(s.Start.In(ev.Table.Location()))
		}
		switch {
		case s.Why == review.Judged:
			as := step.Length
			as.Likely = s.Planned
			x.row(step.Do, begun, brief(s.Planned), brief(s.Took), x.strip(as, []float64{float64(s.Took) / float64(s.Planned)}, nil))
		case s.Why == review.Waits && !s.End.IsZero():
			x.row(step.Do, begun, brief(s.Planned), brief(s.End.Sub(s.Start)), "the cook decides")
		case len(s.Notes) > 0:
			x.row(step.Do, begun, brief(s.Planned), "", "")
		}
		x.notes(ev, s.Notes, "      ")
		if s.Why == review.Judged && s.Stood >= time.Minute {
			writePara(x.w, "      ", "without "+brief(s.Stood)+" for which it stood still")
		}
	})
	x.legend(x.sym.Filled + " as it was")
}

// byDish calls each step of an evening, with the name of its dish before the first.
func (x *reviewed) byDish(ev *review.Evening, each func(i int)) {
	chores := false
	for d := range ev.Plan.Dishes {
		dish := &ev.Plan.Dishes[d]
		switch {
		case dish.Chore == nil:
			writePara(x.w, "", dish.Name)
		case !chores:
			fmt.Fprintln(x.w, "Chores")
			chores = true
		}
		for _, i := range dish.Steps {
			each(i)
		}
	}
}

// unjudged prints which steps could not be judged, by why.
func (x *reviewed) unjudged(ev *review.Evening) {
	var order []review.Reason
	names := map[review.Reason][]string{}
	for i := range ev.Steps {
		why := ev.Steps[i].Why
		if why == review.Judged || why == review.Waits {
			continue
		}
		if names[why] == nil {
			order = append(order, why)
		}
		names[why] = append(names[why], ev.Plan.StepName(i))
	}
	if len(order) == 0 {
		return
	}
	fmt.Fprintf(x.w, "\nNot judged\n")
	for _, why := range order {
		writePara(x.w, "  ", why.Words()+": "+strings.Join(names[why], "; "))
	}
}

// notes prints what the cook wrote down, or was asked and knew.
func (x *reviewed) notes(ev *review.Evening, notes []review.Note, indent string) {
	for _, n := range notes {
		writePara(x.w, indent, noteText(ev, n))
	}
}

func noteText(ev *review.Evening, n review.Note) string {
	text := hour(n.At.In(ev.Table.Location())) + "  "
	switch n.Kind {
	case run.Acknowledged:
		return text + "seen: " + n.Text
	case run.Added:
		return text + "not in the plan: " + n.Text + ", " + brief(n.By)
	}
	return text + n.Text
}

// head prints the heading of the steps, with the scale of the drawing.
func (x *reviewed) head(when, planned, took string) {
	scale := "half" + strings.Repeat(" ", half-4) + x.sym.Separator + strings.Repeat(" ", half-5) + "twice"
	fmt.Fprintf(x.w, "\n%s\n", strings.Join([]string{pad("Steps", nameWidth+2), pad(when, whenWidth), right(planned, longWidth), right(took, longWidth), scale}, " "))
}

// row prints one row; a name that is too long goes on below.
func (x *reviewed) row(name, when, planned, took, drawn string) {
	for k, line := range wrap(name, nameWidth) {
		if k > 0 {
			fmt.Fprintf(x.w, "  %s\n", line)
			continue
		}
		row := strings.Join([]string{"  " + pad(line, nameWidth), pad(when, whenWidth), right(planned, longWidth), right(took, longWidth), drawn}, " ")
		fmt.Fprintln(x.w, strings.TrimRight(row, " "))
	}
}

func right(text string, width int) string {
	return strings.Repeat(" ", max(0, width-ansi.StringWidth(text))) + text
}

// strip draws how long a step took, as a share of what was planned, on a scale from half
// of it to twice: one evening as a bar from the middle, several as their marks. The
// range of the plan is a thin line.
func (x *reviewed) strip(l plan.Length, at []float64, who []int) string {
	cells := make([]string, 2*half+1)
	cell := func(share float64) int {
		return half + int(math.Round(math.Log(share)/math.Log(farthest)*half))
	}
	from, to := cell(float64(max(l.Shortest, time.Minute))/float64(l.Likely)), cell(float64(l.Longest)/float64(l.Likely))
	for k := range cells {
		cells[k] = " "
		if k >= from && k <= to && from < to {
			cells[k] = x.sym.Track
		}
	}
	cells[half] = x.sym.Separator
	for n, share := range at {
		k := cell(share)
		if who != nil {
			within := min(max(k, 0), 2*half)
			if cells[within] != " " && cells[within] != x.sym.Track && cells[within] != x.sym.Separator {
				cells[within] = "*" // several
			} else {
				cells[within] = x.mark(who[n])
			}
			continue
		}
		for j := max(0, min(k, half+1)); j <= min(2*half, max(k, half-1)); j++ {
			if j != half {
				cells[j] = x.sym.Filled
			}
		}
		switch { // beyond the scale
		case k > 2*half:
			cells[2*half] = ">"
		case k < 0:
			cells[0] = "<"
		}
	}
	return strings.TrimRight(strings.Join(cells, ""), " ")
}

// brief prints a length as a plan writes it, to the minute: "1h30m".
func brief(d time.Duration) string {
	return planfile.WriteLength(plan.Length{Shortest: d.Round(time.Minute), Likely: d.Round(time.Minute), Longest: d.Round(time.Minute)})
}

// habits prints what runs long, or short, by habit.
func (x *reviewed) habits() {
	for _, dir := range []struct {
		tends int
		head  string
	}{{1, "Runs long by habit"}, {-1, "Done sooner by habit"}} {
		first := true
		for _, h := range x.b.habits {
			if h.Tends != dir.tends {
				continue
			}
			if first {
				fmt.Fprintf(x.w, "\n%s\n", dir.head)
				first = false
			}
			var took []string
			for _, t := range h.Took {
				took = append(took, brief(t))
			}
			last := x.b.shown[len(x.b.shown)-1].Plan
			if i := last.StepIndex(h.Step); i >= 0 {
				writePara(x.w, "  ", fmt.Sprintf("%s: took %s, planned %s", last.StepName(i), strings.Join(took, ", "), planfile.WriteLength(h.Is)))
			}
		}
	}
}

// proposed prints what the plan should say.
func (x *reviewed) proposed() {
	changes := x.b.changes()
	fmt.Fprintf(x.w, "\nProposed for the plan\n")
	if len(changes) == 0 {
		writePara(x.w, "  ", "nothing: "+unmoved(x.b.habits))
		return
	}
	for _, h := range changes {
		writePara(x.w, "  ", fmt.Sprintf("%s: %s instead of %s, from %s", h.Step, planfile.WriteLength(h.Proposed), planfile.WriteLength(h.Is), count(len(h.Took), "dinner", "dinners")))
	}
	writePara(x.w, "  ", fmt.Sprintf("The plan's own word counts for %d dinners: one moves it by a quarter of what it was off.", review.PlanCounts))
}

// unmoved says why nothing is proposed.
func unmoved(habits []review.Habit) string {
	for _, h := range habits {
		if len(h.Took) > 0 {
			return "what was told is as planned, or too little to move it"
		}
	}
	return "of no step was it told when it began and when it was done"
}
