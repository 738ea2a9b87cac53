package main

import (
	"context"
	"fmt"
	"strings"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/debrief"
	"example.org/kettledrum/plan/mishap"
	"example.org/kettledrum/plan/rehearse"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
)

// cueIndent is the width of a line's time and class: "17:49  act    ".
const cueIndent = 14

// rehearsed prints what happens, line by line.
type rehearsed struct {
	w     *results
	p     *plan.Plan
	today time.Time // a dinner of one day says no day
}

// tell runs the whole dinner without a screen, as if the cook answered every cue
// when it is due, and prints each cue, each mishap and each new timetable as a line.
// After mishaps it prints the timetable as it truly was.
func (x *staged) tell(ctx context.Context) error {
	p, out := x.p, x.r.w.out
	fmt.Fprintf(out, "%s, rehearsed without a terminal: every cue answered when it is due\n", clean(titleOf(p)))
	if x.drawn != nil {
		writePara(out, "", x.drawnText())
	}
	lines := &rehearsed{out, p, p.Table}
	left, err := x.play(ctx, rehearse.Watcher{
		Cue: func(c run.Cue, at time.Time) {
			if !tellsOfReplan(c) {
				lines.line(at, c.Class.String(), c.Text)
			}
		},
		Mishap: func(m rehearse.Played) {
			x.told.Add(m)
			word, text := x.mishapText(m)
			lines.line(m.At, word, text)
		},
		Replan: lines.replan, Remedies: true,
	})
	if err != nil {
		return err
	}
	for _, m := range left {
		writePara(out, "", "mishap not played: "+m.Text(p)+": "+neverDue(m))
	}
	if err := x.outcome(); err != nil {
		return err
	}
	d, b, tried, err := x.lookBack(ctx)
	if err != nil {
		return fail(exitBroken, err)
	}
	writeSections(out, b.Sections(d, tried))
	if x.script == nil {
		return nil
	}
	fmt.Fprintf(out, "\nAs it happened\n\n")
	writeText(out, x.s.State().Plan, d.Was)
	return nil
}

// writeSections prints a debrief.
func writeSections(w *results, sections []debrief.Section) {
	for _, s := range sections {
		fmt.Fprintf(w, "\n%s\n", s.Title)
		for _, l := range s.Lines {
			indent := "  "
			if l.Under {
				indent = "    "
			}
			writePara(w, indent, l.Text)
		}
	}
}

// neverDue says why a mishap was left over.
func neverDue(m mishap.Mishap) string {
	if m.At.IsZero() {
		return "its step never began"
	}
	return "the dinner was over before"
}

// play plays the dinner with a watcher. It returns the mishaps that were left over.
func (x *staged) play(ctx context.Context, w rehearse.Watcher) ([]mishap.Mishap, error) {
	player := rehearse.New(ctx, x.s, x.script, x.from, w)
	until := x.t.LastServe().Add(patience)
	if err := session.Play(ctx, x.s, x.fast, until, player); err != nil {
		return nil, fail(exitBroken, err)
	}
	return player.Left(), nil
}

// tellsOfReplan reports whether a cue says no more than the line of a new timetable.
func tellsOfReplan(c run.Cue) bool { return strings.HasPrefix(c.ID, "moved:") }

// line prints one thing that happened; text may have several lines.
func (x *rehearsed) line(at time.Time, word, text string) {
	at = at.In(x.p.Table.Location())
	if !sameDay(at, x.today) {
		x.today = at
		fmt.Fprintf(x.w, "\n%s\n", weekday(at))
	}
	head := fmt.Sprintf("%s  %-6s ", hour(at), word)
	for _, l := range wrap(text, textWidth-cueIndent) {
		fmt.Fprintf(x.w, "%s%s\n", head, l)
		head = strings.Repeat(" ", cueIndent)
	}
}

// replan prints a new timetable: what moved and why, what is late, what breaks and
// what could be done about it.
func (x *rehearsed) replan(r rehearse.Replan) {
	lines := r.Why
	for _, c := range r.Late {
		late := r.Is.Lateness(r.Plan, c)
		lines = append(lines, fmt.Sprintf("late: %s at %s, %s late", r.Plan.Courses[c].Name, moment(r.Plan, r.Is.Serves[c]), plan.Spell(late)))
	}
	for _, b := range r.Is.Breaks {
		lines = append(lines, "breaks: "+breakLine(r.Plan, b))
	}
	for i, o := range r.Remedies {
		lines = append(lines, fmt.Sprintf("remedy %d: %s", i+1, o.Line()))
	}
	if len(lines) == 0 {
		lines = []string{"nothing moves by a minute"}
	}
	x.line(r.At, "replan", strings.Join(lines, "\n"))
}

// outcome prints when each course was served.
func (x *staged) outcome() error {
	s := x.s.State()
	p := s.Plan
	for c, course := range s.Courses {
		if course.Served.IsZero() {
			return fail(exitBroken, fmt.Errorf("%s was not served", p.Courses[c].Name))
		}
		line := fmt.Sprintf("%s served %s", p.Courses[c].Name, hour(course.Served.In(p.Table.Location())))
		if late := course.Served.Sub(p.Asked(c)); late >= time.Minute {
			line += fmt.Sprintf(", %s late", plan.Spell(late.Truncate(time.Minute)))
		} else {
			line += ", on time"
		}
		writePara(x.r.w.out, "", line)
	}
	return nil
}
