package debrief

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/kettledrum/plan"
)

// Section is a part of a debrief as the cook reads it.
type Section struct {
	Title string
	Lines []Line
}

// Line is a line of a section; one that is Under another says more of it.
type Line struct {
	Text  string
	Under bool
}

func lines(texts ...string) (out []Line) {
	for _, s := range texts {
		out = append(out, Line{Text: s})
	}
	return out
}

func under(text string) Line { return Line{Text: text, Under: true} }

// Sections tell a debrief. tried are the Ideas after they were played, nil while they
// are not: then nothing is said of what to change.
func (b *Debrief) Sections(d Dinner, tried []Tried) []Section {
	w := words{d.Plan, d.Plan.Table.Location()}
	out := []Section{
		{"Late, and why", w.courses(b)},
		{"The tightest five minutes", w.tight(b.Tight)},
		{"The longest wait of hot food", w.waited(b.Waited)},
		{"Who stood idle", w.idle(b.Idle, d.From, d.to())},
	}
	if lines := w.change(b, tried); lines != nil {
		out = append(out, Section{"What to change", lines})
	}
	return out
}

// words are the words for a plan.
type words struct {
	p    *plan.Plan
	zone *time.Location
}

func (w words) at(t time.Time) string { return t.In(w.zone).Format("15:04") }

func (w words) span(from, to time.Time) string { return w.at(from) + " to " + w.at(to) }

func (w words) courses(b *Debrief) (out []Line) {
	for c, k := range b.Courses {
		text := w.p.Courses[c].Name + " " + w.at(k.Served)
		switch {
		case k.Late > 0:
			text += ", " + plan.Spell(k.Late) + " late"
		default:
			text += ", on time"
		}
		if k.Held > 0 {
			text += fmt.Sprintf(" for %s: asked for %s later than planned", w.at(k.Asked.Add(k.Held)), plan.Spell(k.Held))
		}
		out = append(out, Line{Text: text})
		if k.Planned > 0 {
			out = append(out, under(fmt.Sprintf("planned %s late from the start", plan.Spell(k.Planned))))
		}
		for _, x := range k.Why {
			out = append(out, under(w.cause(x)))
		}
		if k.Late > k.Planned && len(k.Why) == 0 && k.Last >= 0 {
			text := "no step that it waited for took longer; " + w.p.StepName(k.Last)
			if k.Later >= time.Minute {
				text += " began " + plan.Spell(k.Later) + " later than planned"
			} else {
				text += " was its last"
			}
			out = append(out, under(text))
		}
		if lost := w.lost(&b.Lost); k.Late > k.Planned+k.explained() && lost != "" {
			out = append(out, under(lost))
		}
	}
	return out
}

// lost says what there was less of than the plan has: "a large burner had failed".
func (w words) lost(l *Lost) string {
	var parts []string
	for _, x := range []struct {
		n    int
		size plan.BurnerSize
	}{{l.Large, plan.Large}, {l.Small, plan.Small}} {
		switch {
		case x.n == 1:
			parts = append(parts, "a "+x.size.String()+" burner had failed")
		case x.n > 1:
			parts = append(parts, fmt.Sprintf("%d %s burners had failed", x.n, x.size))
		}
	}
	for _, k := range l.Ovens {
		parts = append(parts, "the "+w.p.Kitchen.Ovens[k].Name+" had failed")
	}
	for k, d := range l.Away {
		if d >= time.Minute {
			parts = append(parts, w.p.Kitchen.Cooks[k].Name+" was called away for "+plan.Spell(d))
		}
	}
	return strings.Join(parts, "; ")
}

func (w words) cause(x Cause) string {
	text := w.p.StepName(x.Step)
	if x.Took > x.Planned {
		text += fmt.Sprintf(" took %s instead of %s", plan.Spell(x.Took), plan.Spell(x.Planned))
	}
	if x.Still > 0 {
		if x.Took > x.Planned {
			text += ", and"
		}
		text += fmt.Sprintf(" stood still for %s: its cook was called away", plan.Spell(x.Still))
	}
	return text
}

// mostCalls is how many of the things that called are named.
const mostCalls = 3

func (w words) tight(t *Tight) []Line {
	if t == nil {
		return lines("nobody had anything to do")
	}
	head := fmt.Sprintf("%s: cooks at work for %d of %d min", w.span(t.From, t.To), plan.Minutes(t.Work), plan.Minutes(t.Hands))
	var names []string
	for _, i := range t.Calls {
		if name := w.p.StepName(i); !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	if len(names) == 0 {
		return lines(head)
	}
	text := fmt.Sprintf("%d calls: ", len(t.Calls))
	if len(t.Calls) == 1 {
		text = "1 call: "
	}
	text += strings.Join(names[:min(len(names), mostCalls)], "; ")
	if more := len(names) - mostCalls; more > 0 {
		text += fmt.Sprintf("; and %d more", more)
	}
	return append(lines(head), under(text))
}

func (w words) waited(x *Waited) []Line {
	if x == nil {
		return lines("no hot food waited for as long as a minute")
	}
	where := "on the counter"
	if x.Vessel >= 0 {
		where = "in the " + w.p.Kitchen.Tools[x.Vessel].Name
	}
	until := w.p.Courses[w.p.CourseOf(x.Step)].Name + " was served"
	if x.By >= 0 {
		until = w.p.NameBeside(x.By, x.Step) + " began"
	}
	return lines(fmt.Sprintf("%s: %s %s, from %s until %s", w.p.StepName(x.Step), plan.Spell(x.To.Sub(x.From)), where, w.at(x.From), until))
}

func (w words) idle(idle []Idle, from, to time.Time) (out []Line) {
	for k, x := range idle {
		name := w.p.Kitchen.Cooks[k].Name
		if x.Total < time.Minute {
			out = append(out, Line{Text: name + ": never"})
			continue
		}
		text := name + ": " + plan.Spell(x.Total) + " of the " + plan.Spell(to.Sub(from)) + " from " + w.at(from)
		if x.Longest.To.Sub(x.Longest.From) < x.Total {
			text += ", the longest " + plan.Spell(x.Longest.To.Sub(x.Longest.From)) + ", " + w.span(x.Longest.From, x.Longest.To)
		}
		out = append(out, Line{Text: text})
	}
	return out
}

// again is how a dinner was played again.
const again = "played again, every cue answered when due and no way out taken"

// change says what playing the dinner again has shown.
func (w words) change(b *Debrief, tried []Tried) []Line {
	switch {
	case !b.Late():
		return lines("nothing was late: nothing to start sooner")
	case len(tried) == 0:
		return nil
	}
	as := &tried[0]
	if as.Sum() == 0 {
		return lines(again + ", nothing is late" + broken(as))
	}
	out := lines(again + ": " + w.late(as) + broken(as))
	helps := Helps(tried)
	for _, t := range helps {
		text := t.Do + ": " + w.late(&t)
		if d := as.Start.Sub(t.Start); d >= time.Minute {
			text += fmt.Sprintf("; begins %s sooner, %s", plan.Spell(d), w.at(t.Start))
		} else if d <= -time.Minute {
			text += fmt.Sprintf("; begins %s later, %s", plan.Spell(-d), w.at(t.Start))
		}
		out = append(out, Line{Text: text + broken(&t)})
	}
	if n := len(tried) - 1 - len(helps); n > 0 {
		var names []string
		for _, t := range tried[1:] {
			if !slices.ContainsFunc(helps, func(h Tried) bool { return h.Do == t.Do }) {
				names = append(names, t.Do)
			}
		}
		out = append(out, Line{Text: "tried, and no help: " + strings.Join(names, "; ")})
	}
	return out
}

// broken says how many rules are broken: "; it breaks 2 rules", "" for none.
func broken(t *Tried) string {
	if t.Broken == 0 {
		return ""
	}
	return "; it breaks " + plan.Several(t.Broken, "rule")
}

// late says which courses are late: "Main 7 min late", "Main not served at all".
func (w words) late(t *Tried) string {
	var parts []string
	for c, d := range t.Late {
		if slices.Contains(t.Unserved, c) {
			parts = append(parts, w.p.Courses[c].Name+" not served at all")
		} else if d >= time.Minute {
			parts = append(parts, w.p.Courses[c].Name+" "+plan.Spell(d)+" late")
		}
	}
	if parts == nil {
		return "all on time"
	}
	return strings.Join(parts, ", ")
}
